"""How fast powerlifters' 1RM move.

Helms ER, Storey A, Cross MR, Brown SR, Lenetsky S, Ramsay H, Dillen C, Zourdos MC. RPE and
velocity relationships for the back squat, bench press, and deadlift in powerlifters. Journal of
Strength and Conditioning Research 31(2): 292-297, 2017. doi 10.1519/JSC.0000000000001517. Seen:
abstract. 15 powerlifters; average concentric velocity at 1RM 0.23 +- 0.05 (squat), 0.10 +- 0.04
(bench press), 0.14 +- 0.05 m/s (deadlift); squat faster than both others, deadlift faster than
bench press.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.motion_model import MODELS, MotionModel
from topheavy.lifter.plausible import plausible, tuned_to_best_speed
from topheavy.lifter.velocity import POWERLIFTERS, plain_reps

PUBLISHED = {"squat": (0.23, 0.05), "bench press": (0.10, 0.04), "deadlift": (0.14, 0.05)}
ALL = tuple(MODELS.values())


def test_the_published_speeds_are_in_the_table() -> None:
    found = {lift: (best.mean_m_per_s, best.sd_m_per_s) for lift, best in POWERLIFTERS.items()}
    assert found == PUBLISHED


@pytest.mark.parametrize("model", ALL, ids=lambda m: m.pattern)
def test_a_1rm_nearer_to_the_limit_grinds_like_a_powerlifters(model: MotionModel) -> None:
    """One number, the reserve at 1RM, within its range brings the mean published speed."""
    speed, _ = PUBLISHED[model.pattern]
    tuned = tuned_to_best_speed(model.typical(), speed, model.travel_m.value)
    bound = model.numbers["reserve"]
    assert bound.value < float(np.asarray(tuned.reserve)) < bound.high
    ascent = plain_reps(tuned, 1.0, model.travel_m.value)
    assert float(ascent.mean_m_per_s[0]) == pytest.approx(speed, abs=0.003)


@pytest.mark.parametrize("model", ALL, ids=lambda m: m.pattern)
def test_plausible_lifters_include_powerlifters(model: MotionModel) -> None:
    """Fitted to students, who leave more in reserve: some simulated ones reach into mean + SD."""
    speed, sd = PUBLISHED[model.pattern]
    speeds = plain_reps(plausible(model, 200), 1.0, model.travel_m.value).mean_m_per_s
    assert float(np.min(speeds)) < speed + sd
    assert float(np.median(speeds)) > speed


def test_the_lifts_are_in_the_published_order() -> None:
    """Squat fastest, then deadlift, then bench press."""
    speeds = {
        m.pattern: float(plain_reps(m.typical(), 1.0, m.travel_m.value).mean_m_per_s[0])
        for m in ALL
    }
    assert speeds["squat"] > speeds["deadlift"] > speeds["bench press"]
