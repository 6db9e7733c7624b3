"""The sheet that is drawn on: SVG elements, inks, and the scale from metres to the sheet."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.lettering import FAMILY, printable, text_width

if TYPE_CHECKING:
    from collections.abc import Sequence

    Point = tuple[float, float]

CHALK: Final = "#f7f5ef"
INK: Final = "#22272b"
SLATE: Final = "#59626a"
STEEL: Final = "#8d979e"
BRIGHT: Final = "#c9cfd3"
PALE: Final = "#dfe2e1"
FAINT: Final = "#ebeae4"
RUBBER: Final = "#2a2c2e"
HUNG_TINT: Final = "#f0dacd"
HATCH: Final = "#d39a80"
HATCH_STEP: Final = 2.6
EMBER: Final = "#b3431b"
"""Inks, from chalk ground to rubber. Each keeps its own grey when printed without colour."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Metres of one figure to places on the sheet.

    Parameters
    ----------
    left, floor : float
        Where x = 0 and height 0 stand on the sheet [drawing units].
    per_m : float
        Drawing units a metre.
    """

    left: float
    floor: float
    per_m: float

    def x(self, x_m: float) -> float:
        """Place of a distance [m] from the figure's left edge."""
        return self.left + x_m * self.per_m

    def y(self, height_m: float) -> float:
        """Place of a height [m]."""
        return self.floor - height_m * self.per_m

    def at(self, point: Point) -> Point:
        """Place of a point (x [m], height [m])."""
        return self.x(point[0]), self.y(point[1])


class Sheet:
    """An SVG drawing in the making; every length in drawing units.

    Parameters
    ----------
    width, height : float
        Size of the viewBox.
    printed : tuple of str
        Width and height attributes, with their units.
    """

    def __init__(self, width: float, height: float, printed: tuple[str, str]) -> None:
        self.width, self.height = width, height
        self.root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "version": "1.1",
                "width": printed[0],
                "height": printed[1],
                "viewBox": f"0 0 {number(width)} {number(height)}",
                "role": "img",
                "font-family": FAMILY,
                "fill": INK,
            },
        )

    def group(self, parent: ET.Element | None = None, **attributes: str | float) -> ET.Element:
        """Open a group; attributes as in `add`."""
        return self.add(self.root if parent is None else parent, "g", **attributes)

    @staticmethod
    def add(parent: ET.Element, tag: str, **attributes: str | float) -> ET.Element:
        """Add an element: ``stroke_width=1`` becomes ``stroke-width="1"``, ``class_`` ``class``."""
        element = ET.SubElement(parent, tag)
        for name, value in attributes.items():
            text = value if isinstance(value, str) else number(value)
            element.set(name.rstrip("_").replace("_", "-"), text)
        return element

    def line(
        self, parent: ET.Element, start: Point, end: Point, **attributes: str | float
    ) -> ET.Element:
        """Draw a straight line."""
        return self.add(
            parent, "line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **attributes
        )

    def box(
        self, parent: ET.Element, corner: Point, opposite: Point, **attributes: str | float
    ) -> ET.Element:
        """Draw a rectangle between two opposite corners."""
        return self.add(
            parent,
            "rect",
            x=min(corner[0], opposite[0]),
            y=min(corner[1], opposite[1]),
            width=abs(corner[0] - opposite[0]),
            height=abs(corner[1] - opposite[1]),
            **attributes,
        )

    def trace(
        self, parent: ET.Element, points: Sequence[Point], **attributes: str | float
    ) -> ET.Element:
        """Draw a line through points; unfilled unless told otherwise."""
        attributes.setdefault("fill", "none")
        places = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        return self.add(parent, "polyline", points=places, **attributes)

    def words(
        self,
        parent: ET.Element,
        text: str,
        place: Point,
        size: float,
        **attributes: str | float,
    ) -> ET.Element:
        """Set one line of text on its baseline; ``text_anchor`` says what `place` is.

        Its width is stated, so that another typeface is squeezed into the same room.
        """
        element = self.add(parent, "text", x=place[0], y=place[1], font_size=size, **attributes)
        element.text = printable(text)
        if element.text.isascii():
            width = text_width(element.text, size, bold=attributes.get("font_weight") == "700")
            element.set("textLength", number(width))
            element.set("lengthAdjust", "spacingAndGlyphs")
        return element

    def words_on_chalk(
        self,
        parent: ET.Element,
        text: str,
        place: Point,
        size: float,
        **attributes: str | float,
    ) -> ET.Element:
        """Set one line of text with a patch of ground behind it, so that lines stop short of it."""
        width = text_width(text, size, bold=attributes.get("font_weight") == "700")
        anchor = attributes.get("text_anchor", "start")
        left = place[0] - {"start": 0.0, "middle": width / 2, "end": width}[str(anchor)]
        pad = 0.18 * size
        self.box(
            parent,
            (left - pad, place[1] - 0.78 * size),
            (left + width + pad, place[1] + 0.14 * size),
            fill=CHALK,
        )
        return self.words(parent, text, place, size, **attributes)

    def text(self) -> str:
        """The SVG as text."""
        return ET.tostring(self.root, encoding="unicode")


def number(value: float) -> str:
    """Write a coordinate, to a hundredth.

    >>> number(12.0), number(-0.001)
    ('12', '0')

    Raises
    ------
    ValueError
        A value that is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a coordinate must be finite, not {value}")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def stadium(start: Point, end: Point, radius: float) -> str:
    """Path of a stadium: a segment [drawing units] with a round cap at each end."""
    (ax, ay), (bx, by) = start, end
    length = math.hypot(bx - ax, by - ay)
    if not math.isfinite(length + radius):
        raise ValueError(f"a stadium must be finite, not {start} to {end}")
    nx, ny = (
        (0.0, radius) if length == 0 else (radius * (ay - by) / length, radius * (bx - ax) / length)
    )
    arc = f"A{radius:.2f} {radius:.2f} 0 0 0 "
    first = f"{ax + nx:.2f} {ay + ny:.2f}"
    return (
        f"M{first}L{bx + nx:.2f} {by + ny:.2f}{arc}{bx - nx:.2f} {by - ny:.2f}"
        f"L{ax - nx:.2f} {ay - ny:.2f}{arc}{first}Z"
    )
