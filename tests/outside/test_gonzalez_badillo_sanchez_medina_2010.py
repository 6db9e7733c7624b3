"""Bar speed tells the share of a bench press 1RM.

Gonzalez-Badillo JJ, Sanchez-Medina L. Movement velocity as a measure of loading intensity in
resistance training. International Journal of Sports Medicine 31: 347-352, 2010. doi
10.1055/s-0030-1248333. 120 strength-trained men, Smith machine. Seen: abstract (R2 0.98 between
mean propulsive velocity and %1RM; mean velocity of a 1RM 0.16 +- 0.04 m/s). The coefficients of
the line, 8.4326 v2 - 73.501 v + 112.33, are from memory.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.plausible import plausible
from topheavy.lifter.velocity import BENCH_LINE, misfit, plain_reps

AT_1RM, SD_1RM = 0.16, 0.04


def test_the_line_from_memory_meets_the_abstract_at_1rm() -> None:
    """0.16 +- 0.04 m/s: the line gives 0.17, within the rounding of its coefficients and SD."""
    assert float(BENCH_LINE.speed_at(1.0)) == pytest.approx(AT_1RM, abs=0.02)


def test_the_error_about_the_line_follows_from_r2() -> None:
    """R2 = 0.98 over loads spread evenly: error = spread of speed x sqrt(1 - R2), rounded up."""
    spread = float(np.std(BENCH_LINE.speed_at(np.linspace(0.3, 1.0, 71))))
    error = spread * (1.0 - 0.98) ** 0.5
    assert 0.8 * BENCH_LINE.error_m_per_s < error <= BENCH_LINE.error_m_per_s


def test_the_model_follows_the_line() -> None:
    """40 to 100 % of 1RM: root mean square at most 0.017 m/s, each point within its error."""
    found = misfit(BENCH)
    assert found.rms_m_per_s <= 0.017
    off = np.abs(found.simulated_m_per_s - found.published_m_per_s)
    assert np.all(off < BENCH_LINE.error_m_per_s)


def test_a_simulated_1rm_moves_as_fast_as_measured_ones() -> None:
    """Mean velocity 0.16 +- 0.04 m/s."""
    speed = float(plain_reps(BENCH.typical(), 1.0, 0.40).mean_m_per_s[0])
    assert speed == pytest.approx(AT_1RM, abs=SD_1RM)


def test_simulated_lifters_spread_as_measured_ones_do() -> None:
    """Standard deviation of a 1RM's speed between lifters 0.04 m/s; half to one and a half."""
    speeds = plain_reps(plausible(BENCH, 200), 1.0, 0.40).mean_m_per_s
    assert 0.02 < float(np.std(speeds)) < 0.06
