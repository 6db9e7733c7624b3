"""The sticking region of the squat is shorter than that of the bench press.

van den Tillaar R, Andersen V, Saeterbakken AH. The existence of a sticking region in free weight
squats. Journal of Human Kinetics 42: 63-71, 2014. doi 10.2478/hukin-2014-0061. Seen: abstract.
Last repetition of a 6RM: only 10 of 15 lifters showed a sticking region, "much shorter than in
the bench press".
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.motion_model import BENCH, SQUAT, MotionModel
from topheavy.lifter.plausible import plausible
from topheavy.lifter.velocity import plain_reps


def lasts_s(model: MotionModel) -> float:
    found = plain_reps(plausible(model, 200), 1.0, model.travel_m.value).sticking
    return float(np.nanmedian(found.slowest_s - found.start_s))


def test_it_is_shorter_than_in_the_bench_press() -> None:
    """The sign, both at 1RM."""
    assert lasts_s(SQUAT) < lasts_s(BENCH)


def test_the_squat_sticks_less_readily() -> None:
    """The sign: at 90 % fewer simulated squats than bench presses stick."""
    squats, benches = (
        np.mean(np.isfinite(plain_reps(plausible(m, 200), 0.9, m.travel_m.value).sticking.start_s))
        for m in (SQUAT, BENCH)
    )
    assert squats < benches
