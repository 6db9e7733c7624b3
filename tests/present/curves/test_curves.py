"""Curves over height: the drawing says what it was given, and no word meets another."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.picture.reading import SVG, boxes, of_class, parse, viewbox, words
from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.strength import strength_curve
from topheavy.mechanics.curve import LoadCurve
from topheavy.present.curves import Curve, CurveSheet, Note, Strength, curves_svg
from topheavy.present.curves.layout import layout
from topheavy.present.curves.looks import LOOKS
from topheavy.units import METRIC, POUNDS

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

TRAVEL = (0.66, 1.07)
STRAND = LoadCurve.strand(80.0, 1.0, 0.7)
LUMP = LoadCurve.lump(4.0, 0.72)
CURVES = (
    Curve.of("plain weight", "plain", LoadCurve.constant(94.6), TRAVEL),
    Curve.of("hung straight", "straight", 0.5 * STRAND, TRAVEL, 88.0),
    Curve.of("this rig, doubled", "chosen", STRAND + LUMP, TRAVEL, 84.0),
    Curve.of("band red-1 and red-3", "band", LoadCurve.through(TRAVEL, [4.0, 28.0]), TRAVEL, 80.0),
)
STRENGTH = Strength.of(
    strength_curve(
        lift_named("bench"), Travel(bottom_m=0.66, top_m=1.07), [FullRange(load_kg=142.5)]
    ),
    "your strength",
)
FULL = CurveSheet(
    bottom_m=0.66,
    top_m=1.07,
    units=METRIC,
    curves=CURVES,
    strength=STRENGTH,
    bottom_at="bar touching the chest",
    top_at="elbows locked",
    notes=(Note(height_m=0.81, words="weakest here"), Note(height_m=0.82, words="near it")),
)
LONG = "a rig that somebody has named at rather greater length than a drawing likes"
SHEETS = {
    "full": FULL,
    "lb": replace(FULL, units=POUNDS),
    "no strength": replace(FULL, strength=None, notes=()),
    "one": replace(FULL, curves=CURVES[2:3], strength=None, notes=(), bottom_at="", top_at=""),
    "long": replace(FULL, curves=tuple(replace(curve, name=LONG) for curve in CURVES)),
    "one word": replace(FULL, curves=(replace(CURVES[0], name="W" * 60), *CURVES[1:])),
    "crowded": replace(FULL, curves=(*CURVES, *(replace(CURVES[0], kind="other"),) * 2)),
    "small": replace(FULL, width=340.0, height=230.0, type_size=8.0),
    "high": replace(FULL, height=600.0),
    "nothing on it": replace(
        FULL,
        strength=None,
        curves=(Curve(name="empty", kind="plain", points=((0.0, 0.66), (0.0, 1.07))),),
    ),
}
EACH = pytest.mark.parametrize("name", SHEETS)


def _curve(root: ET.Element, kind: str) -> list[tuple[float, float]]:
    (line,) = [one for one in of_class(root, "curve") if one.get("data-kind") == kind]
    pairs = [place.split(",") for place in line.attrib["points"].split()]
    return [(float(x), float(y)) for x, y in pairs]


@EACH
def test_nothing_leaves_the_sheet(name: str) -> None:
    root = parse(curves_svg(SHEETS[name]))
    sheet = viewbox(root)
    for element, box in boxes(root):
        assert box.left >= sheet.left - 0.01, element.attrib
        assert box.right <= sheet.right + 0.01, element.attrib
        assert box.top >= sheet.top - 0.01, element.attrib
        assert box.low <= sheet.low + 0.01, element.attrib


@EACH
def test_no_two_words_meet(name: str) -> None:
    root = parse(curves_svg(SHEETS[name]))
    texts = [box for element, box in boxes(root) if element.tag == f"{SVG}text"]
    assert len(texts) > 4
    for one, other in itertools.combinations(texts, 2):
        apart = one.right <= other.left + 0.01 or other.right <= one.left + 0.01
        assert apart or one.low <= other.top + 2.6 or other.low <= one.top + 2.6, (one, other)


@EACH
def test_curves_stay_in_the_plot(name: str) -> None:
    sheet = SHEETS[name]
    placed, root = layout(sheet), parse(curves_svg(sheet))
    lines = [*of_class(root, "curve"), *of_class(root, "strength")]
    assert len(lines) == len(sheet.curves) + (sheet.strength is not None)
    for line in lines:
        for place in line.attrib["points"].split():
            x, y = map(float, place.split(","))
            assert placed.axis.left - 0.01 <= x <= placed.axis.right + 0.01
            assert placed.top - 0.01 <= y <= placed.low + 0.01


def test_a_line_stands_where_its_loads_and_heights_do() -> None:
    """Read back with the figures on the axes: 120 and 200 kg, bottom and top."""
    root = parse(curves_svg(FULL))
    at = {
        text.text: (float(text.attrib["x"]), float(text.attrib["y"]))
        for text in root.iter(f"{SVG}text")
    }
    across = (at["200"][0] - at["120"][0]) / 80
    points = _curve(root, "chosen")
    shown = [120 + (x - at["120"][0]) / across for x, _ in points]
    assert shown == pytest.approx([kg for kg, _ in CURVES[2].points], abs=0.05)
    low, high = points[0][1], points[-1][1]
    heights = [0.66 + 0.41 * (y - low) / (high - low) for _, y in points]
    assert heights == pytest.approx([m for _, m in CURVES[2].points], abs=1e-3)


def test_strength_that_runs_off_the_sheet_has_no_outline_there() -> None:
    root, placed = parse(curves_svg(FULL)), layout(FULL)
    outlines = [line for line in of_class(root, "range")[0] if line.get("stroke-width") == "0.7"]
    for line in outlines:
        assert all(
            float(place.split(",")[0]) < placed.axis.right
            for place in line.attrib["points"].split()
        )
    assert max(STRENGTH.high_kg) > placed.axis.to_kg


def test_a_jump_is_drawn_level() -> None:
    points = _curve(parse(curves_svg(FULL)), "chosen")
    jumps = [(a, b) for a, b in itertools.pairwise(points) if a[1] == b[1] and a[0] != b[0]]
    assert len(jumps) == 1


def test_each_name_stands_with_its_loads() -> None:
    said = words(parse(curves_svg(FULL)))
    for line in ("plain weight", "94.6 kg", "84.0 to 117.6 kg", "weakest 142.5 kg"):
        assert line in said
    assert "185.2 to 259.3 lb" in words(parse(curves_svg(SHEETS["lb"])))


def test_names_stand_in_the_order_of_loads_at_the_top() -> None:
    names = layout(FULL).names
    ends: dict[str | None, float] = {curve.kind: curve.ends_kg[1] for curve in CURVES}
    ends[None] = STRENGTH.best_kg[-1]
    loads = [ends[label.kind] for label in names]
    assert loads == sorted(loads)
    assert [label.x for label in names] == sorted(label.x for label in names)


def test_every_kind_is_told_apart_without_colour() -> None:
    looks = [(look.dashes, look.mark, look.weight) for look in LOOKS.values()]
    assert len({mark for _, mark, _ in looks}) == len(looks)
    assert len({(dashes, weight) for dashes, _, weight in looks}) == len(looks)
    for one, other in itertools.combinations(LOOKS.values(), 2):
        assert not set(one.marks_at) & set(other.marks_at)


def test_it_is_told_to_those_who_can_not_see_it() -> None:
    root = parse(curves_svg(replace(FULL, title="Why the chain")))
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert desc is not None
    assert title.text == "Why the chain"
    assert desc.text is not None
    for said in (
        "Your strength is least at",
        "142.5 kg",
        "Plain weight: 94.6 kg at bottom and top.",
        "This rig, doubled: 84.0 kg at the bottom, 117.6 kg at the top.",
        "At 81.0 cm: weakest here.",
    ):
        assert said in desc.text
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"


def test_an_axis_that_leaves_out_its_beginning_says_so() -> None:
    assert any("not from zero" in said for said in words(parse(curves_svg(FULL))))
    wide = Curve(name="much", kind="chosen", points=((5.0, 0.66), (100.0, 1.07)))
    shown = words(parse(curves_svg(replace(FULL, curves=(wide,), strength=None))))
    assert "0" in shown
    assert not any("not from zero" in said for said in shown)


def test_names_with_markup_stay_names() -> None:
    odd = replace(CURVES[0], name='<b> & \x00 "q"')
    said = words(parse(curves_svg(replace(FULL, curves=(odd,)))))
    assert any(line.startswith("<b> &") for line in said)


BENT = Curve(name="bent", kind="plain", points=((1.0, 0.9), (1.0, 0.8)))
OUTSIDE = Curve(name="outside", kind="plain", points=((1.0, 0.5), (1.0, 0.8)))
NO_NUMBER = Curve(name="nan", kind="plain", points=((float("nan"), 0.7), (1.0, 0.8)))
DOT = Curve(name="dot", kind="plain", points=((1.0, 0.8),))


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"bottom_m": 1.2}, "bottom_m"),
        ({"curves": ()}, "curves"),
        ({"curves": CURVES * 2}, "curves"),
        ({"curves": (BENT,)}, "bent"),
        ({"curves": (OUTSIDE,)}, "outside"),
        ({"curves": (NO_NUMBER,)}, "nan"),
        ({"curves": (DOT,)}, "dot"),
        ({"notes": (Note(height_m=2.0, words="above"),)}, "above"),
        ({"width": 100.0}, "width"),
    ],
)
def test_what_can_not_be_drawn_is_refused(changes: dict[str, object], field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        replace(FULL, **changes)  # type: ignore[arg-type]
    assert caught.value.field == field
