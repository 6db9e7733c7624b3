"""How a rig fits a lifter, on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.console import Group
from rich.table import Table
from rich.text import Text

from topheavy.present.terminal import QUIET, FirstThatFits, ruled

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import RenderableType

    from topheavy.present.match.view import EffortRow, MatchView

_LINE: Final = "\N{BOX DRAWINGS HEAVY HORIZONTAL}"
_MARK: Final = "\N{BOX DRAWINGS LIGHT VERTICAL}"
_MARK_ON_LINE: Final = "\N{BOX DRAWINGS HEAVY VERTICAL}"
_CELLS: Final = (30, 22, 14, 8)


def render_match(view: MatchView) -> RenderableType:
    """Lay out how evenly a rig uses a lifter: efforts by height, then each way to load the bar."""
    return Group(
        effort_chart(view.rows),
        Text(""),
        Text(
            f"Effort: load over likeliest strength. Wanted: {view.wanted}, nowhere more.",
            style=QUIET,
        ),
        Text(""),
        Text(f"Each way to load the bar, as heavy as {view.wanted} allows; effort over the lift:"),
        _sides(view),
    )


def effort_chart(rows: Sequence[EffortRow]) -> RenderableType:
    """Draw effort by height: a line for this rig, a mark for plain weight."""
    whole = [_chart(rows, cells, loads=True) for cells in _CELLS]
    return FirstThatFits((*whole, *(_chart(rows, cells, loads=False) for cells in _CELLS)))


def _chart(rows: Sequence[EffortRow], cells: int, *, loads: bool) -> Table:
    table = Table.grid(padding=(0, 1))
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    plain = next(iter(rows[0].others))
    names = (*(("strength", "this rig") if loads else ()), "effort", "plain")
    for _ in names:
        table.add_column(justify="right", no_wrap=True)
    marks = f"{_LINE} this rig  {_MARK} {plain}"
    heads = ("height", marks if len(marks) <= cells else "", *names)
    table.add_row(*(Text(name, style=QUIET) for name in heads))
    least = min(min(row.effort.value, row.others[plain].value) for row in rows)
    most = max(max(row.effort.value, row.others[plain].value) for row in rows)
    for row in reversed(rows):
        reach, mark = (
            round((effort - least) / max(most - least, 1e-9) * (cells - 1))
            for effort in (row.effort.value, row.others[plain].value)
        )
        figures = (row.likeliest, row.load) if loads else ()
        texts = (figure.text for figure in (*figures, row.effort, row.others[plain]))
        table.add_row(row.height.text, _line(cells, reach, mark), *texts)
    begin = f"lines begin at {100 * least:.0f} %"
    table.add_row("", Text(begin if len(begin) <= cells else "", style=QUIET))
    return table


def _line(count: int, reach: int, mark: int) -> str:
    cells = [_LINE] * (reach + 1) + [" "] * (count - reach - 1)
    cells[mark] = _MARK_ON_LINE if mark <= reach else _MARK
    return "".join(cells)


def _sides(view: MatchView) -> Table:
    table = ruled("", "bar, plates", "low", "high", "at the top", "mean", "least")
    for row in view.sides:
        name = f"this rig: {row.name}" if row.chosen else row.name
        table.add_row(
            name,
            *(figure.text for figure in (row.straight, row.low, row.high, row.top)),
            row.mean.text,
            row.least.text,
        )
    return table
