"""Speed and power in the deadlift.

Moran-Navarro R, Martinez-Cava A, Escribano-Penas P, Courel-Ibanez J. Load-velocity relationship
of the deadlift exercise. European Journal of Sport Science 21(5): 678-684, 2021 (online 2020).
doi 10.1080/17461391.2020.1785017. Seen: at second hand only, in two reference lists that quote
its abstract: mean velocity of a 1RM 0.24 +- 0.03 m/s, power greatest at about 60 % of 1RM. And
Benavides-Ubric A et al., J. Sports Sci. Med. 19: 452-459, 2020 (abstract): first-order equations
fit loads of 30 to 100 % with R2 0.91 to 0.93.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import linregress

from topheavy.lifter.motion_model import DEADLIFT
from topheavy.lifter.velocity import DEADLIFT_LINE, misfit, plain_reps

LOADS = np.arange(0.30, 1.001, 0.05)


def test_the_line_is_put_together_from_these_facts() -> None:
    """0.24 m/s at 1RM; load x speed greatest at 60 %."""
    speed = DEADLIFT_LINE.speed_at(LOADS)
    assert float(speed[-1]) == pytest.approx(0.24)
    assert LOADS[int(np.argmax(LOADS * speed))] == pytest.approx(0.60)


def test_the_model_follows_the_line() -> None:
    """Fitted to it; each point within the spread between lifters at 1RM, 0.03 m/s."""
    found = misfit(DEADLIFT)
    assert np.all(np.abs(found.simulated_m_per_s - found.published_m_per_s) < 0.03)


def test_simulated_speed_falls_in_a_straight_line() -> None:
    speed = plain_reps(DEADLIFT.typical(), LOADS, DEADLIFT.travel_m.value).propulsive_m_per_s
    assert linregress(LOADS, speed).rvalue ** 2 > 0.93


def test_a_simulated_1rm_moves_as_fast_as_measured_ones() -> None:
    """0.24 +- 0.03 m/s: mean speed of the whole rep within one standard deviation."""
    rep = plain_reps(DEADLIFT.typical(), 1.0, DEADLIFT.travel_m.value)
    assert bool(rep.completed[0])
    assert float(rep.mean_m_per_s[0]) == pytest.approx(0.24, abs=0.03)
