"""What a group of lifters takes, worked out once: how long, how far apart, which chain serves it.

Stations that offer the same to the same bookings are one sort. A chain is named by its position in
the offers; a set of chains is a whole number with a bit for each, so that "serves all of them" is
one operation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.room.draft import HANDS, capacities, hands_wanted, lengths, parts_hung, plates_on
from topheavy.room.plan import steps_between

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from topheavy.room.ask import Room
    from topheavy.room.draft import Part
    from topheavy.room.offers import Offers

Names = tuple[int, ...]
"""Bookings of a group, by position, in rising order."""

FIELD: Final = 12
"""Bits for each count in a packed number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """Stations that are alike, the bookings that may lift there, and the chain that serves each."""

    stations: tuple[str, ...]
    serving: dict[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Team:
    """Facts of a group at a sort of station.

    Parameters
    ----------
    long : int
        How long it lifts, in grains.
    apart : int
        Steps of weight between its bars.
    serving : int
        Chains that serve all of it.
    arrives, leaves : int
        When all are there; when the first must have done.
    starts : int or None
        Locked beginning of its first round.
    lifters : frozenset of str
        Lifters who have other lifts today too.
    takes : int
        What it takes of each scarce thing besides chain, packed.
    """

    long: int
    apart: int
    serving: int
    arrives: int
    leaves: int
    starts: int | None
    lifters: frozenset[str]
    takes: int


class Facts:
    """Facts of a room, made when asked for and kept.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    """

    def __init__(self, room: Room, offers: Offers) -> None:
        self.room, self.offers = room, offers
        self.sorts = sorts_of(room, offers)
        self.sort_of = {name: at for at, sort in enumerate(self.sorts) for name in sort.stations}
        names = [booking.lifter.name for booking in room.bookings]
        self._busy = {name for name in names if names.count(name) > 1}
        have = capacities(room, offers)
        self.scarce = [part for part in have if self._could_run_short(part, have[part])]
        self.have = tuple(have[part] for part in self.scarce)
        self._hung = {
            h: self._packed(parts_hung(offers, h))
            for sort in self.sorts
            for h in bits(_union(sort.serving.values()))
        }
        self._teams: dict[tuple[int, Names], Team | None] = {}
        self._sparing: dict[int, tuple[int, ...]] = {}

    def team(self, sort: int, some: Names) -> Team | None:
        """Facts of a group; None where no chain serves it, or it may not be."""
        key = sort, some
        if key not in self._teams:
            self._teams[key] = self._made(sort, some)
        return self._teams[key]

    def hung_takes(self, hung: int) -> int:
        """What a hung chain takes of each scarce thing, packed."""
        return self._hung[hung]

    @property
    def full(self) -> tuple[int, int]:
        """Where packed sums begin, so that a bit of the second number tells of too much."""
        top = 1 << (FIELD - 1)
        base = sum((top - 1 - have) << (FIELD * at) for at, have in enumerate(self.have))
        return base, sum(top << (FIELD * at) for at in range(len(self.have)))

    def counted(self, packed: int) -> list[int]:
        """Counts of each scarce thing, of a packed number."""
        return [(packed >> (FIELD * at)) & ((1 << FIELD) - 1) for at in range(len(self.have))]

    def _packed(self, parts: Mapping[Part, int]) -> int:
        """Pack counts of scarce things in one number, to be added up."""
        return sum(parts.get(part, 0) << (FIELD * at) for at, part in enumerate(self.scarce))

    def sparing(self, serving: int) -> tuple[int, ...]:
        """Of these chains, those that none of the others beats in what it takes; sparest first."""
        if serving not in self._sparing:
            parts = {
                h: tuple(
                    parts_hung(self.offers, h).get(part, 0) / max(1, have)
                    for part, have in zip(self.scarce, self.have, strict=True)
                )
                for h in bits(serving)
            }
            kept: list[int] = []
            for h in sorted(parts, key=lambda h: (sum(parts[h]), h)):
                if not any(
                    all(a <= b for a, b in zip(parts[k], parts[h], strict=True)) for k in kept
                ):
                    kept.append(h)
            self._sparing[serving] = tuple(kept)
        return self._sparing[serving]

    def _made(self, sort: int, some: Names) -> Team | None:
        room, serving = self.room, self.sorts[sort].serving
        bookings = [room.bookings[n] for n in some]
        names = {booking.lifter.name for booking in bookings}
        both = -1
        for n in some:
            both &= serving.get(n, 0)
        starts = {booking.starts for booking in bookings if booking.starts is not None}
        hands = max(0, hands_wanted(room, some))
        if not both or len(names) < len(some) or len(starts) > 1 or hands > room.spotters:
            return None
        station = self.sorts[sort].stations[0]
        loadings = [self.offers.at[n, station].loadings[0] for n in some]
        plates: dict[Part, int] = {HANDS: hands}
        for loading in loadings:
            for part, count in plates_on(loading).items():
                plates[part] = max(plates.get(part, 0), count)
        return Team(
            long=lengths(room, some),
            apart=steps_between([loading.total_kg for loading in loadings]),
            serving=both,
            arrives=max(booking.arrives for booking in bookings),
            leaves=min(room.length if b.leaves is None else b.leaves for b in bookings),
            starts=next(iter(starts), None),
            lifters=frozenset(names & self._busy),
            takes=self._packed(plates),
        )

    def _could_run_short(self, part: Part, have: int) -> bool:
        """Whether the stations could ask for more than there is, all at once."""
        wanted = 0
        for sort in self.sorts:
            hung = bits(_union(sort.serving.values()))
            most = max((parts_hung(self.offers, h).get(part, 0) for h in hung), default=0)
            for n in sort.serving:
                loading = self.offers.at[n, sort.stations[0]].loadings[0]
                most = max(most, plates_on(loading).get(part, 0))
                most = max(most, self.room.bookings[n].hands if part == HANDS else 0)
            wanted += len(sort.stations) * max(most, part[0] == "collars")
        return wanted > have


def sorts_of(room: Room, offers: Offers) -> list[Sort]:
    """Put stations together that offer the same to the same bookings."""
    groups: dict[tuple[tuple[int, int], ...], list[str]] = {}
    for station in room.stations:
        own = [
            (n, id(o)) for (n, name), o in offers.at.items() if name == station.name and o.miss_kg
        ]
        if own:
            groups.setdefault(tuple(sorted(own)), []).append(station.name)
    return [
        Sort(
            stations=tuple(names),
            serving={n: sum(1 << h for h in offers.at[n, names[0]].miss_kg) for n, _ in own},
        )
        for own, names in groups.items()
    ]


def bits(some: int) -> list[int]:
    """List the positions of a set.

    >>> bits(0b1011)
    [0, 1, 3]
    """
    found = []
    while some:
        low = some & -some
        found.append(low.bit_length() - 1)
        some ^= low
    return found


def _union(some: Iterable[int]) -> int:
    found = 0
    for one in some:
        found |= one
    return found
