"""Sets, shapes and curves to review."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import numpy as np

from topheavy.gym.people import Travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.review.readings import Reading, read_sets
from topheavy.training.review.seen import LiftLog, SeenSet
from topheavy.training.review.shapes import SAMPLES, Shapes

if TYPE_CHECKING:
    from collections.abc import Sequence

TRAVEL = Travel(bottom_m=0.6, top_m=1.0)
CHAIN = LoadCurve.through([0.6, 1.0], [0.0, 30.0])
HEIGHTS = np.linspace(0.6, 1.0, 81)
"""The stronger the higher: one and a half times as strong at lockout."""


def shapes(lockout: float = 1.5, doubt: float = 0.0) -> Shapes:
    """Strength that rises evenly to `lockout`, in the sampled ones off by up to `doubt`."""
    way = (HEIGHTS - 0.6) / 0.4
    ends = lockout + doubt * np.linspace(-1, 1, SAMPLES)
    return Shapes(
        height_m=HEIGHTS,
        likeliest=1 + (lockout - 1) * way,
        sampled=1 + (ends[:, None] - 1) * way,
    )


def day(number: int) -> str:
    """A day, counted from a Monday."""
    return (dt.date(2026, 6, 1) + dt.timedelta(days=number)).isoformat()


def seen(at: int = 0, straight_kg: float = 100.0, reps: int = 1, **values: Any) -> SeenSet:
    """A set on a day; with nothing left unless said, and with chain when there is a rig."""
    said: dict[str, Any] = {"reps_left": 0.0, **values}
    if said.get("rig"):
        said.setdefault("hung", CHAIN)
    return SeenSet(day=day(at), straight_kg=straight_kg, reps=reps, **said)


def read(sets: Sequence[SeenSet], mine: Shapes | None = None) -> tuple[Reading, ...]:
    """Read sets in the order of a log."""
    return read_sets(LiftLog.of(sets, TRAVEL).sets, mine or shapes())
