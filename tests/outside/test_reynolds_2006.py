"""Chest press 1RM from a five-repetition maximum.

Reynolds JM, Gordon TJ, Robergs RA. Prediction of one repetition maximum strength from multiple
repetition maximum testing and anthropometry. J Strength Cond Res 20(3): 584-592, 2006. Seen:
abstract. 70 people of 18 to 69 years: 1RM = 1.1307 x 5RM + 0.6999 kg, standard error of estimate
2.98 kg; no more than ten repetitions should be used in linear equations.
"""

from __future__ import annotations

import pytest

from topheavy.lifter.one_rm import one_rm

ERROR_KG = 2.98


@pytest.mark.parametrize("five_kg", [20.0, 40.0, 60.0, 80.0, 100.0])
def test_middle_of_the_formulas_lies_within_two_standard_errors(five_kg: float) -> None:
    best = one_rm(five_kg, 5)
    regression_kg = 1.1307 * five_kg + 0.6999
    assert best.middle_kg == pytest.approx(regression_kg, abs=2 * ERROR_KG)
    assert best.middle_kg == pytest.approx(regression_kg, abs=2 * best.u_kg)


def test_uncertainty_of_a_set_of_five_is_like_the_regression_error() -> None:
    """2.98 kg, over a 1RM of 50 to 75 kg (the abstract gives no mean): 4 to 6 %."""
    best = one_rm(55.0, 5)
    assert 0.04 < best.u_kg / best.middle_kg < 0.06


def test_more_than_ten_repetitions_carry_a_caveat() -> None:
    assert one_rm(50.0, 11).caveats
    assert not one_rm(50.0, 10).caveats
