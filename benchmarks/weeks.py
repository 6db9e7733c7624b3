"""A week of very many lifters, drawn by a seed, and how it is planned."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from benchmarks.rooms import room_of
from topheavy.room.solve import Effort
from topheavy.room.week import Day, Week, Wish, require_sound_week
from topheavy.room.week_solve import plan_week

if TYPE_CHECKING:
    from topheavy.room.week import PlannedWeek
    from topheavy.training.days import DayName

LIFTERS: Final = 500
DAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
HOURS: Final = 6


def week_of(seed: int, lifters: int = LIFTERS, hours: float = HOURS) -> Week:
    """Draw a week: each lifter has two or three lifts, and three to five days to come on.

    Parameters
    ----------
    seed : int
        What to draw from.
    lifters : int
        How many.
    hours : float
        How long each day is open.
    """
    draw = np.random.default_rng(seed)
    length = round(hours * 240)
    drawn = [room_of(seed + shift, lifters, minutes=length // 4) for shift in (0, 1000, 2000)]
    first, wishes = drawn[0], []
    for n in range(lifters):
        days = sorted(draw.choice(len(DAYS), size=int(draw.integers(3, 6)), replace=False))
        lifter = first.bookings[n].lifter
        for k in range(int(draw.choice([2, 2, 3]))):
            # The kth lift of a lifter is another lift, of a person drawn anew.
            other = drawn[k].bookings[(n + k) % lifters]
            own = replace(lifter, lifts={**other.lifter.lifts})
            kind: DayName = "heavy" if k == 0 else "technique"
            booking = replace(other, lifter=own, kind=kind, arrives=0)
            wishes.append(Wish(on={int(day): booking for day in days}))
    stations = first.stations
    return Week(
        gym=first.gym,
        days=tuple(
            Day(name=name, opens_s=10 * 3600, length=length, stations=stations, spotters=4)
            for name in DAYS
        ),
        wishes=tuple(wishes),
        name=f"seed {seed}",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredWeek:
    """A week as planned, and the processor's time it took [s]."""

    found: PlannedWeek
    seconds: float

    @property
    def wanted(self) -> int:
        """How many lifts were asked for."""
        return len(self.found.week.wishes)

    @property
    def planned(self) -> int:
        """How many have a place."""
        return self.found.planned

    @property
    def gaps(self) -> list[float]:
        """Gap of each day that has a plan [-]."""
        return [one.planned.gap for one in self.found.days if one.planned is not None]


def measured_week(seed: int, seconds_s: float, hours: float = HOURS) -> MeasuredWeek:
    """Plan a week and hold it to the validator."""
    week = week_of(seed, hours=hours)
    began = time.thread_time()
    found = plan_week(week, Effort(seconds_s=seconds_s, workers=1, now=time.thread_time))
    return MeasuredWeek(found=require_sound_week(found), seconds=time.thread_time() - began)
