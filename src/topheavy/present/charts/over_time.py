"""Charts of what was done: the trend of a lift, the work of each day, where lifts stop."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final

from topheavy.present.charts.chart import Chart, shaded_key

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.present.figure import Figure
    from topheavy.present.review.rows import LiftReview, PointRow
    from topheavy.units import UnitSystem

_MONTH_DAYS: Final = 200
_LEAST_DAYS: Final = 28
"""Months stand on the axis from so many days on; fewer days than the least are never shown."""

_THIRDS: Final = ("top", "middle", "lower")
_STOPS: Final = (
    ("straight weight", "straight", "@slate"),
    ("with chain or bands", "hung", "@ember"),
    ("after other reps", "tired", "@steel"),
)


def trend_chart(review: LiftReview, units: UnitSystem, name: str = "trend") -> Chart | None:
    """Draw the best set of each day as the straight single it stands for, and the noise around.

    Parameters
    ----------
    review : LiftReview
        Of one lifter in one lift.
    units : UnitSystem
        Those of the review.
    name : str
        Of the chart, within its page.

    Returns
    -------
    Chart or None
        None where there are fewer than two days.
    """
    if len(review.points) < 2:
        return None
    days = _axis_of_days([row.day for row in review.points])
    load = {
        "field": "equals",
        "type": "quantitative",
        "scale": {"zero": False, "nice": True},
        "axis": {"title": f"stands for a straight single of ({units.mass_unit})"},
    }
    values = [_point(row, units) for row in review.points]
    layers = _noise(review, units)
    layers += [
        {
            "data": {"values": values},
            "mark": {"type": "rule", "color": "@steel"},
            "encoding": {
                "x": days,
                "y": {"field": "low", "type": "quantitative"},
                "y2": {"field": "high"},
            },
        },
        {
            "data": {"values": values},
            "mark": {"type": "point", "filled": True, "opacity": 1, "size": 60},
            "encoding": {"x": days, "y": load, **_kinds(values)},
        },
    ]
    words = (
        f"Each point is a day's best set as a straight single, with the range it may stand for. "
        f"{_span(review.points)} {review.trend.words}"
    )
    title = f"Trend: {review.lifter}, {review.lift}"
    return Chart(name=name, title=title, words=words.strip(), marks={"layer": layers})


def work_chart(review: LiftReview, name: str = "work") -> Chart | None:
    """Draw the work done on the way up on each day, as bars from nothing.

    Returns
    -------
    Chart or None
        None where the work of no day is known.
    """
    known = [(row, row.raising) for row in review.work if row.raising is not None]
    if not known:
        return None
    wide = _bar_days([row.day for row, _ in known])
    values = [
        {
            "day": row.day,
            "until": _later(row.day, wide),
            "work": round(raising.value / 1e3, 4),
            "sets": row.sets,
            "whole": "all sets" if not row.unknown else "some sets not known",
        }
        for row, raising in known
    ]
    most, raising = max(known, key=lambda pair: pair[1].value)
    part = sum(row.unknown > 0 for row, _ in known)
    words = (
        f"Bars from nothing, one for each of {len(known)} days. Most on {most.day}: {raising} with "
        f"{most.sets} sets; last on {known[-1][0].day}: {known[-1][1]}."
        + (
            f" On {'a day' if part == 1 else f'{part} days'} the work of some sets is not known."
            if part
            else ""
        )
    )
    partly = {"domain": ["all sets", "some sets not known"], "range": ["@slate", "@steel"]}
    bars = {
        "data": {"values": values},
        "mark": {"type": "rect"},
        "encoding": {
            "x": _axis_of_days([row.day for row, _ in known], wide),
            "x2": {"field": "until"},
            "y": {
                "field": "work",
                "type": "quantitative",
                "scale": {"zero": True},
                "axis": {"title": "work on the bar, raising (kJ)"},
            },
            "y2": {"datum": 0},
            "color": {
                "field": "whole",
                "type": "nominal",
                "scale": partly,
                "legend": {} if part else None,
            },
        },
    }
    title = f"Work of each day: {review.lifter}, {review.lift}"
    return Chart(name=name, title=title, words=words, marks={"layer": [bars]}, tall=0.42)


def stops_chart(review: LiftReview, name: str = "stops") -> Chart | None:
    """Draw in which third of the way up lifts stopped, the top third on top.

    Returns
    -------
    Chart or None
        None where nothing was missed.
    """
    values = [
        {"third": f"{row.third} third", "what": words, "misses": getattr(row, field)}
        for row in review.stops
        for words, field, _ in _STOPS
        if getattr(row, field)
    ]
    if not values:
        return None
    has = {value["what"] for value in values}
    kinds = [(words, ink) for words, _, ink in _STOPS if words in has]
    counted = {row.third: row.straight + row.hung + row.tired for row in review.stops}
    words = "Misses by third of the way up: " + ", ".join(
        f"{third} {counted.get(third, 0)}" for third in _THIRDS
    )
    bars = {
        "data": {"values": values},
        "mark": {"type": "bar"},
        "encoding": {
            "y": {
                "field": "third",
                "type": "nominal",
                "scale": {"domain": [f"{third} third" for third in _THIRDS]},
                "axis": {"title": None, "ticks": False, "domain": False, "grid": False},
            },
            "x": {
                "field": "misses",
                "type": "quantitative",
                "aggregate": "sum",
                "axis": {"title": "missed lifts", "tickMinStep": 1, "format": "d"},
            },
            "color": {
                "field": "what",
                "type": "nominal",
                "scale": {"domain": [one for one, _ in kinds], "range": [ink for _, ink in kinds]},
                "legend": {} if len(kinds) > 1 else None,
            },
            "order": {"field": "what"},
        },
    }
    title = f"Where lifts stop: {review.lifter}, {review.lift}"
    said = f"{words}. {review.stops_words}".strip()
    return Chart(name=name, title=title, words=said, marks={"layer": [bars]}, tall=0.3)


def _point(row: PointRow, units: UnitSystem) -> dict[str, Any]:
    return {
        "day": row.day,
        "equals": _load(row.equals, units),
        "low": _load(row.low, units),
        "high": _load(row.high, units),
        "with": "with chain or bands" if row.hung else "straight weight",
    }


def _kinds(values: Sequence[dict[str, Any]]) -> dict[str, Any]:
    """Ink and shape by what hung; a key where both come."""
    names = ["straight weight", "with chain or bands"]
    key: dict[str, Any] | None = {} if len({value["with"] for value in values}) > 1 else None
    inks = {"domain": names, "range": ["@slate", "@ember"]}
    shapes = {"domain": names, "range": ["circle", "diamond"]}
    return {
        "color": {"field": "with", "type": "nominal", "scale": inks, "legend": key},
        "shape": {"field": "with", "type": "nominal", "scale": shapes, "legend": key},
    }


def _noise(review: LiftReview, units: UnitSystem) -> list[dict[str, Any]]:
    """The band within which nothing is told from noise, and the line through the days."""
    trend = review.trend
    ends = (trend.first, trend.last)
    layers: list[dict[str, Any]] = []
    if trend.band_low is not None and trend.band_high is not None:
        band = {
            "from": trend.first_day,
            "to": trend.last_day,
            "shaded": "shaded: noise of a single",
            "low": _load(trend.band_low, units),
            "high": _load(trend.band_high, units),
        }
        layers.append(
            {
                "data": {"values": [band]},
                "mark": {"type": "rect", "color": "@line"},
                "encoding": {
                    "x": {"field": "from", "type": "temporal"},
                    "x2": {"field": "to"},
                    "y": {"field": "low", "type": "quantitative"},
                    "y2": {"field": "high"},
                    "opacity": shaded_key(),
                },
            }
        )
    if ends[0] is not None and ends[1] is not None:
        line = [
            {"day": day, "equals": _load(end, units)}
            for day, end in zip((trend.first_day, trend.last_day), ends, strict=True)
            if end is not None
        ]
        layers.append(
            {
                "data": {"values": line},
                "mark": {"type": "line", "color": "@ink", "strokeDash": [7, 4]},
                "encoding": {
                    "x": {"field": "day", "type": "temporal"},
                    "y": {"field": "equals", "type": "quantitative"},
                },
            }
        )
    return layers


def _span(points: Sequence[PointRow]) -> str:
    first, last = points[0], points[-1]
    best = max(points, key=lambda row: row.equals.value)
    return (
        f"{len(points)} days, from {first.day} ({first.equals}) to {last.day} ({last.equals}); "
        f"most on {best.day}: {best.equals}."
    )


def _axis_of_days(days: Sequence[str], wide: float = 0.0) -> dict[str, Any]:
    """The calendar along the bottom, with room for marks `wide` [days]; months where it is long."""
    first, last = (dt.date.fromisoformat(day) for day in (min(days), max(days)))
    span = (last - first).days
    long = span > _MONTH_DAYS
    room = max(0.5 + 0.02 * span, (_LEAST_DAYS - span) / 2)
    return {
        "field": "day",
        "type": "temporal",
        "scale": {
            "type": "utc",
            "nice": False,
            "domain": [_later(min(days), -room), _later(max(days), room + wide)],
        },
        "axis": {"title": None, "format": "%b %Y" if long else "%-d %b", "grid": False},
    }


def _bar_days(days: Sequence[str]) -> float:
    """How wide a bar is [days]: most of the least time between two of them, three days at most."""
    dates = sorted({dt.date.fromisoformat(day) for day in days})
    gaps = [(later - day).days for day, later in pairwise(dates)]
    return 0.8 * min([*gaps, 3])


def _later(day: str, days: float) -> str:
    until = dt.datetime.combine(dt.date.fromisoformat(day), dt.time()) + dt.timedelta(days=days)
    return f"{until.isoformat(timespec='seconds')}Z"


def _load(figure: Figure, units: UnitSystem) -> float:
    return round(figure.value / units.kg_per_mass, 4)
