"""Laws of the load curve that hold for any sum of strands and lumps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import trapezoid

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.mechanics.curve import LoadCurve


def millimetres(low: int, high: int) -> st.SearchStrategy[float]:
    """Lengths as a tape gives them [m]."""
    return st.integers(low, high).map(lambda mm: mm / 1000)


STRANDS = st.builds(
    LoadCurve.strand, st.floats(0.0, 25.0), millimetres(0, 3000), millimetres(-500, 2500)
)
LUMPS = st.builds(LoadCurve.lump, st.floats(0.0, 3.0), millimetres(0, 2500))
PLAIN = st.builds(LoadCurve.constant, st.floats(0.0, 300.0))
CURVES = st.lists(st.one_of(STRANDS, LUMPS, PLAIN), min_size=1, max_size=6).map(LoadCurve.total)
HEIGHTS = millimetres(-1000, 3500)
TRAVELS = st.tuples(HEIGHTS, HEIGHTS).filter(lambda ends: ends[0] < ends[1])


def near(value: float) -> object:
    return pytest.approx(value, rel=1e-9, abs=1e-9)


@given(st.lists(CURVES, min_size=1, max_size=4), HEIGHTS)
def test_sum_is_the_pointwise_sum(curves: list[LoadCurve], height_m: float) -> None:
    wanted = sum(float(curve.at(height_m)) for curve in curves)
    assert float(LoadCurve.total(curves).at(height_m)) == near(wanted)


@given(CURVES, CURVES)
def test_adding_in_either_order_is_the_same(one: LoadCurve, other: LoadCurve) -> None:
    assert (one + other).worst_gap(other + one, -1.0, 4.0) == near(0.0)


@given(CURVES, TRAVELS)
def test_mean_is_the_dense_numerical_integral(
    curve: LoadCurve, travel: tuple[float, float]
) -> None:
    """Trapezoids on a rising curve err by at most half a step times its whole rise."""
    bottom_m, top_m = travel
    heights = np.linspace(bottom_m, top_m, 4001)
    loads = curve.at(heights)
    wanted = float(trapezoid(loads, heights)) / (top_m - bottom_m)
    allowed = 0.5 * (loads[-1] - loads[0]) / 4000
    assert curve.mean(bottom_m, top_m) == pytest.approx(wanted, abs=allowed + 1e-9)


@given(CURVES, TRAVELS)
def test_mean_lies_between_the_loads_at_the_ends(
    curve: LoadCurve, travel: tuple[float, float]
) -> None:
    low, high = curve.at(travel)
    assert low - 1e-9 <= curve.mean(*travel) <= high + 1e-9


@given(CURVES, HEIGHTS, HEIGHTS, HEIGHTS)
def test_integrals_join_and_turn_their_sign(curve: LoadCurve, a: float, b: float, c: float) -> None:
    whole = float(curve.integral(a, c))
    assert float(curve.integral(a, b)) + float(curve.integral(b, c)) == near(whole)
    assert float(curve.integral(c, a)) == near(-whole)


@given(CURVES, TRAVELS)
def test_work_is_gravity_times_mean_times_travel(
    curve: LoadCurve, travel: tuple[float, float]
) -> None:
    wanted = STANDARD_GRAVITY_M_PER_S2 * curve.mean(*travel) * (travel[1] - travel[0])
    assert curve.work_j(*travel) == near(wanted)


@given(CURVES, TRAVELS)
def test_load_never_falls_on_the_way_up(curve: LoadCurve, travel: tuple[float, float]) -> None:
    assert curve.never_falls
    low, high = curve.at(travel)
    assert low <= high + 1e-9


@given(CURVES, st.floats(0.0, 1.0))
def test_inverse_round_trip(curve: LoadCurve, share: float) -> None:
    """At the height found the load is reached, and nowhere lower."""
    least, most = float(curve.at(-5.0)), float(curve.at(9.0))
    load_kg = least + share * (most - least)
    assume(least < load_kg < most)
    found = float(curve.height_of(load_kg))
    assert float(curve.at(found)) <= load_kg + 1e-9
    assert float(curve.at(found + 1e-7)) >= load_kg - 1e-9


@given(CURVES)
def test_inverse_outside_the_curve(curve: LoadCurve) -> None:
    least, most = float(curve.at(-5.0)), float(curve.at(9.0))
    assert float(curve.height_of(least - 1)) == -np.inf
    assert np.isnan(float(curve.height_of(most + 1)))


@given(STRANDS, st.floats(0.01, 0.99))
def test_inverse_of_a_strand_is_exact(strand: LoadCurve, share: float) -> None:
    low, high = strand.height_m[0], strand.height_m[-1]
    height_m = low + share * (high - low)
    load_kg = float(strand.at(height_m))
    assume(load_kg > 1e-6)
    assert float(strand.height_of(load_kg)) == pytest.approx(height_m, abs=1e-9)


@given(CURVES, HEIGHTS, millimetres(-1000, 1000))
def test_raising_the_floor_shifts_the_curve(curve: LoadCurve, height_m: float, by_m: float) -> None:
    assume(np.min(np.abs(curve.height_m - height_m)) > 1e-6)
    assert float(curve.raised(by_m).at(height_m + by_m)) == near(float(curve.at(height_m)))


@given(CURVES, st.floats(-3.0, 3.0), HEIGHTS)
def test_a_factor_multiplies_every_load(curve: LoadCurve, factor: float, height_m: float) -> None:
    assert float((factor * curve).at(height_m)) == near(factor * float(curve.at(height_m)))


@given(CURVES, HEIGHTS)
def test_slope_is_the_rise_over_a_short_step(curve: LoadCurve, height_m: float) -> None:
    assume(np.min(np.abs(curve.height_m - height_m)) > 2e-4)
    rise = float(curve.at(height_m + 1e-4) - curve.at(height_m)) / 1e-4
    assert float(curve.slope_at(height_m)) == pytest.approx(rise, abs=1e-6)


@given(CURVES, CURVES, TRAVELS)
def test_worst_gap_bounds_every_gap_and_is_met(
    one: LoadCurve, other: LoadCurve, travel: tuple[float, float]
) -> None:
    heights = np.linspace(*travel, 501)
    knots = np.concatenate([one.height_m, other.height_m])
    inside = knots[(knots >= travel[0]) & (knots < travel[1])]
    heights = np.concatenate([heights, inside, inside + 1e-9])
    gaps = np.abs(one.at(heights) - other.at(heights))
    worst = one.worst_gap(other, *travel)
    assert worst == pytest.approx(other.worst_gap(one, *travel), abs=1e-9)
    assert np.max(gaps) == pytest.approx(worst, abs=1e-6)
    assert one.worst_gap(one, *travel) == near(0.0)
