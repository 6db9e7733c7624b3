"""The load curve beside the figures, on their height axis."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.legend import LOWERING_LINE, RAISING_LINE, STRAIGHT_LINE
from topheavy.present.picture.lettering import text_width
from topheavy.present.picture.sheet import (
    CHALK,
    EMBER,
    HATCH,
    HATCH_STEP,
    HUNG_TINT,
    PALE,
    SLATE,
    STEEL,
)
from topheavy.present.picture.station import FLOOR_UNITS

if TYPE_CHECKING:
    import xml.etree.ElementTree as ET

    from topheavy.present.picture.draft import Draft
    from topheavy.present.picture.facts import Facts, Reading
    from topheavy.present.picture.sheet import Point

_LEAST_SHARE: Final = 0.4
"""A hung part smaller than this share of the top load gets a load axis that starts above zero."""

_TOOTH: Final = 5.0
"""Length of a tooth of the torn edge where the axis leaves out its beginning [drawing units]."""


@dataclass(frozen=True, slots=True)
class LoadAxis:
    """Loads [kg] to places across the panel.

    Parameters
    ----------
    left, right : float
        Edges of the plot [drawing units].
    from_kg, to_kg : float
        Loads at those edges [kg].
    """

    left: float
    right: float
    from_kg: float
    to_kg: float

    def x(self, load_kg: float) -> float:
        """Place of a load [kg]."""
        share = (load_kg - self.from_kg) / (self.to_kg - self.from_kg)
        return self.left + share * (self.right - self.left)

    @property
    def broken(self) -> bool:
        """Whether it starts above zero."""
        return self.from_kg > 0


def load_axis(found: Facts, left: float, right: float) -> LoadAxis:
    """Choose the loads to show: from zero, or from near the plates when little hangs."""
    curves = [found.raising, found.lowering, *([found.straight] if found.straight else [])]
    most_kg = max(curve.loads_kg[1] for curve in curves)
    least_kg = min([found.straight_weight_kg, *(curve.loads_kg[0] for curve in curves)])
    if most_kg <= 0:
        return LoadAxis(left, right, 0.0, 1.0)
    hung_kg = most_kg - least_kg
    if 1e-3 * most_kg < hung_kg < _LEAST_SHARE * most_kg:
        return LoadAxis(left, right, least_kg - 0.7 * hung_kg, least_kg + 1.12 * hung_kg)
    return LoadAxis(left, right, 0.0, 1.06 * most_kg)


def draw_panel(draft: Draft) -> None:
    """Draw axes, areas and curves with the load at bottom and top."""
    found, panel = draft.found, draft.page.panel
    group = draft.sheet.group(class_="curve")
    axis = load_axis(found, panel.left, panel.right)
    _draw_areas(draft, group, axis)
    _draw_axis(draft, group, axis)
    for name, curve, look in (
        ("straight", found.straight, STRAIGHT_LINE),
        ("lowering", found.lowering, LOWERING_LINE),
        ("raising", found.raising, RAISING_LINE),
    ):
        if curve is not None:
            draft.sheet.trace(group, _places(draft, curve, axis), class_=name, **look)
    _draw_ends(draft, group, axis)


def _places(draft: Draft, curve: Reading, axis: LoadAxis) -> list[Point]:
    scale = draft.page.panel.scale
    return [(axis.x(load_kg), scale.y(height_m)) for load_kg, height_m in curve.corners]


def _draw_areas(draft: Draft, parent: ET.Element, axis: LoadAxis) -> None:
    sheet, found = draft.sheet, draft.found
    low, top = map(draft.page.panel.scale.y, draft.heights_m)
    plain = axis.x(found.straight_weight_kg)
    edge = _torn(axis.left, top, low) if axis.broken else [(axis.left, top), (axis.left, low)]
    sheet.trace(parent, [*edge, (plain, low), (plain, top)], fill=PALE)
    corners = _places(draft, found.raising, axis)
    sheet.trace(parent, [(plain, low), *corners, (plain, top)], fill=HUNG_TINT)
    _hatch(draft, parent, axis)
    sheet.line(parent, (plain, top), (plain, low), stroke=STEEL, stroke_width=0.6)


def _hatch(draft: Draft, parent: ET.Element, axis: LoadAxis) -> None:
    """Rule the hung part, so that it stays apart from the plates without colour."""
    found, scale = draft.found, draft.page.panel.scale
    low, top = map(scale.y, draft.heights_m)
    group = draft.sheet.group(parent, stroke=HATCH, stroke_width=0.5)
    plain = axis.x(found.straight_weight_kg)
    for step in range(1, math.ceil((low - top) / HATCH_STEP)):
        y = top + step * HATCH_STEP
        right = axis.x(found.raising.load_kg((scale.floor - y) / scale.per_m))
        if right > plain + 0.5:
            draft.sheet.line(group, (plain, y), (right, y))


def _torn(x: float, top: float, low: float) -> list[Point]:
    """Points of a torn edge, where the load axis leaves out its beginning."""
    teeth = max(2, 2 * round((low - top) / (2 * _TOOTH)))
    step = (low - top) / teeth
    return [(x + (5.0 if tooth % 2 else 1.5), top + step * tooth) for tooth in range(teeth + 1)]


def _draw_axis(draft: Draft, parent: ET.Element, axis: LoadAxis) -> None:
    sheet, panel = draft.sheet, draft.page.panel
    floor, size = panel.scale.y(draft.scene.low_m), panel.type.small
    for load_kg, words in ticks(axis, draft.scene.units.kg_per_mass, size):
        x = axis.x(load_kg)
        sheet.line(parent, (x, floor), (x, panel.top), stroke=PALE, stroke_width=0.5)
        sheet.words(parent, words, (x, panel.ticks), size, text_anchor="middle", fill=SLATE)
    sheet.line(parent, (axis.left, panel.top), (axis.left, floor), stroke=STEEL, stroke_width=0.6)
    if axis.broken:
        for shift in (2.5, 5.5):
            foot, head = (axis.left + shift, floor + FLOOR_UNITS), (axis.left + shift + 2, floor)
            sheet.line(parent, foot, head, stroke=CHALK, stroke_width=1.2)


def ticks(axis: LoadAxis, unit_kg: float, size: float) -> list[tuple[float, str]]:
    """Round loads [kg] along an axis and their figures in units of `unit_kg` [kg].

    As many as type of `size` [drawing units] has room for; none at a torn edge.
    """
    span = (axis.to_kg - axis.from_kg) / unit_kg
    step = nice_step(span / max(2.0, (axis.right - axis.left) / (3.4 * size)))
    first = math.ceil(axis.from_kg / unit_kg / step - 1e-9)
    last = math.floor(axis.to_kg / unit_kg / step + 1e-9)
    found = [(tick * step * unit_kg, f"{tick * step:g}") for tick in range(first, last + 1)]
    return [
        (load_kg, words)
        for load_kg, words in found
        if not axis.broken or axis.x(load_kg) > axis.left + 1.2 * size
    ]


def nice_step(least: float) -> float:
    """Smallest step of 1, 2 or 5 times a power of ten that is not below `least` [any unit].

    >>> nice_step(13.0), nice_step(0.3)
    (20.0, 0.5)
    """
    power = 10.0 ** math.floor(math.log10(least))
    for factor in (1.0, 2.0, 5.0):
        if factor * power >= least * (1 - 1e-9):
            return factor * power
    return 10.0 * power


def _draw_ends(draft: Draft, parent: ET.Element, axis: LoadAxis) -> None:
    """Mark bottom and top on the raising curve with their loads."""
    sheet, panel = draft.sheet, draft.page.panel
    size = panel.type.label
    shifts = (0.8 * size + 4, -5.0)
    for load_kg, bar_m, shift in zip(
        draft.found.raising.loads_kg, draft.heights_m, shifts, strict=True
    ):
        x, y = axis.x(load_kg), panel.scale.y(bar_m)
        sheet.add(parent, "circle", cx=x, cy=y, r=2.3, fill=CHALK, stroke=EMBER, stroke_width=1.4)
        words = draft.scene.units.mass(load_kg)
        half = 0.5 * text_width(words, size, bold=True)
        middle = max(min(x, panel.right - half + 2), panel.left + half + 3)
        sheet.words_on_chalk(
            parent,
            words,
            (middle, y + shift),
            size,
            font_weight="700",
            text_anchor="middle",
            fill=EMBER,
        )
