"""Speed work in words, and on a terminal."""

from __future__ import annotations

import json
import re

import pytest

from tests.present.printing import printed
from tests.services.reps.cases import rig_of, speed_of
from topheavy.present.jsonable import to_json
from topheavy.present.speed.terminal import render_speed
from topheavy.present.speed.view import SpeedView, view_speed
from topheavy.units import METRIC, POUNDS, UnitSystem

BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def view(
    units: UnitSystem = METRIC, shares: tuple[float, ...] = (0.4, 0.5, 0.7), name: str = "bench"
) -> SpeedView:
    return view_speed(speed_of(name, shares), rig_of(name), units)


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def test_both_tables_say_which_question_they_answer() -> None:
    top, mean = view().tables
    assert (top.equal_at, mean.equal_at) == ("top", "mean")
    assert "At lockout both bars weigh the same" in top.answers
    assert "bound to be faster" in top.answers
    assert "same work" in mean.answers


@BOTH
def test_figures_are_those_of_the_answer(units: UnitSystem) -> None:
    for table in view(units).tables:
        lines = {str(name): found for name, found in speed_of().lines.items()}[table.equal_at]
        for shown, line in zip(table.lines, lines, strict=True):
            assert shown.plain.value == line.row.plain_kg
            assert shown.plain.text == units.mass(line.row.plain_kg)
            assert shown.chain_speed.likely.value == line.row.chain_mean_m_per_s
            assert shown.faster.likely.text == f"{100 * line.row.mean_gain:.0f} %".replace(
                "-0 %", "0 %"
            )


def test_plates_are_named_with_what_they_are_off() -> None:
    lines = view().tables[0].lines
    for shown, line in zip(lines, speed_of().lines["top"], strict=True):
        off = line.plain.off_kg
        assert ("under" in shown.plain_plates) == (off < -0.05)
        assert ("over" in shown.plain_plates) == (off > 0.05)


def test_loads_left_out_are_said() -> None:
    shown = view(shares=(0.1, 0.7))
    assert shown.tables[0].left_out.startswith("Left out: 10 % of the best.")
    assert "Below 40 % of the best nobody compared" in " ".join(shown.limits)
    assert "Below 40 %" not in " ".join(view().limits)


@BOTH
@pytest.mark.parametrize("width", [80, 60, 40])
def test_it_fits_the_terminal_and_nothing_is_cut(units: UnitSystem, width: int) -> None:
    text = printed(render_speed(view(units)), width)
    assert max(len(line) for line in text.splitlines()) <= width
    assert "\u2026" not in text


def test_everything_to_know_is_there() -> None:
    shown = view(shares=(0.1, 0.5, 0.7))
    text = plain(printed(render_speed(shown)))
    words = [shown.title, shown.hangs, *shown.cautions, *shown.limits]
    for table in shown.tables:
        words += [table.heading, table.answers, table.left_out]
        for line in table.lines:
            words += [line.plain.text, line.plain_speed.likely.text, line.straight.text]
            words += [line.chain_speed.likely.text, line.plain_plates, line.chain_plates]
    for one in words:
        assert plain(one) in text, one
    for needed in ("0.012 m/s off", "No study found has tested it"):
        assert needed in text


def test_it_is_json() -> None:
    told = json.loads(to_json(view()))
    assert [table["equal_at"] for table in told["tables"]] == ["top", "mean"]
    assert told["tables"][0]["lines"][0]["faster"]["likely"]["fraction"] > 0


def test_what_to_load_is_the_last_but_one_to_go_for_want_of_room() -> None:
    shown = render_speed(view(POUNDS))
    whole = next(width for width in range(60, 120) if "at the" in _heads(printed(shown, width)))
    assert "bar and" in _heads(printed(shown, whole - 1))


def _heads(text: str) -> str:
    return next(line for line in text.splitlines() if line.strip().startswith("of "))
