"""Charts of a block of weeks: what is planned on the bar, session by session."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.charts.chart import Chart

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.present.figure import Figure
    from topheavy.present.weeks.view import SessionRow, WeeksView
    from topheavy.units import UnitSystem

_LOOKS: Final = {
    "heavy": ("@ember", "circle"),
    "speed": ("@slate", "square"),
    "repetition": ("@steel", "triangle-up"),
    "technique": ("@steel", "cross"),
    "test": ("@ink", "diamond"),
}
"""Ink and mark of each kind of day, the same in every chart."""

_OTHER: Final = ("@ink", "triangle-down")
_ROOM: Final = 0.8
"""Part of a week's room that its sessions stand in."""


def weeks_charts(view: WeeksView, units: UnitSystem) -> tuple[Chart, ...]:
    """Draw the loads of a block: a chart for each lifter and lift.

    Each session is a line from its load at the bottom to that at the top, with its mean marked;
    sessions of a week stand beside each other in the order of their days.

    Parameters
    ----------
    view : WeeksView
        A block, or what is shown of it.
    units : UnitSystem
        Those of the view.

    Raises
    ------
    BadInputError
        No session of the block has a load that is known.
    """
    groups: dict[tuple[str, str], list[SessionRow]] = {}
    for row in view.sessions:
        if row.mean is not None:
            groups.setdefault((row.lifter, row.lift), []).append(row)
    if not groups:
        raise BadInputError(
            "No session has a load that is known: there is nothing to draw",
            field="--chart",
            wanted="a best, or a set in the log, of a lifter of the plan",
        )
    weeks = [week.number for week in view.weeks]
    return tuple(
        _chart(number, view.block, who, rows, weeks, units)
        for number, (who, rows) in enumerate(groups.items(), 1)
    )


def _chart(
    number: int,
    block: str,
    who: tuple[str, str],
    rows: Sequence[SessionRow],
    weeks: Sequence[int],
    units: UnitSystem,
) -> Chart:
    values = [_value(row, place, units) for row, place in zip(rows, _places(rows), strict=True)]
    kinds = list(dict.fromkeys(_kind(row) for row in rows))
    along = {
        "field": "along",
        "type": "quantitative",
        "scale": {"domain": [min(weeks) - 0.5, max(weeks) + 0.5], "nice": False},
        "axis": {
            "title": "week",
            "values": list(weeks),
            "tickCount": len(weeks),
            "format": "d",
            "grid": False,
            "labelOverlap": "greedy",
        },
    }
    load = {
        "field": "mean",
        "type": "quantitative",
        "scale": {"zero": False, "nice": True},
        "axis": {"title": f"load on the bar ({units.mass_unit}): bottom, mean, top"},
    }
    key: dict[str, Any] | None = {} if len(kinds) > 1 else None
    spans = {
        "data": {"values": values},
        "mark": {"type": "rule", "strokeWidth": 2},
        "encoding": {
            "x": along,
            "y": {"field": "bottom", "type": "quantitative"},
            "y2": {"field": "top"},
            "color": {**_by_kind(kinds, 0), "legend": key},
        },
    }
    means = {
        "data": {"values": values},
        "mark": {"type": "point", "filled": True, "opacity": 1, "size": 65},
        "encoding": {
            "x": along,
            "y": load,
            "color": {**_by_kind(kinds, 0), "legend": key},
            "shape": {**_by_kind(kinds, 1), "legend": key},
        },
    }
    lifter, lift = who
    return Chart(
        name=f"weeks-{number}",
        title=f"{lifter}, {lift}: loads of the block {block}",
        words=_words(rows),
        marks={"layer": [spans, means]},
        tall=0.5,
    )


def _by_kind(kinds: Sequence[str], part: int) -> dict[str, Any]:
    chosen = [_LOOKS.get(kind, _OTHER)[part] for kind in kinds]
    return {"field": "kind", "type": "nominal", "scale": {"domain": list(kinds), "range": chosen}}


def _value(row: SessionRow, along: float, units: UnitSystem) -> dict[str, Any]:
    loads = {"bottom": row.bottom, "mean": row.mean, "top": row.top}
    shown = {place: _load(load, units) for place, load in loads.items() if load is not None}
    return {"along": round(along, 4), "week": row.week, "kind": _kind(row), **shown}


def _kind(row: SessionRow) -> str:
    """The kind of day; a deload shows by its loads."""
    return row.kind.removesuffix(", deload")


def _places(rows: Sequence[SessionRow]) -> list[float]:
    """Where each session stands: within its week, in order."""
    places = []
    for row in rows:
        same = [other for other in rows if other.week == row.week]
        step = _ROOM / max(len(same), 2)
        places.append(row.week + step * (same.index(row) - (len(same) - 1) / 2))
    return places


def _words(rows: Sequence[SessionRow]) -> str:
    """Each week in a sentence."""
    weeks: dict[int, list[str]] = {}
    for row in rows:
        said = f"{row.kind} {row.work}, {row.bottom} at the bottom, {row.mean} mean, {row.top} top"
        weeks.setdefault(row.week, []).append(said)
    return " ".join(f"Week {week}: {'; '.join(said)}." for week, said in weeks.items())


def _load(figure: Figure, units: UnitSystem) -> float:
    return round(figure.value / units.kg_per_mass, 4)
