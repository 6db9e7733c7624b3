"""Words set in their places: captions, the key, and the legend of the curve."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.present.picture.captions import LEADING
from topheavy.present.picture.sheet import EMBER, HATCH, HUNG_TINT, INK, PALE, SLATE, STEEL
from topheavy.present.picture.words import loads_words

if TYPE_CHECKING:
    from topheavy.present.picture.draft import Draft
    from topheavy.present.picture.facts import Reading

RAISING_LINE: Final[dict[str, str | float]] = {"stroke": EMBER, "stroke_width": 1.7}
LOWERING_LINE: Final[dict[str, str | float]] = {
    "stroke": EMBER,
    "stroke_width": 1.0,
    "stroke_dasharray": "4 2.4",
}
STRAIGHT_LINE: Final[dict[str, str | float]] = {
    "stroke": SLATE,
    "stroke_width": 0.9,
    "stroke_dasharray": "0.9 1.9",
    "stroke_linecap": "round",
}
"""How each curve is drawn: told apart without colour by weight and dashes."""


def draw_captions(draft: Draft) -> None:
    """Set the lines under each figure."""
    sheet, page = draft.sheet, draft.page
    group = sheet.group(class_="caption")
    size = page.type.small
    for figure, lines in zip(page.figures, page.caption_lines, strict=True):
        for row, line in enumerate(lines):
            place = (figure.left, page.captions + LEADING * size * row)
            sheet.words(group, line.words, place, size, font_weight="700" if line.bold else "400")


def draw_key(draft: Draft) -> None:
    """Set the key under everything."""
    sheet, page = draft.sheet, draft.page
    group = sheet.group(class_="key", fill=INK)
    size = page.type.body
    for row, words in enumerate(page.key_lines):
        sheet.words(group, words, (page.key_x, page.key + LEADING * size * row), size)


def draw_legend(draft: Draft) -> None:
    """Set what each line of the curve is, with its loads, and what each area is."""
    sheet, scene, found = draft.sheet, draft.scene, draft.found
    group = sheet.group(class_="legend")
    size, panel = draft.page.type.small, draft.page.panel
    lines: list[tuple[str, Reading | None, dict[str, str | float]]] = [
        ("raising", found.raising, RAISING_LINE),
        ("lowering, once under way", found.lowering, LOWERING_LINE),
        ("hung straight", found.straight, STRAIGHT_LINE),
    ]
    y = draft.page.legend
    for name, curve, look in lines:
        if curve is not None:
            middle = y - 0.3 * size
            sheet.line(group, (panel.left, middle), (panel.left + 15, middle), **look)
            # At lockout nothing has been lowered yet: the line has no load there to name.
            words = name if curve is found.lowering else f"{name} {loads_words(scene, curve)}"
            sheet.words(group, words, (panel.left + 19, y), size)
            y += LEADING * size
    areas = [(f"bar and plates {scene.units.mass(found.straight_weight_kg)}", PALE)]
    areas += [(found.added, HUNG_TINT)] if found.added else []
    for words, tint in areas:
        corner, opposite = (panel.left, y - 0.72 * size), (panel.left + 15, y + 0.06 * size)
        sheet.box(group, corner, opposite, fill=tint, stroke=STEEL, stroke_width=0.4)
        if tint == HUNG_TINT:
            for ruled in (y - 0.52 * size, y - 0.17 * size):
                ends = (panel.left, ruled), (panel.left + 15, ruled)
                sheet.line(group, *ends, stroke=HATCH, stroke_width=0.5)
        sheet.words(group, words, (panel.left + 19, y), size)
        y += LEADING * size
