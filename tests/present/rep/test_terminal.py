"""A rep on a terminal of 80 columns, and on narrow ones."""

from __future__ import annotations

import re

import pytest

from tests.present.printing import printed
from tests.services.reps.cases import rep_of, rig_of
from topheavy.present.rep.terminal import render_rep, side_table, speed_chart
from topheavy.present.rep.view import RepView, view_rep
from topheavy.present.terminal import LINE, MARK
from topheavy.units import METRIC, POUNDS, UnitSystem

LIFTS = ("bench", "squat", "deadlift", "straight")
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])
ON = "\N{BOX DRAWINGS HEAVY VERTICAL}"


def view(
    name: str = "bench", units: UnitSystem = METRIC, plates_kg: float | None = None
) -> RepView:
    return view_rep(rep_of(name, None, plates_kg), rig_of(name), units)


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("name", LIFTS)
@BOTH
def test_it_fits_80_columns_and_nothing_is_cut(name: str, units: UnitSystem) -> None:
    text = printed(render_rep(view(name, units)))
    assert max(len(line) for line in text.splitlines()) <= 80
    assert "\u2026" not in text


@pytest.mark.parametrize("width", [40, 60])
@BOTH
def test_it_holds_on_narrow_terminals(width: int, units: UnitSystem) -> None:
    text = printed(render_rep(view(units=units)), width)
    assert max(len(line) for line in text.splitlines()) <= width
    assert "\u2026" not in text


@pytest.mark.parametrize("plates_kg", [None, 115.0, 300.0])
def test_everything_to_know_is_there(plates_kg: float | None) -> None:
    shown = view(plates_kg=plates_kg)
    text = plain(printed(render_rep(shown)))
    words = [shown.title, shown.verdict, shown.as_hard, shown.loads, shown.effort_words]
    words += [*shown.rig, *shown.way_down, *shown.side_notes, *shown.outlook, *shown.cautions]
    words += [*shown.limits, shown.sticking, shown.push, shown.work_shares]
    for one in words:
        assert plain(one) in text, one


def test_sides_stand_in_columns_each_with_its_numbers() -> None:
    shown = view()
    lines = printed(side_table(shown.sides)).splitlines()
    assert "plain" in lines[0]
    assert "doubled*" in lines[1]
    weights = next(line for line in lines if line.startswith("bar, collars, plates"))
    for side in shown.sides:
        assert side.straight.likely.text in weights
    falls = next(line for line in lines if line.startswith("let go"))
    assert [float(word) for word in re.findall(r"\d\.\d\d", falls)] == [
        float(side.let_go.text.split()[0]) for side in shown.sides
    ]


def test_lines_of_the_chart_reach_as_far_as_the_speed() -> None:
    shown = view()
    picked = [shown.path[3 * row] for row in reversed(range(9))]
    head, *rows = printed(speed_chart(shown.path)).splitlines()
    assert f"{LINE} this rig" in head
    assert f"{MARK} plain, as hard" in head
    known = [(p.speed, p.plain_speed) for p in picked]
    most = max(one.value for pair in known for one in pair if one)
    for row, (own, other) in zip(rows, known, strict=True):
        assert own is not None
        assert other is not None
        assert own.text in row
        span = row[row.index("cm ") + 3 :][:32]
        reach = max(span.rfind(LINE), span.rfind(ON))
        mark = max(span.find(MARK), span.find(ON))
        assert mark * most / 31 == pytest.approx(other.value, abs=0.51 * most / 31)
        if mark != reach + 1:
            assert reach * most / 31 == pytest.approx(own.value, abs=0.51 * most / 31)


def test_above_a_miss_the_chart_has_no_line() -> None:
    shown = view(plates_kg=115.0)
    top = printed(speed_chart(shown.path)).splitlines()[1]
    assert LINE not in top
    assert "-" in top
