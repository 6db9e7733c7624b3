"""Which published chain a measured one is."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.catalogue.nearest import PITCH_TOLERANCE, WIRE_TOLERANCE, nearest_rows
from topheavy.catalogue.table import ChainRow, all_rows

WITH_PITCH = [row for row in all_rows() if row.pitch_m is not None]


@given(row=st.sampled_from(WITH_PITCH), wire=st.floats(-0.01, 0.01), pitch=st.floats(-0.01, 0.01))
def test_every_published_chain_is_recognised_from_fair_readings(
    row: ChainRow, wire: float, pitch: float
) -> None:
    assert row.pitch_m is not None
    found = nearest_rows(row.wire_diameter_m * (1 + wire), row.pitch_m * (1 + pitch), most=12)
    near = [(one.row.wire_diameter_m, one.row.pitch_m) for one in found if one.near]
    assert (row.wire_diameter_m, row.pitch_m) in near


def test_misses_are_given_in_metres_and_as_a_fraction() -> None:
    best = nearest_rows(0.0156, 0.057)[0]
    assert best.row.name == "DIN 764, 16 mm"
    assert best.wire_off_m == pytest.approx(-0.0004)
    assert best.pitch_off_m == pytest.approx(0.001)
    assert best.misfit_m == pytest.approx(0.001077, abs=1e-6)
    assert best.misfit == pytest.approx(0.025)


def test_nothing_near_is_said_and_still_ranked() -> None:
    found = nearest_rows(0.012, 0.080)
    assert found
    assert not any(one.near for one in found)
    assert all(one.distance > 0.7 for one in found)


def test_a_measured_width_tells_like_links_apart() -> None:
    narrow = nearest_rows(0.016, 0.056, 0.020)[0]
    assert narrow.row.short_standard == "ASTM A413"
    assert narrow.width_off_m == pytest.approx(0.0)


def test_the_best_comes_first_once_each_and_only_as_many_as_asked() -> None:
    found = nearest_rows(0.016, 0.0465, most=6)
    assert len(found) == 6
    keys = [(one.row.standard, one.row.wire_diameter_m, one.row.pitch_m) for one in found]
    assert len(set(keys)) == 6
    assert [not one.near for one in found] == sorted(not one.near for one in found)


def test_the_bounds_of_near() -> None:
    thick_m, short_m = 0.016 * (1 + WIRE_TOLERANCE), 0.056 * (1 - PITCH_TOLERANCE)
    at_bounds = nearest_rows(thick_m - 1e-9, short_m + 1e-9)
    assert at_bounds[0].row.name == "DIN 764, 16 mm"
    assert at_bounds[0].near
    beyond = nearest_rows(0.016, 0.056 * (1 + PITCH_TOLERANCE + 1e-6))
    assert not beyond[0].near
