"""How fast the first rep of a set should go, over many lifters who might be this one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.rep import simulate_batch

if TYPE_CHECKING:
    from topheavy.lifter.motion.inputs import OnBar, RepLifter
    from topheavy.lifter.motion_model import Motion


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetSpeed:
    """Mean speed of a first rep, lifted as fast as can be: a prediction of a fitted model.

    Parameters
    ----------
    low_m_per_s, middle_m_per_s, high_m_per_s : float
        Nine in ten of the lifters lie from low to high [m/s].
    """

    low_m_per_s: float
    middle_m_per_s: float
    high_m_per_s: float


def target_speed(lifter: RepLifter, on_bar: OnBar, many: Motion) -> TargetSpeed | None:
    """Predict the mean speed of the first rep.

    Parameters
    ----------
    lifter : RepLifter
        Who.
    on_bar : OnBar
        What.
    many : Motion
        Numbers of many plausible lifters.

    Returns
    -------
    TargetSpeed or None
        None when one in ten of them would miss: then it is no load for speed.
    """
    reps = simulate_batch(RepBatch.of(lifter, on_bar, many))
    if np.mean(reps.completed) < 0.9:
        return None
    speeds = reps.mean_m_per_s[reps.completed]
    low, middle, high = (float(speed) for speed in np.quantile(speeds, [0.05, 0.5, 0.95]))
    return TargetSpeed(low_m_per_s=low, middle_m_per_s=middle, high_m_per_s=high)
