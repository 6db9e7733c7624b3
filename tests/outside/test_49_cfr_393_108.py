"""49 CFR 393.108, working load limit of a tiedown: paragraph (d) and the table of chain.

Seen: paragraphs (a) to (d) and the whole table read, in two copies.
"""

from __future__ import annotations

import pytest

from topheavy.catalogue.rating import chain_rating
from topheavy.catalogue.sizes import chain_of_size, rows_of_size
from topheavy.catalogue.table import GRADE_MARKS, find_rows
from topheavy.units import KG_PER_LB

TABLE = [  # size in, mm, then kg and lb by grade
    ("1/4", 7, {"30": (580, 1300), "43": (1180, 2600), "70": (1430, 3150)}),
    ("5/16", 8, {"30": (860, 1900), "43": (1770, 3900), "70": (2130, 4700)}),
    ("3/8", 10, {"30": (1200, 2650), "43": (2450, 5400), "70": (2990, 6600)}),
    ("7/16", 11, {"30": (1680, 3700), "43": (3270, 7200), "70": (3970, 8750)}),
    ("1/2", 13, {"30": (2030, 4500), "43": (4170, 9200), "70": (5130, 11300)}),
    ("5/8", 16, {"30": (3130, 6900), "43": (5910, 13000), "70": (7170, 15800)}),
]
GRADE_80_LB = {"5/16": 4500, "3/8": 7100, "1/2": 12000, "5/8": 18100}
CASES = [(size, grade, kg, lb) for size, _, limits in TABLE for grade, (kg, lb) in limits.items()]


@pytest.mark.parametrize(("size", "grade", "kg", "lb"), CASES)
def test_the_limits_are_those_of_the_table(size: str, grade: str, kg: int, lb: int) -> None:
    """Kilograms to the last digit; the rule's own pounds agree with them to 2 %, rounded."""
    (row,) = rows_of_size(find_rows(standard="A413", grade=grade), size)
    assert row.wll_kg == kg
    assert row.wll_kg == pytest.approx(lb * KG_PER_LB, rel=0.02)
    assert chain_rating(row.wire_diameter_m, grade).wll_kg == kg


@pytest.mark.parametrize(("size", "pounds"), GRADE_80_LB.items())
def test_grade_80_limits_agree_in_pounds(size: str, pounds: int) -> None:
    """Two tables, the same pounds, 0.1 %; the rule's kilograms for Grade 80 are rounded down."""
    (row,) = rows_of_size(find_rows(standard="EN 818-2"), size)
    assert row.wll_kg == pytest.approx(pounds * KG_PER_LB, rel=1e-3)


@pytest.mark.parametrize(("size", "mm", "limits"), TABLE)
def test_an_unmarked_chain_has_the_limit_of_grade_30(
    size: str, mm: int, limits: dict[str, tuple[int, int]]
) -> None:
    """Paragraph (d). The table pairs 11.9 mm wire with 11 mm, so the wire is read from the row."""
    wire_m = chain_of_size(size).wire_diameter_m
    assert wire_m == pytest.approx(mm / 1e3, abs=1e-3)
    assert chain_rating(wire_m).wll_kg == limits["30"][0]


def test_marks_on_links_mean_what_the_table_says() -> None:
    """Chain mark examples 1 to 3; the mark 4 is left to EN 818-3, which uses it too."""
    examples = {
        "30": ("3", "300"),
        "43": ("430",),
        "70": ("7", "700"),
        "80": ("8", "800"),
        "100": ("10", "1000"),
    }
    assert {mark: grade for grade, marks in examples.items() for mark in marks} == GRADE_MARKS
