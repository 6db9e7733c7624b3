"""Why a large room can't be planned: what is short for certain, and ways out that were tried.

Hours that are short are reckoned: a station holds one turn at a time, and so does each piece of
chain. Ways out are trials, one change at a time, each ending with a plan that keeps all rules; so
what is said would do, and perhaps less would do too.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.by_hand import first_plan
from topheavy.room.draft import COLLARS, HANDS, capacities, needs, parts_hung
from topheavy.room.offers import offers_for
from topheavy.room.plan import sure_finish
from topheavy.room.trial import tried

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.room.ask import Room
    from topheavy.room.draft import Draft, Part
    from topheavy.room.offers import Offers
    from topheavy.room.plan import Plan
    from topheavy.room.solve import Effort
    from topheavy.room.trial import Goal

_TRIAL: Final = 0.1
"""Share of the time for one way out that one trial gets."""

_MOST_MORE: Final = 4
"""At most so many more of a part are tried."""

_DAY: Final = 24 * 240


@dataclass(frozen=True, slots=True, kw_only=True)
class Short:
    """Hours that are too few, whatever the plan.

    Parameters
    ----------
    part : Part
        What is short: ``("station", kind)``, or a part that stations share.
    wanted, there : int
        Hours wanted at least, and hours there, of all of them together, in grains.
    """

    part: Part
    wanted: int
    there: int


def short_hours(room: Room, offers: Offers) -> tuple[Short, ...]:
    """List what has too few hours, the shortest first.

    All turns of a group are lifted one by one, on the same chain; so stations and chain are taken
    for as long as all turns together, whoever lifts with whom.
    """
    rig = room.pace.rig_grains
    works = [room.work(booking) for booking in room.bookings]
    turns = [work.sets * work.turn for work in works]
    found = []
    for kind in sorted({booking.lift.station for booking in room.bookings}):
        count = sum(station.kind == kind for station in room.stations)
        some = [t for t, b in zip(turns, room.bookings, strict=True) if b.lift.station == kind]
        wanted = rig * min(count, len(some)) + sum(some)
        found.append(Short(part=("station", kind), wanted=wanted, there=count * room.length))
    least: dict[Part, int] = {}
    for n, turn in enumerate(turns):
        hung = {h for (m, _), offer in offers.at.items() if m == n for h in offer.miss_kg}
        takes = [parts_hung(offers, h) for h in hung]
        for part in set().union(*takes):
            fewest = min(one.get(part, 0) for one in takes)
            least[part] = least.get(part, 0) + fewest * turn
    have = capacities(room, offers)
    found += [
        Short(part=part, wanted=wanted, there=have[part] * room.length)
        for part, wanted in sorted(least.items())
    ]
    short = [one for one in found if one.wanted > one.there]
    return tuple(sorted(short, key=lambda one: (one.there / one.wanted, one.part)))


class WaysOut:
    """Trials of a large room with one thing changed at a time.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    effort : Effort
        How long to look for each way out.
    """

    def __init__(self, room: Room, offers: Offers, effort: Effort) -> None:
        self.room, self.offers = room, offers
        if effort.steps is not None:
            self.effort = replace(effort, steps=_TRIAL * effort.steps)
        else:
            self.effort = replace(effort, seconds_s=_TRIAL * effort.seconds_s)
        self.by_hand: Sequence[Draft] = first_plan(replace(room, length=_DAY), offers) or ()

    def longer(self) -> tuple[int | None, bool]:
        """How many grains longer would do, and whether that is the least."""
        room, least = self.room, sure_finish(self.room)
        ends = max((draft.ends for draft in self.by_hand), default=0)
        if not room.length < ends <= _DAY:
            return None, False
        first = self._plan(replace(room, length=ends), goal="better")
        if first is None or first.finish <= room.length:
            return None, False
        found, low = first.finish, max(least, room.length + 1)
        while found - low > max(8, (found - room.length) // 4):
            middle = (low + found) // 2
            plan = self._plan(replace(room, length=middle))
            if plan is None:
                low = middle + 1
            else:
                found = plan.finish
        return found - room.length, found <= least

    def more(self) -> list[tuple[Part, int]]:
        """Parts of which so many more would do, other things being as they are."""
        found = []
        parts = self._tight() if sure_finish(self.room) <= self.room.length else []
        for part in parts:
            if not self._would_do(part, _MOST_MORE):
                continue
            few = next((n for n in range(1, _MOST_MORE) if self._would_do(part, n)), _MOST_MORE)
            found.append((part, few))
        return sorted(found, key=lambda one: (one[1], one[0]))

    def leave_out(self) -> tuple[int, ...]:
        """Bookings without which the rest can be planned: the fewest found."""
        late = self._last_to_go()
        fewest, most = 1, len(late)
        if most == len(self.room.bookings) or not self._without(late):
            return ()
        while most - fewest > most // 8:
            middle = (fewest + most) // 2
            if self._without(late[:middle]):
                most = middle
            else:
                fewest = middle + 1
        return tuple(sorted(late[:most]))

    def _last_to_go(self) -> list[int]:
        """Who gives way first: those that a plan by hand has after closing, longest work first."""
        room = self.room
        late = [
            n for draft in self.by_hand if draft.ends > room.length for n in draft.bookings
        ] or list(range(len(room.bookings) - 1))
        kind = self._fullest()
        works = [room.work(booking) for booking in room.bookings]
        return sorted(
            late,
            key=lambda n: (
                room.bookings[n].lift.station != kind,
                -works[n].sets * works[n].turn,
                n,
            ),
        )

    def _fullest(self) -> str:
        """Sort of station that a plan by hand keeps longest."""
        kinds = {station.name: station.kind for station in self.room.stations}
        last = max(self.by_hand, key=lambda draft: draft.ends, default=None)
        return kinds[last.station] if last is not None else ""

    def _without(self, out: Sequence[int]) -> bool:
        """Whether the rest can be planned; a trial begins at the plan by hand without those."""
        kept = [n for n in range(len(self.room.bookings)) if n not in set(out)]
        new = {n: at for at, n in enumerate(kept)}
        room = replace(self.room, bookings=tuple(self.room.bookings[n] for n in kept))
        offers = replace(
            self.offers,
            at={(new[n], name): one for (n, name), one in self.offers.at.items() if n in new},
        )
        known = []
        for draft in self.by_hand:
            both = zip(draft.bookings, draft.ways, strict=True)
            some = [(new[n], way) for n, way in both if n in new]
            if some:
                bookings, ways = zip(*some, strict=True)
                known.append(replace(draft, bookings=bookings, ways=ways))
        return tried(room, offers, self.effort, known=known).plan is not None

    def _tight(self) -> list[Part]:
        """Parts that a plan by hand uses to the full at some moment, plates left aside."""
        have = capacities(self.room, self.offers)
        wanted = [(draft, needs(self.room, self.offers, draft)) for draft in self.by_hand]
        peak: dict[Part, int] = {}
        for at in {draft.begins for draft in self.by_hand}:
            for part in have:
                now = sum(p.get(part, 0) for d, p in wanted if d.begins <= at < d.ends)
                peak[part] = max(peak.get(part, 0), now)
        tried_for = ("chain", "feeder", "connector", "collars", "spotters")
        return [part for part in have if part[0] in tried_for and peak.get(part, 0) >= have[part]]

    def _would_do(self, part: Part, count: int) -> bool:
        room = with_more(self.room, self.offers, part, count)
        return self._plan(room, anew=part[0] == "chain") is not None

    def _plan(self, room: Room, *, anew: bool = False, goal: Goal = "any") -> Plan | None:
        """Try a room; the plan by hand serves again where chain and lifters are the same."""
        offers, known = (offers_for(room), None) if anew else (self.offers, self.by_hand)
        found = tried(room, offers, self.effort, goal=goal, known=known)
        return found.plan


def with_more(room: Room, offers: Offers, part: Part, count: int) -> Room:
    """Make the same room with so many more pairs of a part, or people.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    part : Part
        Chain, feeder, connector, collars or spotters.
    count : int
        How many more.
    """
    sort, name = part
    if part == HANDS:
        return replace(room, spotters=room.spotters + count)
    stock = room.gym.stock
    if sort == "chain":
        kind = next(one for one in offers.kinds if one.name == name)
        like = kind.pairs[0].left
        tags = (f"{like.tag} more {n + 1}" for n in range(2 * count))
        chains = (*stock.chains, *(replace(like, tag=tag) for tag in tags))
        return replace(room, gym=replace(room.gym, stock=replace(stock, chains=chains)))
    if part == COLLARS:
        name = next(one.name for one in stock.collars if one.count >= 2)
    key = {"collars": "collars", "feeder": "feeders", "connector": "connectors"}[sort]
    parts = tuple(
        replace(one, count=one.count + 2 * count) if one.name == name else one
        for one in getattr(stock, key)
    )
    more: dict[str, Any] = {key: parts}
    return replace(room, gym=replace(room.gym, stock=replace(stock, **more)))
