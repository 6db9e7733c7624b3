"""A pen that draws one figure in metres: the figure's scale turns them into places."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.picture.sheet import INK, stadium

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET
    from collections.abc import Sequence

    from topheavy.present.picture.links import Link
    from topheavy.present.picture.sheet import Point, Scale, Sheet


@dataclass(frozen=True, slots=True)
class Pen:
    """Draws into one group of one figure; every place is x [m] and height [m].

    Parameters
    ----------
    sheet : Sheet
        The SVG.
    group : Element
        Where elements go.
    scale : Scale
        Metres to places.
    """

    sheet: Sheet
    group: ET.Element
    scale: Scale

    def inside(self, **attributes: str | float) -> Pen:
        """Open a group inside this one and draw there."""
        return Pen(self.sheet, self.sheet.group(self.group, **attributes), self.scale)

    def units(self, length_m: float) -> float:
        """Length on the sheet [drawing units] of a length [m]."""
        return length_m * self.scale.per_m

    def box(self, corner: Point, opposite: Point, **attributes: str | float) -> None:
        """Draw a rectangle."""
        self.sheet.box(self.group, self.scale.at(corner), self.scale.at(opposite), **attributes)

    def line(self, start: Point, end: Point, **attributes: str | float) -> None:
        """Draw a straight line."""
        self.sheet.line(self.group, self.scale.at(start), self.scale.at(end), **attributes)

    def trace(self, points: Sequence[Point], **attributes: str | float) -> None:
        """Draw a line through points, or what it encloses."""
        self.sheet.trace(self.group, [self.scale.at(point) for point in points], **attributes)

    def disc(self, centre: Point, radius_m: float, **attributes: str | float) -> None:
        """Draw a circle."""
        x, y = self.scale.at(centre)
        radius = self.units(radius_m)
        self.sheet.add(self.group, "circle", cx=x, cy=y, r=radius, **attributes)

    def outline(self, d: str, **attributes: str | float) -> None:
        """Draw a path whose places are worked out already."""
        self.sheet.add(self.group, "path", d=d, **attributes)

    def tube(self, points: Sequence[Point], width_m: float, ink: str) -> None:
        """Draw a band of a width along points, with a dark edge."""
        width = self.units(width_m)
        for stroke, wide in ((INK, width), (ink, max(width - 0.9, 0.4 * width))):
            self.trace(points, stroke=stroke, stroke_width=wide, stroke_linejoin="round")

    def link(self, link: Link, **attributes: str | float) -> None:
        """Draw a link as a stadium: a ring face-on, a bar edge-on."""
        start, end = (self.scale.at(cap) for cap in link.caps())
        d = stadium(start, end, self.units(0.5 * link.width_m))
        if not link.edge_on:
            hole_m = max(0.5 * link.width_m - link.wire_m, 0.1 * link.wire_m)
            d += stadium(start, end, self.units(hole_m))
        self.sheet.add(self.group, "path", d=d, **attributes)
