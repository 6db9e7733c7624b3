"""A lifter's strength in words and figures, and on terminals of any width."""

from __future__ import annotations

import re

import pytest

from tests.present.printing import printed
from tests.services.lifters import measured, place
from topheavy.gym.records import LiftedSet, MissedRep, SpeedRead
from topheavy.lifter.evidence import Partial
from topheavy.present.jsonable import to_json
from topheavy.present.spelling import spelled
from topheavy.present.strength.terminal import render_strength
from topheavy.present.strength.view import StrengthView, view_strength
from topheavy.services.strength import StrengthAnswer, answer_strength
from topheavy.units import KG_PER_LB, METRIC, POUNDS, UnitSystem

ONE_NUMBER = answer_strength(place({"bench press": measured(best_kg=100.0)}))
MUCH = answer_strength(
    place(
        {
            "bench press": measured(
                best_kg=100.0,
                records=(
                    LiftedSet(load_kg=85.0, reps=5, reps_left=1.0),
                    MissedRep(straight_kg=104.0, third="middle"),
                    SpeedRead(load_kg=90.0, speed_m_per_s=0.35),
                ),
            ),
            "pin press": measured(0.85, best_kg=112.0),
            "board press": measured(0.75, 1.2, best_kg=112.0),
        }
    ),
    [Partial(height_m=0.98, load_kg=150.0)],
)
BY_SPEED = answer_strength(
    place({"bench press": measured(records=(SpeedRead(load_kg=90.0, speed_m_per_s=0.35),))})
)
ANSWERS = {"one number": ONE_NUMBER, "much": MUCH, "by speed": BY_SPEED}
EACH = pytest.mark.parametrize("answer", ANSWERS.values(), ids=ANSWERS)
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@EACH
@BOTH
@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_it_fits_and_nothing_is_cut(answer: StrengthAnswer, units: UnitSystem, width: int) -> None:
    text = printed(render_strength(view_strength(answer, units)), width)
    assert max(len(line.rstrip()) for line in text.splitlines()) <= width
    assert "\u2026" not in text


@EACH
@BOTH
def test_everything_to_know_is_there(answer: StrengthAnswer, units: UnitSystem) -> None:
    view = view_strength(answer, units)
    text = plain(printed(render_strength(view)))
    for words in everything(view):
        assert plain(words) in text, words


def everything(view: StrengthView) -> list[str]:
    words = [view.title, view.gym, view.best.text, view.best_low.text, view.best_high.text]
    words += [view.weakest.text, view.weakest_way.text, view.weakest_low.text]
    words += [view.weakest_high.text, view.advice.words, view.basis]
    words += [*view.made_from, *view.left_out, *view.remarks, *view.cautions]
    for row in view.rows:
        words += [row.height.text, f"{row.low} {row.likeliest} {row.high}"]
    words += [f"{view.rows[-1].least} to {view.rows[-1].most} at lockout"]
    for each in view.sets:
        words += [each.words, each.middle.text, *each.caveats]
        words += [f"{name} {figure}" for name, figure in each.formulas.items()]
    return words


@EACH
def test_rows_go_up_and_hold_what_the_curve_says(answer: StrengthAnswer) -> None:
    view = view_strength(answer, METRIC)
    travel = answer.curve.travel
    assert view.rows[0].height.value == pytest.approx(travel.bottom_m)
    assert view.rows[-1].height.value == pytest.approx(travel.top_m)
    assert [row.way.text for row in view.rows][::5] == ["0 %", "50 %", "100 %"]
    for row in view.rows:
        wanted = float(answer.curve.at(min(row.height.value, travel.top_m)))
        assert row.likeliest.value == pytest.approx(wanted)
        assert row.least.value <= row.low.value + 1e-9
        assert row.low.value <= row.likeliest.value <= row.high.value
        assert row.high.value <= row.most.value + 1e-9


def test_each_line_of_the_chart_spans_its_row() -> None:
    """The mark stands on the line, and the longest range makes the longest line."""
    text = printed(render_strength(view_strength(MUCH, METRIC)))
    lines = [line for line in text.splitlines() if re.match(r"^ +\d+\.\d cm ", line)]
    assert len(lines) == 11
    drawn = [re.sub(r"[^\u2500\u2503]", "", line) for line in lines]
    assert all(line.count("\u2503") == 1 for line in drawn)
    spans = [row.high.value - row.low.value for row in reversed(view_strength(MUCH, METRIC).rows)]
    longest = max(range(11), key=lambda at: spans[at])
    assert len(drawn[longest]) == max(len(line) for line in drawn)


def test_a_set_is_told_once() -> None:
    text = printed(render_strength(view_strength(MUCH, METRIC)))
    assert text.count("What a set stands for") == 1
    assert not [remark for remark in view_strength(MUCH, METRIC).remarks if "stands for" in remark]
    assert "What a set stands for" not in printed(
        render_strength(view_strength(ONE_NUMBER, METRIC))
    )


def test_one_number_says_so_plainly() -> None:
    assert any(
        remark.startswith("One number does not say")
        for remark in view_strength(ONE_NUMBER, METRIC).remarks
    )


def test_a_best_by_speed_names_the_line_it_rests_on() -> None:
    (said,) = [r for r in view_strength(BY_SPEED, METRIC).remarks if "published line" in r]
    assert "Gonzalez-Badillo" in said
    assert not [r for r in view_strength(MUCH, METRIC).remarks if "published line" in r]


def test_where_nothing_more_is_to_be_told_it_says_so() -> None:
    assert view_strength(MUCH, METRIC).advice.words.startswith("No one more single")
    assert MUCH.advice.share < 0.1
    assert "would tell most" in view_strength(ONE_NUMBER, METRIC).advice.words
    assert ONE_NUMBER.advice.share >= 0.1


def test_pounds_are_the_same_figures() -> None:
    kg, lb = view_strength(MUCH, METRIC), view_strength(MUCH, POUNDS)
    for one, other in zip(kg.rows, lb.rows, strict=True):
        assert one.likeliest.value == other.likeliest.value
        shown = float(other.likeliest.text.removesuffix(" lb"))
        assert shown == pytest.approx(one.likeliest.value / KG_PER_LB, abs=0.051)
    assert " kg" not in plain(printed(render_strength(lb)))


def test_bare_terminals_get_plain_characters() -> None:
    view = spelled(view_strength(MUCH, METRIC), "ascii")
    assert view.title.isascii()
    assert to_json(view, ascii_only=True).isascii()
