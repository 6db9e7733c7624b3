"""What the pages at the rack show: today's work, what was done of it, what comes next."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.work.view import view_rack
from topheavy.services.after_attempt import after_attempt, left_at
from topheavy.services.at_the_rack import stand
from topheavy.store.sets import Wanted, list_sets
from topheavy.store.work import day_stamp, todays_work
from topheavy.web.desk import today

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet
    from topheavy.present.work.view import RackView
    from topheavy.store.sets import Entry
    from topheavy.training.work import Work
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk

_DAYS: Final = 4
"""How many days are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """A day at the rack: everybody's work, and the sets that stand, as they were lifted."""

    day: str
    works: tuple[Work, ...]
    sets: tuple[LoggedSet, ...]

    def of(self, visitor: Visitor, lifter: str = "") -> tuple[Work, ...]:
        """Work that a visitor may see, of one lifter or of all."""
        name = lifter.casefold()
        return tuple(
            one
            for one in self.works
            if visitor.may_see(one.lifter) and name in {"", one.lifter.casefold()}
        )


def read_today(desk: Desk, day: str = "") -> Today:
    """Fetch a day; today when none is named.

    Many phones ask all the time: what is known of a day is kept, and only what is new is fetched.
    """
    days = desk.memory.setdefault("rack", _Days())
    if not isinstance(days, _Days):
        raise TypeError("the rack's memory holds something else")
    return days.read(desk, day or today())


@dataclass(slots=True)
class _Day:
    """A day as it stood when the newest work and the newest set were these entries."""

    stamp: tuple[int, int]
    works: tuple[Work, ...]
    sets: dict[str, Entry]

    def shown(self, day: str) -> Today:
        """The same for pages."""
        entries = sorted(self.sets.values(), key=lambda one: (one.logged.time, one.entry))
        return Today(day=day, works=self.works, sets=tuple(one.logged for one in entries))


class _Days:
    """The days that were asked for lately, each as it was last read."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, tuple[_Day, Today]] = OrderedDict()
        self._lock = threading.Lock()

    def read(self, desk: Desk, day: str) -> Today:
        """Give a day as it stands; those who ask meanwhile wait for the first."""
        with self._lock:
            stamp = day_stamp(desk.store, desk.gym_id, day)
            kept = self._kept.get(day)
            if kept is None or kept[0].stamp != stamp:
                found = _read(desk, day, stamp, kept[0] if kept else None)
                kept = (found, found.shown(day))
                self._kept[day] = kept
            self._kept.move_to_end(day)
            while len(self._kept) > _DAYS:
                self._kept.popitem(last=False)
            return kept[1]


def _read(desk: Desk, day: str, stamp: tuple[int, int], old: _Day | None) -> _Day:
    """Read a day whole, or what is new of it; entries are numbered as they come in."""
    if old is not None and old.stamp[0] == stamp[0]:
        works = old.works
    else:
        works = tuple(one.work for one in todays_work(desk.store, desk.gym_id, day))
    if old is None:
        wanted = Wanted(since=day, until=day)
        sets = {one.logged.id: one for one in list_sets(desk.store, desk.gym_id, wanted)}
    else:
        wanted, sets = Wanted(after=old.stamp[1], everything=True), dict(old.sets)
        for one in list_sets(desk.store, desk.gym_id, wanted):
            sets.pop(one.logged.corrects, None)
            if one.logged.day == day and not (one.corrected or one.logged.struck):
                sets[one.logged.id] = one
    # What came in between the stamp and the reading is read once more next time, and is the same.
    return _Day(stamp=stamp, works=works, sets=sets)


def rack_view(desk: Desk, all_today: Today, work: Work, units: UnitSystem) -> RackView:
    """Put one lifter's work together as a phone shows it."""
    standing = stand(work, all_today.sets)
    gym = desk.source.read()[0]
    left = left_at(all_today.works, all_today.sets, work.station, gym)
    advice = after_attempt(work, gym, standing.done)
    return view_rack(standing, left, advice, units)


def stamp_of(desk: Desk, day: str, units: UnitSystem, *more: str) -> str:
    """Tell a day from how it stood before, as an ETag: it changes with work and sets."""
    work, sets = day_stamp(desk.store, desk.gym_id, day or today())
    return '"' + "-".join([str(desk.gym_id), str(work), str(sets), units.name, *more]) + '"'
