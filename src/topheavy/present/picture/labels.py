"""Measures on the sheet: height axis, headers, how far the bar goes, how long a feeder is."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from topheavy.mechanics.hang import Doubled
from topheavy.present.picture.lettering import shortened, text_width
from topheavy.present.picture.panel import nice_step
from topheavy.present.picture.sheet import EMBER, INK, SLATE, STEEL, number
from topheavy.present.picture.words import letter

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from topheavy.present.picture.draft import Draft
    from topheavy.present.picture.frame import Figure
    from topheavy.present.picture.plan import HungAt
    from topheavy.present.picture.sheet import Point, Scale, Sheet


def draw_height_axis(draft: Draft, scale: Scale, top: float) -> None:
    """Draw a height axis with its ticks, and the heights of bottom and top in bold."""
    sheet, scene, page = draft.sheet, draft.scene, draft.page
    group = sheet.group(class_="height-axis")
    x, size = page.axis_x, page.type.small
    end = x - 0.6 * size
    sheet.line(group, (x, scale.y(scene.low_m)), (x, top), stroke=SLATE, stroke_width=0.7)
    unit_m = scene.units.m_per_length
    marked = [scale.y(bar_m) for bar_m in draft.heights_m]
    step = nice_step(2.4 * size / (scale.per_m * unit_m))
    first = math.ceil(scene.low_m / unit_m / step - 1e-9)
    last = math.floor((scale.floor - top - 1.4 * size) / (scale.per_m * unit_m) / step)
    for tick in range(first, last + 1):
        y = scale.y(tick * step * unit_m)
        sheet.line(group, (x - 3, y), (x, y), stroke=SLATE, stroke_width=0.6)
        if min(abs(y - mark) for mark in marked) > 1.05 * size:
            place = (end, y + 0.35 * size)
            sheet.words(group, f"{tick * step:g}", place, size, text_anchor="end", fill=SLATE)
    place = (end, top + 0.35 * size)
    sheet.words(group, scene.units.length_unit, place, size, text_anchor="end", fill=SLATE)
    _draw_marked_heights(draft, group, scale, end)


def _draw_marked_heights(draft: Draft, parent: ET.Element, scale: Scale, end: float) -> None:
    """Set the heights of bottom and top beside the axis, pushed apart when they would meet."""
    size, x = draft.page.type.small, draft.page.axis_x
    low, top = (scale.y(bar_m) for bar_m in draft.heights_m)
    crowd = max(0.0, 1.05 * size - (low - top)) / 2
    for bar_m, y, nudge in zip(draft.heights_m, (low, top), (crowd, -crowd), strict=True):
        words = draft.scene.units.length(bar_m).split(" ")[0]
        place = (end, y + nudge + 0.35 * size)
        draft.sheet.words(parent, words, place, size, text_anchor="end", font_weight="700")
        draft.sheet.line(parent, (x - 3, y), (x + 3, y), stroke=INK, stroke_width=1.0)


def draw_height_lines(draft: Draft) -> None:
    """Carry the heights of bottom and top across the sheet to the curve."""
    page = draft.page
    group = draft.sheet.group(
        class_="height-lines", stroke=STEEL, stroke_width=0.5, stroke_dasharray="5 1.6 1 1.6"
    )
    for bar_m in draft.heights_m:
        for y in sorted({page.figures[0].scale.y(bar_m), page.panel.scale.y(bar_m)}):
            draft.sheet.line(group, (page.axis_x, y), (page.panel.right, y))


def draw_headers(draft: Draft) -> None:
    """Set what each figure and the curve are, and the load of each figure."""
    sheet, scene, page = draft.sheet, draft.scene, draft.page
    group = sheet.group(class_="header")
    if scene.heading:
        label = page.type.label
        line = shortened(scene.heading, label, page.width - page.key_x - 8, bold=True)
        sheet.words(group, line, (page.key_x, page.header - 0.75 * label), label, font_weight="700")
    base, strong = page.header + page.type.body, page.type.strong
    for figure, word, bar_m, load_kg in zip(
        page.figures,
        ("At the bottom", "At the top"),
        draft.heights_m,
        draft.found.raising.loads_kg,
        strict=True,
    ):
        _draw_head(draft, group, (figure.left, base), (word, scene.units.length(bar_m)))
        place, words = (figure.left, base + 0.98 * strong), scene.units.mass(load_kg)
        sheet.words(group, words, place, strong, font_weight="700", fill=EMBER)
    place, unit = (page.panel.left, page.panel.title), f"{scene.units.mass_unit}, by height"
    _draw_head(draft, group, place, ("Load on the bar", unit))


def _draw_head(draft: Draft, parent: ET.Element, place: Point, words: tuple[str, str]) -> None:
    """Set two words on one line, the first bold, the second pale."""
    size = draft.page.type.body
    draft.sheet.words(parent, words[0], place, size, font_weight="700")
    after = place[0] + text_width(words[0], size, bold=True) + 0.5 * size
    draft.sheet.words(parent, words[1], (after, place[1]), size, fill=SLATE)


def draw_dimensions(draft: Draft) -> None:
    """Draw how far the bar goes, and the working length of a feeder or the letters of several."""
    group = draft.sheet.group(class_="dimension")
    _draw_travel(draft, group)
    for hung in draft.placed.hangs:
        if len(draft.placed.hangs) > 1:
            for figure in draft.page.figures:
                _draw_letter(draft, group, figure, hung)
        elif isinstance(hung.hang, Doubled):
            _draw_feeder_length(draft, group, hung, hung.hang.suspension.feeder_m)


def _draw_travel(draft: Draft, parent: ET.Element) -> None:
    figure, size = draft.page.figures[1], draft.page.type.small
    x = figure.left - 5
    low, top = (figure.scale.y(bar_m) for bar_m in draft.heights_m)
    _draw_measure(draft.sheet, parent, (x, low), (x, top))
    words = f"travel {draft.scene.units.length(draft.scene.top_m - draft.scene.bottom_m)}"
    if text_width(words, size) < low - top:
        place = (x - 3, 0.5 * (low + top))
        turned = f"rotate(-90 {number(place[0])} {number(place[1])})"
        draft.sheet.words(parent, words, place, size, text_anchor="middle", transform=turned)


def _draw_measure(sheet: Sheet, parent: ET.Element, low: Point, top: Point) -> None:
    """Draw a vertical measure with an arrow head at each end."""
    sheet.line(parent, low, top, stroke=INK, stroke_width=0.6)
    head = min(4.0, 0.4 * (low[1] - top[1]))
    for (x, y), way in ((low, -head), (top, head)):
        corners = [(x, y), (x - 1.4, y + way), (x + 1.4, y + way)]
        sheet.trace(parent, corners, fill=INK)


def _draw_feeder_length(draft: Draft, parent: ET.Element, hung: HungAt, feeder_m: float) -> None:
    """Measure a feeder in the upper figure, with its setting beside it."""
    scene, figure, size = draft.scene, draft.page.figures[1], draft.page.type.small
    scale = figure.scale
    x = scale.x(hung.x_m) + max(0.04 * scale.per_m, 6.0)
    top, low_m = scale.y(scene.top_m), scene.top_m - feeder_m
    low = scale.y(max(low_m, scene.ground.surface_m))
    if low_m >= scene.ground.surface_m:
        _draw_measure(draft.sheet, parent, (x, low), (x, top))
    if low - top < 4.0 * size:
        x = max(x, scale.x(hung.x_m + hung.half_m))
    words = [scene.note(hung.number).feeder, scene.units.length(feeder_m)]
    lines = [shortened(line, size, figure.right - x + 4) for line in words if line]
    y = max(0.5 * (top + low) + size * (1 - 0.65 * len(lines)), top + 0.045 * scale.per_m + size)
    for row, line in enumerate(lines):
        draft.sheet.words_on_chalk(parent, line, (x + 3.5, y + 1.25 * size * row), size)


def _draw_letter(draft: Draft, parent: ET.Element, figure: Figure, hung: HungAt) -> None:
    size, scale = draft.page.type.small, figure.scale
    place = (scale.x(hung.x_m), scale.y(draft.heights_m[figure.pose] + 0.04) - 2.5)
    words = letter(hung.number)
    draft.sheet.words_on_chalk(parent, words, place, size, text_anchor="middle", font_weight="700")
