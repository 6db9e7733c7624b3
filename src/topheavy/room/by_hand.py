"""A plan as a coach makes it by hand: whenever a station is free, the next group that suits it.

The lifter with the fewest choices goes first, on the chain that serves most of those still to come,
and those nearest in weight join in. Nobody is moved once placed. It is there at once, shows what
planning is worth, and gives the exact planning something to begin with.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from topheavy.room.draft import Draft, capacities, lengths, needs, parts_hung
from topheavy.room.plan import PER_CHANGE, PER_GRAIN

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from topheavy.gym.people import Station
    from topheavy.room.ask import Room
    from topheavy.room.draft import Part
    from topheavy.room.offers import Offers

_MOST_TRIES: Final = 12
"""So many ways to hang are looked at for a group before waiting."""

_MOST_FIRSTS: Final = 6
"""So many lifters are tried as the first of a group before waiting."""

_MOST_WAITS: Final = 2000


def by_hand(room: Room, offers: Offers, most: int | None = None) -> tuple[Draft, ...] | None:
    """Plan by hand; None where some booking finds no place at any time.

    The plan may run longer than the room is open.

    Parameters
    ----------
    room : Room
        What is asked.
    offers : Offers
        What serves whom.
    most : int, optional
        Lifters in a group at most, if fewer than the room allows.
    """
    return _Hand(room, offers, most or room.most_in_group).whole()


def first_plan(room: Room, offers: Offers) -> tuple[Draft, ...] | None:
    """Make the best of a few plans by hand: with groups of every size."""
    sizes = range(1, room.most_in_group + 1)
    found = [by_hand(room, offers, most) for most in reversed(sizes)]
    whole = [drafts for drafts in found if drafts is not None]
    return min(whole, key=lambda drafts: (_over(room, drafts), rough_cost(drafts)), default=None)


def rough_cost(drafts: Sequence[Draft]) -> int:
    """Cost of the finish and of hanging chain."""
    return PER_GRAIN * max(d.ends for d in drafts) + PER_CHANGE * sum(d.fresh for d in drafts)


def _over(room: Room, drafts: Sequence[Draft]) -> int:
    return max(0, max(d.ends for d in drafts) - room.length)


class _Hand:
    """What has been placed so far, and who is still to come."""

    def __init__(self, room: Room, offers: Offers, most: int) -> None:
        self.room, self.offers, self.most = room, offers, most
        self.have: Mapping[Part, int] = capacities(room, offers)
        self.drafts: list[Draft] = []
        self.taken: list[dict[Part, int]] = []
        self.last: dict[str, Draft] = {}
        self._hung_at: dict[str, dict[int, dict[Part, int]]] = {}
        self.left = list(range(len(room.bookings)))
        self.free = {station.name: 0 for station in room.stations}
        at = offers.at
        self.choices = {
            n: sum(len(offer.miss_kg) for (m, _), offer in at.items() if m == n) for n in self.left
        }

    def whole(self) -> tuple[Draft, ...] | None:
        """Place everybody."""
        for _ in range(_MOST_WAITS):
            if not self.left:
                return tuple(self.drafts)
            stations = [s for s in self.room.stations if self._suits(s.name)]
            if not stations:
                return None
            station = min(stations, key=lambda s: self.free[s.name])
            draft = next(self._groups(station), None)
            if draft is not None:
                self._put(draft)
                continue
            later = self._next_event(self.free[station.name])
            if later is None:
                return None
            self.free[station.name] = later
        return None

    def _put(self, draft: Draft) -> None:
        self.drafts.append(draft)
        self.taken.append(needs(self.room, self.offers, draft))
        self.last[draft.station] = draft
        self.free[draft.station] = draft.ends
        self.left = [n for n in self.left if n not in draft.bookings]

    def _suits(self, station: str) -> list[int]:
        at = self.offers.at
        return [n for n in self.left if (n, station) in at and at[n, station].miss_kg]

    def _next_event(self, now: int) -> int | None:
        """When something changes next: a group ends, somebody comes or is rested."""
        rig, gap = self.room.pace.rig_grains, self.room.pace.between_grains
        times = {end for d in self.drafts for end in (d.ends, d.ends + gap, d.ends + gap - rig)}
        for n in self.left:
            booking = self.room.bookings[n]
            for at in (booking.arrives, booking.starts):
                times |= set() if at is None else {at, at - rig}
        return min((at for at in times if at > now), default=None)

    def _groups(self, station: Station) -> Iterator[Draft]:
        """Groups that can begin at a free station now, the most wanted first."""
        begins = self.free[station.name]
        waiting = self._suits(station.name)
        alike = [s for s in self.room.stations if s.kind == station.kind]
        share = math.ceil(len(waiting) / len(alike))
        most = min(self.most, max(2, share))
        open_now = self._lying_free(station.name, begins)
        here = sorted(waiting, key=lambda n: (self.choices[n], n))
        there = [n for n in here if self._there([n], n, begins + self.room.pace.rig_grains)]
        for first in (there or here)[:_MOST_FIRSTS]:
            offer = self.offers.at[first, station.name]
            ways = [
                (hung, self._company(station.name, hung, first, waiting, most))
                for hung in offer.miss_kg
                if hung in open_now
            ]
            ranked = sorted(ways, key=lambda way: self._rank(station.name, way))
            for hung, team in ranked[:_MOST_TRIES]:
                draft = self._begun(station.name, hung, team, begins)
                if draft is not None:
                    yield draft

    def _lying_free(self, station: str, now: int) -> set[int]:
        """Chain that can be hung now, or still hangs at this station."""
        used: dict[Part, int] = {}
        for draft, taken in zip(self.drafts, self.taken, strict=True):
            if draft.begins <= now < draft.ends:
                for part, count in taken.items():
                    used[part] = used.get(part, 0) + count
        free = {part: have - used.get(part, 0) for part, have in self.have.items()}
        return {
            hung
            for hung, parts in self._parts(station).items()
            if all(count <= free.get(part, count) for part, count in parts.items())
        }

    def _parts(self, station: str) -> dict[int, dict[Part, int]]:
        if station not in self._hung_at:
            at = self.offers.at
            some = {h for (_, name), offer in at.items() if name == station for h in offer.miss_kg}
            self._hung_at[station] = {hung: parts_hung(self.offers, hung) for hung in sorted(some)}
        return self._hung_at[station]

    def _company(
        self, station: str, hung: int, first: int, waiting: list[int], most: int
    ) -> list[int]:
        """Those served by the same chain, nearest in weight first."""
        at = self.offers.at
        own_kg = at[first, station].straight_kg
        served = [n for n in waiting if n != first and hung in at[n, station].miss_kg]
        served.sort(key=lambda n: (abs(at[n, station].straight_kg - own_kg), n))
        return [first, *served][: 2 * most]

    def _rank(self, station: str, way: tuple[int, list[int]]) -> tuple[bool, int, int, int]:
        hung, team = way
        last = self.last.get(station)
        stays = last is not None and last.hung == hung and last.ends == self.free[station]
        return not stays, -min(len(team), self.most), sum(self.offers.hung[hung].counts), hung

    def _begun(self, station: str, hung: int, team: list[int], begins: int) -> Draft | None:
        """Make a group of the first and of those who can be there; None where it can't begin."""
        last = self.last.get(station)
        stays = last is not None and last.hung == hung and last.ends == begins
        starts = begins + (0 if stays else self.room.pace.rig_grains)
        some: list[int] = []
        for n in team:
            if len(some) == self.most:
                break
            if self._there([*some, n], n, starts) and self._made(
                station, hung, [*some, n], begins, starts, hands=False
            ):
                some.append(n)
            elif not some:
                return None
        return self._made(station, hung, some, begins, starts, hands=True)

    def _there(self, some: list[int], new: int, starts: int) -> bool:
        booking = self.room.bookings[new]
        names = [self.room.bookings[n].lifter.name for n in some]
        if starts < booking.arrives or booking.starts not in (None, starts):
            return False
        if len(set(names)) < len(names):
            return False
        gap, ends = self.room.pace.between_grains, starts + lengths(self.room, some)
        if any(
            self.room.bookings[n].leaves not in (None,)
            and ends > (self.room.bookings[n].leaves or 0)
            for n in some
        ):
            return False
        for other in self.drafts:
            if any(self.room.bookings[m].lifter.name in names for m in other.bookings):
                began = other.ends - lengths(self.room, other.bookings)
                if not (other.ends + gap <= starts or ends + gap <= began):
                    return False
        return True

    def _made(
        self, station: str, hung: int, some: list[int], begins: int, starts: int, *, hands: bool
    ) -> Draft | None:
        """Make the group when there is enough of everything all the while."""
        if not some:
            return None
        draft = Draft(
            station=station,
            hung=hung,
            bookings=tuple(some),
            ways=tuple(0 for _ in some),
            begins=begins,
            ends=starts + lengths(self.room, some),
            fresh=starts > begins or self.room.pace.rig_grains == 0,
        )
        own = needs(self.room, self.offers, draft)
        near = [
            (other, taken)
            for other, taken in zip(self.drafts, self.taken, strict=True)
            if other.begins < draft.ends and draft.begins < other.ends
        ]
        for at in {begins, *(d.begins for d, _ in near if d.begins > begins)}:
            now = [taken for d, taken in near if d.begins <= at < d.ends]
            for part, count in own.items():
                if part[0] == "spotters" and not hands:
                    continue
                if count + sum(taken.get(part, 0) for taken in now) > self.have.get(part, count):
                    return None
        return draft
