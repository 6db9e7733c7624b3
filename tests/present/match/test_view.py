"""How a rig fits a lifter, in words and figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.services.test_match import CASES, answer_of
from topheavy.present.match.view import view_match
from topheavy.present.rig.view import view_rig
from topheavy.present.rig.words import verdict, wanted
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.services.match import Fit


def fit_of(case: tuple[str, str, float]) -> Fit:
    fit = answer_of(*case).fit
    assert fit is not None
    return fit


@pytest.mark.parametrize("case", CASES)
def test_rows_go_from_bottom_to_top_and_efforts_are_load_over_strength(
    case: tuple[str, str, float],
) -> None:
    fit = fit_of(case)
    view = view_match(fit, METRIC)
    travel = fit.matching.strength.travel
    assert view.rows[0].height.value == pytest.approx(travel.bottom_m)
    assert view.rows[-1].height.value == pytest.approx(travel.top_m)
    for row in view.rows:
        assert row.effort.value == pytest.approx(row.load.value / row.likeliest.value)
        assert row.low.value <= row.likeliest.value <= row.high.value
        assert fit.name not in row.others
        for other, match in ((name, fit.sides[name]) for name in row.others):
            assert row.others[other].value <= case[2] + 2e-3, match


@pytest.mark.parametrize("case", CASES)
def test_one_side_is_the_rig_itself(case: tuple[str, str, float]) -> None:
    view = view_match(fit_of(case), METRIC)
    assert [row.chosen for row in view.sides].count(True) == 1
    for row in view.sides:
        assert row.low.value - 0.5 <= row.straight.value <= row.high.value + 0.5


def test_the_verdict_tells_this_rig_from_plain_weight() -> None:
    answer = answer_of(*CASES[0])
    said = verdict(answer, METRIC)
    fit = fit_of(CASES[0])
    assert f"{100 * fit.least:.0f} % to {100 * fit.most:.0f} % of strength" in said
    assert f"plain weight as hard would use {100 * fit.least_plain:.0f} %" in said
    assert "as near 90 % of strength" in wanted(answer, METRIC)


@pytest.mark.parametrize("case", CASES)
def test_more_is_ruled_out_only_within_the_limits(case: tuple[str, str, float]) -> None:
    answer = answer_of(*case)
    said = verdict(answer, METRIC)
    assert ("Within its limits nothing in the stock is more even." in said) != answer.meets


@pytest.mark.parametrize("case", CASES)
def test_where_no_band_stands_beside_that_is_said(case: tuple[str, str, float]) -> None:
    fit = fit_of(case)
    notes = view_match(fit, METRIC).notes
    assert any("No band beside it" in note for note in notes) == ("band" not in fit.sides)


def test_pounds_stand_in_pounds() -> None:
    view = view_match(fit_of(CASES[1]), POUNDS)
    assert view.best.text.endswith(" lb")
    assert view.weakest.text.endswith(" in")
    assert "kg" not in " ".join((view.part, *view.notes))


def test_a_rig_that_could_be_too_much_says_so() -> None:
    fit = fit_of(CASES[0])
    view = view_match(fit, METRIC)
    warned = any("could ask for" in note for note in view.notes)
    assert warned == (fit.at_most > 1.0)


@pytest.mark.parametrize("case", CASES)
def test_what_may_be_too_heavy_is_said_at_the_rack_too(case: tuple[str, str, float]) -> None:
    answer, fit = answer_of(*case), fit_of(case)
    said = [words for words in view_rig(answer, METRIC).cautions if "may be too heavy" in words]
    assert len(said) == (fit.at_most > 1.0)
    assert all(f"{100 * fit.at_most:.0f} % of strength" in words for words in said)
