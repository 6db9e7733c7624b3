"""Partial against full deadlift.

Gillingham B, Bishop A, Higa GK, Adams KJ, DeBeliso M. The relationship between partial and full
range of motion deadlift 1-repetition maximum: a technical note. J Strength Cond Res 37(4): 909-914,
2023. Seen: abstract. 18 wrestlers, 176.0 +- 5.2 cm: 226.0 +- 40.6 kg from 2.54 cm above the patella
in a rack, 191.7 +- 37.2 kg from the floor, r = 0.85.

The share of the travel is ours: bar from 0.225 m to a lockout of 0.43 of stature (guessed), patella
and an inch at 0.31 of stature: 0.59, and 0.5 to 0.7 is tried.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import Evidence, FullRange, Partial
from topheavy.lifter.strength import strength_curve
from topheavy.lifter.typical import typical_for

RATIO = 226.0 / 191.7
SCATTER = 40.6 * math.sqrt(1 - 0.85**2) / 191.7
TRAVEL = Travel(bottom_m=0.225, top_m=0.757)


@pytest.mark.parametrize("share", [0.5, 0.59, 0.7])
def test_typical_deadlift_from_above_the_knee(share: float) -> None:
    """Mean ratio 1.18, residual scatter 11 %; the typical shape within half of that scatter."""
    assert float(typical_for("deadlift").shape.at(share)) == pytest.approx(RATIO, abs=SCATTER / 2)


@pytest.mark.parametrize("share", [0.5, 0.59, 0.7])
def test_the_range_from_one_number_holds_two_scatters_up(share: float) -> None:
    """Down it stops at the full best: no partial is less than that."""
    curve = strength_curve(lift_named("deadlift"), TRAVEL, [FullRange(load_kg=191.7)])
    low, high = curve.range_at(0.225 + share * TRAVEL.travel_m)
    assert low <= 191.7 * max(RATIO - 2 * SCATTER, 1.0)
    assert high >= 191.7 * (RATIO + 2 * SCATTER)


def test_both_means_make_one_curve() -> None:
    height_m = 0.225 + 0.59 * TRAVEL.travel_m
    pieces: list[Evidence] = [FullRange(load_kg=191.7), Partial(height_m=height_m, load_kg=226.0)]
    curve = strength_curve(lift_named("deadlift"), TRAVEL, pieces)
    assert curve.full_range_kg == pytest.approx(191.7)
    assert float(np.min(curve.best_kg[curve.height_m >= height_m - 1e-9])) == pytest.approx(226.0)
    assert "not typical" not in {remark.code for remark in curve.remarks}
