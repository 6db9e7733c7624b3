"""How each kind of curve looks: told apart without colour by weight, dashes and marks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.sheet import CHALK, EMBER, INK, SLATE

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from topheavy.present.curves.given import Kind
    from topheavy.present.picture.sheet import Point, Sheet

_CORNERS: Final[dict[str, tuple[Point, ...]]] = {
    "square": ((-1, -1), (1, -1), (1, 1), (-1, 1)),
    "triangle": ((0, -1.2), (1.2, 1), (-1.2, 1)),
    "diamond": ((0, -1.4), (1.4, 0), (0, 1.4), (-1.4, 0)),
    "wedge": ((0, 1.2), (1.2, -1), (-1.2, -1)),
}


@dataclass(frozen=True, slots=True)
class Look:
    """One way to draw a curve.

    Parameters
    ----------
    ink : str
        Colour.
    weight : float
        Width of the line [drawing units].
    dashes : str
        Dashes of the line; empty for none.
    mark : str
        Shape of the marks on it: circle, square, triangle, diamond, wedge.
    marks_at : tuple of float
        Where marks stand, as shares of the travel; each kind its own, so that they stay apart
        where curves run together.
    """

    ink: str
    weight: float
    dashes: str
    mark: str
    marks_at: tuple[float, ...]

    def line(self, weight: float | None = None) -> dict[str, str | float]:
        """Attributes of its line."""
        found: dict[str, str | float] = {
            "stroke": self.ink,
            "stroke_width": self.weight if weight is None else weight,
            "stroke_linejoin": "round",
            "stroke_linecap": "round" if self.dashes == ROUND_DOTS else "butt",
        }
        if self.dashes:
            found["stroke_dasharray"] = self.dashes
        return found


ROUND_DOTS: Final = "0.1 3.4"

LOOKS: Final[dict[Kind, Look]] = {
    "plain": Look(SLATE, 1.3, "", "square", (0.1, 0.4, 0.7)),
    "straight": Look(INK, 2.0, ROUND_DOTS, "triangle", (0.18, 0.48, 0.78)),
    "chosen": Look(EMBER, 2.8, "", "circle", (0.0, 1.0)),
    "band": Look(INK, 1.2, "7 2.4 1.4 2.4", "diamond", (0.26, 0.56, 0.86)),
    "other": Look(SLATE, 1.2, "5 3", "wedge", (0.33, 0.63, 0.93)),
}
STRENGTH: Final = Look(INK, 2.6, "", "", ())


def draw_mark(sheet: Sheet, parent: ET.Element, look: Look, place: Point, size: float) -> None:
    """Draw a mark of a curve, chalk inside, about `size` [drawing units] to each side."""
    x, y = place
    attributes: dict[str, str | float] = {"stroke": look.ink, "stroke_width": 1.2, "fill": CHALK}
    if look.mark == "circle":
        sheet.add(parent, "circle", cx=x, cy=y, r=1.15 * size, **attributes)
    elif look.mark:
        corners = _CORNERS[look.mark]
        points = [(x + size * dx, y + size * dy) for dx, dy in (*corners, corners[0])]
        sheet.trace(parent, points, **attributes)
