"""Where everything stands on the sheet: axes, names above, heights on the left, notes right."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.curves.spread import spread
from topheavy.present.picture.lettering import shortened, text_width, wrapped
from topheavy.present.picture.panel import LoadAxis, nice_step
from topheavy.present.picture.sheet import Scale

if TYPE_CHECKING:
    from topheavy.present.curves.given import CurveSheet, Kind

LEADING: Final = 1.22
"""From line to line in sizes of the type."""

_GAP: Final = 9.0
_LEADER: Final = 3.0
_WIDEST_NAME: Final = 12.0
_LEFT_ROOM: Final = 8.0
_NOTE_ROOM: Final = 10.0
_EDGE: Final = 2.0
_BROKEN: Final = 0.25
"""Where the least load is more than this share of the greatest, the axis starts above zero."""

_TOO_STRONG: Final = 1.12
"""The range of strength may run off the sheet this far beyond everything else."""


@dataclass(frozen=True, slots=True)
class Label:
    """Words in lines about one place.

    Parameters
    ----------
    lines : tuple of (str, bool)
        Each line, and whether it is bold.
    x, y : float
        The middle of its first baseline when it stands above the plot, else its beginning.
    width : float
        Of its widest line [drawing units].
    at : float
        The place on the axis that it is about [drawing units].
    kind : Kind or None
        The curve it names; None for strength, and for words beside the plot.
    """

    lines: tuple[tuple[str, bool], ...]
    x: float
    y: float
    width: float
    at: float
    kind: Kind | None = None


@dataclass(frozen=True, slots=True)
class Layout:
    """The sheet, measured out.

    Parameters
    ----------
    axis : LoadAxis
        Loads across.
    scale : Scale
        Heights up.
    top, low : float
        Where top and bottom of the lift stand [drawing units].
    names : tuple of Label
        What the curves are called, left to right.
    leaders : float
        Where leaders to the names end [drawing units].
    heights, notes : tuple of Label
        Words on heights, left and right of the plot.
    ticks, caption : float
        Baselines of the load axis and of the first line that explains it [drawing units].
    caption_lines : tuple of str
        What explains it.
    """

    axis: LoadAxis
    scale: Scale
    top: float
    low: float
    names: tuple[Label, ...]
    leaders: float
    heights: tuple[Label, ...]
    notes: tuple[Label, ...]
    ticks: float
    caption: float
    caption_lines: tuple[str, ...]


def layout(sheet: CurveSheet) -> Layout:
    """Measure a sheet out: words first, the plot gets what they leave."""
    size = sheet.type_size
    named = _named(sheet)
    leaders = size + (max(len(lines) for _, _, lines in named) - 1) * LEADING * size + 0.35 * size
    top, low = leaders + _LEADER * size, sheet.height - (3.4 + LEADING) * size
    scale = Scale(0.0, low + sheet.bottom_m * _per_m(sheet, top, low), _per_m(sheet, top, low))
    heights = _heights(sheet, scale)
    left = _EDGE + max((label.width for label in heights), default=0.0) + 0.7 * size
    words = [(note, _lines(note.words, _NOTE_ROOM * size, size)) for note in sheet.notes]
    wide = max((_width(lines, size) for _, lines in words), default=0.0)
    right = sheet.width - _EDGE - (wide + 0.9 * size if words else 0.8 * size)
    axis = _axis(sheet, left, right)
    notes = [(scale.y(note.height_m), lines) for note, lines in words]
    return Layout(
        axis=axis,
        scale=scale,
        top=top,
        low=low,
        names=_names(sheet, named, axis),
        leaders=leaders,
        heights=heights,
        notes=_beside(notes, right + 0.7 * size, (top, low), size),
        ticks=low + 1.3 * size,
        caption=low + 2.7 * size,
        caption_lines=tuple(_caption(sheet, axis, right - left)),
    )


def _caption(sheet: CurveSheet, axis: LoadAxis, room: float) -> list[str]:
    """Say what runs across, and what the ruled area is."""
    broken = " (not from zero)" if axis.broken else ""
    said = [f"load on the bar, {sheet.units.mass_unit}{broken}"]
    if sheet.strength is not None:
        said.append(f"ruled: all that {sheet.strength.name} may be; thick line: likeliest")
    return [shortened(words, sheet.type_size, room) for words in said]


def _per_m(sheet: CurveSheet, top: float, low: float) -> float:
    return (low - top) / (sheet.top_m - sheet.bottom_m)


def _axis(sheet: CurveSheet, left: float, right: float) -> LoadAxis:
    """Choose the loads to show: from zero, or from a little below the least."""
    loads = [load_kg for curve in sheet.curves for load_kg, _ in curve.points]
    lows, highs = list(loads), list(loads)
    if sheet.strength is not None:
        loads += sheet.strength.best_kg
        lows += sheet.strength.low_kg
        highs += sheet.strength.high_kg
    most_kg = min(max(highs), _TOO_STRONG * max(loads))
    most_kg = max(most_kg, *loads)
    least_kg = min(lows)
    if most_kg <= 0:
        return LoadAxis(left, right, 0.0, 1.0)
    if least_kg < _BROKEN * most_kg:
        return LoadAxis(left, right, 0.0, 1.03 * most_kg)
    span_kg = max(most_kg - least_kg, 0.1 * most_kg)
    return LoadAxis(left, right, least_kg - 0.22 * span_kg, most_kg + 0.04 * span_kg)


_Named = tuple[float, "Kind | None", tuple[tuple[str, bool], ...]]


def _named(sheet: CurveSheet) -> list[_Named]:
    """Load at the top [kg], kind, and lines of the name of each curve, least load first."""
    size, mass = sheet.type_size, sheet.units.mass
    said: list[tuple[float, Kind | None, str, str]] = []
    for curve in sheet.curves:
        low, high = map(mass, curve.ends_kg)
        loads = high if low == high else f"{low.split(' ')[0]} to {high}"
        said.append((curve.ends_kg[1], curve.kind, curve.name, loads))
    if sheet.strength is not None:
        weakest = f"weakest {mass(sheet.strength.weakest[0])}"
        said.append((sheet.strength.best_kg[-1], None, sheet.strength.name, weakest))
    said.sort(key=lambda one: one[0])
    room = (sheet.width - 2 * _EDGE - _GAP * (len(said) - 1)) / len(said)
    room = min(room, _WIDEST_NAME * size)
    return [
        (
            load_kg,
            kind,
            (
                *((line, True) for line in wrapped(name, size, room, bold=True)),
                *_lines(loads, room, size),
            ),
        )
        for load_kg, kind, name, loads in said
    ]


def _names(sheet: CurveSheet, named: list[_Named], axis: LoadAxis) -> tuple[Label, ...]:
    size = sheet.type_size
    ends = [min(axis.x(load_kg), axis.right) for load_kg, _, _ in named]
    widths = [_width(lines, size) for *_, lines in named]
    middles = spread(ends, widths, (_EDGE, sheet.width - _EDGE), _GAP)
    most = max(len(lines) for *_, lines in named)
    return tuple(
        Label(lines, x, size + (most - len(lines)) * LEADING * size, width, at, kind)
        for (_, kind, lines), x, width, at in zip(named, middles, widths, ends, strict=True)
    )


def _heights(sheet: CurveSheet, scale: Scale) -> tuple[Label, ...]:
    """Bottom and top in words and numbers, and round heights between where there is room."""
    size, shown = sheet.type_size, sheet.units
    ends = [(sheet.bottom_m, sheet.bottom_at), (sheet.top_m, sheet.top_at)]
    found = []
    for height_m, words in ends:
        said = wrapped(words, size, _LEFT_ROOM * size, bold=True) if words else []
        lines = (*((line, True) for line in said), (shown.length(height_m), False))
        found.append(_at_height(lines, scale.y(height_m), size))
    low, high = (label.y for label in found)
    low -= 1.3 * size
    high += len(found[1].lines) * LEADING * size + 0.3 * size
    step = nice_step(2.2 * size / scale.per_m / shown.m_per_length)
    first = math.ceil(sheet.bottom_m / shown.m_per_length / step)
    last = math.floor(sheet.top_m / shown.m_per_length / step)
    for tick in range(first, last + 1):
        label = _at_height(
            ((f"{tick * step:g}", False),), scale.y(tick * step * shown.m_per_length), size
        )
        if high <= label.y <= low:
            found.append(label)
    return tuple(found)


def _at_height(lines: tuple[tuple[str, bool], ...], y: float, size: float) -> Label:
    """Words at a height, their lines centred on it."""
    first = y + 0.36 * size - 0.5 * (len(lines) - 1) * LEADING * size
    return Label(lines, _EDGE, first, _width(lines, size), y)


def _beside(
    notes: list[tuple[float, tuple[tuple[str, bool], ...]]],
    x: float,
    room: tuple[float, float],
    size: float,
) -> tuple[Label, ...]:
    """Words right of the plot, moved apart where heights are near each other."""
    tall = [len(lines) * LEADING * size for _, lines in notes]
    room = room[0] - 0.6 * size, room[1] + 0.6 * size
    middles = spread([y for y, _ in notes], tall, room, 0.4 * size)
    return tuple(
        Label(lines, x, middle - 0.5 * high + 0.93 * size, _width(lines, size), y)
        for (y, lines), middle, high in zip(notes, middles, tall, strict=True)
    )


def _lines(words: str, room: float, size: float) -> tuple[tuple[str, bool], ...]:
    return tuple((line, False) for line in wrapped(words, size, room))


def _width(lines: tuple[tuple[str, bool], ...], size: float) -> float:
    return max(text_width(words, size, bold=bold) for words, bold in lines)
