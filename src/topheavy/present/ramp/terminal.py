"""A ramp on the terminal: a table to read at the rack."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.console import Group
from rich.text import Text

from topheavy.present.rig.plate_words import NO_PLATES
from topheavy.present.terminal import (
    ACCENT,
    QUIET,
    FirstThatFits,
    facts,
    headed,
    listed,
    ruled,
)

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.ramp.view import NextView, RampView

_NARROWER: Final = (
    (("plates", "mean", "top", "rest"), False),
    (("mean", "top", "rest"), False),
    (("mean", "top", "rest"), True),
    (("top", "rest"), False),
    (("top", "rest"), True),
    (("rest",), True),
)
"""Columns to show beside those always shown, and whether tight: the first that fits."""


_COLUMNS: Final = {
    "plates": "then each side",
    "bottom": "bottom",
    "mean": "mean",
    "top": "top",
    "share": "share",
    "rest": "rest",
}


def render_ramp(view: RampView) -> RenderableType:
    """Lay a ramp out, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. {view.verdict}", style=QUIET),
    ]
    if view.next_attempt is not None:
        parts.append(headed("Next attempt", _next(view.next_attempt)))
    parts += [
        headed(
            "Sets",
            FirstThatFits(
                tuple(_table(view, columns, tight=tight) for columns, tight in _NARROWER)
            ),
        ),
        Text(""),
        Text(f"Loads in {_unit(view)}. {view.shares}"),
        headed("Then on each side", facts(_stacks(view))),
        headed("Between sets", Text(view.between)),
        headed("Hang this", facts(_hang(view))),
    ]
    if view.remarks:
        parts.append(headed("Know", listed(view.remarks)))
    if view.percents:
        parts.append(headed(f"The top set, of the best {view.best}", _percents(view)))
    parts.append(headed("Handling", Text(f"{view.handled} plates off and on in all. {view.proof}")))
    if view.protocol:
        parts.append(headed("Published beside it", listed(view.protocol)))
    parts.append(headed("Mind", listed(view.cautions)))
    return Group(*parts)


def _stacks(view: RampView) -> tuple[tuple[str, str], ...]:
    unit = f" {view.plate_unit}" if view.plate_unit else ""
    return tuple(
        (f"set {row.number}", row.plates_a_side + ("" if row.plates_a_side == NO_PLATES else unit))
        for row in view.rows
    )


def _hang(view: RampView) -> tuple[tuple[str, str], ...]:
    return (
        ("left end", view.hang_left),
        ("right end", view.hang_right),
        ("feeders", view.feeder),
    )


def _table(view: RampView, columns: tuple[str, ...], *, tight: bool) -> Table:
    """The sets, with as many columns as were asked for; change, bottom and share always."""
    marks = f", {view.plate_unit}" if view.plate_unit else ""
    shown = [name for name in _COLUMNS if name in {"bottom", "share", *columns}]
    heads = [_COLUMNS[name] for name in shown]
    table = ruled("set", "reps", f"change each side{marks}", *heads)
    if tight:
        table.padding = 0
    for place in (2, 3) if "plates" in shown else (2,):
        table.columns[place].justify = "left"
        table.columns[place].overflow = "fold"
    for row in view.rows:
        cells = {
            "plates": row.plates_a_side,
            "bottom": _bare(row.bottom.text),
            "mean": _bare(row.mean.text),
            "top": _bare(row.top.text),
            "share": row.share.text,
            "rest": row.rest.text if row.rest else "",
        }
        name = str(row.number) if row.kind == "warm-up" else f"{row.number} {_short(row.kind)}"
        table.add_row(name, str(row.reps), row.change, *(cells[one] for one in shown))
    return table


def _unit(view: RampView) -> str:
    return view.rows[-1].bottom.text.rpartition(" ")[2]


def _short(kind: str) -> str:
    return "top" if kind == "top set" else "try"


def _bare(text: str) -> str:
    return text.rpartition(" ")[0]


def _percents(view: RampView) -> Table:
    table = ruled("load", "on the bar", "of the best")
    for row in view.percents:
        table.add_row(row.load, row.mass.text, row.of_best.text)
    return table


def _next(found: NextView) -> RenderableType:
    if found.stops:
        return Text(f"Stop. {found.reason}")
    return facts(
        (
            ("straight weight", found.straight_weight.text if found.straight_weight else ""),
            ("change each side", found.change),
            ("then each side", found.plates_a_side),
            ("rest first", found.rest.text if found.rest else ""),
            ("why", found.reason),
        )
    )
