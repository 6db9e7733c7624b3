"""Work of a repetition against numerical integration.

SciPy (scipy.integrate.quad, QUADPACK, BSD licence): g times the integral of the load over height,
the load asked for height by height. Agreement to one part in a million; g from the CGPM of 1901.
"""

from __future__ import annotations

import pytest
from scipy.integrate import quad

from topheavy.gym.people import Travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.review.seen import SeenSet
from topheavy.training.review.work import rep_work_j

STANDARD_GRAVITY = 9.80665
TRAVEL = Travel(bottom_m=0.66, top_m=1.07)


@pytest.mark.parametrize(
    "hung",
    [
        LoadCurve.strand(21.2, 0.4, 0.7) + LoadCurve.lump(0.4, 0.68),
        LoadCurve.strand(10.6, 2.0, 0.2),
        LoadCurve.through([0.5, 0.8, 1.2], [3.0, 4.0, 31.0]),
    ],
)
def test_work_of_a_repetition(hung: LoadCurve) -> None:
    one = SeenSet(day="2026-11-25", straight_kg=92.5, reps=1, hung=hung, rig="chain")
    knots = [float(height) for height in hung.height_m if 0.66 < height < 1.07]
    area, _ = quad(
        lambda height_m: 92.5 + float(hung.at(height_m)), 0.66, 1.07, points=knots or None
    )
    assert rep_work_j(one, TRAVEL) == pytest.approx(STANDARD_GRAVITY * area, rel=1e-6)
