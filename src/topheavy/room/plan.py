"""A plan: who lifts where, with whom, on what, from when to when; and what it costs."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise, permutations
from typing import TYPE_CHECKING, Final

from topheavy.room.pace import round_lengths

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.rigging.plates import Loading
    from topheavy.room.ask import Booking, Room
    from topheavy.room.hung import Hung, Pair

PER_GRAIN: Final = 25
"""Cost of each quarter minute until the last has done: 100 a minute, so costs are in hundredths."""

PER_CHANGE: Final = 300
"""Cost of hanging other chain once: as much as three minutes. Own judgement."""

STEP_KG: Final = 10.0
PER_STEP: Final = 25
"""Cost of each 10 kg begun between the lightest and the heaviest bar of a group. Own judgement: it
stands for plates put on and off between turns."""

PER_MOVE: Final = 200
"""When planning anew: cost of each booking that changes station. Own judgement."""

PER_GRAIN_SHIFT: Final = 4
"""When planning anew: cost of each quarter minute that a booking starts earlier or later."""

_MOST_ORDERS: Final = 5

Former = Mapping[tuple[str, str], tuple[str, int]]
"""A former plan: station and start in grains, by lifter and lift."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One booking in a group, by its position in the room, and its plates."""

    booking: int
    loading: Loading


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Lifters who share a bar, one chain on it.

    Parameters
    ----------
    station : str
        Where.
    hung : Hung
        Feeder, setting, connector and how many pairs.
    pairs : tuple of Pair
        Which pairs.
    members : tuple of Member
        In the order they lift in each round; those with more sets first.
    begins, starts, ends : int
        When the station is theirs, when the first round starts, when they have done; in grains
        after the room opens. In between the chain is hung.
    fresh : bool
        Whether chain is hung for this group, or still hangs as it is from the group before.
    """

    station: str
    hung: Hung
    pairs: tuple[Pair, ...]
    members: tuple[Member, ...]
    begins: int
    starts: int
    ends: int
    fresh: bool

    @property
    def tags(self) -> tuple[str, ...]:
        """Tags of every piece on both ends."""
        return tuple(tag for pair in self.pairs for tag in pair.tags)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One set: round and set number from 1, whose, and when the bar is theirs, in grains."""

    number: int
    booking: int
    at: int


@dataclass(frozen=True)
class Plan:
    """A plan for a room.

    Parameters
    ----------
    room : Room
        What was asked.
    groups : tuple of Group
        By station and time.
    """

    room: Room
    groups: tuple[Group, ...]

    def at(self, station: str) -> tuple[Group, ...]:
        """Groups of one station, first to last."""
        some = (group for group in self.groups if group.station == station)
        return tuple(sorted(some, key=lambda group: group.begins))

    def of(self, booking: int) -> Group:
        """Find the group of a booking."""
        return next(g for g in self.groups if any(m.booking == booking for m in g.members))

    @property
    def finish(self) -> int:
        """When the last has done, in grains."""
        return max((group.ends for group in self.groups), default=0)

    @property
    def changes(self) -> int:
        """How often chain is hung, the first time at each station counted."""
        return sum(group.fresh for group in self.groups)

    @property
    def plates_moved(self) -> int:
        """Plates put on and taken off between turns, both sides, over the whole session."""
        return sum(2 * _moved_in(self.room, group) for group in self.groups)

    @property
    def cost(self) -> int:
        """What planning makes least: finish, changes of chain, bars far apart in weight."""
        apart = sum(steps_apart(group) for group in self.groups)
        return PER_GRAIN * self.finish + PER_CHANGE * self.changes + PER_STEP * apart

    def disturbance(self, former: Former) -> int:
        """How far the plan is from a former one: stations changed, and starts moved."""
        moved = 0
        for number, booking in enumerate(self.room.bookings):
            was = former.get(key_of(booking))
            if was is not None:
                group = self.of(number)
                moved += PER_MOVE * (group.station != was[0])
                moved += PER_GRAIN_SHIFT * abs(group.starts - was[1])
        return moved


def key_of(booking: Booking) -> tuple[str, str]:
    """Tell a booking from all others, also in another plan."""
    return booking.lifter.name, booking.lift.name


def steps_apart(group: Group) -> int:
    """Say how far apart the bars of a group are, in steps of 10 kg of plates begun."""
    return steps_between([member.loading.total_kg for member in group.members])


def steps_between(loads_kg: Sequence[float]) -> int:
    """Count the steps of 10 kg begun between the lightest and the heaviest of some loads [kg].

    >>> steps_between([60.0, 80.0, 72.5]), steps_between([60.0, 81.0])
    (2, 3)
    """
    return math.ceil((max(loads_kg) - min(loads_kg)) / STEP_KG - 1e-6)


def sure_cost(room: Room) -> int:
    """Say what no plan costs less than, without looking at chain: hours and people alone.

    Chain is hung once at least for each sort of station in use. The stations of a sort must hold
    all turns lifted there; and nobody has done before all the lifts of the day, one by one.
    """
    sorts = {booking.lift.station for booking in room.bookings}
    return PER_GRAIN * sure_finish(room) + PER_CHANGE * len(sorts)


def sure_finish(room: Room) -> int:
    """Say before when, in grains, nobody could have everything done: hours and people alone."""
    works = [room.work(booking) for booking in room.bookings]
    finish = 0
    sorts = {booking.lift.station for booking in room.bookings}
    for sort in sorts:
        count = sum(station.kind == sort for station in room.stations)
        turns_there = sum(
            work.sets * work.turn
            for work, booking in zip(works, room.bookings, strict=True)
            if booking.lift.station == sort
        )
        finish = max(finish, math.ceil((room.pace.rig_grains + turns_there) / count))
    for name in {booking.lifter.name for booking in room.bookings}:
        own = [n for n, booking in enumerate(room.bookings) if booking.lifter.name == name]
        least = sum(works[n].sets * max(works[n].turn, works[n].cycle) for n in own)
        gaps = (len(own) - 1) * room.pace.between_grains
        comes = max(room.pace.rig_grains, min(room.bookings[n].arrives for n in own))
        finish = max(finish, comes + least + gaps)
    return finish


def turns(room: Room, group: Group) -> tuple[Turn, ...]:
    """List every set of a group in the order of lifting."""
    works = [room.work(room.bookings[member.booking]) for member in group.members]
    found, at = [], group.starts
    for number, length in enumerate(round_lengths(works)):
        begin = at
        for member, work in zip(group.members, works, strict=True):
            if work.sets > number:
                found.append(Turn(number=number + 1, booking=member.booking, at=begin))
                begin += work.turn
        at += length
    return tuple(found)


def plates_between(one: Loading, other: Loading) -> int:
    """Plates a side to take off and put on from one loading to another, the heaviest inside.

    >>> from topheavy.gym.stock import Plate
    >>> from topheavy.rigging.plates import Loading
    >>> big, small = (Plate(mass_kg=m, width_m=0.03, diameter_m=0.4, count=4) for m in (20, 5))
    >>> plates_between(Loading(per_side=((big, 1), (small, 1))), Loading(per_side=((big, 2),)))
    2
    """
    here, there = ([p.mass_kg for p, n in side.per_side for _ in range(n)] for side in (one, other))
    same = 0
    for a, b in zip(here, there, strict=False):
        if a != b:
            break
        same += 1
    return len(here) + len(there) - 2 * same


def _moved_in(room: Room, group: Group) -> int:
    loading = {member.booking: member.loading for member in group.members}
    order = [turn.booking for turn in turns(room, group)]
    return sum(plates_between(loading[a], loading[b]) for a, b in pairwise(order))


def in_good_order(room: Room, members: Sequence[Member]) -> tuple[Member, ...]:
    """Order a group: more sets first, then so that the fewest plates move round after round."""
    sets = {member: room.bookings[member.booking].sets for member in members}
    light_first = sorted(members, key=lambda m: (-sets[m], m.loading.total_kg, m.booking))
    if len(light_first) > _MOST_ORDERS:
        return tuple(light_first)
    ways = [
        way
        for way in permutations(light_first)
        if all(sets[a] >= sets[b] for a, b in pairwise(way))
    ]
    return min(ways, key=_round_trip)


def _round_trip(members: Sequence[Member]) -> int:
    ring = [*members, members[0]]
    return sum(plates_between(a.loading, b.loading) for a, b in pairwise(ring))
