"""Two ways to hang the same chain, side by side and to one scale: bar at the bottom and the top."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.draw import draw_pose
from topheavy.present.picture.facts import facts
from topheavy.present.picture.frame import high_m
from topheavy.present.picture.lettering import printable, text_width, wrapped
from topheavy.present.picture.pen import Pen
from topheavy.present.picture.plan import plan
from topheavy.present.picture.sheet import CHALK, EMBER, SLATE, STEEL, Scale, Sheet
from topheavy.present.picture.station import FLOOR_UNITS, draw_floor
from topheavy.present.picture.words import description, links_words, sentence

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from topheavy.present.picture.facts import Facts
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene

WIDTH: Final = 527.0
"""Width of the sheet [drawing units, points when printed]: A4 between the page's margins."""

_HIGHEST: Final = 150.0
_SIZE: Final = 10.5
_LEADING: Final = 1.22
_GAP: Final = 14.0
_BETWEEN: Final = 26.0
_EDGE: Final = 2.0
_MM_A_POINT: Final = 25.4 / 72
_POSES: Final = ("bottom", "top")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """One way to hang it: the scene, and what to call it."""

    name: str
    scene: Scene


@dataclass(frozen=True, slots=True)
class _Column:
    """One figure: whose, at which pose, and where it stands across the sheet."""

    hung: Hung
    placed: Plan
    found: Facts
    pose: int
    left: float
    width: float

    @property
    def bar_m(self) -> float:
        return (self.hung.scene.bottom_m, self.hung.scene.top_m)[self.pose]

    def caption(self) -> list[str]:
        """Links off the floor, in lines as wide as the column; nothing without chain."""
        if not self.found.links:
            return []
        words = sentence(links_words(self.hung.scene, self.found, self.pose))
        return wrapped(words, _SIZE, self.width)


def strip_svg(hangs: tuple[Hung, ...]) -> str:
    """Draw ways to hang the same chain at the same station.

    Parameters
    ----------
    hangs : tuple of Hung
        One or two, left to right.

    Returns
    -------
    str
        SVG 1.1; each figure is a group of class ``figure`` with ``data-hang`` and ``data-pose``.
    """
    columns = _columns(hangs)
    scenes = [one.scene for one in hangs]
    top_m, low_m = max(map(high_m, scenes)), min(scene.low_m for scene in scenes)
    widest_m = max(column.placed.width_m for column in columns)
    per_m = min(_HIGHEST / (top_m - low_m), columns[0].width / widest_m)
    head = 3 * _LEADING * _SIZE
    floor = head + (top_m - low_m) * per_m
    lines = max(len(column.caption()) for column in columns)
    height = floor + FLOOR_UNITS + (lines * _LEADING + 0.4) * _SIZE
    printed = f"{WIDTH * _MM_A_POINT:.2f}mm", f"{height * _MM_A_POINT:.2f}mm"
    sheet = Sheet(WIDTH, height, printed)
    _name(sheet, columns)
    sheet.box(sheet.root, (0, 0), (WIDTH, height), fill=CHALK)
    for number, hung in enumerate(hangs):
        first, last = columns[2 * number], columns[2 * number + 1]
        place = first.left, 0.95 * _SIZE
        group = sheet.group(class_="hang")
        sheet.words(group, printable(hung.name), place, _SIZE, font_weight="700")
        draw_floor(sheet, first.left, last.left + last.width, floor)
        if number:
            x = first.left - 0.5 * _BETWEEN
            sheet.line(group, (x, 0), (x, height), stroke=STEEL, stroke_width=0.6)
    for column in columns:
        _draw(sheet, column, Scale(column.left, floor + low_m * per_m, per_m))
    return sheet.text()


def strip_words(hangs: tuple[Hung, ...]) -> str:
    """Say what the drawing shows, for those who can't see it."""
    said = []
    for hung in hangs:
        found = facts(hung.scene, plan(hung.scene))
        said.append(f"{sentence(hung.name)}: {description(hung.scene, found)}")
    return " ".join(said)


def _columns(hangs: tuple[Hung, ...]) -> list[_Column]:
    count = 2 * len(hangs)
    spare = WIDTH - 2 * _EDGE - _GAP * len(hangs) - _BETWEEN * (len(hangs) - 1)
    width, left = spare / count, _EDGE
    columns = []
    for hung in hangs:
        placed = plan(hung.scene)
        found = facts(hung.scene, placed)
        for pose in (0, 1):
            columns.append(_Column(hung, placed, found, pose, left, width))
            left += width + (_BETWEEN if pose else _GAP)
    return columns


def _name(sheet: Sheet, columns: list[_Column]) -> None:
    sheet.root.set("aria-labelledby", "strip-title strip-desc")
    for id_, tag, words in (
        ("strip-title", "title", "The same chain, bar at the bottom and at the top"),
        ("strip-desc", "desc", strip_words(tuple(c.hung for c in columns if not c.pose))),
    ):
        sheet.add(sheet.root, tag, id=id_).text = printable(words)


def _draw(sheet: Sheet, column: _Column, scale: Scale) -> None:
    scene = column.hung.scene
    figure = sheet.group(class_="figure")
    figure.set("data-hang", column.hung.name)
    figure.set("data-pose", _POSES[column.pose])
    draw_pose(Pen(sheet, figure, scale), scene, column.placed, column.bar_m)
    words: ET.Element = sheet.group(class_="words")
    y = (1 + _LEADING) * _SIZE
    pose = f"{_POSES[column.pose]}  "
    sheet.words(words, pose.strip(), (column.left, y), _SIZE, fill=SLATE)
    load = scene.units.mass(column.found.raising.loads_kg[column.pose])
    place = column.left + text_width(pose, _SIZE), y
    sheet.words(words, load, place, 1.25 * _SIZE, font_weight="700", fill=EMBER)
    floor = scale.y(scene.low_m) + FLOOR_UNITS
    for row, line in enumerate(column.caption()):
        place = column.left, floor + (1.05 + row * _LEADING) * _SIZE
        sheet.words(words, line, place, _SIZE)
