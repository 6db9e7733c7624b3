"""Charts with the height of the bar upwards, as it moves: loads, strength, speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.charts.chart import Chart, shaded_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.present.figure import Figure
    from topheavy.present.loads.view import CurveView
    from topheavy.present.rep.view import RepView
    from topheavy.present.strength.view import StrengthView
    from topheavy.units import UnitSystem

Point = tuple[float, float]
"""Along the bottom and height, both as shown."""

_LOAD: Final = "load on the bar ({})"
_HEIGHT: Final = "height of the bar ({})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line by height: its name in the key, its ink, its dashes, and its points, bottom first."""

    name: str
    ink: str
    points: tuple[Point, ...]
    dash: tuple[int, ...] = ()


def loads_chart(view: CurveView, units: UnitSystem) -> Chart:
    """Draw loads by height: raising, lowering, and the same chain hung straight.

    Parameters
    ----------
    view : CurveView
        Of a described rig, read over a lift.
    units : UnitSystem
        Those of the view.

    Raises
    ------
    BadInputError
        Only single heights were read.
    """
    if not view.curve:
        raise BadInputError(
            "Without a bottom and a top there is no curve to draw",
            field="--chart",
            wanted="--bottom and --top, or --lifter",
        )
    rows = view.curve
    lines = (
        Line(
            name="hung straight",
            ink="@steel",
            dash=(2, 4),
            points=_points(((row.straight, row.height) for row in rows), units),
        ),
        Line(
            name="lowering",
            ink="@slate",
            dash=(7, 4),
            points=_points(((row.lowering, row.height) for row in rows), units),
        ),
        Line(
            name="raising",
            ink="@ember",
            points=_points(((row.raising, row.height) for row in rows), units),
        ),
    )
    low, high = rows[0], rows[-1]
    words = (
        f"Height of the bar upwards, from {low.height} to {high.height}; load to the right. "
        f"Raising: {low.raising} at the bottom, {high.raising} at the top. "
        f"Lowering: {low.lowering} at the bottom, {high.lowering} at the top. "
        f"The same chain hung straight: {low.straight} at the bottom, {high.straight} at the top."
    )
    return _chart("loads", f"Load by height: {view.title}", words, _loads(lines, units))


def strength_chart(view: StrengthView, units: UnitSystem) -> Chart:
    """Draw a lifter's strength by height, and how sure it is.

    Parameters
    ----------
    view : StrengthView
        What is known of the lifter.
    units : UnitSystem
        Those of the view.
    """
    rows = view.rows
    at = [*((row.likeliest, row.height) for row in rows), (view.best, view.weakest)]
    at.sort(key=lambda pair: pair[1].value)
    best = Line(name="likeliest", ink="@ink", points=_points(at, units))
    band = [
        {
            "low": _shown(row.low, units),
            "high": _shown(row.high, units),
            "height": _shown(row.height, units),
        }
        for row in rows
    ]
    words = (
        f"Height of the bar upwards, from {rows[0].height} to {rows[-1].height}; load to the "
        f"right. {view.lifter} is weakest at {view.weakest}: {view.best}, most likely between "
        f"{view.best_low} and {view.best_high}. At the bottom {rows[0].likeliest}, between "
        f"{rows[0].low} and {rows[0].high}; at the top {rows[-1].likeliest}, between "
        f"{rows[-1].low} and {rows[-1].high}. Those are ranges of 95 in 100 plausible curves."
    )
    layers = [_range(band, "shaded: 95 in 100 plausible curves"), *_loads((best,), units)]
    weakest = {"along": _shown(view.best, units), "height": _shown(view.weakest, units)}
    layers += _mark(weakest, f"weakest here: {view.best}")
    return _chart("strength", f"Strength by height: {view.title}", words, layers)


def rep_chart(view: RepView, units: UnitSystem) -> Chart:
    """Draw how fast the bar goes up, by height, beside plain weight as hard.

    Parameters
    ----------
    view : RepView
        A rep that leaves the bottom.
    units : UnitSystem
        Those of the view.

    Raises
    ------
    BadInputError
        The bar never leaves the bottom.
    """
    rows = view.path
    own = _points(((row.speed, row.height) for row in rows), units)
    if len(own) < 2:
        raise BadInputError(
            "The bar stays down: there is no speed to draw",
            field="--chart",
            wanted="a load that this lifter moves",
        )
    plain = _points(((row.plain_speed, row.height) for row in rows), units)
    lines = [Line(name="with this rig", ink="@ember", points=own)]
    if plain:
        name = "plain weight, as hard"
        lines.insert(0, Line(name=name, ink="@slate", dash=(7, 4), points=plain))
    seen = [row for row in rows if row.speed is not None]
    fastest = max(seen, key=lambda row: row.speed.value if row.speed else 0.0)
    ends = "" if len(seen) == len(rows) else f" The bar stops at {seen[-1].height}."
    words = (
        f"Height of the bar upwards, from {rows[0].height} to {rows[-1].height}; speed of the bar "
        f"to the right. With this rig it is fastest at {fastest.height}: {fastest.speed}.{ends} "
        f"{view.sticking}"
    ).strip()
    along = _axis("along", "speed of the bar (m/s)", zero=True)
    height = _axis("height", _HEIGHT.format(units.length_unit))
    layers = _lines(lines, along, height)
    return _chart("rep", f"Bar speed by height: {view.title}", words, layers)


def _chart(name: str, title: str, words: str, layers: Sequence[dict[str, Any]]) -> Chart:
    return Chart(name=name, title=title, words=words, marks={"layer": list(layers)}, tall=0.62)


def _loads(lines: Sequence[Line], units: UnitSystem) -> list[dict[str, Any]]:
    along = _axis("along", _LOAD.format(units.mass_unit))
    return _lines(lines, along, _axis("height", _HEIGHT.format(units.length_unit)))


def _axis(field: str, title: str, *, zero: bool = False) -> dict[str, Any]:
    return {
        "field": field,
        "type": "quantitative",
        "scale": {"zero": zero, "nice": True},
        "axis": {"title": title},
    }


def _lines(
    lines: Sequence[Line], along: dict[str, Any], height: dict[str, Any]
) -> list[dict[str, Any]]:
    """One layer of lines; a key where there is more than one."""
    values = [
        {"line": line.name, "step": step, "along": x, "height": y}
        for line in lines
        for step, (x, y) in enumerate(line.points)
    ]
    names = [line.name for line in lines]
    key: dict[str, Any] | None = {} if len(lines) > 1 else None
    hue = {"domain": names, "range": [line.ink for line in lines]}
    dashes = {"domain": names, "range": [list(line.dash or (1, 0)) for line in lines]}
    return [
        {
            "data": {"values": values},
            "mark": {"type": "line"},
            "encoding": {
                "x": along,
                "y": height,
                "order": {"field": "step", "type": "quantitative"},
                "color": {"field": "line", "type": "nominal", "scale": hue, "legend": key},
                "strokeDash": {"field": "line", "type": "nominal", "scale": dashes, "legend": key},
            },
        }
    ]


def _range(values: list[dict[str, float]], name: str) -> dict[str, Any]:
    """A filled range between two loads at each height, with its own place in the key."""
    return {
        "data": {"values": [{**row, "shaded": name} for row in values]},
        "mark": {"type": "area", "orient": "horizontal", "color": "@line"},
        "encoding": {
            "x": {"field": "low", "type": "quantitative"},
            "x2": {"field": "high"},
            "y": {"field": "height", "type": "quantitative"},
            "opacity": shaded_key(),
        },
    }


def _mark(at: dict[str, float], words: str) -> list[dict[str, Any]]:
    """A point with a word beside it."""
    place = {
        "x": {"field": "along", "type": "quantitative"},
        "y": {"field": "height", "type": "quantitative"},
    }
    return [
        {
            "data": {"values": [at]},
            "mark": {"type": "point", "filled": True, "size": 70, "color": "@ember", "opacity": 1},
            "encoding": place,
        },
        {
            "data": {"values": [at]},
            "mark": {"type": "text", "align": "left", "dx": 9, "dy": 4, "text": words},
            "encoding": place,
        },
    ]


def _points(pairs: Iterable[tuple[Figure | None, Figure]], units: UnitSystem) -> tuple[Point, ...]:
    """What is known, as shown."""
    return tuple(
        (_shown(along, units), _shown(height, units))
        for along, height in pairs
        if along is not None
    )


def _shown(figure: Figure, units: UnitSystem) -> float:
    """The number that is drawn: in the units that are shown, finer than they are printed."""
    per = {"kg": units.kg_per_mass, "m": units.m_per_length}.get(figure.unit, 1.0)
    return round(figure.value / per, 4)
