"""How to measure: every lift has its words and its drawing, and the tape ends where it should."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from topheavy.gym.lifts import LIFTS, Lift
from topheavy.present.measuring import End, guide_to, measuring_svg
from topheavy.units import METRIC, POUNDS

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("lift", LIFTS.values(), ids=lambda lift: lift.name)
def test_every_lift_is_explained(lift: Lift) -> None:
    guide = guide_to(lift, METRIC)
    assert guide.bottom in guide.steps[0]
    assert "locked out" in guide.top
    assert len(guide.cautions) == 2
    assert all("floor" in guide.steps[1] and text.endswith(".") for text in guide.steps)


def test_plates_lie_on_a_bar_that_starts_from_the_floor() -> None:
    assert "full plates" in guide_to(LIFTS["deadlift"], METRIC).before[0]
    assert "empty bar" in guide_to(LIFTS["squat"], METRIC).before[0]
    assert "0.4 in" in guide_to(LIFTS["squat"], POUNDS).steps[-1]


@pytest.mark.parametrize("end", ["bottom", "top"])
@pytest.mark.parametrize("name", ["bench press", "floor press", "squat", "deadlift", "push press"])
def test_the_tape_goes_from_the_floor_to_the_middle_of_the_bar(name: str, end: End) -> None:
    drawn = ET.fromstring(measuring_svg(LIFTS[name], end))  # noqa: S314 - our own drawing
    level = next(line for line in drawn.iter(f"{SVG}line") if line.get("stroke-dasharray"))
    bar_y = float(level.get("y1", "nan"))
    assert level.get("y2") == level.get("y1")
    discs = [one for one in drawn.iter(f"{SVG}circle") if float(one.get("cy", "0")) == bar_y]
    assert discs
    boxes = list(drawn.iter(f"{SVG}rect"))
    tape = next(one for one in boxes if one.get("stroke"))
    floor = boxes[1]
    assert float(tape.get("y", "0")) == pytest.approx(bar_y, abs=0.02)
    foot = float(tape.get("y", "0")) + float(tape.get("height", "0"))
    assert foot == pytest.approx(float(floor.get("y", "0")), abs=0.02)
    inside = [
        float(one.get(key, "0")) for one in drawn.iter(f"{SVG}circle") for key in ("cx", "cy")
    ]
    assert all(0 <= value <= 270 for value in inside)


def test_the_top_is_above_the_bottom() -> None:
    for lift in LIFTS.values():
        heights = []
        for end in ("bottom", "top"):
            drawn = ET.fromstring(measuring_svg(lift, end))  # noqa: S314 - our own drawing
            level = next(line for line in drawn.iter(f"{SVG}line") if line.get("stroke-dasharray"))
            heights.append(float(level.get("y1", "nan")))
        assert heights[0] > heights[1] + 20
        assert drawn.findtext(f"{SVG}title") == f"Where the tape goes at the top of the {lift.name}"
