"""A whole rig on a terminal of 80 columns."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import ANSWERS, BENCH, STRAIGHT, UNMET
from tests.present.printing import printed
from topheavy.present.figure import length
from topheavy.present.rig.facts import hang_facts, share_facts
from topheavy.present.rig.terminal import render_rig
from topheavy.present.rig.view import RigView, view_rig
from topheavy.units import M_PER_IN, METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer

EACH = pytest.mark.parametrize("answer", ANSWERS.values(), ids=ANSWERS)
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def _plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@EACH
@BOTH
def test_it_fits_80_columns_and_nothing_is_cut(answer: RigAnswer, units: UnitSystem) -> None:
    text = printed(render_rig(view_rig(answer, units)))
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "\u2026" not in text


@EACH
@BOTH
def test_everything_to_know_is_there(answer: RigAnswer, units: UnitSystem) -> None:
    view = view_rig(answer, units)
    text = _plain(printed(render_rig(view)))
    for words in _everything(view):
        assert _plain(words) in text, words


def _everything(view: RigView) -> list[str]:
    words = [view.title, view.gym, view.wanted, view.verdict, view.proof, view.hang_left]
    words += [view.hang_right, view.plates_a_side, view.straight_weight.text, view.compared]
    words += [view.setting, view.connector, view.mostly, view.imbalance.text]
    words += [view.share_of_top.text, view.share_of_bottom.text]
    words += [view.deload.text] if view.deload else []
    words += [view.side_pull.text] if view.side_pull else []
    words += [*view.steps, *view.signs, *view.cautions, *view.obstacles, *view.left_out]
    for row in view.loads:
        words += [row.raising.text, row.lowering.text if row.lowering else ""]
        words += [row.straight.text] if view.style != "straight" else []
    for links in view.links:
        words.append(
            f"{links.size} {links.links} {links.off_bottom} {links.off_top} {links.on_top}"
        )
    return words


def test_what_is_in_the_way_comes_before_what_to_hang() -> None:
    text = printed(render_rig(view_rig(UNMET, METRIC)))
    assert text.index("What is in the way") < text.index("Hang this")
    assert "What is in the way" not in printed(render_rig(view_rig(BENCH, METRIC)))


def test_a_straight_rig_has_no_column_for_itself() -> None:
    text = printed(render_rig(view_rig(STRAIGHT, METRIC)))
    assert "hung straight" not in text.split("Links, each piece")[0].lower()


def test_a_straight_rig_is_not_headed_by_hanging_it_straight_instead() -> None:
    assert "Hung straight instead" not in printed(render_rig(view_rig(STRAIGHT, METRIC)))
    assert "Folded instead" in printed(render_rig(view_rig(STRAIGHT, METRIC)))
    assert "Hung straight instead" in printed(render_rig(view_rig(BENCH, METRIC)))


def test_columns_stand_where_they_should_without_our_characters() -> None:
    """Names of facts are ASCII, so that nothing grows when it is spelled."""
    for answer in ANSWERS.values():
        view = view_rig(answer, METRIC)
        assert all(name.isascii() for name, _ in (*hang_facts(view), *share_facts(view)))


def test_a_feeders_length_is_said_once() -> None:
    view = view_rig(BENCH, POUNDS)
    shown = replace(view, feeder="strap, 28.75 in", setting="28.75 in")
    long = replace(shown, feeder_length=length(POUNDS, 28.75 * M_PER_IN))
    assert dict(hang_facts(long))["feeders"] == "strap, 28.75 in"


def test_long_names_wrap() -> None:
    view = view_rig(BENCH, METRIC)
    tags = " + ".join(f"{'LONG' * 5}{n}" for n in range(8))
    row = replace(view.links[0], tags=tuple(tags.split(" + ")), size="9/16 in, painted green")
    long = replace(view, title="T" * 150, hang_left=tags, gym="G" * 90, links=(row,))
    text = printed(render_rig(long))
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "\u2026" not in text
    assert text.count("T" * 10) >= 14
