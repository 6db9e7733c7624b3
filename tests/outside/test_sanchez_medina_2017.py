"""Bar speed tells the share of a full squat 1RM.

Sanchez-Medina L, Pallares JG, Perez CE, Moran-Navarro R, Gonzalez-Badillo JJ. Estimation of
relative load from bar velocity in the full back squat exercise. Sports Medicine International
Open 1: E80-E88, 2017. doi 10.1055/s-0043-102933. 80 strength-trained men, Smith machine. Seen:
abstract (R2 0.96, standard error 0.06 m/s, mean velocity of a 1RM 0.32 +- 0.03 m/s, propulsive
phase about 82 % of the concentric time at 40 % of 1RM, 100 % at 1RM). The coefficients of the
line, -5.961 v2 - 50.71 v + 117, are from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import SQUAT
from topheavy.lifter.rep import simulate
from topheavy.lifter.velocity import SQUAT_LINE, misfit, plain_reps


def test_the_line_from_memory_meets_the_abstract_at_1rm() -> None:
    """0.32 m/s, to its second decimal."""
    assert float(SQUAT_LINE.speed_at(1.0)) == pytest.approx(0.32, abs=0.005)
    assert SQUAT_LINE.error_m_per_s == 0.06


def test_the_model_follows_the_line() -> None:
    """Each point from 40 to 100 % of 1RM within the standard error of 0.06 m/s."""
    found = misfit(SQUAT)
    off = np.abs(found.simulated_m_per_s - found.published_m_per_s)
    assert np.all(off < 0.06)
    assert found.rms_m_per_s <= 0.017


def test_a_simulated_1rm_moves_as_fast_as_measured_ones() -> None:
    """Mean velocity 0.32 +- 0.03 m/s."""
    speed = float(plain_reps(SQUAT.typical(), 1.0, SQUAT.travel_m.value).mean_m_per_s[0])
    assert speed == pytest.approx(0.32, abs=0.03)


def test_the_propulsive_phase_is_a_share_of_the_time() -> None:
    """About 82 % of the time at 40 %, to the stated whole percent and a few more; all at 1RM."""
    lifter = RepLifter(best_kg=110.0, bottom_m=0.9, top_m=0.9 + SQUAT.travel_m.value)
    shares = []
    for load in (0.4, 1.0):
        path = simulate(lifter, OnBar(straight_kg=load * 110.0), SQUAT.typical()).path
        gain = np.diff(path.speed_m_per_s) / np.diff(path.time_s)
        braking = np.flatnonzero(gain < -1.001 * G)
        end = path.time_s[braking[0]] if braking.size else path.time_s[-1]
        shares.append(float(end / path.time_s[-1]))
    assert shares[0] == pytest.approx(0.82, abs=0.05)
    assert shares[1] == 1.0
