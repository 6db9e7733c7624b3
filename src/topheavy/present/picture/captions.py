"""Words in lines: under the figures, under the curve, and the key below everything."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.lettering import wrapped
from topheavy.present.picture.sheet import EMBER, HATCH, HUNG_TINT, INK, PALE, SLATE, STEEL
from topheavy.present.picture.words import (
    connector_words,
    ground_words,
    hang_words,
    letter,
    links_words,
    loads_words,
    sentence,
)

if TYPE_CHECKING:
    from topheavy.present.picture.draft import Draft
    from topheavy.present.picture.facts import Facts, Reading
    from topheavy.present.picture.scene import Scene

LEADING: Final = 1.3
"""From line to line in sizes of the type."""

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


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text, bold or not."""

    words: str
    bold: bool = False


def caption(scene: Scene, found: Facts, pose: int, room: float, size: float) -> list[Line]:
    """Lines under the figure at the bottom (0) or at the top (1), wrapped to `room`."""
    bar_m = (scene.bottom_m, scene.top_m)[pose]
    count = sentence(links_words(scene, found, pose))
    lines = [Line(words, bold=True) for words in wrapped(count, size, room, bold=True)]
    for said in connector_words(scene, bar_m):
        words = said if len(scene.drawn_end.hangs) > 1 else sentence(said)
        lines += [Line(line) for line in wrapped(words, size, room)]
    return lines


def key_of(scene: Scene, room: float, size: float) -> list[str]:
    """Lines that say what hangs and what is on the sleeve, wrapped to `room`."""
    several = len(scene.drawn_end.hangs) > 1
    said = [
        f"{letter(number)}: {hang_words(scene, number)}"
        if several
        else sentence(hang_words(scene, number))
        for number in range(len(scene.drawn_end.hangs))
    ]
    pad = "" if scene.pad_m is None else f"pad {scene.units.length(scene.pad_m)} high"
    plates = f"plates a side {scene.plates}" if scene.plates else ""
    said.append(sentence("; ".join(filter(None, [plates, pad, ground_words(scene)]))))
    links = "Links are this end's, loads the whole bar's."
    said.append(f"{sentence(scene.end)} end of the bar, to scale. {links}")
    return [line for words in said if words for line in wrapped(words, size, room)]


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


def legend_rows(found: Facts) -> int:
    """Lines under the curve."""
    return 3 + (found.straight is not None) + (found.links > 0)


def draw_legend(draft: Draft) -> None:
    """Set what each line of the curve is, with its loads, and what each area is."""
    sheet, scene, found = draft.sheet, draft.scene, draft.found
    group = sheet.group(class_="legend")
    size, panel = draft.page.type.small, draft.page.panel
    lines: list[tuple[str, Reading | None, dict[str, str | float]]] = [
        ("raising", found.raising, RAISING_LINE),
        ("lowering", found.lowering, LOWERING_LINE),
        ("hung straight", found.straight, STRAIGHT_LINE),
    ]
    y = draft.page.legend
    for name, curve, look in lines:
        if curve is not None:
            middle = y - 0.3 * size
            sheet.line(group, (panel.left, middle), (panel.left + 15, middle), **look)
            words = f"{name} {loads_words(scene, curve)}"
            sheet.words(group, words, (panel.left + 19, y), size)
            y += LEADING * size
    areas = [(f"bar and plates {scene.units.mass(found.straight_weight_kg)}", PALE)]
    areas += [("what hangs", HUNG_TINT)] if found.links else []
    for words, tint in areas:
        corner, opposite = (panel.left, y - 0.72 * size), (panel.left + 15, y + 0.06 * size)
        sheet.box(group, corner, opposite, fill=tint, stroke=STEEL, stroke_width=0.4)
        if tint == HUNG_TINT:
            for ruled in (y - 0.52 * size, y - 0.17 * size):
                ends = (panel.left, ruled), (panel.left + 15, ruled)
                sheet.line(group, *ends, stroke=HATCH, stroke_width=0.5)
        sheet.words(group, words, (panel.left + 19, y), size)
        y += LEADING * size
