"""The card at the rack: one page, whole, safe from markup, the same each time."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest

from tests.present.answers import (
    ANSWERS,
    SQUAT,
    answer,
    built,
    piece,
    pieces,
    place,
    ring,
    strap,
)
from tests.present.pdf import bare, open_pdf, read_page, tagged_parts
from topheavy.errors import BadInputError
from topheavy.present.card import card_pdf
from topheavy.present.picture.lettering import all_known, text_width
from topheavy.present.rig.view import RigView, view_rig
from topheavy.rigging.obstacles import Blocker, Obstacles
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from tests.present.pdf import Page
    from topheavy.gym.stock import ChainPiece
    from topheavy.services.rig import RigAnswer

BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])
MARKUP = '#let x = "1"; $a^2$ @b \\ *_c_* <d> [e] `f` // g -- ~ = h'


@cache
def _card(name: str, units: UnitSystem) -> bytes:
    return card_pdf(ALL[name], units)


@cache
def _page(name: str, units: UnitSystem) -> Page:
    return read_page(_card(name, units))


def _kinds(side: str) -> tuple[ChainPiece, ...]:
    sizes = ("5/8 in", "1/2 in galvanised, from the old pier", "13 mm", "7/16 in")
    return tuple(
        piece(f"{side}{number}{letter}", 30 + number, size)
        for number, size in enumerate(sizes)
        for letter in "ab"
    )


def _crowded() -> RigAnswer:
    """Four kinds, eight pieces an end, nine plates, long names, every obstacle, overhead."""
    where = place(
        "overhead press", bottom_m=1.43, top_m=2.12, surface_m=0.02, lifter=f"Wil {MARKUP}"
    )
    where = replace(
        where,
        gym=replace(where.gym, name="The Long Room over the Old Ropeworks by the Upper Canal Lock"),
        station=replace(where.station, name="the third rack from the left beside the cold stove"),
    )
    plates = ((20.0, 2), (10.0, 2), (5.0, 2), (2.5, 2), (1.25, 1))
    best = built(where, strap("135.0 cm"), _kinds("L"), _kinds("R"), plates)
    limits = ("at most 8 pieces", "design factor", "imbalance", "sleeve room", "full deload")
    full = answer(where, best, miss_kg=12.25)
    assert full.obstacles is not None
    blockers = tuple(Blocker(limit=limit, built=best) for limit in limits)
    return replace(
        full, obstacles=Obstacles(blockers=blockers, additions=full.obstacles.additions * 4)
    )


def _long_words() -> RigAnswer:
    """Names and tags as long as a gym file allows, without a space."""
    where = place(lifter="M" * 60)
    where = replace(where, station=replace(where.station, name="W" * 60))
    left, right = (
        tuple(piece(f"{side * 22}{n}", size="Q" * 60) for n in range(4)) for side in "AB"
    )
    return answer(where, built(where, ring("5"), left, right))


def _other_letters() -> RigAnswer:
    where = place(lifter="\u5c71\u7530 \u03a9 \U0001f600 \u0141uk \u0639\u0645\u0631")
    return answer(where, built(where, ring("5"), pieces("A1"), pieces("A2")))


CROWDED, LONG_WORDS, OTHER_LETTERS = _crowded(), _long_words(), _other_letters()
NASTY = {"crowded": CROWDED, "long words": LONG_WORDS, "other letters": OTHER_LETTERS}
ALL = {**ANSWERS, **NASTY}
EACH = pytest.mark.parametrize("name", ALL)


def _shown(view: RigView) -> list[str]:
    """What the card must say."""
    words = [view.lifter, view.lift, view.station, view.gym, view.wanted, view.verdict]
    words += [view.plates_a_side, view.straight_weight.text, view.compared, view.setting]
    words += [view.connector, view.feeder_name, view.mostly, view.imbalance.text]
    words += [view.share_of_top.text, view.share_of_bottom.text]
    words += [view.share_of_best.text] if view.share_of_best else []
    words += [view.deload.text] if view.deload else []
    words += [view.side_pull.text] if view.side_pull else []
    words += [view.feeder_length.text] if view.feeder_length else []
    words += [row.tag for row in (*view.left, *view.right)]
    words += [*view.steps, *view.signs, *view.cautions, *view.obstacles]
    for row in view.loads:
        words += [row.raising.text, row.lowering.text if row.lowering else ""]
        words += [row.height.text if row.height else ""]
        words += [row.straight.text] if view.style != "straight" else []
    return words


@EACH
@BOTH
def test_one_page_says_everything(name: str, units: UnitSystem) -> None:
    page = _page(name, units)
    assert page.pages == 1
    text = bare(page.text)
    for words in _shown(view_rig(ALL[name], units)):
        if words.isascii() or name != "other letters":
            assert bare(words) in text, words


@EACH
@BOTH
def test_no_word_leaves_the_page(name: str, units: UnitSystem) -> None:
    """Each run of text, as wide as its letters, between the margins of the paper."""
    page = _page(name, units)
    assert len(page.runs) > 50
    for text, x, y, size in page.runs:
        assert 30 < x < page.width - 30
        if all_known(text):
            assert x + text_width(text, size) * 0.97 < page.width - 30, text
        assert 20 < y < page.height - 20, text


@pytest.mark.parametrize(
    ("units", "width_mm", "height_mm"), [(METRIC, 210, 297), (POUNDS, 215.9, 279.4)]
)
def test_paper_is_a4_in_kg_and_letter_in_lb(
    units: UnitSystem, width_mm: float, height_mm: float
) -> None:
    """ISO 216 and ANSI Y14.1 (from memory)."""
    page = _page("bench", units)
    assert page.width * 25.4 / 72 == pytest.approx(width_mm, abs=0.1)
    assert page.height * 25.4 / 72 == pytest.approx(height_mm, abs=0.1)


@pytest.mark.parametrize("name", ANSWERS)
def test_what_to_hang_can_be_read_from_a_metre_away(name: str) -> None:
    """Capitals of 18 pt type are 4.4 mm high: 15 minutes of arc at 1 m.

    That is three times the 5 minutes that sight of 6/6 reads on a chart (Snellen, from memory).
    """
    view, runs = view_rig(ALL[name], METRIC), _page(name, METRIC).runs
    big = [text for text, *_, size in runs if size >= 18]
    wanted = [" + ".join(row.tag for row in side) for side in (view.left, view.right)]
    if name == "squat":
        wanted = ["A1", "C1", "A2", "C2"]
    for words in (*wanted, view.setting, view.plates_a_side.split(" + ")[0]):
        assert any(words in text for text in big), words


@BOTH
def test_the_same_answer_gives_the_same_bytes(units: UnitSystem) -> None:
    assert card_pdf(SQUAT, units) == _card("squat", units)


def test_title_language_and_tags_but_no_author_and_no_date() -> None:
    reader = open_pdf(_card("bench", METRIC))
    found = reader.metadata
    assert found is not None
    assert found.title == "Osric, bench press, the corner"
    assert found.author is None
    assert found.creation_date is None
    root: Any = reader.root_object
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_data()


def test_the_picture_is_told_to_those_who_can_not_see_it() -> None:
    root = open_pdf(_card("bench", METRIC)).root_object
    (told,) = [
        str(part["/Alt"]) for part in tagged_parts(root["/StructTreeRoot"]) if "/Alt" in part
    ]
    assert "93.0 kg on the bar raising" in told
    assert "32 links off the floor" in told


def test_names_with_markup_stay_names() -> None:
    where = place(lifter=MARKUP)
    odd = answer(
        where,
        built(where, ring("5"), (piece("#A$1", size="$5/8$ #in"),), (piece("*B_2", size="@in"),)),
    )
    text = bare(read_page(card_pdf(odd, METRIC)).text)
    for words in (MARKUP, "#A$1", "$5/8$ #in", "*B_2", "@in"):
        assert bare(words) in text


def test_letters_without_a_font_make_no_error() -> None:
    found = open_pdf(_card("other letters", METRIC)).metadata
    assert found is not None
    assert str(found.title).startswith("\u5c71\u7530 \u03a9 \U0001f600")


def test_there_is_room_to_write_sets_when_there_is_room() -> None:
    for name in ANSWERS:
        assert "DATE PLATES A SIDE SETS AND REPS HOW IT FELT" in _page(name, METRIC).text
    assert "HOW IT FELT" not in _page("crowded", POUNDS).text


def test_a_target_out_of_reach_says_what_is_in_the_way() -> None:
    text = _page("unmet", METRIC).text
    assert "The stock does not reach the target" in text
    assert "In the way: at most 4 pieces." in text
    assert "Would do: 2 more pieces" in text
    assert "In the way" not in _page("bench", METRIC).text


def test_a_straight_rig_is_not_compared_with_itself() -> None:
    assert "HUNG STRAIGHT" not in _page("straight", METRIC).text
    assert "HUNG STRAIGHT" in _page("deadlift", METRIC).text


def test_more_than_a_page_holds_is_refused() -> None:
    where = place()
    many = [tuple(piece(f"{side}{n}", 8 + n) for n in range(16)) for side in "LR"]
    with pytest.raises(BadInputError) as caught:
        card_pdf(answer(where, built(where, ring("5"), many[0], many[1])), METRIC)
    assert caught.value.field == "card"
    assert caught.value.wanted is not None
