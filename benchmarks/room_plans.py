"""Room plans measured: ``python -m benchmarks.room_plans [ROOMS] [SECONDS]``.

60 lifters, 8 stations, 40 pieces, 5 lifts in rooms drawn by seed: how soon there is a first plan,
how far from its bound the plan is after so many seconds, and what it saves against the plan a coach
makes by hand, group after group. Then a week of 500 lifters, each day a room of its own. Every plan
is held to the validator; one that breaks a rule ends the run.
"""

from __future__ import annotations

import statistics
import sys
from functools import partial
from typing import TYPE_CHECKING

from benchmarks.measure import machine, timed
from benchmarks.rooms import room_of
from topheavy.room.by_hand import by_hand, first_plan
from topheavy.room.draft import made_whole
from topheavy.room.offers import offers_for
from topheavy.room.solve import Effort, plan_room
from topheavy.room.validate import require_sound

if TYPE_CHECKING:
    from topheavy.room.plan import Plan

_WEEK = 7
_LIFTERS = 500


def main(arguments: list[str]) -> int:
    """Measure and print; return the exit code."""
    rooms = int(arguments[0]) if arguments else 50
    seconds_s = float(arguments[1]) if len(arguments) > 1 else 20.0
    print(f"{machine()}. {rooms} rooms, {seconds_s:g} s each.", flush=True)
    print("seed | offers s | by hand s | gap | finish min: hand, plan | changes: hand, plan")
    ratios: list[tuple[float, float, float]] = []
    for seed in range(1, rooms + 1):
        found = _one(seed, seconds_s)
        if found is not None:
            ratios.append(found)
    if ratios:
        finish, changes, cost = (statistics.median(column) for column in zip(*ratios, strict=True))
        print(
            f"median of {len(ratios)}: plan over hand, finish {finish:.2f}, changes of chain "
            f"{changes:.2f}, cost {cost:.2f}",
            flush=True,
        )
    _week(seconds_s)
    return 0


def _one(seed: int, seconds_s: float) -> tuple[float, float, float] | None:
    room = room_of(seed)
    offers_s, offers = timed(lambda: offers_for(room))
    hand_s, _ = timed(lambda: first_plan(room, offers))
    drafts = by_hand(room, offers)
    _, planned = timed(lambda: plan_room(room, Effort(seconds_s=seconds_s), offers=offers))
    if drafts is None or planned.plan is None:
        print(f"{seed} | {offers_s:.2f} | {hand_s:.2f} | no plan", flush=True)
        return None
    hand, plan = made_whole(room, offers, drafts), require_sound(planned.plan)
    print(
        f"{seed} | {offers_s:.2f} | {hand_s:.2f} | {100 * planned.gap:.0f} % | "
        f"{_minutes(hand)}, {_minutes(plan)} | {hand.changes}, {plan.changes}",
        flush=True,
    )
    return plan.finish / hand.finish, plan.changes / hand.changes, plan.cost / hand.cost


def _minutes(plan: Plan) -> str:
    return f"{plan.finish / 4:.0f}"


def _week(seconds_s: float) -> None:
    """Plan each day of a week by itself; the lifters are dealt out evenly."""
    taken_s, worst, planned_days = 0.0, 0.0, 0
    for day in range(_WEEK):
        room = room_of(1000 + day, lifters=_LIFTERS // _WEEK + (day < _LIFTERS % _WEEK))
        day_s, planned = timed(partial(plan_room, room, Effort(seconds_s=seconds_s)))
        taken_s += day_s
        if planned.plan is not None:
            require_sound(planned.plan)
            planned_days += 1
            worst = max(worst, planned.gap)
    print(
        f"{_LIFTERS} lifters in a week: {planned_days} of {_WEEK} days planned and sound in "
        f"{taken_s:.0f} s, worst gap {100 * worst:.0f} %"
    )


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
