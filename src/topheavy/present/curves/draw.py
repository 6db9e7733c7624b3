"""Curves over height to SVG: height upwards as the bar moves, load to the right."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING, Final

from topheavy.present.curves.layout import LEADING, layout
from topheavy.present.curves.looks import LOOKS, STRENGTH, draw_mark
from topheavy.present.curves.words import description
from topheavy.present.picture.facts import Reading
from topheavy.present.picture.lettering import printable
from topheavy.present.picture.panel import ticks
from topheavy.present.picture.sheet import (
    BRIGHT,
    CHALK,
    FAINT,
    PALE,
    SLATE,
    STEEL,
    Sheet,
)

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from topheavy.present.curves.given import Curve, CurveSheet, Strength
    from topheavy.present.curves.layout import Label, Layout
    from topheavy.present.picture.sheet import Point

_RULE: Final = 3.0
_MARK: Final = 3.0
_MM_A_POINT: Final = 25.4 / 72


def curves_svg(sheet: CurveSheet) -> str:
    """Draw curves over height.

    Parameters
    ----------
    sheet : CurveSheet
        What to draw.

    Returns
    -------
    str
        SVG 1.1, nothing from outside. Each curve is a line of class ``curve`` with ``data-kind``
        and ``data-name``; strength is a line of class ``strength`` in an area of class ``range``.

    Examples
    --------
    >>> from topheavy.present.curves.given import Curve
    >>> from topheavy.present.curves.given import CurveSheet
    >>> from topheavy.units import METRIC
    >>> chain = Curve(name="with chain", kind="chosen", points=((80.0, 0.7), (110.0, 1.1)))
    >>> sheet = CurveSheet(bottom_m=0.7, top_m=1.1, units=METRIC, curves=(chain,))
    >>> "80.0 to 110.0 kg" in curves_svg(sheet)
    True
    """
    placed = layout(sheet)
    printed = tuple(f"{size * _MM_A_POINT:.2f}mm" for size in (sheet.width, sheet.height))
    drawing = Sheet(sheet.width, sheet.height, (printed[0], printed[1]))
    _name(drawing, sheet)
    drawing.box(drawing.root, (0, 0), (sheet.width, sheet.height), fill=CHALK)
    if sheet.strength is not None:
        _draw_range(drawing, sheet.strength, placed)
    _draw_axes(drawing, sheet, placed)
    if sheet.strength is not None:
        _draw_strength(drawing, sheet.strength, placed)
    for curve in sorted(sheet.curves, key=lambda one: one.kind == "chosen"):
        _draw_curve(drawing, sheet, placed, curve)
    _draw_names(drawing, placed, sheet.type_size)
    return drawing.text()


def _name(drawing: Sheet, sheet: CurveSheet) -> None:
    drawing.root.set("aria-labelledby", "curves-title curves-desc")
    for id_, tag, words in (
        ("curves-title", "title", sheet.title),
        ("curves-desc", "desc", description(sheet)),
    ):
        drawing.add(drawing.root, tag, id=id_).text = printable(words)


def _draw_axes(drawing: Sheet, sheet: CurveSheet, placed: Layout) -> None:
    group, size, axis = drawing.group(class_="axes"), sheet.type_size, placed.axis
    for load_kg, words in ticks(axis, sheet.units.kg_per_mass, size):
        x = axis.x(load_kg)
        drawing.line(group, (x, placed.top), (x, placed.low), stroke=PALE, stroke_width=0.6)
        drawing.words(group, words, (x, placed.ticks), size, text_anchor="middle", fill=SLATE)
    for y in (placed.top, placed.low):
        drawing.line(group, (axis.left, y), (axis.right, y), stroke=STEEL, stroke_width=1.0)
    for label in placed.heights[2:]:
        mark = (axis.left, label.at), (axis.left + 4, label.at)
        drawing.line(group, *mark, stroke=STEEL, stroke_width=0.8)
    for label in placed.heights:
        _words(drawing, group, label, size)
    for label in placed.notes:
        ends = (axis.left, label.at), (axis.right, label.at)
        drawing.line(group, *ends, stroke=STEEL, stroke_width=0.7, stroke_dasharray="1.5 2.5")
        hook = (axis.right, label.at), (label.x - 2, label.y - 0.33 * size)
        drawing.line(group, *hook, stroke=STEEL, stroke_width=0.7)
        _words(drawing, group, label, size, fill=SLATE)
    for row, words in enumerate(placed.caption_lines):
        place = axis.left, placed.caption + row * LEADING * size
        drawing.words(group, words, place, size, fill=SLATE)


def _words(
    drawing: Sheet, parent: ET.Element, label: Label, size: float, **attributes: str
) -> None:
    for row, (words, bold) in enumerate(label.lines):
        place = (label.x, label.y + row * LEADING * size)
        weight = "700" if bold else "400"
        drawing.words(parent, words, place, size, font_weight=weight, **attributes)


def _draw_range(drawing: Sheet, strength: Strength, placed: Layout) -> None:
    """Fill and rule the range of strength, cut off where the sheet ends."""
    group, axis = drawing.group(class_="range"), placed.axis
    low, high = (
        Reading(tuple(zip(line, strength.heights_m, strict=True)))
        for line in (strength.low_kg, strength.high_kg)
    )
    lows, highs = ([_place(placed, *corner) for corner in line.corners] for line in (low, high))
    drawing.trace(group, [*lows, *reversed(highs)], fill=FAINT)
    for step in range(1, math.ceil((placed.low - placed.top) / _RULE)):
        y = placed.top + step * _RULE
        height_m = (placed.scale.floor - y) / placed.scale.per_m
        left, right = (min(axis.x(line.load_kg(height_m)), axis.right) for line in (low, high))
        drawing.line(group, (left, y), (right, y), stroke=BRIGHT, stroke_width=0.6)
    for line in (lows, *_inside(highs, axis.right)):
        drawing.trace(group, line, stroke=STEEL, stroke_width=0.7)


def _inside(places: list[Point], right: float) -> list[list[Point]]:
    """Parts of a line left of an edge: where it runs off the sheet there is no outline."""
    runs = groupby(places, key=lambda place: place[0] < right)
    return [list(run) for inside, run in runs if inside]


def _draw_strength(drawing: Sheet, strength: Strength, placed: Layout) -> None:
    points = zip(strength.best_kg, strength.heights_m, strict=True)
    places = [_place(placed, load_kg, height_m) for load_kg, height_m in points]
    drawing.trace(drawing.root, places, class_="strength", **STRENGTH.line())


def _draw_curve(drawing: Sheet, sheet: CurveSheet, placed: Layout, curve: Curve) -> None:
    look = LOOKS[curve.kind]
    places = [_place(placed, load_kg, height_m) for load_kg, height_m in curve.points]
    line = drawing.trace(drawing.root, places, class_="curve", **look.line())
    line.set("data-kind", curve.kind)
    line.set("data-name", printable(curve.name))
    reading = Reading(curve.points)
    for share in look.marks_at:
        height_m = sheet.bottom_m + share * (sheet.top_m - sheet.bottom_m)
        load_kg = curve.ends_kg[0] if share == 0 else reading.load_kg(height_m)
        draw_mark(drawing, drawing.root, look, _place(placed, load_kg, height_m), _MARK)


def _place(placed: Layout, load_kg: float, height_m: float) -> Point:
    """Where a load [kg] at a height [m] stands, no further right than the plot."""
    return min(placed.axis.x(load_kg), placed.axis.right), placed.scale.y(height_m)


def _draw_names(drawing: Sheet, placed: Layout, size: float) -> None:
    """Set each curve's name above its end, with a leader drawn as the curve is."""
    group = drawing.group(class_="names")
    for label in placed.names:
        look = STRENGTH if label.kind is None else LOOKS[label.kind]
        elbow = placed.leaders + 0.9 * size
        head, foot = (label.x, placed.leaders), (label.at, placed.top)
        drawing.trace(
            group,
            [head, (label.x, elbow), foot],
            **look.line(min(look.weight, 1.4)),
        )
        draw_mark(drawing, group, look, (label.x, placed.leaders + 0.45 * size), 0.8 * _MARK)
        for row, (words, bold) in enumerate(label.lines):
            place = (label.x, label.y + row * LEADING * size)
            weight = "700" if bold else "400"
            drawing.words(group, words, place, size, font_weight=weight, text_anchor="middle")
