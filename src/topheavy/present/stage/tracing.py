"""A pen that writes shapes down instead of drawing them, so that they can be moved later."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.pen import Pen
from topheavy.present.picture.sheet import (
    BRIGHT,
    CHALK,
    FAINT,
    INK,
    PALE,
    RUBBER,
    SLATE,
    STEEL,
    Scale,
    Sheet,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.present.picture.links import Link
    from topheavy.present.picture.sheet import Point

PER_M: Final = 250.0
"""Drawing units a metre: about what the printed picture has, so hairlines stay hairlines."""

_INKS: Final = {
    CHALK: "chalk",
    INK: "ink",
    SLATE: "slate",
    STEEL: "steel",
    BRIGHT: "bright",
    PALE: "pale",
    FAINT: "faint",
    RUBBER: "rubber",
    "none": "none",
}

Look = tuple[str, str, str, str]
"""Part, fill, stroke, chain: ink names and words that stay the same while a shape moves."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One shape: what it is, how it looks, and its numbers in drawing units.

    Parameters
    ----------
    kind : {'box', 'line', 'trace', 'disc', 'link', 'path'}
        What the numbers mean. A box: x, y, width, height, rounding, stroke. A line: x1, y1, x2, y2,
        stroke. A trace: stroke, then x and y of each point. A disc: x, y, radius, stroke. A link:
        x and y of both cap centres, outer and inner radius (0: no hole), stroke. A path: stroke,
        its outline stands in `outline`.
    look : tuple of str
        Part it belongs to, fill, stroke, and the chain of a link.
    numbers : tuple of float
        Places and sizes [drawing units], y down from height 0.
    outline : str
        Of a path, which never moves.
    """

    kind: str
    look: Look
    numbers: tuple[float, ...]
    outline: str = ""

    @property
    def sort(self) -> tuple[str, Look, int, str]:
        """What must be the same for one shape to be another one moved."""
        return self.kind, self.look, len(self.numbers), self.outline


@dataclass(frozen=True, slots=True)
class TracingPen(Pen):
    """A pen whose strokes are kept as shapes, in the order they were drawn.

    Parameters
    ----------
    shapes : list of Shape
        What was drawn so far, by this pen and those inside it.
    given : dict
        Attributes of the groups around.
    """

    shapes: list[Shape] = field(default_factory=list)
    given: dict[str, str | float] = field(default_factory=dict)

    def inside(self, **attributes: str | float) -> TracingPen:
        """Open a group: what is drawn inside has its attributes unless it has its own."""
        given = {**self.given, **attributes}
        return TracingPen(self.sheet, ET.Element("g"), self.scale, self.shapes, given)

    def box(self, corner: Point, opposite: Point, **attributes: str | float) -> None:
        """Keep a rectangle."""
        (ax, ay), (bx, by) = self.scale.at(corner), self.scale.at(opposite)
        rounding = float(attributes.pop("rx", 0.0))
        self._keep(
            "box",
            (min(ax, bx), min(ay, by), abs(ax - bx), abs(ay - by), rounding),
            attributes,
        )

    def line(self, start: Point, end: Point, **attributes: str | float) -> None:
        """Keep a straight line."""
        self._keep("line", (*self.scale.at(start), *self.scale.at(end)), attributes)

    def trace(self, points: Sequence[Point], **attributes: str | float) -> None:
        """Keep a line through points."""
        look, stroke = self._look({"fill": "none", **attributes})
        places = (value for point in points for value in self.scale.at(point))
        self.shapes.append(Shape("trace", look, (stroke, *places)))

    def disc(self, centre: Point, radius_m: float, **attributes: str | float) -> None:
        """Keep a circle."""
        self._keep("disc", (*self.scale.at(centre), self.units(radius_m)), attributes)

    def outline(self, d: str, **attributes: str | float) -> None:
        """Keep a path as it is: it can't move."""
        look, stroke = self._look(attributes)
        self.shapes.append(Shape("path", look, (stroke,), d))

    def link(self, link: Link, **attributes: str | float) -> None:
        """Keep a link by the middles of its round ends and its two radii."""
        start, end = (self.scale.at(cap) for cap in link.caps())
        hole_m = 0.0
        if not link.edge_on:
            hole_m = max(0.5 * link.width_m - link.wire_m, 0.1 * link.wire_m)
        radii = self.units(0.5 * link.width_m), self.units(hole_m)
        self._keep("link", (*start, *end, *radii), attributes)

    def _keep(
        self, kind: str, numbers: tuple[float, ...], attributes: dict[str, str | float]
    ) -> None:
        look, stroke = self._look(attributes)
        self.shapes.append(Shape(kind, look, (*numbers, stroke)))

    def _look(self, attributes: dict[str, str | float]) -> tuple[Look, float]:
        """What an element shows of its own attributes and those of the groups around it."""
        found = {**self.given, **attributes}
        part = str(self.given.get("class_", ""))
        fill = _INKS[str(found.get("fill", INK))]
        stroke = _INKS[str(found.get("stroke", "none"))]
        width = float(found.get("stroke_width", 1.0)) if stroke != "none" else 0.0
        return (part, fill, stroke, str(found.get("data_chain", ""))), width


def tracing_pen() -> TracingPen:
    """Make a pen whose x 0 and height 0 are at the origin."""
    sheet = Sheet(1.0, 1.0, ("1", "1"))
    return TracingPen(sheet, sheet.root, Scale(0.0, 0.0, PER_M))
