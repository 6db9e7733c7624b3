"""ASTM A413/A413M, Standard Specification for Carbon Steel Chain (editions 07 and 21).

Seen: scope 1.1 to 1.4 read. Grade = breaking force [kN] / (0.005 pi d2 [mm2]). Design factors 4
(Grade 30) read in a supplier's table.
"""

from __future__ import annotations

import math

import pytest

from topheavy.catalogue.rating import NOT_OVERHEAD, overhead_caution
from topheavy.catalogue.table import ChainRow, find_rows
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2


def test_its_three_grades_are_not_for_overhead_lifting() -> None:
    """Scope 1.1 and 1.2: Grade 30 proof coil, 43 high test, 70 transport."""
    assert {"30", "43", "70"} == NOT_OVERHEAD
    for grade in ("30", "43", "70", ""):
        assert "not for overhead lifting (ASTM A413)" in overhead_caution(grade)


@pytest.mark.parametrize("row", find_rows(standard="A413", grade="30"), ids=lambda row: row.name)
def test_wire_and_limit_of_grade_30_fit_the_definition_of_a_grade(row: ChainRow) -> None:
    """Scope 1.4.1, factor 4: 30 within 2 %, since limits are rounded to 100 lb.

    It checks wire sizes that are from memory against limits that were read. Wire of Grades 43 and
    70 is left out: it agrees with this formula to 0.2 %, closer than rounded sizes can, so it was
    likely computed from it and checks nothing.
    """
    assert row.wll_kg is not None
    breaking_kn = 4 * row.wll_kg * STANDARD_GRAVITY_M_PER_S2 / 1e3
    grade = breaking_kn / (0.005 * math.pi * (row.wire_diameter_m * 1e3) ** 2)
    assert grade == pytest.approx(30, rel=0.02)
