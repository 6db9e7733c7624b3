"""The picture holds what the mechanics say, to scale, on the sheet, above the floor."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest

from tests.present.picture.reading import (
    SVG,
    boxes,
    figure,
    floor_y,
    links,
    of_class,
    parse,
    viewbox,
    words,
)
from tests.present.picture.scenes import BENCH, DEADLIFT, MIXED, PRESS, SCENES, SQUAT
from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.links import count_doubled, count_straight
from topheavy.present.picture import HangNote, Scene, draw_rig
from topheavy.services.counting import links_of
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

POSES = ("bottom", "top")
ROUNDED = 0.02

named = pytest.mark.parametrize("scene", SCENES.values(), ids=SCENES)
piled = pytest.mark.parametrize(
    "scene",
    [scene for scene in SCENES.values() if scene.ground.lay == "piled"],
    ids=[name for name, scene in SCENES.items() if scene.ground.lay == "piled"],
)


@cache
def drawn(scene: Scene) -> ET.Element:
    """Draw a scene once for all tests, which only read it."""
    return parse(draw_rig(scene))


def bar_m(scene: Scene, pose: str) -> float:
    return scene.bottom_m if pose == "bottom" else scene.top_m


def sleeve_y(root: ET.Element, pose: str) -> float:
    """Middle of the drawn sleeve, found by its 50 mm."""
    part = figure(root, pose)
    per_m = float(part.attrib["data-per-m"])
    (bar,) = of_class(part, "bar")
    found = {
        float(rect.attrib["y"]) + 0.5 * float(rect.attrib["height"])
        for rect in bar.iter(f"{SVG}rect")
        if abs(float(rect.attrib["height"]) - 0.050 * per_m) < ROUNDED
    }
    assert found
    return found.pop()


@named
def test_svg_is_well_formed_and_named_for_those_who_cannot_see_it(scene: Scene) -> None:
    root = drawn(scene)
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == "img"
    named_by = root.attrib["aria-labelledby"].split()
    found = {element.get("id"): element.text for element in root if element.get("id")}
    assert list(found) == named_by
    assert all(found.values())


@piled
@pytest.mark.parametrize("pose", POSES)
def test_links_drawn_off_and_on_the_floor_are_those_the_mechanics_count(
    scene: Scene, pose: str
) -> None:
    part = figure(drawn(scene), pose)
    off = Counter(link.get("data-chain") for link in links(part, "off"))
    down = Counter(link.get("data-chain") for link in links(part, "down"))
    for number, hang in enumerate(scene.drawn_end.hangs):
        offset_m = hang.suspension.fold_m if isinstance(hang, Doubled) else hang.drop_m
        above_m = bar_m(scene, pose) - offset_m - scene.ground.surface_m
        for index, chain in enumerate(hang.chains):
            count = (count_straight if isinstance(hang, Straight) else count_doubled)(
                chain, above_m
            )
            assert off.pop(f"{number}.{index}", 0) == count.off
            assert down.pop(f"{number}.{index}", 0) == count.down
    assert not off
    assert not down


@pytest.mark.parametrize("pose", POSES)
def test_dragged_slack_lifts_as_many_links_as_are_counted_and_loses_none(pose: str) -> None:
    scene = SCENES["dragged"]
    dragged = figure(drawn(scene), pose)
    heaped = figure(drawn(BENCH), pose)
    (hang,) = scene.drawn_end.hangs
    counted = [links_of(hang, one, bar_m(scene, pose), scene.ground) for one in hang.chains]
    assert len(links(dragged, "off")) == sum(count.off for count in counted)
    assert len(links(dragged, "down")) == sum(count.down for count in counted)
    assert len(links(dragged, "off")) > len(links(heaped, "off"))


@named
def test_bar_rises_by_the_travel_to_scale(scene: Scene) -> None:
    root = drawn(scene)
    low, top = (sleeve_y(root, pose) for pose in POSES)
    per_m = float(figure(root, "top").attrib["data-per-m"])
    assert low - top == pytest.approx((scene.top_m - scene.bottom_m) * per_m, abs=ROUNDED)


@named
def test_bar_stands_at_its_height_above_the_floor(scene: Scene) -> None:
    root = drawn(scene)
    per_m = float(figure(root, "bottom").attrib["data-per-m"])
    above = floor_y(root) - sleeve_y(root, "bottom")
    assert above == pytest.approx((scene.bottom_m - scene.low_m) * per_m, abs=2 * ROUNDED)


def test_a_hanging_link_is_as_long_as_it_is() -> None:
    """A straight strand: outside length of a link is pitch + 2 wire diameters."""
    scene = replace(SCENES["thin"], notes=(HangNote(wire_m=(0.008,)),))
    part = figure(drawn(scene), "top")
    per_m = float(part.attrib["data-per-m"])
    reach = {id(element): box for element, box in boxes(part)}
    upright = [reach[id(link)] for link in links(part, "off")]
    lengths = sorted(box.low - box.top for box in upright)
    assert lengths[len(lengths) // 2] == pytest.approx((0.028 + 0.016) * per_m, abs=2 * ROUNDED)


@named
def test_nothing_of_a_figure_is_below_the_floor(scene: Scene) -> None:
    root = drawn(scene)
    floor = floor_y(root)
    for pose in POSES:
        for element, box in boxes(figure(root, pose)):
            assert box.low <= floor + ROUNDED, element.attrib


@named
def test_everything_stands_on_the_sheet(scene: Scene) -> None:
    root = drawn(scene)
    sheet = viewbox(root)
    for element, box in boxes(root):
        assert box.left >= sheet.left - ROUNDED, element.attrib
        assert box.top >= sheet.top - ROUNDED, element.attrib
        assert box.right <= sheet.right + ROUNDED, element.attrib
        assert box.low <= sheet.low + ROUNDED, element.attrib


@named
def test_no_words_cover_others(scene: Scene) -> None:
    root = drawn(scene)
    found = [box for element, box in boxes(root) if element.tag == f"{SVG}text"]
    said = words(root)
    assert len(found) == len(said)
    for first in range(len(found)):
        for second in range(first):
            a, b = found[first], found[second]
            across = min(a.right, b.right) - max(a.left, b.left)
            down = min(a.low, b.low) - max(a.top, b.top)
            assert across <= 0 or down <= 4.0, (said[first], said[second])


@named
def test_type_is_large_enough_to_read(scene: Scene) -> None:
    """At 180 mm a unit is a point, 7 pt at least; at 390 px it is a pixel, 11 px at least."""
    root = drawn(scene)
    least = 7.0 if scene.layout == "wide" else 11.0
    assert viewbox(root).right == (510.0 if scene.layout == "wide" else 390.0)
    assert min(float(e.attrib["font-size"]) for e in root.iter(f"{SVG}text")) >= least


@named
def test_drawing_is_the_same_every_time(scene: Scene) -> None:
    assert draw_rig(scene) == draw_rig(scene)


@named
def test_nothing_comes_from_outside_and_nothing_is_not_a_number(scene: Scene) -> None:
    svg = draw_rig(scene)
    for foreign in ("href", "url(", "<style", "var(", "@import", "<script", "<image"):
        assert foreign not in svg
    for element in parse(svg).iter():
        for name, value in element.attrib.items():
            assert value.casefold() not in {"nan", "inf", "-inf"}, name


def test_metric_words() -> None:
    said = words(drawn(BENCH))
    loads = BENCH.rig.curve(BENCH.ground, "raising").at([0.6, 1.0])
    assert f"{loads[0]:.1f} kg" in said
    assert f"{loads[1]:.1f} kg" in said
    assert {"60.0 cm", "100.0 cm", "travel 40.0 cm", "ring 9", "50.0 cm", "cm"} <= set(said)


def test_pound_words() -> None:
    """Heights in inches: 0.95 m is 37.4 in, 1.5 m 59.1 in (NIST SP 811, 2008: 25.4 mm)."""
    said = words(parse(draw_rig(SQUAT)))
    load_kg = float(SQUAT.rig.curve(SQUAT.ground, "raising").at(1.5))
    assert f"{load_kg / 0.45359237:.1f} lb" in said
    assert {"37.4 in", "59.1 in", "in"} <= set(said)
    assert not any(" kg" in line or " cm" in line for line in said)


@pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])
def test_description_tells_what_is_seen(units: UnitSystem) -> None:
    scene = replace(BENCH, units=units)
    root = drawn(scene)
    told = root.findtext(f"{SVG}desc") or ""
    for pose in POSES:
        part = figure(root, pose)
        off, down = len(links(part, "off")), len(links(part, "down"))
        assert f"{off} links off the floor, {down} on it" in told
    assert "Pieces A3 + A4, 32 links each, doubled, feeder at ring 9" in told
    assert scene.units.mass(80.0) in told
    assert "hung straight" in told


def test_several_hangs_bear_letters() -> None:
    said = words(parse(draw_rig(MIXED)))
    assert said.count("a") == said.count("b") == said.count("c") == 2
    assert any(line.startswith("b: 3 pieces of 32 + 31 + 30 links, doubled") for line in said)


def test_feeder_forms_are_told_apart() -> None:
    def inside(scene: Scene) -> Counter[str]:
        part = figure(drawn(scene), "top")
        (feeder,) = of_class(part, "feeder")
        return Counter(element.tag.removeprefix(SVG) for element in feeder.iter())

    assert inside(BENCH)["circle"] > 0
    assert inside(SQUAT)["path"] > 20
    assert inside(PRESS)["line"] == 3


def test_mat_lies_between_chain_and_floor() -> None:
    root = parse(draw_rig(SCENES["mat"]))
    part = figure(root, "top")
    per_m = float(part.attrib["data-per-m"])
    (mat,) = of_class(part, "mat")
    (box,) = [box for _, box in boxes(mat)]
    assert box.low - box.top == pytest.approx(0.08 * per_m, abs=2 * ROUNDED)
    reach = {id(element): found for element, found in boxes(part)}
    for link in links(part, "off") + links(part, "down"):
        assert reach[id(link)].low <= box.top + ROUNDED
        assert box.left <= reach[id(link)].left
        assert reach[id(link)].right <= box.right


def test_heap_stays_clear_of_plates_that_stand_on_the_floor() -> None:
    part = figure(parse(draw_rig(DEADLIFT)), "bottom")
    reach = {id(element): box for element, box in boxes(part)}
    (bar,) = of_class(part, "bar")
    plate = max((reach[id(rect)] for rect in bar.iter(f"{SVG}rect")), key=lambda b: b.low)
    assert all(reach[id(link)].left >= plate.right - ROUNDED for link in links(part, "down"))


def test_labels_with_markup_and_control_characters_stay_text() -> None:
    rude = HangNote(feeder='</text><b a="', pieces=("A&B\x00", "\ud800"))
    root = parse(draw_rig(replace(BENCH, notes=(rude,), heading="<&>\x1b\n two")))
    said = words(root)
    assert "<&>\ufffd two" in said
    assert not list(root.iter(f"{SVG}b"))


def test_one_end_is_drawn() -> None:
    scene = replace(BENCH, end="left")
    svg = draw_rig(scene)
    assert "Left end of the bar" in svg
    assert "The left end of the bar" in svg
