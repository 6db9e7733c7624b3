"""The line of average velocity in the bench press, and where its 1RM sticks.

Jidovtseff B, Harris NK, Crielaard JM, Cronin JB. Using the load-velocity relationship for 1RM
prediction. Journal of Strength and Conditioning Research 25(1): 267-270, 2011. Seen: read. 112
men and women; average velocity of the whole concentric phase. Line through velocity at no load
1.70 +- 0.13 m/s and no velocity at 116 +- 8 % of 1RM; 0.23 +- 0.09 m/s at 1RM. "The sticking
region occurs at approximately 10 to 15 cm above the chest", after Elliott et al. 1989 and Madsen
& McLaughlin 1984.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import linregress

from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.velocity import plain_reps

LOADS = np.array([0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 0.95])
"""Loads of the three studies, as shares of 1RM."""


def test_the_model_has_the_same_line() -> None:
    """Intercepts of a straight line through simulated speeds, within one standard deviation."""
    speed = plain_reps(BENCH.typical(), LOADS, 0.40).mean_m_per_s
    line = linregress(LOADS, speed)
    assert line.intercept == pytest.approx(1.70, abs=0.13)
    assert -line.intercept / line.slope == pytest.approx(1.16, abs=0.08)
    assert line.rvalue**2 > 0.97


def test_a_simulated_1rm_moves_as_fast_as_measured_ones() -> None:
    """0.23 +- 0.09 m/s, one standard deviation."""
    speed = float(plain_reps(BENCH.typical(), 1.0, 0.40).mean_m_per_s[0])
    assert speed == pytest.approx(0.23, abs=0.09)


def test_a_1rm_is_slowest_ten_to_fifteen_centimetres_above_the_chest() -> None:
    """As fitted; travel 0.40 m."""
    sticking = plain_reps(BENCH.typical(), 1.0, 0.40).sticking
    assert 0.10 <= float(sticking.slowest_part[0]) * 0.40 <= 0.15
