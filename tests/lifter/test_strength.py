"""The strength curve: what is honoured exactly, what stays open, samples, and its limits."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import (
    Evidence,
    FullRange,
    HungBest,
    Isometric,
    Miss,
    Partial,
    best_of,
)
from topheavy.lifter.match import match
from topheavy.lifter.strength import StrengthCurve, strength_curve
from topheavy.lifter.typical import typical_for
from topheavy.mechanics.curve import LoadCurve

TRAVEL = Travel(bottom_m=0.8, top_m=1.2)
BEST = FullRange(load_kg=100.0)
CHAIN = LoadCurve.through([0.8, 1.2], [0.0, 40.0])


def bench(*pieces: Evidence) -> StrengthCurve:
    return strength_curve(lift_named("bench"), TRAVEL, pieces)


def width_at(curve: StrengthCurve, height_m: float) -> float:
    low, high = curve.range_at(height_m)
    return float(high - low)


def test_one_number_gives_the_typical_shape_and_a_wide_range() -> None:
    curve = bench(BEST)
    shape = typical_for("bench press").shape
    heights = np.linspace(0.8, 1.2, 81)
    assert curve.at(heights) == pytest.approx(100 * shape.at((heights - 0.8) / 0.4), rel=2e-4)
    assert curve.weakest_m == pytest.approx(0.8 + 0.35 * 0.4)
    low, high = curve.range_at(1.2)
    assert low < 110
    assert high > 180
    assert "one number" in {remark.code for remark in curve.remarks}


def test_least_at_lockout_is_the_flattest_shape_of_the_spans() -> None:
    """Best less two uncertainties, weakest at 0.55, 10 % surplus over half the travel."""
    low, _ = bench(BEST).range_at(1.2)
    assert float(low) == pytest.approx(96 * (1 + 0.1 * (1 - np.exp(-((0.45 / 0.5) ** 2)))))


def test_a_partial_alone_leaves_the_full_best_between_its_share_and_itself() -> None:
    curve = bench(Partial(height_m=1.05, load_kg=120.0))
    low, high = curve.range_at(curve.weakest_m)
    assert 50 < low < 90
    assert 120 < high < 150
    assert 85 < curve.full_range_kg < 110


def test_range_at_lockout_holds_the_surpluses_that_fit_bar_speed_alike() -> None:
    """20 to 80 % more at lockout fit one load-velocity line equally well: none is excluded."""
    low, high = bench(BEST).range_at(1.2)
    assert low <= 120
    assert high >= 180


def test_partial_from_above_the_weakest_is_met_exactly() -> None:
    curve = bench(BEST, Partial(height_m=1.0513, load_kg=118.0))
    assert curve.full_range_kg == pytest.approx(100.0)
    assert float(curve.at(1.0513)) == pytest.approx(118.0)
    assert float(np.min(curve.best_kg[curve.height_m >= 1.0513])) == pytest.approx(118.0)


def test_partial_below_the_weakest_can_say_no_more_than_the_full_best() -> None:
    curve = bench(BEST, Partial(height_m=0.85, load_kg=100.0))
    assert curve.full_range_kg == pytest.approx(100.0)
    assert "partial below weakest" in {remark.code for remark in curve.remarks}


def test_curve_passes_several_partials_rising_between_them() -> None:
    points = [(1.0, 106.0), (1.05, 118.0), (1.1, 125.0), (1.16, 150.0)]
    curve = bench(BEST, *(Partial(height_m=h, load_kg=kg) for h, kg in points))
    assert curve.at([h for h, _ in points]).tolist() == pytest.approx([kg for _, kg in points])
    above = curve.best_kg[curve.height_m >= curve.weakest_m]
    assert np.all(np.diff(above) >= -1e-9)


def test_partial_a_little_above_the_full_best_keeps_the_weakest_height_below_it() -> None:
    curve = bench(BEST, Partial(height_m=0.92, load_kg=102.0))
    assert curve.weakest_m < 0.92
    assert float(np.min(curve.best_kg[curve.height_m >= 0.92 - 1e-9])) == pytest.approx(102.0)
    assert curve.full_range_kg == pytest.approx(100.0)


def test_an_uncertain_height_is_an_uncertain_load() -> None:
    sharp = bench(BEST, Partial(height_m=1.05, load_kg=120.0, height_u_m=0.0))
    loose = bench(BEST, Partial(height_m=1.05, load_kg=120.0, height_u_m=0.02))
    assert width_at(sharp, 1.05) == pytest.approx(4 * 2.4)
    rise = typical_for("bench press").slope * 0.02 / 0.4 * 120
    assert width_at(loose, 1.05) == pytest.approx(4 * np.hypot(2.4, rise), rel=0.01)


def test_order_of_the_pieces_does_not_matter() -> None:
    pieces: list[Evidence] = [
        BEST,
        Partial(height_m=1.1, load_kg=130.0),
        Partial(height_m=1.02, load_kg=108.0),
    ]
    one, other = bench(*pieces), bench(*reversed(pieces))
    assert other.best_kg == pytest.approx(one.best_kg)
    assert other.low_kg == pytest.approx(one.low_kg)


def test_chain_best_is_given_back_exactly_and_narrows_the_top() -> None:
    hung = HungBest(straight_kg=80.0, hung=CHAIN)
    curve = bench(BEST, hung)
    assert match(curve, CHAIN).straight_kg == pytest.approx(80.0)
    assert curve.full_range_kg == pytest.approx(100.0)
    wide = match(bench(BEST), CHAIN)
    narrow = match(curve, CHAIN)
    assert narrow.high_kg - narrow.low_kg < 0.6 * (wide.high_kg - wide.low_kg)


def test_chain_best_alone_tells_the_full_range_best_roughly() -> None:
    curve = bench(HungBest(straight_kg=80.0, hung=CHAIN))
    assert match(curve, CHAIN).straight_kg == pytest.approx(80.0)
    assert 85 < curve.full_range_kg < 115
    assert width_at(curve, 0.94) > width_at(bench(BEST), 0.94)


def test_two_chain_bests_are_both_given_back() -> None:
    heavy = LoadCurve.through([0.8, 1.2], [0.0, 66.0])
    curve = bench(
        BEST, HungBest(straight_kg=85.0, hung=CHAIN), HungBest(straight_kg=72.0, hung=heavy)
    )
    assert match(curve, CHAIN).straight_kg == pytest.approx(85.0)
    assert match(curve, heavy).straight_kg == pytest.approx(72.0)


def test_miss_pulls_the_curve_down_to_where_it_happened() -> None:
    plain, missed = bench(BEST), bench(BEST, Miss(height_m=1.05, load_kg=103.0))
    assert float(missed.at(1.05)) == pytest.approx(103.0)
    assert float(plain.at(1.05)) > 120
    assert width_at(missed, 1.05) < 0.2 * width_at(plain, 1.05)
    assert float(missed.range_at(1.0)[1]) < 115


def test_miss_off_the_chest_keeps_the_weakest_height_low() -> None:
    curve = bench(BEST, Miss(height_m=0.86, load_kg=101.0))
    assert curve.weakest_m < bench(BEST).weakest_m
    assert float(curve.range_at(0.86)[1]) < 110


def test_a_miss_far_above_the_curve_says_nothing() -> None:
    missed = bench(BEST, Miss(height_m=0.9, load_kg=150.0))
    assert missed.best_kg == pytest.approx(bench(BEST).at(missed.height_m))


def test_isometric_effort_narrows_only_loosely() -> None:
    wide = width_at(bench(BEST), 1.15)
    loose = width_at(bench(BEST, Isometric(height_m=1.15, force_n=140 * 9.80665)), 1.15)
    sharp = width_at(bench(BEST, Partial(height_m=1.15, load_kg=126.0)), 1.15)
    assert sharp < 0.3 * loose < 0.3 * wide


def test_isometric_with_a_measured_ratio_counts_for_more() -> None:
    own = Isometric(
        height_m=1.15, force_n=150 * 9.80665, share_low=0.85, share=0.9, share_high=0.95
    )
    curve = bench(BEST, own)
    low, high = curve.range_at(1.15)
    assert low == pytest.approx(0.85 * 150, rel=0.06)
    assert high == pytest.approx(0.95 * 150, rel=0.06)
    assert float(curve.at(1.15)) == pytest.approx(135.0, rel=0.02)


def test_isometric_alone_gives_a_curve() -> None:
    curve = bench(Isometric(height_m=1.0, force_n=120 * 9.80665))
    assert float(curve.at(1.0)) == pytest.approx(0.9 * 120, rel=0.01)


def test_a_set_stands_for_the_median_of_the_formulas_with_more_doubt() -> None:
    piece = FullRange(load_kg=85.0, reps=5)
    curve = bench(piece)
    assert curve.full_range_kg == pytest.approx(best_of(piece).middle_kg)
    assert width_at(curve, 0.94) > width_at(bench(BEST), 0.94)
    assert np.all(curve.low_kg >= 85.0 - 1e-9)
    assert "set" in {remark.code for remark in curve.remarks}


def test_a_long_set_is_at_least_its_own_load() -> None:
    curve = bench(FullRange(load_kg=50.0, reps=28))
    assert float(np.min(curve.low_kg)) == pytest.approx(50.0)


def test_a_single_goes_before_a_set() -> None:
    curve = bench(FullRange(load_kg=85.0, reps=5), BEST)
    assert curve.full_range_kg == pytest.approx(100.0)


def test_the_better_of_two_singles_is_the_best() -> None:
    curve = bench(FullRange(load_kg=98.0), BEST)
    assert curve.full_range_kg == pytest.approx(100.0)
    assert "several bests" in {remark.code for remark in curve.remarks}


def test_a_lift_that_was_no_best_is_only_a_lower_bound() -> None:
    easy = Partial(height_m=1.05, load_kg=130.0, maximal=False)
    curve = bench(BEST, easy)
    low, high = curve.range_at(1.05)
    assert float(curve.at(1.05)) >= 130.0
    assert low > 120
    assert high == pytest.approx(float(bench(BEST).range_at(1.05)[1]), rel=0.01)
    assert "lift, not best" in {remark.code for remark in curve.remarks}


def test_a_chain_lift_that_was_no_best_is_only_a_lower_bound() -> None:
    easy = HungBest(straight_kg=90.0, hung=CHAIN, maximal=False)
    assert match(bench(BEST, easy), CHAIN).straight_kg >= 90.0 - 1e-9


def test_partial_that_shows_less_within_its_doubt_leaves_the_full_best_and_is_named() -> None:
    curve = bench(BEST, Partial(height_m=1.05, load_kg=98.5))
    assert curve.full_range_kg == pytest.approx(100.0)
    assert float(curve.at(1.05)) == pytest.approx(100.0)
    assert "partial low" in {remark.code for remark in curve.remarks}


def test_numbers_unlike_the_typical_lift_set_the_spans_aside_and_say_so() -> None:
    curve = bench(BEST, Partial(height_m=1.0, load_kg=220.0))
    assert float(curve.at(1.0)) == pytest.approx(220.0)
    assert "not typical" in {remark.code for remark in curve.remarks}


def test_zero_uncertainty_is_taken_at_its_word() -> None:
    curve = bench(
        FullRange(load_kg=100.0, load_u_kg=0.0),
        Partial(height_m=1.1, load_kg=130.0, load_u_kg=0.0, height_u_m=0.0),
    )
    low, high = curve.range_at(1.1)
    assert (float(low), float(high)) == pytest.approx((130.0, 130.0))
    assert float(np.min(curve.low_kg)) == pytest.approx(100.0)


def test_partial_at_the_bottom_is_the_full_range() -> None:
    curve = bench(Partial(height_m=0.8, load_kg=100.0))
    assert curve.full_range_kg == pytest.approx(100.0)


def test_samples_spread_about_the_best_curve() -> None:
    curve = bench(BEST, Partial(height_m=1.05, load_kg=120.0))
    drawn = curve.samples(600, seed=3)
    at = int(np.argmin(np.abs(curve.height_m - 1.05)))
    assert np.mean(drawn[:, at]) == pytest.approx(120.0, rel=0.01)
    assert np.std(drawn[:, at]) == pytest.approx(0.0245 * 120.0, rel=0.25)
    full = np.min(drawn, axis=1)
    assert np.mean(full) == pytest.approx(100.0, rel=0.01)
    assert np.std(full) == pytest.approx(1.8, abs=0.4)


def test_samples_of_one_number_reach_far_into_the_range() -> None:
    curve = bench(BEST)
    drawn = curve.samples(600)[:, -1]
    low, high = curve.range_at(1.2)
    assert np.quantile(drawn, 0.95) - np.quantile(drawn, 0.05) > 0.4 * float(high - low)


def test_samples_of_one_number_crowd_about_the_typical_lockout() -> None:
    """Two of three within 20 % of the best either way; evenly spread shapes would take 30 %."""
    drawn = bench(BEST).samples(600)[:, -1]
    low, middle, high = np.quantile(drawn, [0.16, 0.5, 0.84])
    assert middle == pytest.approx(139.6, rel=0.03)
    assert 30 < high - low < 50


def test_other_seeds_draw_other_curves() -> None:
    curve = bench(BEST)
    assert not np.array_equal(curve.samples(5, seed=1), curve.samples(5, seed=2))


def test_refuses_no_samples() -> None:
    with pytest.raises(BadInputError, match="At least one sample"):
        bench(BEST).samples(0)


@pytest.mark.parametrize("heights", [0.79, [0.9, 1.21], np.nan])
def test_refuses_heights_outside_the_lift(heights: object) -> None:
    curve = bench(BEST)
    with pytest.raises(BadInputError, match="outside the lift"):
        curve.at(heights)  # type: ignore[arg-type]  # what a caller may pass by mistake
    with pytest.raises(BadInputError, match="outside the lift"):
        curve.range_at(heights)  # type: ignore[arg-type]  # what a caller may pass by mistake


def test_shape_of_the_heights_is_kept() -> None:
    curve = bench(BEST)
    assert curve.at(1.0).shape == ()
    assert curve.at(np.full((2, 3), 1.0)).shape == (2, 3)
    assert curve.range_at(np.full((2, 3), 1.0))[0].shape == (2, 3)
