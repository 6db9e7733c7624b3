"""Room plans measured: ``python -m benchmarks.room_plans [ROOMS] [SECONDS]``.

60 lifters, 8 stations, 40 pieces, 5 lifts in rooms drawn by seed: how soon there is a first plan,
how far from its bound the plan is after so many seconds of a core, and what it saves against the
plan a coach makes by hand, group after group. Then a week of 500 lifters with two or three lifts
each. Every plan is held to the validator; one that breaks a rule ends the run.
"""

from __future__ import annotations

import statistics
import sys
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from benchmarks.measure import machine
from benchmarks.rooms import room_of
from benchmarks.weeks import LIFTERS, measured_week
from topheavy.room.offers import offers_for
from topheavy.room.solve import Effort, Progress, plan_room
from topheavy.room.validate import require_sound

if TYPE_CHECKING:
    from topheavy.room.plan import Plan

ROOMS: Final = 50
SECONDS_S: Final = 20.0
FEW, SHORT_S = 2, 1.5
"""So many rooms get all the time; all of them get a little."""
WEEK_S: Final = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One room, by hand and planned; times are the processor's [s]."""

    first_s: float
    gap: float
    hand: Plan
    plan: Plan

    @property
    def ratios(self) -> tuple[float, float, float, float]:
        """Plan over hand: finish, changes of chain, plates moved, cost."""
        plan, hand = self.plan, self.hand
        return (
            plan.finish / hand.finish,
            plan.changes / hand.changes,
            plan.plates_moved / max(1, hand.plates_moved),
            plan.cost / hand.cost,
        )


def measured(seed: int, seconds_s: float, lifters: int = 60) -> Measured | None:
    """Plan a room; None where no plan was found.

    The search counts this thread's time, so that a busy machine does not spoil it; the bound is
    worked out beside it.
    """
    room = room_of(seed, lifters=lifters)
    began, first_s = time.thread_time(), []

    def progress(_: Progress) -> None:
        first_s.append(time.thread_time() - began)

    offers = offers_for(room)
    effort = Effort(seconds_s=seconds_s, workers=2, now=time.thread_time)
    found = plan_room(room, effort, offers=offers, progress=progress)
    if found.plan is None:
        return None
    hand = found.first or found.plan
    plan = require_sound(found.plan)
    return Measured(first_s=first_s[0], gap=found.gap, hand=require_sound(hand), plan=plan)


def spread(values: list[float]) -> str:
    """Median, and the tenth and ninetieth of a hundred."""
    if len(values) < 2:
        return f"{values[0]:.2f}"
    tenths = statistics.quantiles(values, n=10)
    return f"{statistics.median(values):.2f} ({tenths[0]:.2f} to {tenths[-1]:.2f})"


def main(arguments: list[str]) -> int:
    """Measure and print; return the exit code."""
    rooms = int(arguments[0]) if arguments else ROOMS
    seconds_s = float(arguments[1]) if len(arguments) > 1 else SECONDS_S
    print(f"{machine()}. {rooms} rooms, {seconds_s:g} s each.", flush=True)
    found = []
    for seed in range(1, rooms + 1):
        one = measured(seed, seconds_s)
        if one is None:
            print(f"{seed}: no plan", flush=True)
            continue
        found.append(one)
        print(
            f"{seed}: first after {one.first_s:.1f} s, gap {100 * one.gap:.0f} %; by hand and "
            f"planned: finish {one.hand.finish / 4:.0f}, {one.plan.finish / 4:.0f} min; changes "
            f"{one.hand.changes}, {one.plan.changes}",
            flush=True,
        )
    names = ("finish", "changes of chain", "plates moved", "cost")
    for name, column in zip(names, zip(*(one.ratios for one in found), strict=True), strict=False):
        print(f"plan over hand, {name}: {spread(list(column))}")
    print(f"gap: {spread([one.gap for one in found])}", flush=True)
    week = measured_week(1, WEEK_S)
    print(f"{LIFTERS} lifters in a week: {week.planned} of {week.wanted} lifts planned, sound")
    print(f"after {week.seconds:.0f} s; gap of a day: {spread(week.gaps)}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
