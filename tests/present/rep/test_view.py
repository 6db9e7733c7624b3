"""The rep in words and figures, the same on every screen."""

from __future__ import annotations

import json
import re

import pytest

from tests.services.reps.cases import found, rep_of, rig_of
from topheavy.present.jsonable import to_json
from topheavy.present.rep.view import RepView, view_rep
from topheavy.units import KG_PER_LB, M_PER_IN, METRIC, POUNDS, UnitSystem

LIFTS = ("bench", "squat", "deadlift")
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def view(
    name: str = "bench", units: UnitSystem = METRIC, plates_kg: float | None = None
) -> RepView:
    return view_rep(rep_of(name, None, plates_kg), rig_of(name), units)


@pytest.mark.parametrize("name", LIFTS)
def test_figures_are_those_of_the_answer(name: str) -> None:
    answer, shown = rep_of(name), view(name)
    ascent = answer.moved.rep.ascent
    assert shown.mean_speed is not None
    assert shown.mean_speed.likely.value == float(ascent.mean_m_per_s[0])
    assert shown.mean_speed.likely.text == f"{float(ascent.mean_m_per_s[0]):.2f} m/s"
    assert shown.under_load is not None
    assert shown.under_load.value == pytest.approx(2.0 + float(ascent.duration_s[0]))
    assert len(shown.sides) == len(answer.sides)
    for side, one in zip(shown.sides, answer.sides, strict=True):
        assert side.straight.likely.value == one.equal.straight_kg
        assert side.work.value == float(one.moved.rep.ascent.energy.work_j[0])
        assert side.let_go.value == pytest.approx(one.moved.dropped.peak_g)
        assert side.this_rig == one.beside.found
        assert (side.slowest is None) == (side.sticks_from is None)


def test_the_path_is_read_off_the_rep_at_even_heights() -> None:
    answer, shown = rep_of(), view()
    path = answer.moved.rep.path
    assert len(shown.path) == 25
    assert shown.path[0].height.value == pytest.approx(0.66)
    assert shown.path[-1].height.value == pytest.approx(1.07)
    last = shown.path[-1].time
    assert last is not None
    assert last.value == pytest.approx(float(path.time_s[-1]))
    middle = shown.path[12]
    assert middle.speed is not None
    assert middle.power is not None
    assert middle.push is not None
    assert middle.plain_speed is not None
    assert middle.power.value == pytest.approx(middle.speed.value * middle.push.value, rel=0.01)


@BOTH
def test_units_are_those_asked_for(units: UnitSystem) -> None:
    shown = view(units=units)
    words = [
        shown.verdict, shown.as_hard, shown.loads, shown.push, shown.sticking,
        *shown.way_down, shown.effort_words, *shown.side_notes, *shown.outlook,
    ]  # fmt: skip
    text = " ".join(words)
    spoken = {unit for _, unit in re.findall(r"(\d) (kg|cm|lb|in)\b(?! \d)", text)}
    assert spoken <= {units.mass_unit, units.length_unit}
    assert units.mass_unit in text
    plain = shown.sides[0].straight.likely
    factor = 1.0 if units is METRIC else KG_PER_LB
    assert plain.text == f"{plain.value / factor:.1f} {units.mass_unit}"
    height = shown.path[0].height
    assert height.text == f"{height.value / (0.01 if units is METRIC else M_PER_IN):.1f} " + (
        units.length_unit
    )


def test_a_made_rep_says_how_long_and_how_fast() -> None:
    shown = view()
    assert shown.verdict_code == "made"
    assert shown.verdict.startswith("Made, in ")
    assert "As hard as a plain single of" in shown.as_hard
    assert "% of the best" in shown.as_hard


def test_a_miss_says_where_it_stops() -> None:
    answer, shown = rep_of(plates_kg=115.0), view(plates_kg=115.0)
    stop_m = answer.moved.rep.path.height_m[-1]
    assert shown.verdict_code == "missed"
    assert f"A miss: the bar stops {METRIC.length(float(stop_m))}" in shown.verdict
    assert "does not get through" in shown.sticking
    above = [point for point in shown.path if point.height.value > stop_m + 1e-6]
    assert above
    assert all(point.speed is None and point.time is None for point in above)
    assert shown.effort.text == "100 %"


def test_a_rig_that_stays_down_says_what_the_lifter_moves() -> None:
    shown = view(plates_kg=300.0)
    assert shown.verdict_code == "stays down"
    assert "Can't be lifted: 32" in shown.verdict
    assert "140.0 kg all the way" in shown.verdict
    assert shown.mean_speed is shown.time is shown.work is None
    assert shown.path == ()
    assert shown.sticking == shown.push == ""
    assert any("does not leave the bottom" in line for line in shown.outlook)


def test_no_strength_within_reason_is_said() -> None:
    assert view(plates_kg=2000.0).as_hard == "No strength within reason moves this rig."


def test_a_close_call_is_said_to_be_one() -> None:
    shown = view(plates_kg=107.0)
    missing = 1.0 - rep_of(plates_kg=107.0).moved.made_share
    assert 0.05 < missing < 1.0
    assert f"Not for sure: {100 * missing:.0f} %" in shown.verdict


def test_nobody_spots_a_deadlift() -> None:
    text = " ".join(view("deadlift").outlook)
    assert "Nobody spots this lift" in text
    assert "Spotters" not in text
    assert "Spotters" in " ".join(view().outlook)


def test_the_limits_are_said_each_time() -> None:
    text = " ".join(view().limits)
    for words in (
        "prediction of a fitted model",
        "No study found has tested it",
        "promises nothing of training",
        "0.012 m/s off",
        "40 lifters",
        "1.4 % in men, 3.5 % in women",
        "One number does not say how strength goes with height",
    ):
        assert words in text


def test_no_word_promises_anything() -> None:
    shown = view()
    said = " ".join((*shown.limits, *shown.outlook, *shown.side_notes, *shown.way_down))
    for forbidden in ("stronger", "gain", "improve", "\u2014"):
        assert not re.search(rf"\b{forbidden}", said)


def test_the_band_beside_is_named() -> None:
    note = next(line for line in view().side_notes if line.startswith("Bands"))
    assert "red-1 left, red-2 right, on peg low" in note
    assert "alike within" in note


@pytest.mark.parametrize("plates_kg", [None, 115.0, 300.0, 2000.0])
def test_it_is_json_whatever_becomes_of_the_rep(plates_kg: float | None) -> None:
    told = json.loads(to_json(view(plates_kg=plates_kg)))
    assert told["verdict_code"] in {"made", "missed", "stays down"}
    assert told["sides"][0]["name"] == "plain weight"
    assert told["sides"][0]["straight"]["likely"]["kg"] > 0


def test_the_rig_is_named_with_its_plates() -> None:
    shown = view()
    assert any("A1 + A2" in line for line in shown.rig)
    assert any("a side" in line for line in shown.rig)
    assert METRIC.mass(found("bench").reading.bottom.load_kg) in shown.loads
