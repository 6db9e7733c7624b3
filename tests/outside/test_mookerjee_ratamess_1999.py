"""Partial against full bench press.

Mookerjee S, Ratamess N. Comparison of strength differences and joint action durations between full
and partial range-of-motion bench press exercise. J Strength Cond Res 13(1): 76-81, 1999. Seen:
abstract. Five trained men: partial 1RM 4.8 % above full, partial 5RM 4.1 % above. The abstract
gives no start height; shares of 0.3 to 0.6 of the travel are tried.
"""

from __future__ import annotations

import pytest

from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import Evidence, FullRange, Partial
from topheavy.lifter.strength import strength_curve

TRAVEL = Travel(bottom_m=0.8, top_m=1.2)


@pytest.mark.parametrize("share", [0.3, 0.4, 0.5, 0.6])
def test_a_partial_of_that_size_fits_a_typical_bench_press(share: float) -> None:
    """No span has to be set aside, and both bests are given back."""
    height_m = 0.8 + 0.4 * share
    pieces: list[Evidence] = [FullRange(load_kg=100.0), Partial(height_m=height_m, load_kg=104.8)]
    curve = strength_curve(lift_named("bench"), TRAVEL, pieces)
    assert "not typical" not in {remark.code for remark in curve.remarks}
    assert curve.full_range_kg == pytest.approx(100.0)
    assert float(curve.at(height_m)) == pytest.approx(104.8)


@pytest.mark.parametrize("share", [0.4, 0.5, 0.6])
def test_it_lies_in_the_range_drawn_from_the_full_best_alone(share: float) -> None:
    low, high = strength_curve(lift_named("bench"), TRAVEL, [FullRange(load_kg=100.0)]).range_at(
        0.8 + 0.4 * share
    )
    assert low <= 104.8 <= high
