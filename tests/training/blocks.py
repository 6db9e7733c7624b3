"""Blocks and sessions for tests, without a gym."""

from __future__ import annotations

from typing import Any

from topheavy.training.bases import Loads
from topheavy.training.weeks import Block, TrainingDay, Wave
from topheavy.training.weeks_planned import Planned
from topheavy.training.weeks_slots import Slot

SQUAT = TrainingDay(weekday=0, lifts=("squat",))


def block(*days: TrainingDay, waves: tuple[Wave, ...] | None = None, **more: Any) -> Block:
    """A block that starts on a Monday; squats on Mondays when no day is given."""
    if waves is not None:
        more["waves"] = waves
    return Block(name="Block", start="2026-11-30", days=days or (SQUAT,), **more)


def slot(**more: Any) -> Slot:
    """Pip's heavy squats on the Monday of the first week."""
    usual: dict[str, Any] = {
        "week": 1,
        "weekday": 0,
        "day": 0,
        "wave": 0,
        "lifter": "Pip",
        "lift": "squat",
        "station": "",
        "kind": "heavy",
        "hang": "straight",
        "load": 0.8,
        "sets": 5,
        "reps": 3,
    }
    return Slot(**(usual | more))


def loads(mean_kg: float, share: float = 0.0) -> Loads:
    """Loads with a mean, rising by a share of the top [-]."""
    top_kg = mean_kg / (1 - share / 2)
    bottom_kg = top_kg * (1 - share)
    return Loads(straight_kg=bottom_kg, bottom_kg=bottom_kg, mean_kg=mean_kg, top_kg=top_kg)


def done(
    mean_kg: float = 80.0, *, rig: str = "", share: float | None = None, **more: Any
) -> Planned:
    """A session at a mean load, with or without a rig."""
    return Planned(
        slot=slot(**more),
        loads=loads(mean_kg, share or 0.0),
        best_kg=100.0,
        share_of_best=share,
        rig=rig,
        work_j=1000.0,
    )
