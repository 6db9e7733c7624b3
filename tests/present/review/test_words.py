"""What a review says, and what it never says."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from tests.present.pdf import read_page
from tests.present.printing import printed
from topheavy.gymfile import demo_gym
from topheavy.logfile.example import example_log
from topheavy.present.jsonable import to_json
from topheavy.present.review import words
from topheavy.present.review.sheet import review_pdf
from topheavy.present.review.terminal import render_review
from topheavy.present.review.view import view_review
from topheavy.services.review import ReviewQuestion, answer_review
from topheavy.training.review.trend import Trend
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.present.review.rows import LiftReview, ReviewView


@cache
def view(units: str = "kg", who: str = "") -> ReviewView:
    sets = tuple(one for one in example_log() if who in {"", one.lifter})
    question = ReviewQuestion(gym=demo_gym(), sets=sets, since="2026-07-01", until="2026-11-25")
    return view_review(answer_review(question), POUNDS if units == "lb" else METRIC)


def of(who: str) -> LiftReview:
    return next(one for one in view().lifts if one.lifter == who)


def trend(verdict: str, *, by_terms: bool = False) -> Trend:
    return Trend(
        verdict=verdict,  # type: ignore[arg-type]
        days=12,
        first_day=0,
        last_day=70,
        noise=0.035,
        first_kg=100.0,
        last_kg=96.0 if verdict == "down" else 104.0,
        per_week_kg=0.4,
        low_kg=-0.2,
        high_kg=1.0,
        by_terms=by_terms,
    )


@pytest.mark.parametrize(
    ("verdict", "says"),
    [
        ("up", "Progress: 4.0 kg up in 10 weeks, more than the noise of a single (3.5 %, 3.5 kg)"),
        ("down", "Loss: 4.0 kg down"),
        ("level", "Neither progress nor loss."),
        ("unsure", "Not called progress or loss"),
        ("few", "12 days told of strength"),
    ],
)
def test_each_verdict_says_what_it_rests_on(verdict: str, says: str) -> None:
    assert says in words.trend_words(trend(verdict), METRIC)


def test_why_a_change_is_not_sure() -> None:
    assert "scatter" in words.trend_words(trend("unsure"), METRIC)
    assert "rigs or reps changed" in words.trend_words(trend("unsure", by_terms=True), METRIC)


def test_loads_name_their_base() -> None:
    osric, wren = of("Osric").next, of("Wren").next
    assert osric is not None
    assert osric.of_best.startswith("bottom 90 %, mean ")
    assert osric.of_best.endswith("of the straight-weight best")
    assert wren is not None
    assert wren.of_best == ""


def test_the_band_of_noise_is_drawn_about_the_beginning_of_the_line() -> None:
    row = of("Runa").trend
    assert row.first is not None
    assert row.band_low is not None
    assert row.band_high is not None
    assert row.band_low.value == pytest.approx(0.965 * row.first.value)
    assert row.band_high.value == pytest.approx(1.035 * row.first.value)
    assert row.first_day == of("Runa").points[0].day


def test_few_misses_are_not_made_much_of() -> None:
    assert "too few to say" in of("Osric").stops_words
    assert of("Osric").stops[1].words.startswith("2 straight weight; about 147.5 kg there")


def test_what_one_log_can_not_tell_is_said() -> None:
    assert "can't be told apart" in of("Osric").shares_words
    assert "can't tell which share" in of("Pip").shares_words


def test_pounds_are_pounds_all_through() -> None:
    text = to_json(view("lb"))
    shown = list(text.split('"shown": "')[1:])
    assert not [one for one in shown if " kg" in one.split('"')[0]]


def test_nothing_is_promised() -> None:
    text = to_json(view()).lower()
    for word in ("will gain", "will get stronger", "guarantee", "proven to", "meta-analysis"):
        assert word not in text
    assert "nobody can promise" in text


def test_cautions_stand_with_the_loads() -> None:
    text = " ".join(view().cautions)
    for word in ("Collars", "spotter", "rated", "Retire any piece", "Pain, illness"):
        assert word in text


@pytest.mark.parametrize("width", [48, 80])
@pytest.mark.parametrize("who", ["Osric", ""])
def test_the_terminal_cuts_nothing_off(width: int, who: str) -> None:
    lines = printed(render_review(view(who=who)), width).splitlines()
    assert max(len(line.rstrip()) for line in lines) <= width
    assert not [line for line in lines if "\N{HORIZONTAL ELLIPSIS}" in line]
    text = " ".join(" ".join(lines).split())
    assert "Progress: 8.9 kg up in 16 weeks" in text
    assert ("With --lifter NAME" in text) is not bool(who)
    assert ("Bests, on equal terms" in text) is bool(who)


@pytest.mark.parametrize(("units", "who", "pages"), [("kg", "", 4), ("lb", "Pip", 1)])
def test_a_page_for_each_lifter_and_lift(units: str, who: str, pages: int) -> None:
    pdf = review_pdf(view(units, who), POUNDS if units == "lb" else METRIC)
    first = read_page(pdf)
    assert first.pages == pages
    for word in (f"{who or 'Runa'}, ", "Next week", "Bests, on equal terms", "Sources", "Mind"):
        assert word.lower() in first.text.lower(), word
    assert f"{first.width:.0f}" == ("612" if units == "lb" else "595")


def test_the_same_review_is_the_same_page() -> None:
    assert review_pdf(view("lb", "Pip"), POUNDS) == review_pdf(view("lb", "Pip"), POUNDS)
