"""Isometric bench press force against the dynamic 1RM.

Ignjatovic A, Stankovic R, Herodek K, Radovanovic D. Investigation of the relationship between
different muscle strength assessments in bench press action. Facta Universitatis, Physical Education
and Sport 7(1): 17-25, 2009. Seen: abstract. 22 students: correlation of maximal isometric force
with the 1RM r = 0.16 in the initial and 0.33 in the final position.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from topheavy.lifter.evidence import Isometric


@pytest.mark.parametrize("r", [0.16, 0.33])
def test_default_shares_hold_the_scatter_of_so_weak_a_relation(r: float) -> None:
    """Both forces scattered by 15 % between lifters (assumed), correlated by r.

    Drawn at random, nine of ten ratios lie inside the default shares of 0.6 to 1.2 about 0.9.
    """
    random = np.random.default_rng(2009)
    cov = [[0.15**2, r * 0.15**2], [r * 0.15**2, 0.15**2]]
    dynamic, isometric = np.exp(random.multivariate_normal([0.0, 0.0], cov, size=20000)).T
    ratio = 0.9 * dynamic / isometric
    pull = Isometric(height_m=1.0, force_n=1000.0)
    inside = np.mean((ratio >= pull.share_low) & (ratio <= pull.share_high))
    assert inside > 0.88
    assert np.std(np.log(ratio)) == pytest.approx(0.15 * math.sqrt(2 - 2 * r), rel=0.03)
