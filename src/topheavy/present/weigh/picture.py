"""Readings of a scale over the curve that was predicted: load to the right, height upwards."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.sheet import (
    CHALK,
    EMBER,
    FAINT,
    INK,
    PALE,
    SLATE,
    STEEL,
    Sheet,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.present.picture.sheet import Point
    from topheavy.services.weighing.weigh import Row, Weighing
    from topheavy.units import UnitSystem

_WIDE, _HIGH = 520.0, 340.0
_LEFT, _RIGHT, _TOP, _LOW = 64.0, 500.0, 16.0, 276.0
_TYPE: Final = 12.0
_WORDS_WIDE: Final = 70.0
_STEPS: Final = (1.0, 2.0, 2.5, 5.0, 10.0)
_MARKS: Final = {"raising": "raising", "lowering": "lowering", "unsaid": "way not said"}


@dataclass(frozen=True, slots=True)
class _Axis:
    """Values in shown units between two places of the sheet."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Place of a value."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self) -> list[float]:
        """Four to eight round values."""
        step = _round_up((self.high - self.low) / 6)
        first = math.ceil(self.low / step)
        return [number * step for number in range(first, math.floor(self.high / step) + 1)]


def _round_up(value: float) -> float:
    power = 10.0 ** math.floor(math.log10(value))
    return next(step * power for step in _STEPS if step * power >= value * (1 - 1e-9))


def weighing_svg(answer: Weighing, units: UnitSystem) -> str:
    """Draw a weighing: each reading, and the prediction with its range, two standard uncertainties.

    Parameters
    ----------
    answer : Weighing
        From `topheavy.services.weighing.weigh.weigh`.
    units : UnitSystem
        What numbers are printed in.

    Returns
    -------
    str
        SVG 1.1, nothing from outside.
    """
    rows = sorted(answer.rows, key=lambda row: row.reading.height_m)
    loads, heights = _axes(rows, units)
    sheet = Sheet(_WIDE, _HIGH, ("520", "340"))
    sheet.root.set("aria-labelledby", "weighing-title weighing-desc")
    title = "Readings of the scale over what was predicted"
    sheet.add(sheet.root, "title", id="weighing-title").text = title
    sheet.add(sheet.root, "desc", id="weighing-desc").text = _described(rows, units)
    sheet.box(sheet.root, (0, 0), (_WIDE, _HIGH), fill=CHALK)
    for way in _MARKS:
        own = [row for row in rows if row.reading.way == way]
        _prediction(sheet, own, loads, heights, units, dashed=way == "lowering")
    _ruled(sheet, loads, heights, units)
    for number, row in enumerate(answer.rows, 1):
        _reading(sheet, number, row, _place(row, row.reading.mass_kg, loads, heights, units))
    _legend(sheet, rows)
    return sheet.text()


def _axes(rows: Sequence[Row], units: UnitSystem) -> tuple[_Axis, _Axis]:
    masses = [
        value / units.kg_per_mass
        for row in rows
        for value in (
            row.reading.mass_kg,
            row.predicted_kg - 2 * row.predicted_u_kg,
            row.predicted_kg + 2 * row.predicted_u_kg,
        )
    ]
    heights = [row.reading.height_m / units.m_per_length for row in rows]
    return (
        _Axis(*_spread(masses), _LEFT, _RIGHT),
        _Axis(*_spread(heights), _LOW, _TOP),
    )


def _spread(values: Sequence[float]) -> tuple[float, float]:
    """Least and largest, with a little room, and never nothing between them."""
    low, high = min(values), max(values)
    room = max(0.06 * (high - low), 0.01 * abs(high), 0.1)
    return low - room, high + room


def _place(row: Row, mass_kg: float, loads: _Axis, heights: _Axis, units: UnitSystem) -> Point:
    x = loads.at(mass_kg / units.kg_per_mass)
    return x, heights.at(row.reading.height_m / units.m_per_length)


def _prediction(
    sheet: Sheet,
    rows: Sequence[Row],
    loads: _Axis,
    heights: _Axis,
    units: UnitSystem,
    *,
    dashed: bool,
) -> None:
    if len(rows) < 2:
        return
    low, middle, high = (
        [_place(row, row.predicted_kg + side * row.predicted_u_kg, loads, heights, units)
         for row in rows]
        for side in (-2, 0, 2)
    )  # fmt: skip
    sheet.trace(sheet.root, [*low, *reversed(high)], fill=FAINT, stroke=PALE, stroke_width=0.8)
    dashes = {"stroke_dasharray": "7 4"} if dashed else {}
    sheet.trace(sheet.root, middle, stroke=INK, stroke_width=1.8, **dashes)


def _ruled(sheet: Sheet, loads: _Axis, heights: _Axis, units: UnitSystem) -> None:
    for value in loads.ticks():
        x = loads.at(value)
        sheet.line(sheet.root, (x, _LOW), (x, _LOW + 5), stroke=STEEL)
        sheet.words(
            sheet.root, f"{value:g}", (x, _LOW + 19), _TYPE, text_anchor="middle", fill=SLATE
        )
    for value in heights.ticks():
        y = heights.at(value)
        sheet.line(sheet.root, (_LEFT - 5, y), (_LEFT, y), stroke=STEEL)
        sheet.words(
            sheet.root, f"{value:g}", (_LEFT - 9, y + 4), _TYPE, text_anchor="end", fill=SLATE
        )
    sheet.trace(sheet.root, [(_LEFT, _TOP), (_LEFT, _LOW), (_RIGHT, _LOW)], stroke=STEEL)
    words = f"on the scale [{units.mass_unit}]"
    sheet.words(sheet.root, words, (_RIGHT, _LOW + 36), _TYPE, text_anchor="end", fill=SLATE)
    words = f"bar at [{units.length_unit}]"
    sheet.words(sheet.root, words, (8, _TOP - 3), _TYPE, fill=SLATE)


def _reading(sheet: Sheet, number: int, row: Row, place: Point) -> None:
    """A triangle pointing the way the bar came, a disc when nobody said; ringed when off."""
    (x, y), size = place, 5.5
    look: dict[str, str | float] = {"fill": EMBER, "stroke": CHALK, "stroke_width": 0.8}
    if row.reading.way == "unsaid":
        sheet.add(sheet.root, "circle", cx=x, cy=y, r=0.85 * size, **look)
    else:
        up = -1 if row.reading.way == "raising" else 1
        corners = [(x, y + up * 1.2 * size), (x + size, y - up * size), (x - size, y - up * size)]
        points = " ".join(f"{cx:.2f},{cy:.2f}" for cx, cy in corners)
        sheet.add(sheet.root, "polygon", points=points, **look)
    if row.off:
        sheet.add(sheet.root, "circle", cx=x, cy=y, r=12, fill="none", stroke=EMBER, stroke_width=2)
        # Near the right edge the words stand on the left, where the whole of them is seen.
        left = x + 16 + _WORDS_WIDE > _WIDE
        anchor, aside = ("end", -16) if left else ("start", 16)
        words, at = f"{number} is off", (x + aside, y + 4)
        sheet.words(sheet.root, words, at, _TYPE, font_weight="700", text_anchor=anchor)


def _legend(sheet: Sheet, rows: Sequence[Row]) -> None:
    ways = [words for way, words in _MARKS.items() if any(row.reading.way == way for row in rows)]
    marks = {"raising": "triangle up", "lowering": "triangle down", "way not said": "disc"}
    said = ", ".join(f"{marks[way]}: {way}" for way in ways)
    words = f"{said}; line: predicted, shaded: two standard uncertainties"
    sheet.words(sheet.root, words, (8, _HIGH - 8), 11.0, fill=SLATE)


def _described(rows: Sequence[Row], units: UnitSystem) -> str:
    each = [
        f"at {units.length(row.reading.height_m)} {units.mass(row.reading.mass_kg)}, predicted "
        f"{units.mass(row.predicted_kg)}{', off' if row.off else ''}"
        for row in rows
    ]
    return "; ".join(each) + "."
