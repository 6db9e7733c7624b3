"""Parts of what the terminal prints, at 80 columns and without them."""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from rich import box
from rich.console import Console, Group
from rich.measure import Measurement
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import ConsoleOptions, JustifyMethod, RenderableType, RenderResult

    from topheavy.present.curve_points import CurvePoint

ACCENT = "bold"
QUIET = "dim"
_LINE_CELLS: Final = 46
_WIDE: Final = 1000
_LINE: Final = "\N{BOX DRAWINGS HEAVY HORIZONTAL}"
_MARK: Final = "\N{BOX DRAWINGS LIGHT VERTICAL}"
_MARK_ON_LINE: Final = "\N{BOX DRAWINGS HEAVY VERTICAL}"
_JUSTIFY: Final[tuple[JustifyMethod, ...]] = ("right", "left", "right", "right")
_NAMES: Final = ("this rig", "straight")


def screen(*, stderr: bool = False) -> Console:
    """Make the console that everything is printed on; with NO_COLOR set, plain characters only."""
    console = Console(stderr=stderr, highlight=False, soft_wrap=False)
    if os.environ.get("NO_COLOR"):
        console = Console(stderr=stderr, highlight=False, soft_wrap=False, color_system=None)
    return console


def headed(title: str, *body: RenderableType) -> RenderableType:
    """Put a heading over an indented body."""
    return Group(Text(""), Text(title, style=ACCENT), *(Padding(b, (0, 0, 0, 2)) for b in body))


def listed(lines: Iterable[str], *, numbered: bool = False) -> Table:
    """List lines with a number or a dash, wrapped under themselves."""
    table = Table.grid(padding=(0, 1))
    table.add_column(justify="right", no_wrap=True)
    table.add_column(overflow="fold")
    for number, line in enumerate(lines, 1):
        table.add_row(f"{number}." if numbered else "-", line)
    return table


def facts(pairs: Iterable[tuple[str, str]]) -> RenderableType:
    """Show names and values in two columns; empty values are left out.

    Names stay on their line unless the terminal is too narrow for that.
    """
    given = [(name, value) for name, value in pairs if value]
    return FirstThatFits((_facts(given, whole=True), _facts(given, whole=False)), wrapped=True)


def _facts(pairs: list[tuple[str, str]], *, whole: bool) -> Table:
    table = Table.grid(padding=(0, 2), expand=not whole)
    longest = max((len(name) for name, _ in pairs), default=0)
    ratio = None if whole else 1
    table.add_column(style=QUIET, no_wrap=whole, min_width=longest if whole else None, ratio=ratio)
    table.add_column(overflow="fold", ratio=ratio)
    for name, value in pairs:
        table.add_row(name, value)
    return table


def ruled(*columns: str) -> Table:
    """Start a table whose first column is words and whose others are numbers."""
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, header_style=QUIET)
    for place, column in enumerate(columns):
        table.add_column(column, justify="left" if place == 0 else "right")
    return table


@dataclass(frozen=True, slots=True)
class FirstThatFits:
    """Shows the first of some ways that is no wider than the terminal, else the last of them.

    `wrapped` says that words may wrap at spaces for it.
    """

    ways: tuple[RenderableType, ...]
    wrapped: bool = False

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """Choose by the room there is."""
        room = options.update(width=_WIDE)
        sizes = [(way, Measurement.get(console, room, way)) for way in self.ways]
        fits = (
            way
            for way, size in sizes
            if (size.minimum if self.wrapped else size.maximum) <= options.max_width
        )
        yield next(fits, self.ways[-1])


def curve_chart(
    points: tuple[CurvePoint, ...], rows: int = 9, *, straight: bool = True
) -> RenderableType:
    """Draw load against height: the higher the bar, the longer the line.

    Lines begin at the lightest load shown and say so, for what changes over the lift is the point.
    On a narrow terminal they are shorter, and then what hung straight is left out.

    Parameters
    ----------
    points : tuple of CurvePoint
        From bottom to top.
    rows : int
        Lines to use.
    straight : bool
        Whether to mark what the same chain would do hung straight.
    """
    step = (len(points) - 1) / (rows - 1)
    picked = [points[round(step * row)] for row in reversed(range(rows))]
    compared = [_chart(picked, cells, straight=True) for cells in (_LINE_CELLS, 36, 26)]
    alone = [_chart(picked, cells, straight=False) for cells in (_LINE_CELLS, 36, 26, 18, 8)]
    return FirstThatFits((*(compared if straight else ()), *alone))


def _chart(picked: list[CurvePoint], cells: int, *, straight: bool) -> Table:
    """Draw the chart with lines of so many cells."""
    loads = [p.raising for p in picked] + ([p.straight for p in picked] if straight else [])
    least, most = (pick(loads, key=lambda load: load.value) for pick in (min, max))
    table = Table.grid(padding=(0, 1))
    for justify in _JUSTIFY[: 3 + straight]:
        table.add_column(justify=justify, no_wrap=True)
    marks = f"{_LINE} this rig" + (f"   {_MARK} the same chain hung straight" if straight else "")
    if len(marks) > cells:
        marks = f"{_LINE} this rig   {_MARK} straight" if straight else ""
    heads = ("height", marks, *_NAMES[: 1 + straight])
    table.add_row(*(Text(name, style=QUIET) for name in heads))
    for point in picked:
        reached = [
            _cell(load.value, least.value, most.value, cells)
            for load in (point.raising, point.straight)
        ]
        texts = (point.raising.text, point.straight.text)[: 1 + straight]
        table.add_row(point.height.text, _line(cells, *reached[: 1 + straight]), *texts)
    begin = f"lines begin at {least}"
    table.add_row("", Text(begin if len(begin) <= cells else f"from {least}", style=QUIET))
    return table


def _cell(load_kg: float, least_kg: float, most_kg: float, cells: int) -> int:
    """Which cell of a line a load [kg] reaches, from 0."""
    share = (load_kg - least_kg) / max(most_kg - least_kg, 1e-9)
    return round(share * (cells - 1))


def _line(count: int, reach: int, mark: int | None = None) -> str:
    """A line that reaches a cell, with a mark in another; thick where it stands on the line."""
    cells = [_LINE] * (reach + 1) + [" "] * (count - reach - 1)
    if mark is not None:
        cells[mark] = _MARK_ON_LINE if mark <= reach else _MARK
    return "".join(cells)
