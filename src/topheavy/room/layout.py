"""A plan as rows: at each station runs one after the other, each run hung once for its groups.

Hours follow from it: every run begins when the one before has ended, when all of its lifters are
there, and no sooner than it waits on purpose. So a layout is a whole plan, and easily changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from topheavy.room.draft import Draft
from topheavy.room.plan import PER_CHANGE, PER_MOVE, PER_STEP, key_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from topheavy.room.facts import Facts, Names
    from topheavy.room.plan import Former

    Teams = tuple[Names, ...]
    """Groups on one hung chain, first to last."""


class Run(NamedTuple):
    """Groups on one hung chain, and grains that the station waits before it is hung."""

    hung: int
    wait: int
    teams: Teams


Row = tuple[Run, ...]
"""Runs of a station, first to last."""

Layout = tuple[Row, ...]
"""Rows of all stations, in the room's order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunFacts:
    """What groups take that share a hung chain. Times are in grains after it begins to be hung.

    Parameters
    ----------
    long : int
        Hanging and lifting, in grains.
    serving : int
        Chains that serve all of them.
    price : int
        Cost of hanging it, of bars far apart in a group, and of who was at another station.
    ready, due : int
        It can't begin before, and must not begin after; in grains after the room opens.
    spans : tuple of (int, int, int)
        From when to when a group takes how much of scarce things besides chain, packed.
    busy : tuple of (str, int, int)
        Lifters who have other lifts too, and from when to when they lift here.
    before : tuple of (int, int)
        Start here and in a former plan, for each booking that was in it.
    """

    long: int
    serving: int
    price: int
    ready: int
    due: int
    spans: tuple[tuple[int, int, int], ...]
    busy: tuple[tuple[str, int, int], ...]
    before: tuple[tuple[int, int], ...]


class Pricing:
    """What runs cost and take, made when asked for and kept.

    Parameters
    ----------
    facts : Facts
        Facts of the room.
    former : mapping
        A plan to stay near to; empty for none.
    """

    def __init__(self, facts: Facts, former: Former) -> None:
        self.facts = facts
        room = facts.room
        self.stations = [station.name for station in room.stations]
        self.sorts = [facts.sort_of.get(name, -1) for name in self.stations]
        self._was: Mapping[int, tuple[str, int]] = {
            n: former[key_of(booking)]
            for n, booking in enumerate(room.bookings)
            if key_of(booking) in former
        }
        self._known: dict[tuple[int, Teams], RunFacts | None] = {}

    def of(self, station: int, teams: Teams) -> RunFacts | None:
        """Facts of groups at a station; None where no chain serves all, or a group may not be."""
        key = (station if self._was else self.sorts[station], teams)
        if key not in self._known:
            self._known[key] = self._made(station, teams)
        return self._known[key]

    def _made(self, station: int, some: Teams) -> RunFacts | None:
        facts, sort = self.facts, self.sorts[station]
        teams = [facts.team(sort, names) for names in some]
        both = -1
        for team in teams:
            both &= team.serving if team else 0
        if not both:
            return None
        name = self.stations[station]
        at, begins, price, ready, due = facts.room.pace.rig_grains, 0, PER_CHANGE, 0, 1 << 30
        spans, busy, before = [], [], []
        for names, team in zip(some, teams, strict=True):
            assert team is not None  # noqa: S101 - else nothing would serve them
            ends = at + team.long
            price += PER_STEP * team.apart
            ready = max(ready, team.arrives - at)
            due = min(due, team.leaves - ends)
            if team.starts is not None:
                ready, due = max(ready, team.starts - at), min(due, team.starts - at)
            if team.takes:
                spans.append((begins, ends, team.takes))
            busy += [(lifter, at, ends) for lifter in team.lifters]
            for n in names:
                if n in self._was:
                    price += PER_MOVE * (self._was[n][0] != name)
                    before.append((at, self._was[n][1]))
            begins = at = ends
        return RunFacts(
            long=at,
            serving=both,
            price=price,
            ready=ready,
            due=due,
            spans=tuple(spans),
            busy=tuple(busy),
            before=tuple(before),
        )

    def drafts(self, layout: Layout) -> tuple[Draft, ...]:
        """Write out the groups of a layout with their hours."""
        found = []
        for station, row in enumerate(layout):
            at = 0
            for run in row:
                facts = self.of(station, run.teams)
                assert facts is not None  # noqa: S101 - a layout is of runs that may be
                at = max(at + run.wait, facts.ready)
                ends = at + self.facts.room.pace.rig_grains
                for number, names in enumerate(run.teams):
                    team = self.facts.team(self.sorts[station], names)
                    assert team is not None  # noqa: S101
                    ends += team.long
                    found.append(
                        Draft(
                            station=self.stations[station],
                            hung=run.hung,
                            bookings=names,
                            ways=(0,) * len(names),
                            begins=at,
                            ends=ends,
                            fresh=number == 0,
                        )
                    )
                    at = ends
        return tuple(found)


def layout_of(room_stations: Iterable[str], drafts: Iterable[Draft]) -> Layout:
    """Read the layout of a plan in the rough.

    Parameters
    ----------
    room_stations : iterable of str
        In the room's order.
    drafts : iterable of Draft
        Groups with their hours.
    """
    rows = []
    some = sorted(drafts, key=lambda draft: draft.begins)
    for station in room_stations:
        runs: list[Run] = []
        free = 0
        for draft in some:
            if draft.station != station:
                continue
            names = tuple(sorted(draft.bookings))
            if draft.fresh or not runs:
                runs.append(Run(draft.hung, draft.begins - free, (names,)))
            else:
                runs[-1] = runs[-1]._replace(teams=(*runs[-1].teams, names))
            free = draft.ends
        rows.append(tuple(runs))
    return tuple(rows)
