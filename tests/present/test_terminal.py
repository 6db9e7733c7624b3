"""Parts of the terminal's output."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import ANSWERS, BENCH, DEADLIFT, STRAIGHT
from tests.present.printing import printed
from topheavy.present.rig.view import view_rig
from topheavy.present.tables import load_table
from topheavy.present.terminal import curve_chart, facts, headed, listed, ruled, screen
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer

LINE, MARK, ON = "\u2501", "\u2502", "\u2503"


def _rows(answer: RigAnswer, *, straight: bool = True) -> list[str]:
    chart = curve_chart(view_rig(answer, METRIC).curve, straight=straight)
    return [line.rstrip() for line in printed(chart).splitlines()]


def _span(row: str) -> str:
    """The part of a row between height and loads."""
    return row[row.index("cm ") + 3 : row.index("kg") - 5]


def test_the_chart_says_what_its_marks_are() -> None:
    head, *_, foot = _rows(BENCH)
    assert f"{LINE} this rig" in head
    assert f"{MARK} the same chain hung straight" in head
    least = min(
        min(point.raising.value, point.straight.value) for point in view_rig(BENCH, METRIC).curve
    )
    assert f"lines begin at {METRIC.mass(least)}" in foot


@pytest.mark.parametrize("answer", ANSWERS.values(), ids=ANSWERS)
def test_lines_and_marks_stand_where_the_loads_do(answer: RigAnswer) -> None:
    """Cells from the lightest load to the heaviest, each within half a cell of its load."""
    points = view_rig(answer, METRIC).curve
    loads = [(point.raising.value, point.straight.value) for point in points]
    least = min(min(pair) for pair in loads)
    most = max(max(pair) for pair in loads)
    picked = loads[::3][::-1]
    rows = _rows(answer)[1:-1]
    assert len(rows) == len(picked) == 9
    for row, (raising, straight) in zip(rows, picked, strict=True):
        span = _span(row)
        reach = max(span.rfind(LINE), span.rfind(ON))
        mark = max(span.find(MARK), span.find(ON))
        cell = (most - least) / 45
        assert straight == pytest.approx(least + mark * cell, abs=0.51 * cell)
        if mark != reach + 1:
            assert raising == pytest.approx(least + reach * cell, abs=0.51 * cell)


def test_every_row_has_its_numbers() -> None:
    points = view_rig(DEADLIFT, METRIC).curve
    rows = _rows(DEADLIFT)[1:-1]
    for row, point in zip(rows, points[::3][::-1], strict=True):
        assert row.split()[0] == point.height.text.split()[0]
        assert row.split()[-4:] == f"{point.raising.text} {point.straight.text}".split()


def test_without_comparison_there_is_no_mark() -> None:
    rows = _rows(STRAIGHT, straight=False)
    assert not any(MARK in row or ON in row for row in rows)
    assert "straight" not in "".join(rows)


def test_a_level_curve_is_drawn() -> None:
    points = view_rig(BENCH, METRIC).curve
    level = tuple(replace(p, raising=points[0].raising, straight=points[0].raising) for p in points)
    rows = [row for row in printed(curve_chart(level)).splitlines() if "cm" in row]
    assert {_span(row).strip() for row in rows} == {ON}


def test_long_words_wrap_and_nothing_is_cut() -> None:
    long = "word " * 40 + "x" * 120
    for what in (listed([long]), listed([long], numbered=True), facts([("name", long)])):
        lines = printed(headed("Title", what)).splitlines()
        assert max(map(len, lines)) <= 80
        text = "".join(lines).replace(" ", "")
        assert text.count("word") == 40
        assert text.count("x") == 120
        assert "\u2026" not in text


def test_empty_facts_are_left_out() -> None:
    assert "feeder" not in printed(facts([("feeder", ""), ("bar", "20 kg")]))


def test_numbers_stand_right_of_their_column() -> None:
    table = ruled("place", "load")
    table.add_row("top", "9.0 kg")
    table.add_row("bottom", "120.0 kg")
    lines = [line.rstrip() for line in printed(table).splitlines()]
    assert len({len(line) for line in lines if "kg" in line}) == 1


@pytest.mark.parametrize("width", [100, 80, 70, 60, 50, 40])
def test_rows_stay_whole_on_a_narrow_terminal(width: int) -> None:
    """Every row of the chart on one line, with its height and its load; nothing cut."""
    points = view_rig(BENCH, METRIC).curve
    text = printed(headed("Load", curve_chart(points)), width)
    assert "\u2026" not in text
    rows = [line for line in text.splitlines() if LINE in line and "cm" in line]
    assert len(rows) == 9
    for row, point in zip(rows, points[::3][::-1], strict=True):
        assert len(row.rstrip()) <= width
        assert row.split()[0] == point.height.text.split()[0]
        assert point.raising.text in row
        assert (point.straight.text in row) == (width >= 55)


def test_names_of_facts_wrap_when_there_is_no_room_for_the_values() -> None:
    text = printed(facts([("deload: hung load off the bar at the bottom", "95.6 %")]), 38)
    assert "95.6 %" in text
    assert "\u2026" not in text


def test_the_load_table_keeps_its_rows_whole() -> None:
    rows = view_rig(BENCH, METRIC).loads
    for width in (80, 60, 50):
        text = printed(headed("On the bar", load_table(rows)), width)
        assert all(any(row.raising.text in line for line in text.splitlines()) for row in rows)
        assert ("hung straight" in text) == (width == 80)


def test_no_colour_means_no_codes_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setenv("TERM", "xterm-256color")
    for no_colour in ("", "1"):
        monkeypatch.setenv("NO_COLOR", no_colour)
        console = screen()
        with console.capture() as captured:
            console.print(headed("Title", facts([("bar", "20 kg")])))
        assert ("\x1b[" in captured.get()) == (not no_colour)


def test_the_screen_does_not_colour_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    screen().print("115.1 kg")
    assert capsys.readouterr().out == "115.1 kg\n"
    screen(stderr=True).print(POUNDS.mass(1.0))
    assert capsys.readouterr().err == "2.2 lb\n"
