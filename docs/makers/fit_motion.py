"""Fit the model of the rep to what is published: ``python -m docs.makers.fit_motion``.

Prints for each lift the numbers a least-squares fit finds, beside those that stand in the code, and
what is left to the published line. The code holds the fit, rounded. Greatest speed, the hollow of
force against speed, and fatigue trade off so freely that they are held near their starts by a weak
pull; without it they run to their bounds and fit no better. That is why every number has a range.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np
from scipy.optimize import least_squares

from topheavy.lifter.motion.columns import joined
from topheavy.lifter.motion_model import BENCH, DEADLIFT, SQUAT
from topheavy.lifter.velocity import CHECKED_AT, LINES, misfit, plain_reps, speed_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from topheavy.lifter.motion_model import Motion, MotionModel
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]

LINE_WEIGHT_M_PER_S: Final = 0.02
"""How close the fit tries to come to the line."""

LOOSE: Final = {"speed_limit_m_per_s": 0.3, "hill": 0.5, "fatigue_s": 0.5}
"""Numbers that the aims hardly tell apart, and how far from its start each may drift freely, as a
difference of logarithms."""

_STEP: Final = 3e-3
_HEAVY: Final = CHECKED_AT.index(1.0)
_AT_80: Final = CHECKED_AT.index(0.8)
_LIGHT: Final = CHECKED_AT.index(0.4)


@dataclass(frozen=True, slots=True)
class Task:
    """A lift to fit.

    Parameters
    ----------
    model : MotionModel
        The model; what is not free keeps its number.
    free : dict of str to tuple of float
        Numbers that are fitted: start, least, most.
    aims : callable
        Residuals other than the line's: (loads, sets) arrays of a rep's figures to (aims, sets).
    """

    model: MotionModel
    free: dict[str, tuple[float, float, float]]
    aims: Callable[[Ascents, Floats], Floats]


def bench_aims(ascents: Ascents, shape: Floats) -> Floats:
    """Sticking period (van den Tillaar & Ettema), slowing (Elliott), peak force (Duffey)."""
    s = ascents.sticking
    start, slow, part = (
        x.reshape(shape.shape)[_HEAVY] for x in (s.start_s, s.slowest_s, s.slowest_part)
    )
    slowing = ascents.slowing_share.reshape(shape.shape)[_HEAVY]
    force = ascents.peak_force_ratio.reshape(shape.shape)
    aims = [
        (start - 0.2) / 0.05,
        (slow - start - 0.9) / 0.2,
        (slowing - 0.23) / 0.05,
        (force[_HEAVY] - 1.15) / 0.1,
        (force[_AT_80] - 1.13) / 0.3,
        (part - 0.35) / 0.05,
    ]
    return np.nan_to_num(np.array(aims), nan=5.0)


def squat_aims(ascents: Ascents, shape: Floats) -> Floats:
    """Propulsive share at 40 % (Sanchez-Medina); a short sticking region well up."""
    s = ascents.sticking
    start, slow, part = (
        x.reshape(shape.shape)[_HEAVY] for x in (s.start_s, s.slowest_s, s.slowest_part)
    )
    pushed = ascents.propulsive_share.reshape(shape.shape)[_LIGHT]
    aims = [
        (pushed - 0.82) / 0.03,
        np.maximum(slow - start - 0.7, 0.0) / 0.2,
        (part - 0.4) / 0.1,
    ]
    return np.nan_to_num(np.array(aims), nan=2.0)


def deadlift_aims(ascents: Ascents, shape: Floats) -> Floats:
    """A mild sticking region below the knee."""
    s = ascents.sticking
    start, slow, part = (
        x.reshape(shape.shape)[_HEAVY] for x in (s.start_s, s.slowest_s, s.slowest_part)
    )
    return np.nan_to_num(np.array([(slow - start - 0.6) / 0.4, (part - 0.35) / 0.1]), nan=1.0)


TASKS: Final = (
    Task(
        BENCH,
        {
            "speed_limit_m_per_s": (4.5, 2.0, 9.0),
            "hill": (1.2, 0.3, 50.0),
            "activation_s": (0.015, 0.01, 0.25),
            "fatigue_s": (60.0, 15.0, 300.0),
            "reserve": (0.96, 0.85, 0.995),
            "ease_m_per_s2": (0.62, 0.2, 2.0),
            "ease_power": (6.0, 1.0, 12.0),
            "dip_at": (0.33, 0.25, 0.5),
            "bottom_surplus": (0.15, 0.02, 0.6),
        },
        bench_aims,
    ),
    Task(
        SQUAT,
        {
            "speed_limit_m_per_s": (8.0, 1.0, 12.0),
            "hill": (3.0, 0.8, 10.0),
            "activation_s": (0.02, 0.01, 0.25),
            "reserve": (0.95, 0.6, 0.999),
            "ease_m_per_s2": (1.5, 0.2, 5.0),
            "ease_power": (4.6, 1.0, 8.0),
            "bottom_surplus": (0.15, 0.01, 0.6),
        },
        squat_aims,
    ),
    Task(
        DEADLIFT,
        {
            "speed_limit_m_per_s": (4.0, 1.0, 12.0),
            "hill": (1.5, 0.8, 10.0),
            "activation_s": (0.05, 0.01, 0.25),
            "reserve": (0.9, 0.6, 0.999),
            "ease_m_per_s2": (3.0, 0.2, 5.0),
            "ease_power": (4.6, 1.0, 8.0),
            "bottom_surplus": (0.05, 0.01, 0.2),
        },
        deadlift_aims,
    ),
)
"""The three fits, from starts that are not their ends."""


def fit(task: Task) -> Motion:
    """Fit one lift; returns its numbers."""
    start, low, high = np.log(np.array(list(task.free.values()))).T
    found = least_squares(
        lambda logs: residuals(task, logs[None, :])[:, 0],
        start,
        jac=lambda logs: slopes(task, logs),
        bounds=(low, high),
        max_nfev=60,
    )
    return motion_of(task, found.x)


def motion_of(task: Task, logs: Floats) -> Motion:
    """Put logarithms of the free numbers into the model's."""
    numbers = {name: float(value) for name, value in zip(task.free, np.exp(logs), strict=True)}
    return replace(task.model.typical(), **numbers)


def residuals(task: Task, sets: Floats) -> Floats:
    """Residuals of several sets of numbers at once: (sets, free) to (residuals, sets)."""
    loads = np.array(CHECKED_AT)
    motions = joined([motion_of(task, logs).spread(1) for logs in sets])
    shape = np.empty((loads.size, len(sets)))
    ascents = plain_reps(
        motions.taken(np.tile(np.arange(len(sets)), loads.size)),
        np.repeat(loads, len(sets)),
        task.model.travel_m.value,
    )
    line = LINES[task.model.pattern]
    off = speed_of(ascents, line.kind).reshape(shape.shape) - line.speed_at(loads)[:, None]
    off = np.nan_to_num(off / LINE_WEIGHT_M_PER_S, nan=5.0)
    pull = [
        (sets[:, place] - np.log(start)) / LOOSE[name]
        for place, (name, (start, _, _)) in enumerate(task.free.items())
        if name in LOOSE
    ]
    return np.concatenate([off, task.aims(ascents, shape), np.array(pull)])


def slopes(task: Task, logs: Floats) -> Floats:
    """Central differences of the residuals, all free numbers in one batch."""
    steps = _STEP * np.eye(logs.size)
    both = residuals(task, np.concatenate([logs + steps, logs - steps]))
    return (both[:, : logs.size] - both[:, logs.size :]) / (2.0 * _STEP)


def main() -> int:
    """Fit all lifts and print."""
    for task in TASKS:
        found = fit(task)
        left, stands = misfit(task.model, found), misfit(task.model)
        print(f"{task.model.pattern}: rms {left.rms_m_per_s:.4f} m/s fitted, ", end="")
        print(f"{stands.rms_m_per_s:.4f} m/s as it stands")
        for name in task.free:
            fitted, held = getattr(found, name), task.model.numbers[name]
            print(
                f"  {name:22s} {fitted:8.4g}   stands {held.value:g}, {held.low:g} to {held.high:g}"
            )
    return 0


if __name__ == "__main__":
    sys.exit(main())
