"""The load curve: values at chosen heights, jumps, areas, inverse, and what it refuses."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.curve import LoadCurve

STRAND = LoadCurve.strand(5.0, 1.0, 0.4)


def test_strand_is_clipped_at_floor_and_full_length() -> None:
    assert STRAND.at([-1.0, 0.4, 0.9, 1.4, 3.0]).tolist() == pytest.approx([0, 0, 2.5, 5, 5])


def test_strand_without_length_weighs_nothing() -> None:
    assert LoadCurve.strand(5.0, 0.0, 0.4).at([0.0, 1.0]).tolist() == [0.0, 0.0]


def test_at_keeps_the_shape_of_the_heights() -> None:
    assert STRAND.at(0.9).shape == ()
    assert STRAND.at(np.full((2, 3), 0.9)).shape == (2, 3)


def test_lump_rests_on_the_floor_at_its_offset_and_hangs_above() -> None:
    lump = LoadCurve.lump(0.5, 0.8)
    assert lump.at([0.7, 0.8, 0.8 + 1e-9, 2.0]).tolist() == [0.0, 0.0, 0.5, 0.5]


def test_two_lumps_on_one_knot_jump_together() -> None:
    both = LoadCurve.lump(0.5, 0.8) + LoadCurve.lump(0.25, 0.8)
    assert both.height_m.tolist() == [0.8]
    assert both.at([0.8, 0.9]).tolist() == [0.0, 0.75]


def test_total_of_nothing_is_no_load() -> None:
    assert LoadCurve.total([]).at([0.0, 1.0]).tolist() == [0.0, 0.0]


def test_sum_keeps_every_breakpoint() -> None:
    total = STRAND + LoadCurve.strand(2.0, 0.3, 0.5) + LoadCurve.lump(0.5, 1.0)
    assert total.height_m.tolist() == pytest.approx([0.4, 0.5, 0.8, 1.0, 1.4])
    assert float(total.at(0.7)) == pytest.approx(5 * 0.3 + 2 * 0.2)
    assert float(total.at(1.2)) == pytest.approx(5 * 0.8 + 2 * 0.3 + 0.5)


def test_times_a_factor_from_either_side() -> None:
    assert float((2 * STRAND).at(0.9)) == float((STRAND * 2).at(0.9)) == pytest.approx(5.0)


def test_raised_is_the_same_load_so_much_higher() -> None:
    assert STRAND.raised(0.25).at([0.65, 1.15]).tolist() == pytest.approx([0.0, 2.5])


def test_slope_is_zero_on_the_floor_then_density_then_zero() -> None:
    assert STRAND.slope_at([0.3, 0.4, 1.0, 1.4, 2.0]).tolist() == pytest.approx([0, 5, 5, 0, 0])


def test_slope_leaves_jumps_out() -> None:
    assert (STRAND + LoadCurve.lump(3.0, 0.9)).slope_at([0.9, 1.0]).tolist() == pytest.approx(
        [5, 5]
    )


def test_slope_survives_knots_that_differ_by_rounding() -> None:
    """0.1 + 0.2 is one bit above 0.3; the plates' weight swamps what lies between them."""
    curve = LoadCurve.strand(5, 1, 0.1 + 0.2) + LoadCurve.strand(5, 1, 0.3)
    heavy = curve + LoadCurve.constant(200.0)
    assert heavy.slope_at([0.2, 0.3, 0.5, 1.4]).tolist() == pytest.approx([0, 10, 10, 0])


def test_integral_against_quadrature_through_a_jump() -> None:
    curve = STRAND + LoadCurve.lump(3.0, 0.9)
    wanted, error = quad(lambda z: float(curve.at(z)), 0.1, 1.7, points=[0.4, 0.9, 1.4])
    assert float(curve.integral(0.1, 1.7)) == pytest.approx(wanted, abs=10 * error)
    assert float(curve.integral(1.7, 0.1)) == pytest.approx(-wanted, abs=10 * error)


def test_integral_below_the_first_and_above_the_last_knot() -> None:
    shelf = STRAND + LoadCurve.constant(20.0)
    assert float(shelf.integral(-1.0, 0.2)) == pytest.approx(24.0)
    assert float(shelf.integral(2.0, 3.0)) == pytest.approx(25.0)


def test_integral_across_a_jump_at_the_first_knot() -> None:
    lump = LoadCurve.lump(0.5, 0.8)
    assert lump.integral(0.2, [0.6, 0.8, 1.0]).tolist() == pytest.approx([0.0, 0.0, 0.1])


def test_mean_and_work_of_plain_weight() -> None:
    plain = LoadCurve.constant(100.0)
    assert plain.mean(0.5, 0.9) == pytest.approx(100.0)
    assert plain.work_j(0.5, 0.9) == pytest.approx(100 * STANDARD_GRAVITY_M_PER_S2 * 0.4)


def test_mean_of_a_strand_lifted_whole_is_half_its_mass() -> None:
    assert STRAND.mean(0.4, 1.4) == pytest.approx(2.5)


def test_height_of_a_load() -> None:
    curve = STRAND + LoadCurve.constant(20.0)
    found = curve.height_of([19.0, 20.0, 22.5, 25.0, 25.1])
    assert found[:4].tolist() == pytest.approx([-math.inf, -math.inf, 0.9, 1.4])
    assert math.isnan(found[4])


def test_height_of_a_load_inside_a_jump_is_the_jump() -> None:
    assert float(LoadCurve.lump(0.5, 0.8).height_of(0.3)) == pytest.approx(0.8)


def test_height_of_a_load_on_a_shelf_is_where_the_shelf_begins() -> None:
    shelf = LoadCurve.strand(5, 0.2, 0.0) + LoadCurve.strand(5, 0.2, 0.6)
    assert float(shelf.height_of(1.0)) == pytest.approx(0.2)


def test_a_falling_curve_has_no_inverse() -> None:
    with pytest.raises(BadInputError, match="no inverse"):
        (-1.0 * STRAND).height_of(1.0)


def test_worst_gap_sees_a_jump_that_no_height_carries() -> None:
    """Just above 0.8 the lump is there already and the strand is not: the gap is the lump."""
    gap = LoadCurve.lump(0.5, 0.8).worst_gap(LoadCurve.strand(5.0, 0.1, 0.8), 0.2, 1.2)
    assert gap == pytest.approx(0.5)


def test_worst_gap_sees_a_jump_at_the_bottom_itself() -> None:
    gap = LoadCurve.lump(0.5, 0.8).worst_gap(LoadCurve.strand(5.0, 0.1, 0.8), 0.8, 1.2)
    assert gap == pytest.approx(0.5)


def test_worst_gap_counts_only_the_travel() -> None:
    assert STRAND.worst_gap(LoadCurve.constant(0.0), 0.4, 0.9) == pytest.approx(2.5)


@pytest.mark.parametrize("method", ["mean", "work_j"])
@pytest.mark.parametrize(("bottom_m", "top_m"), [(0.9, 0.5), (0.5, 0.5), (math.nan, 0.5)])
def test_bottom_must_be_below_top(method: str, bottom_m: float, top_m: float) -> None:
    with pytest.raises(BadInputError) as caught:
        getattr(STRAND, method)(bottom_m, top_m)
    assert caught.value.field == "bottom_m"
    assert caught.value.wanted == "bottom < top"
    assert f"{bottom_m:g}" in str(caught.value.got)


@pytest.mark.parametrize(
    ("knots", "below", "above", "message"),
    [
        ([], [], [], "one load below and above"),
        ([0.0, 1.0], [0.0], [0.0, 1.0], "one load below and above"),
        ([[0.0]], [[0.0]], [[0.0]], "one load below and above"),
        ([0.0, math.nan], [0.0, 1.0], [0.0, 1.0], "finite"),
        ([0.0, 1.0], [0.0, math.inf], [0.0, 1.0], "finite"),
        ([1.0, 0.0], [0.0, 1.0], [0.0, 1.0], "must rise"),
        ([1.0, 1.0], [0.0, 1.0], [0.0, 1.0], "must rise"),
    ],
)
def test_malformed_curves_are_refused(
    knots: list[float], below: list[float], above: list[float], message: str
) -> None:
    with pytest.raises(BadInputError, match=message):
        LoadCurve(np.array(knots), np.array(below), np.array(above))


def test_a_curve_can_not_be_changed_from_outside() -> None:
    knots = np.array([0.0, 1.0])
    curve = LoadCurve.through(knots, [0.0, 5.0])
    knots[0] = -9.0
    assert float(curve.at(0.5)) == pytest.approx(2.5)
    with pytest.raises(ValueError, match="read-only"):
        curve.height_m[0] = -9.0
