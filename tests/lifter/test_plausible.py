"""Plausible lifters: they move as measured ones do, and what is seen narrows them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.lifter.effort import heaviest_straight_kg
from topheavy.lifter.motion.columns import spread_of
from topheavy.lifter.motion.inputs import OnBar, RepLifter, StrengthRows
from topheavy.lifter.motion_model import BENCH, MODELS, Motion, MotionModel
from topheavy.lifter.plausible import (
    Seen,
    fitting,
    narrowed,
    plausible,
    plausible_with,
    spread_reps,
    tuned_to_best_speed,
)
from topheavy.lifter.velocity import LINES, plain_reps, speed_of
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
HEAVY = OnBar(
    straight_kg=100.0, hung=LoadCurve.through([0.8, 1.2], [0.0, 60.0]), name="heavy chain"
)


@pytest.mark.parametrize("model", tuple(MODELS.values()), ids=lambda m: m.pattern)
def test_they_lift_plain_weight_as_measured_lifters_do(model: MotionModel) -> None:
    """Mean speed within the line's error of the line, and not spread wider than lifters are."""
    line = LINES[model.pattern]
    lifters = plausible(model, 150, seed=4)
    assert lifters.count == 150
    for share in (0.5, 0.7, 0.9, 1.0):
        ascents = plain_reps(lifters, share, model.travel_m.value)
        assert ascents.completed.all()
        speed = speed_of(ascents, line.kind)
        assert abs(float(np.mean(speed)) - float(line.speed_at(share))) < line.error_m_per_s
        assert float(np.std(speed)) < 1.2 * line.error_m_per_s


def test_they_differ_in_what_the_line_does_not_tell() -> None:
    lifters = plausible(BENCH, 150)
    low, _, high = spread_of(np.asarray(lifters.top_surplus))
    number = BENCH.numbers["top_surplus"]
    assert high - low > 0.4 * (number.high - number.low)


def test_the_same_seed_gives_the_same_lifters() -> None:
    one, two, other = plausible(BENCH, 20, 1), plausible(BENCH, 20, 1), plausible(BENCH, 20, 2)
    assert np.array_equal(np.asarray(one.reserve), np.asarray(two.reserve))
    assert not np.array_equal(np.asarray(one.reserve), np.asarray(other.reserve))


def test_the_travel_at_hand_is_matched() -> None:
    lifters = plausible(BENCH, 60, travel_m=0.34)
    speed = speed_of(plain_reps(lifters, 0.7, 0.34), "propulsive")
    assert float(np.mean(speed)) == pytest.approx(0.62, abs=0.06)


def test_a_travel_that_no_measured_lifter_had_is_refused() -> None:
    with pytest.raises(BadInputError) as error:
        plausible(BENCH, 50, travel_m=0.05)
    assert error.value.field == "travel_m"


def test_one_missed_rep_with_heavy_chain_narrows_the_limit() -> None:
    lifters = plausible(BENCH, 120)

    def width(some: Motion) -> float:
        most = heaviest_straight_kg(LIFTER, [HEAVY], some, 1e-3)[0]
        low, _, high = spread_of(most)
        return high - low

    missed = narrowed(LIFTER, lifters, Seen(on_bar=HEAVY, completed=False))
    made = narrowed(LIFTER, lifters, Seen(on_bar=HEAVY, completed=True))
    assert missed.count + made.count == 120
    assert min(missed.count, made.count) > 10
    assert max(width(missed), width(made)) < 0.85 * width(lifters)


def test_where_it_stopped_narrows_where_strength_is_least() -> None:
    lifters = plausible(BENCH, 120)
    tried = OnBar(straight_kg=1.04 * 120.0)
    low = narrowed(
        LIFTER, lifters, Seen(on_bar=tried, completed=False, stuck_at_m=0.87, within_m=0.02)
    )
    high = narrowed(
        LIFTER, lifters, Seen(on_bar=tried, completed=False, stuck_at_m=0.93, within_m=0.02)
    )
    assert np.mean(low.dip_at) < np.mean(high.dip_at)


def test_what_no_lifter_does_is_a_contradiction() -> None:
    with pytest.raises(BadInputError) as error:
        narrowed(
            LIFTER, plausible(BENCH, 20), Seen(on_bar=OnBar(straight_kg=60.0), completed=False)
        )
    assert error.value.field == "seen"
    with pytest.raises(BadInputError):
        narrowed(
            LIFTER, plausible(BENCH, 20), Seen(on_bar=OnBar(straight_kg=170.0), completed=True)
        )


@pytest.mark.parametrize("speed", [0.08, 0.16, 0.25])
def test_a_lifters_own_1rm_speed_can_be_set(speed: float) -> None:
    tuned = tuned_to_best_speed(BENCH.typical(), speed, 0.40)
    ascent = plain_reps(tuned, 1.0, 0.40)
    assert ascent.mean_m_per_s[0] == pytest.approx(speed, abs=2e-3)
    assert replace(tuned, reserve=BENCH.typical().reserve) == BENCH.typical()


@pytest.mark.parametrize("speed", [0.0, 2.0])
def test_a_1rm_does_not_fly(speed: float) -> None:
    with pytest.raises(BadInputError) as error:
        tuned_to_best_speed(BENCH.typical(), speed, 0.40)
    assert error.value.field == "speed_m_per_s"


def test_the_spread_of_a_rep_leaves_missed_ones_out() -> None:
    ascents = spread_reps(LIFTER, HEAVY, plausible(BENCH, 60))
    assert 0 < np.mean(ascents.completed) < 1
    speed = np.where(ascents.completed, ascents.mean_m_per_s, np.nan)
    low, middle, high = spread_of(speed)
    assert low < middle < high
    assert np.isnan(spread_of(np.full(3, np.nan))).all()


CURVES = StrengthRows(
    np.array([0.8, 0.92, 1.2]),
    np.array([[140.0, 120.0, low] for low in (130.0, 150.0, 200.0)]),
)


def test_each_has_a_strength_curve_of_those_given_and_lifts_as_measured() -> None:
    lifter = replace(LIFTER, strength=CURVES)
    lifters, rows = plausible_with(BENCH, 80, lifter, seed=3)
    assert lifters.count == len(rows.strength_kg) == 80
    ends = set(rows.at([1.2])[:, 0].round(6).tolist())
    assert ends <= {130.0, 150.0, 200.0}
    assert len(ends) > 1
    own = replace(LIFTER, strength=rows)
    line = LINES[BENCH.pattern]
    for share in (0.5, 0.7, 0.9, 1.0):
        ascents = spread_reps(own, OnBar(straight_kg=share * 120.0), lifters)
        assert ascents.completed.all()
        speed = speed_of(ascents, line.kind)
        assert abs(float(np.mean(speed)) - float(line.speed_at(share))) < line.error_m_per_s


def test_curves_unlike_any_lifter_are_refused() -> None:
    """Strength that only just starts a 1RM moves nothing as measured lifters do."""
    odd = StrengthRows(np.array([0.8, 0.81, 1.2]), np.array([[120.0, 900.0, 900.0]]))
    with pytest.raises(BadInputError):
        plausible_with(BENCH, 50, replace(LIFTER, strength=odd))


def test_fitting_tells_whom_narrowing_keeps() -> None:
    lifters = plausible(BENCH, 60)
    seen = Seen(on_bar=HEAVY, completed=False)
    fits = fitting(LIFTER, lifters, seen)
    assert 0 < fits.sum() < 60
    kept = narrowed(LIFTER, lifters, seen)
    assert np.array_equal(np.asarray(kept.reserve), np.asarray(lifters.reserve)[fits])


def test_a_strength_curve_of_ones_own_can_be_tuned_too() -> None:
    curve = StrengthRows(np.array([0.8, 0.95, 1.2]), np.array([[150.0, 120.0, 170.0]]))
    lifter = replace(LIFTER, strength=curve)
    tuned = tuned_to_best_speed(BENCH.typical(), 0.15, lifter.travel_m, lifter)
    best = spread_reps(lifter, OnBar(straight_kg=120.0), tuned)
    assert float(best.mean_m_per_s[0]) == pytest.approx(0.15, abs=0.005)
    shape = tuned_to_best_speed(BENCH.typical(), 0.15, lifter.travel_m)
    assert float(np.asarray(tuned.reserve)) != float(np.asarray(shape.reserve))


def test_each_may_have_a_straight_weight_of_its_own() -> None:
    lifters = plausible(BENCH, 3)
    loads = np.array([60.0, 90.0, 110.0])
    together = spread_reps(LIFTER, OnBar(straight_kg=0.0), lifters, loads)
    alone = spread_reps(LIFTER, OnBar(straight_kg=90.0), lifters.taken([1]))
    assert float(together.mean_m_per_s[1]) == pytest.approx(float(alone.mean_m_per_s[0]), rel=1e-6)
