"""The page for the lifter: two sheets, whole, in plain words, the same each time."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations
from typing import TYPE_CHECKING, Any

import pytest

from tests.present.answers import ANSWERS, BENCH, answer, built, piece, place, ring
from tests.present.pdf import bare, open_pdf, read_page, tagged_parts
from tests.services.test_explain import known, on_bands, unknown, with_bands
from topheavy.errors import BadInputError
from topheavy.lifter.evidence import FullRange
from topheavy.present.explain import explain_pdf, view_explained
from topheavy.present.explain.page import curve_sheet, hung_ways
from topheavy.present.picture.lettering import all_known, text_width
from topheavy.services.explain import Explained, explain_rig
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from tests.present.pdf import Page, Run
    from topheavy.services.rig import RigAnswer

BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])
MARKUP = '#let x = "1"; $a^2$ @b \\ *_c_* <d> [e] `f` // g -- ~ = h'


def _long_words() -> RigAnswer:
    """Names and tags as long as a gym file allows, without a space."""
    where = place(lifter="M" * 60)
    where = replace(where, station=replace(where.station, name="W" * 60))
    left, right = (
        tuple(piece(f"{side * 22}{n}", size="Q" * 60) for n in range(4)) for side in "AB"
    )
    return answer(where, built(where, ring("5"), left, right))


def _named(lifter: str) -> RigAnswer:
    where = place(lifter=lifter)
    return answer(where, built(where, ring("5"), (piece("A1"),), (piece("A2"),)))


GIVEN = {
    **{name: ANSWERS[name] for name in ("bench", "squat", "deadlift", "press", "straight")},
    "unknown": unknown(BENCH),
    "bands": with_bands(BENCH),
    "on bands": on_bands(BENCH, 0.12),
    "under bands": on_bands(BENCH, 1.70),
    "chain and bands": on_bands(BENCH, 0.12, chain=True),
    "weak": known(unknown(BENCH), FullRange(load_kg=75.0)),
    "markup": _named(MARKUP),
    "long words": _long_words(),
    "other letters": _named("\u5c71\u7530 \u03a9 \U0001f600 \u0141uk \u0639\u0645\u0631"),
}
EACH = pytest.mark.parametrize("name", GIVEN)
LOOKED_AT = pytest.mark.parametrize(
    ("name", "units"),
    [*((name, METRIC) for name in GIVEN), ("squat", POUNDS), ("weak", POUNDS)],
    ids=lambda given: given if isinstance(given, str) else given.name,
)


@cache
def _explained(name: str) -> Explained:
    return explain_rig(GIVEN[name])


@cache
def _pdf(name: str, units: UnitSystem) -> bytes:
    return explain_pdf(_explained(name), units)


@cache
def _pages(name: str, units: UnitSystem) -> tuple[Page, Page]:
    return read_page(_pdf(name, units)), read_page(_pdf(name, units), 1)


@LOOKED_AT
def test_two_sheets_say_everything(name: str, units: UnitSystem) -> None:
    first, second = _pages(name, units)
    assert first.pages == 2
    view = view_explained(_explained(name), units)
    said = [view.lifter, view.lift, view.station, view.gym, view.rig, view.why_head, *view.why]
    said += [view.warning, view.drawn_from, *view.sureness, *view.feel]
    for row in view.stands:
        said += [row.where, row.height.text, row.raising.text, row.links]
        said += [row.of_strength.text] if row.of_strength else []
    for words in said:
        if words.isascii() or name != "other letters":
            assert bare(words) in bare(first.text), words
    for words in (*view.fold, *view.down, *view.promise, *view.cautions):
        assert bare(words) in bare(second.text), words
    for side in view.sides:
        if side.falls:
            assert bare(side.short + side.starts_down.text) in bare(second.text)


@LOOKED_AT
def test_no_word_leaves_the_sheet(name: str, units: UnitSystem) -> None:
    for page in _pages(name, units):
        assert len(page.runs) > 30
        for text, x, y, size in page.runs:
            assert 30 < x < page.width - 30
            if all_known(text):
                assert x + text_width(text, size) * 0.97 < page.width - 28, text
            assert 20 < y < page.height - 20, text


@pytest.mark.parametrize(
    "name", ["bench", "deadlift", "straight", "unknown", "bands", "weak", "long words"]
)
def test_no_two_words_meet(name: str) -> None:
    """Lines of text as tall as small letters and as wide as their letters, both sheets."""
    for page in _pages(name, METRIC):
        for one, other in combinations(page.runs, 2):
            assert not _meet(one, other), (one, other)


def _meet(one: Run, other: Run) -> bool:
    (words, x, y, size), (others, left, low, tall) = one, other
    if y > low + 0.5 * tall or low > y + 0.5 * size:
        return False
    ends = x + 0.94 * text_width(words, size), left + 0.94 * text_width(others, tall)
    return x < ends[1] - 0.5 and left < ends[0] - 0.5


@pytest.mark.parametrize(
    ("units", "width_mm", "height_mm"), [(METRIC, 210, 297), (POUNDS, 215.9, 279.4)]
)
def test_paper_is_a4_in_kg_and_letter_in_lb(
    units: UnitSystem, width_mm: float, height_mm: float
) -> None:
    """ISO 216 and ANSI Y14.1 (from memory)."""
    for page in _pages("bench", units):
        assert page.width * 25.4 / 72 == pytest.approx(width_mm, abs=0.1)
        assert page.height * 25.4 / 72 == pytest.approx(height_mm, abs=0.1)


@pytest.mark.parametrize("name", ["bench", "squat", "deadlift", "press", "straight"])
def test_it_can_be_read_at_arms_length(name: str) -> None:
    """Small letters of 10 pt type are 1.8 mm high: 9 minutes of arc at 0.7 m.

    That is well above the 5 minutes that sight of 6/6 reads on a chart (Snellen, from memory).
    """
    for page in _pages(name, METRIC):
        running = sorted(size for _, _, _, size in page.runs)
        assert running[len(running) // 2] >= 9.0
    loads = [row.raising.text for row in view_explained(_explained(name), METRIC).stands]
    big = [text for text, *_, size in _pages(name, METRIC)[0].runs if size >= 18]
    for words in loads:
        assert any(words in text for text in big), words


def test_the_same_answer_gives_the_same_bytes() -> None:
    assert explain_pdf(explain_rig(GIVEN["bench"]), METRIC) == _pdf("bench", METRIC)


def test_title_language_and_tags_but_no_author_and_no_date() -> None:
    reader = open_pdf(_pdf("bench", METRIC))
    found = reader.metadata
    assert found is not None
    assert found.title == "For Osric, bench press, the corner"
    assert found.author is None
    assert found.creation_date is None
    root: Any = reader.root_object
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_data()


def test_both_pictures_are_told_to_those_who_can_not_see_them() -> None:
    tree = open_pdf(_pdf("bench", METRIC)).root_object["/StructTreeRoot"]
    told = [str(part["/Alt"]) for part in tagged_parts(tree) if "/Alt" in part]
    assert len(told) == 2
    assert "Your strength is least at" in told[0]
    assert "The same chain hung straight" in told[1]


def test_more_than_two_sheets_hold_is_refused() -> None:
    with pytest.raises(BadInputError) as caught:
        explain_pdf(explain_rig(_named("M" * 5000)), METRIC)
    assert caught.value.field == "explain"


@EACH
def test_the_curves_are_those_of_the_sides(name: str) -> None:
    found, sheet = _explained(name), curve_sheet(_explained(name), METRIC)
    travel = GIVEN[name].question.place.travel
    assert (sheet.bottom_m, sheet.top_m) == (travel.bottom_m, travel.top_m)
    for side, curve in zip(found.sides, sheet.curves, strict=True):
        ends = side.load_kg(travel.bottom_m), side.load_kg(travel.top_m)
        assert curve.ends_kg == pytest.approx(ends)
        assert (curve.kind == "chosen") == side.chosen
    assert (sheet.strength is None) == (found.strength is None)


def test_a_straight_rig_is_not_drawn_beside_itself() -> None:
    assert len(hung_ways(_explained("straight"), METRIC)) == 1
    assert len(hung_ways(_explained("deadlift"), METRIC)) == 2
