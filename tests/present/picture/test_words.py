"""What the picture says in words is what the mechanics say in numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.present.picture.reading import SVG, figure, floor_y, of_class, parse
from tests.present.picture.scenes import BENCH, MIXED, SCENES, chain, held, rig
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.present.picture import HangNote, Scene, draw_rig
from topheavy.present.picture.facts import facts
from topheavy.present.picture.panel import load_axis
from topheavy.present.picture.plan import plan
from topheavy.present.picture.words import (
    connector_words,
    description,
    ground_words,
    hang_words,
    letter,
    links_words,
)


def held_at(feeder_m: float) -> Scene:
    return replace(BENCH, rig=rig(60.0, Doubled(chains=(chain(20),), suspension=held(feeder_m))))


@pytest.mark.parametrize(
    ("feeder_m", "said"),
    [
        (0.300, "connector 21.5 cm above the floor"),
        (0.513, "connector meets the floor"),
        (0.518, "connector meets the floor"),
        (0.560, "connector rests on the floor"),
        (0.650, "connector lies, feeder slack 5.0 cm"),
    ],
)
def test_where_the_connector_is(feeder_m: float, said: str) -> None:
    """Bar 60 cm up, connector 8.5 cm long: its foot is at 60 - feeder - 8.5 cm."""
    assert connector_words(held_at(feeder_m), 0.6) == [said]


def test_several_connectors_bear_their_letters() -> None:
    said = connector_words(MIXED, MIXED.bottom_m)
    assert [words[:13] for words in said] == ["a: connector ", "b: connector "]


@pytest.mark.parametrize(
    ("links", "bar_m", "said"),
    [
        (20, 0.60, "all 20 links on the floor"),
        (20, 0.70, "4 links off the floor, 16 on it"),
        (20, 3.00, "all 20 links off the floor"),
        (1, 3.00, "the only link off the floor"),
    ],
)
def test_how_many_links_are_off(links: int, bar_m: float, said: str) -> None:
    """Fold 60 cm down; 10 cm up, each strand of 5.6 cm links has two tops off."""
    hang = Doubled(chains=(chain(links),), suspension=held(0.515))
    scene = replace(BENCH, rig=rig(60.0, hang), bottom_m=bar_m, top_m=bar_m + 0.2)
    assert links_words(scene, facts(scene, plan(scene)), 0) == said


def test_what_hangs_is_named_by_its_tags_or_counted() -> None:
    assert hang_words(BENCH, 0) == (
        "pieces A3 + A4, 32 links each, doubled, feeder at ring 9, 50.0 cm"
    )
    assert hang_words(replace(BENCH, notes=()), 0) == (
        "2 pieces of 32 links, doubled, feeder, 50.0 cm"
    )
    one = replace(BENCH, rig=rig(0.0, Straight(chain=chain(1))), notes=(HangNote(pieces=("Z",)),))
    assert hang_words(one, 0) == "piece Z, 1 link, straight from the sleeve"
    assert hang_words(SCENES["deadlift"], 0) == "2 pieces of 41 + 40 links, laid across the bar"


@pytest.mark.parametrize(
    ("ground", "said"),
    [
        (Ground(), ""),
        (Ground(surface_m=0.08), "chain lies on a mat 8.0 cm high"),
        (Ground(surface_m=-0.1), "chain lies 10.0 cm below the lifter's floor"),
        (Ground(lay="dragged"), "slack dragged to one side, long slack drawn doubled back"),
    ],
)
def test_what_the_chain_lies_on(ground: Ground, said: str) -> None:
    assert ground_words(replace(BENCH, ground=ground)) == said


def test_letters_never_run_out() -> None:
    assert [letter(number) for number in (0, 1, 25, 26, 53)] == ["a", "b", "z", "a1", "b2"]


def test_description_has_both_ways_and_both_heights() -> None:
    told = description(BENCH, facts(BENCH, plan(BENCH)))
    for way in ("raising", "lowering"):
        curve = BENCH.rig.curve(BENCH.ground, "raising" if way == "raising" else "lowering")
        for bar_m in (0.6, 1.0):
            load_kg = float(curve.at(bar_m))
            assert f"{load_kg:.1f} kg" in told
    assert "Plates a side: 20 + 10 kg." in told


@pytest.mark.parametrize("layout", ["wide", "tall"])
def test_each_figure_bears_its_own_load_raising(layout: str) -> None:
    scene = replace(BENCH, layout="tall" if layout == "tall" else "wide")
    (header,) = of_class(parse(draw_rig(scene)), "header")
    low_kg, top_kg = scene.rig.curve(scene.ground, "raising").at([0.6, 1.0])
    lines = [element.text for element in header.iter(f"{SVG}text")]
    first, second = lines.index("At the bottom"), lines.index("At the top")
    assert lines[first : first + 3] == ["At the bottom", "60.0 cm", f"{low_kg:.1f} kg"]
    assert lines[second : second + 3] == ["At the top", "100.0 cm", f"{top_kg:.1f} kg"]


def test_the_legend_names_each_curve_with_its_loads_and_no_load_not_yet_lowered() -> None:
    assert BENCH.straight is not None
    (legend,) = of_class(parse(draw_rig(BENCH)), "legend")
    lines = [element.text for element in legend.iter(f"{SVG}text")]
    raising = BENCH.rig.curve(BENCH.ground, "raising").at([0.6, 1.0])
    straight = BENCH.straight.curve(BENCH.ground, "raising").at([0.6, 1.0])
    assert lines == [
        f"raising {raising[0]:.1f} to {raising[1]:.1f} kg",
        "lowering, once under way",
        f"hung straight {straight[0]:.1f} to {straight[1]:.1f} kg",
        "bar and plates 80.0 kg",
        "what hangs",
    ]


def test_a_load_that_does_not_change_is_said_once() -> None:
    (legend,) = of_class(parse(draw_rig(SCENES["bare"])), "legend")
    lines = [element.text for element in legend.iter(f"{SVG}text")]
    assert lines[0] == "raising 80.0 kg all the way"
    assert "what hangs" not in lines


@pytest.mark.parametrize("way", ["raising", "lowering", "straight"])
def test_each_curve_is_drawn_from_its_load_at_the_bottom_to_its_load_at_the_top(way: str) -> None:
    root = parse(draw_rig(BENCH))
    found = facts(BENCH, plan(BENCH))
    reading = {"raising": found.raising, "lowering": found.lowering, "straight": found.straight}
    (line,) = of_class(root, way)
    ends = line.attrib["points"].split()
    drawn = [float(ends[place].split(",")[0]) for place in (0, -1)]
    (curve,) = of_class(root, "curve")
    upright = [e for e in curve.iter(f"{SVG}line") if e.attrib["x1"] == e.attrib["x2"]]
    left = min(float(e.attrib["x1"]) for e in upright)
    right = max(float(e.attrib["x2"]) for e in root.iter(f"{SVG}line"))
    axis = load_axis(found, left, right)
    wanted = reading[way]
    assert wanted is not None
    assert drawn == pytest.approx([axis.x(load_kg) for load_kg in wanted.loads_kg], abs=0.05)


def test_the_pad_is_as_high_as_it_was_measured() -> None:
    root = parse(draw_rig(BENCH))
    part = figure(root, "bottom")
    per_m = float(part.attrib["data-per-m"])
    (station,) = of_class(part, "station")
    (pad,) = station.iter(f"{SVG}path")
    top = float(pad.attrib["d"].split()[1].split("L")[0])
    assert floor_y(root) - top == pytest.approx(0.43 * per_m, abs=0.05)


def test_ends_that_differ_are_each_drawn_as_they_are() -> None:
    left, right = (End((Straight(chain=chain(count)),)) for count in (10, 14))
    scene = replace(BENCH, rig=Rig(20.0, 60.0, left, right), notes=(), top_m=3.0)
    for end, count in (("left", 10), ("right", 14)):
        svg = draw_rig(replace(scene, end="left" if end == "left" else "right"))
        assert f"All {count} links off the floor" in svg
