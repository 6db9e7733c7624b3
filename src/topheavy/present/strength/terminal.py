"""A lifter's strength by height on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.console import Group
from rich.table import Table
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, FirstThatFits, facts, headed, listed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import RenderableType

    from topheavy.present.strength.view import SetRow, StrengthRow, StrengthView

_RANGE: Final = "\N{BOX DRAWINGS LIGHT HORIZONTAL}"
_LIKELIEST: Final = "\N{BOX DRAWINGS HEAVY VERTICAL}"
_CELLS: Final = (36, 28, 18, 8)


def render_strength(view: StrengthView) -> RenderableType:
    """Lay a strength curve out for the terminal, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}.", style=QUIET),
        Text(""),
        facts(
            [
                ("full-range best", f"{view.best}, {view.best_low} to {view.best_high}"),
                ("weakest at", _weakest(view)),
            ]
        ),
        headed(
            "Strength by height",
            _chart(view.rows),
            Text(_ends_mean(view.rows[-1]), style=QUIET),
        ),
    ]
    if view.sets:
        parts.append(headed("What a set stands for", *(_set(row) for row in view.sets)))
    parts.append(headed("Made from", listed(view.made_from)))
    if view.left_out:
        parts.append(headed("Left out", listed(view.left_out)))
    if view.remarks:
        parts.append(headed("Know", listed((*view.remarks, view.basis))))
    parts += [
        headed("What would tell most", Text(view.advice.words)),
        headed("Mind when you test", listed(view.cautions)),
    ]
    return Group(*parts)


def _ends_mean(top: StrengthRow) -> str:
    return (
        "95 of 100 plausible curves lie between low and high. What can't be ruled out reaches "
        f"further, {top.least} to {top.most} at lockout; drawings and warnings go that far."
    )


def _weakest(view: StrengthView) -> str:
    said = f"{view.weakest}, {view.weakest_way} of the way up"
    return f"{said}; anywhere from {view.weakest_low} to {view.weakest_high}"


def _chart(rows: Sequence[StrengthRow]) -> RenderableType:
    """Draw the range at each height, the bar high above and low below.

    On a narrow terminal the lines are shorter, and then low and high are left out.
    """
    whole = [_drawn(rows, cells, ends=True) for cells in _CELLS[:3]]
    tight = [_drawn(rows, cells, ends=False) for cells in _CELLS]
    return FirstThatFits((*whole, *tight))


def _drawn(rows: Sequence[StrengthRow], cells: int, *, ends: bool) -> Table:
    table = Table.grid(padding=(0, 1))
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    for _ in _names(ends=ends):
        table.add_column(justify="right", no_wrap=True)
    least = min((row.low for row in rows), key=lambda load: load.value)
    most = max((row.high for row in rows), key=lambda load: load.value)
    marks = f"{_RANGE} low to high  {_LIKELIEST} likeliest"
    heads = ("height", marks if len(marks) <= cells else "", *_names(ends=ends))
    table.add_row(*(Text(name, style=QUIET) for name in heads))
    for row in reversed(rows):
        reached = (
            round((load.value - least.value) / max(most.value - least.value, 1e-9) * (cells - 1))
            for load in (row.low, row.likeliest, row.high)
        )
        figures = (row.low, row.likeliest, row.high) if ends else (row.likeliest,)
        table.add_row(row.height.text, _line(cells, *reached), *(figure.text for figure in figures))
    scale = f"lines begin at {least}"
    table.add_row("", Text(scale if len(scale) <= cells else "", style=QUIET))
    return table


def _names(*, ends: bool) -> tuple[str, ...]:
    return ("low", "likeliest", "high") if ends else ("likeliest",)


def _line(count: int, low: int, likeliest: int, high: int) -> str:
    cells = [_RANGE if low <= cell <= high else " " for cell in range(count)]
    cells[likeliest] = _LIKELIEST
    return "".join(cells)


def _set(row: SetRow) -> RenderableType:
    by = ", ".join(f"{name} {figure}" for name, figure in row.formulas.items())
    said = f"{row.words}: {row.low} to {row.high}, most likely {row.middle}. By {by}."
    return Text(" ".join([said, "A single tells more.", *row.caveats]))
