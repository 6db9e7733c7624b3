"""When codes retire chain.

DGUV Regel 109-004, section 7 (read): cracks, damage, growth over 5 %, bends. DGUV Information
209-021, section 2 (read), citing DIN 685:2020-08: growth of 5 % or more, mean thickness down by
more than 10 %. Michigan Administrative Code R 408.14923, table 1 (read): least size of alloy chain.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from topheavy.catalogue.table import find_rows
from topheavy.catalogue.wear import LONGEST_PITCH, MOST_LOST_SECTION, wear_of

(ROW,) = find_rows(standard="DIN 764", trade_size_m=0.016)
MICHIGAN = {  # chain size in, least allowed at any point in
    "1/4": "13/64",
    "3/8": "19/64",
    "1/2": "25/64",
    "5/8": "31/64",
    "3/4": "19/32",
    "7/8": "45/64",
    "1": "13/16",
}


def judged(thickness: float, growth: float) -> str:
    assert ROW.pitch_m is not None
    return wear_of(
        ROW,
        wire_diameter_m=ROW.wire_diameter_m * thickness,
        pitch_m=ROW.pitch_m * (1 + growth),
    ).judgement


def test_what_dguv_retires_is_retired_here() -> None:
    assert judged(1.0, 0.05) == "retire"
    assert judged(0.9, 0.0) == "retire"


@pytest.mark.parametrize(("size", "least"), MICHIGAN.items())
def test_what_the_american_table_retires_is_retired_here(size: str, least: str) -> None:
    assert judged(float(Fraction(least) / Fraction(size)), 0.0) == "retire"


def test_our_limits_are_the_stricter_ones() -> None:
    assert LONGEST_PITCH < 0.05
    assert 1 - (1 - MOST_LOST_SECTION) ** 0.5 < 0.10
