"""EN 818-3:1999, Short link chain for lifting purposes, grade 4.

Seen: table 5 (working load limits) and the design stress of 400 N/mm2 read in a copy of the text.
"""

from __future__ import annotations

import math

import pytest

from topheavy.catalogue.rating import chain_rating
from topheavy.catalogue.table import find_rows
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2

TABLE_5_TONNES = {
    7: 0.75,
    8: 1.0,
    10: 1.6,
    13: 2.65,
    16: 4.0,
    18: 5.0,
    19: 5.6,
    20: 6.3,
    22: 7.5,
    26: 10.6,
}


def test_every_row_is_that_of_table_5() -> None:
    """Limits to the last digit, pitch three wires."""
    rows = find_rows(standard="EN 818-3")
    limits = {round(row.wire_diameter_m * 1e3): (row.wll_kg or 0) / 1e3 for row in rows}
    assert limits == pytest.approx(TABLE_5_TONNES)
    for row in rows:
        assert row.pitch_m == pytest.approx(3 * row.wire_diameter_m), row.name


@pytest.mark.parametrize("size", TABLE_5_TONNES)
def test_a_chain_marked_grade_4_is_rated_by_table_5(size: int) -> None:
    rating = chain_rating(size / 1e3, "Grade 4")
    assert rating.wll_kg == pytest.approx(1e3 * TABLE_5_TONNES[size])


@pytest.mark.parametrize("size", TABLE_5_TONNES)
def test_limit_times_four_is_just_below_400_newton_a_square_millimetre(size: int) -> None:
    """Mean stress at the breaking force 400 N/mm2; limits are rounded down, by up to 5 %."""
    breaking_n = 4e3 * TABLE_5_TONNES[size] * STANDARD_GRAVITY_M_PER_S2
    stress = breaking_n / (2 * math.pi * size**2 / 4)
    assert 380 < stress <= 400
