"""A week of the room: days, who wants to lift what on which of them, and what came of it.

Each day is a room of its own. A lift that may be on several days is told once for each, so that
hours of coming and leaving are counted from that day's opening.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.rigging.limits import Limits
from topheavy.room.ask import MOST_IN_GROUP, Booking, Room
from topheavy.room.pace import Pace
from topheavy.room.validate import Breach, BrokenPlanError, breaches

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from topheavy.gym.gym import Gym
    from topheavy.gym.people import Station
    from topheavy.room.solve import Planned

Why = Literal["unserved", "full", "taken", "alone"]
"""Why a lift is left out: no chain serves it; its days are full; the lifter has as many lifts as
may be on each of its days; or it alone does not fit in the hours of any."""

HARD: Final = frozenset({"heavy", "repetition"})
"""Kinds of day after which the next should be a lighter one: own judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A day that the room is open.

    Parameters
    ----------
    name : str
        Such as ``"Monday"``.
    opens_s : int
        Time of day when it opens [s after midnight].
    length : int
        How long it is open, in grains.
    stations : tuple of Station
        Those in use.
    spotters : int
        People who only spot.
    broken : tuple of str
        Tags that are not to be hung.
    """

    name: str
    opens_s: int
    length: int
    stations: tuple[Station, ...]
    spotters: int = 1
    broken: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """One lift of one lifter, on one of some days.

    Parameters
    ----------
    on : mapping of int to Booking
        By position of the day: the lift as it would be asked for there.
    """

    on: Mapping[int, Booking]

    @property
    def any(self) -> Booking:
        """The lift as asked for on the first of its days."""
        return self.on[min(self.on)]

    @property
    def key(self) -> tuple[str, str]:
        """Lifter and lift."""
        return self.any.lifter.name, self.any.lift.name

    @property
    def hard(self) -> bool:
        """Whether a lighter day should follow."""
        return self.any.kind in HARD


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """Days of a gym, and what is to be lifted on them.

    Parameters
    ----------
    gym : Gym
        Stock, stations, lifters.
    days : tuple of Day
        In their order; one after the other counts as a day in a row.
    wishes : tuple of Wish
        Who wants to lift what.
    name : str
        Such as ``"Week 12"``.
    a_day : int
        Lifts of one lifter on a day at most, 1 to 5. The same lift is never twice on a day.
    most_in_group : int
        Lifters who share a bar at most.
    pace : Pace
        How long things take.
    limits : Limits
        Limits of every rig.
    """

    gym: Gym
    days: tuple[Day, ...]
    wishes: tuple[Wish, ...]
    name: str = ""
    a_day: int = 1
    most_in_group: int = MOST_IN_GROUP
    pace: Pace = field(default_factory=Pace)
    limits: Limits = field(default_factory=Limits)

    def __post_init__(self) -> None:
        if not self.days:
            raise BadInputError("The week has no days", field="day", wanted="at least one")
        if not self.wishes:
            raise BadInputError(
                "Nobody lifts", field="session", wanted="at least one lifter with a lift"
            )
        if not 1 <= self.a_day <= 5:
            raise BadInputError(
                "Not a number of lifts for a day", field="a_day", got=self.a_day, wanted="1 to 5"
            )
        for wish in self.wishes:
            if not wish.on:
                raise BadInputError(
                    "A lift that may be on no day", field="days", wanted="at least one day"
                )
            for day, booking in wish.on.items():
                self.room(day, (booking,))

    def room(self, day: int, bookings: tuple[Booking, ...]) -> Room:
        """Make the room of a day with some lifts.

        Raises
        ------
        NotInStockError
            No station in use that day suits one of them.
        """
        one = self.days[day]
        return Room(
            gym=self.gym,
            bookings=bookings,
            name=one.name,
            opens_s=one.opens_s,
            length=one.length,
            stations=one.stations,
            spotters=one.spotters,
            most_in_group=self.most_in_group,
            pace=self.pace,
            broken=one.broken,
            limits=self.limits,
        )

    def on(self, day: int, wishes: tuple[int, ...]) -> Room:
        """Make the room of a day with some wishes, in their order."""
        return self.room(day, tuple(self.wishes[n].on[day] for n in wishes))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedDay:
    """One day's wishes, in the order of its room, and its plan; None where nobody lifts."""

    day: int
    wishes: tuple[int, ...]
    planned: Planned | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A wish that is on no day, why, and for an unserved one the least miss [kg] of its days."""

    wish: int
    why: Why
    nearest_kg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedWeek:
    """A whole week.

    Parameters
    ----------
    week : Week
        What was asked.
    days : tuple of PlannedDay
        One for each day, in their order.
    left_out : tuple of LeftOut
        What is on no day.
    """

    week: Week
    days: tuple[PlannedDay, ...]
    left_out: tuple[LeftOut, ...]

    @property
    def planned(self) -> int:
        """How many lifts have a place."""
        return sum(len(one.wishes) for one in self.days)

    @property
    def in_a_row(self) -> tuple[tuple[int, int], ...]:
        """Pairs of hard wishes of one lifter on two days in a row."""
        return tuple(
            (a, b)
            for one, other in pairwise(self.days)
            for a in one.wishes
            for b in other.wishes
            if self.week.wishes[a].hard
            and self.week.wishes[b].hard
            and self.week.wishes[a].any.lifter.name == self.week.wishes[b].any.lifter.name
        )


def week_breaches(planned: PlannedWeek) -> tuple[Breach, ...]:
    """List everything a week breaks, each day checked as a room and all of them together."""
    return (
        *_each_once(planned),
        *(one for day in planned.days for one in _day(planned.week, day)),
    )


def _each_once(planned: PlannedWeek) -> Iterator[Breach]:
    times = Counter(n for one in planned.days for n in one.wishes)
    times.update(one.wish for one in planned.left_out)
    for n, wish in enumerate(planned.week.wishes):
        if times[n] != 1:
            yield Breach(rule="once", words=f"{wish.any.name}: told of {times[n]} times")
    if [one.day for one in planned.days] != list(range(len(planned.week.days))):
        yield Breach(rule="days", words="the days are not those asked for")


def _day(week: Week, one: PlannedDay) -> Iterator[Breach]:
    name = week.days[one.day].name
    wishes = [week.wishes[n] for n in one.wishes]
    elsewhere = [wish.any.name for wish in wishes if one.day not in wish.on]
    if elsewhere:
        yield Breach(rule="days", words=f"{', '.join(elsewhere)}: not on {name}")
        return
    yield from _too_often(week, name, wishes)
    plan = one.planned.plan if one.planned else None
    if plan is None:
        if wishes:
            yield Breach(rule="once", words=f"{name}: no plan")
        return
    if plan.room != week.on(one.day, one.wishes):
        yield Breach(rule="days", words=f"{name}: the plan is of another room")
    for breach in breaches(plan):
        yield Breach(rule=breach.rule, words=f"{name}: {breach.words}")


def _too_often(week: Week, name: str, wishes: list[Wish]) -> Iterator[Breach]:
    for lifter, count in Counter(wish.key[0] for wish in wishes).items():
        if count > week.a_day:
            yield Breach(rule="a day", words=f"{lifter}: {count} lifts on {name}")
    for key, count in Counter(wish.key for wish in wishes).items():
        if count > 1:
            yield Breach(rule="a day", words=f"{', '.join(key)}: {count} times on {name}")


def require_sound_week(planned: PlannedWeek) -> PlannedWeek:
    """Return a week that keeps all rules.

    Raises
    ------
    BrokenPlanError
        It breaks one.
    """
    broken = week_breaches(planned)
    if broken:
        raise BrokenPlanError(
            "The plan of the week breaks a rule and is not shown",
            field="plan",
            got="; ".join(one.words for one in broken[:5]),
            wanted="a report of this mistake, with the room file",
        )
    return planned
