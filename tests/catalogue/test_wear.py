"""Wear against nominal size."""

from __future__ import annotations

import pytest

from topheavy.catalogue.table import find_rows
from topheavy.catalogue.wear import LONGEST_PITCH, MOST_LOST_SECTION, wear_of
from topheavy.errors import BadInputError

(ROW,) = find_rows(standard="DIN 764", trade_size_m=0.016)


def judge(wire_m: float, pitch_m: float, wire_u_m: float = 0.0, pitch_u_m: float = 0.0) -> str:
    return wear_of(
        ROW,
        wire_diameter_m=wire_m,
        pitch_m=pitch_m,
        wire_u_m=wire_u_m,
        pitch_u_m=pitch_u_m,
    ).judgement


def test_new_chain_is_within_limits_even_by_crude_calipers() -> None:
    assert judge(0.016, 0.056, 3e-4, 2e-4) == "within limits"


def test_each_limit_retires_on_its_own() -> None:
    assert judge(0.016, 0.056 * (1 + LONGEST_PITCH)) == "retire"
    assert judge(0.016 * (1 - MOST_LOST_SECTION) ** 0.5, 0.056) == "retire"
    assert judge(0.016, 0.056 * (1 + LONGEST_PITCH - 1e-4)) == "within limits"
    assert judge(0.016 * (1 - MOST_LOST_SECTION + 1e-3) ** 0.5, 0.056) == "within limits"


def test_wire_at_the_edge_of_its_tolerance_when_new_is_not_retired() -> None:
    """DIN 764 lets 16 mm wire be 15.4 mm and the pitch be 57 mm (read in a maker's table)."""
    assert judge(0.0154, 0.057) == "within limits"


def test_a_limit_inside_the_readings_doubt_asks_for_a_finer_look() -> None:
    assert judge(0.016, 0.0572, pitch_u_m=3e-4) == "inspect"
    assert judge(0.0156, 0.056, wire_u_m=3e-4) == "inspect"


def test_the_reasons_carry_the_figures() -> None:
    wear = wear_of(ROW, wire_diameter_m=0.0153, pitch_m=0.0585)
    assert wear.pitch_growth == pytest.approx(0.0446, abs=1e-4)
    assert wear.lost_section == pytest.approx(0.0856, abs=1e-4)
    assert wear.reasons[0] == "pitch 4.5 % longer than nominal, limit 3 %"
    assert wear.reasons[1] == "wire section 8.6 % below nominal, limit 10 %"


def test_a_chain_far_from_nominal_may_be_another_one() -> None:
    other = wear_of(ROW, wire_diameter_m=0.013, pitch_m=0.045)
    same = wear_of(ROW, wire_diameter_m=0.0155, pitch_m=0.058)
    assert "another chain" in other.reasons[-1]
    assert "another chain" not in same.reasons[-1]


def test_wear_needs_a_pitch_and_real_readings() -> None:
    (bare,) = find_rows(grade="70", trade_size_m=0.015875)
    with pytest.raises(BadInputError):
        wear_of(bare, wire_diameter_m=0.016, pitch_m=0.056)
    for wire_m, pitch_m, u_m in ((0.0, 0.056, 0.0), (0.016, -1.0, 0.0), (0.016, 0.056, -1e-4)):
        with pytest.raises(BadInputError):
            wear_of(ROW, wire_diameter_m=wire_m, pitch_m=pitch_m, wire_u_m=u_m)
