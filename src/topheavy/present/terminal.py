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
    from collections.abc import Iterable, Sequence

    from rich.console import ConsoleOptions, RenderableType, RenderResult

    from topheavy.present.loads.points import CurvePoint

ACCENT = "bold"
QUIET = "dim"
_LINE_CELLS: Final = 46
_WIDE: Final = 1000
LINE: Final = "\N{BOX DRAWINGS HEAVY HORIZONTAL}"
MARK: Final = "\N{BOX DRAWINGS LIGHT VERTICAL}"
_MARK_ON_LINE: Final = "\N{BOX DRAWINGS HEAVY VERTICAL}"
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
    """Draw load by height with lines of so many cells."""
    loads = [p.raising for p in picked] + ([p.straight for p in picked] if straight else [])
    least = min(loads, key=lambda load: load.value)
    marks = f"{LINE} this rig" + (f"   {MARK} the same chain hung straight" if straight else "")
    if len(marks) > cells:
        marks = f"{LINE} this rig   {MARK} straight" if straight else ""
    begin = f"lines begin at {least}"
    rows = [
        ChartRow(
            height=point.height.text,
            reach=point.raising.value,
            mark=point.straight.value if straight else None,
            beside=(point.raising.text, point.straight.text)[: 1 + straight],
        )
        for point in picked
    ]
    return height_chart(
        rows,
        cells,
        heads=("height", marks, *_NAMES[: 1 + straight]),
        least=least.value,
        foot=begin if len(begin) <= cells else f"from {least}",
    )


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One line of a chart over height.

    Parameters
    ----------
    height : str
        Where.
    reach : float or None
        What the line stands for, in any unit; None: no line.
    mark : float or None
        What the mark on it stands for, in the same unit; None: no mark.
    beside : tuple of str
        Words after the line.
    """

    height: str
    reach: float | None
    mark: float | None
    beside: tuple[str, ...]


def height_chart(
    rows: Sequence[ChartRow], cells: int, *, heads: tuple[str, ...], least: float, foot: str = ""
) -> Table:
    """Draw a line for each height, highest first, as far as what it stands for.

    Parameters
    ----------
    rows : sequence of ChartRow
        From top to bottom.
    cells : int
        Length of the longest line.
    heads : tuple of str
        Over height, line, and each of the words beside.
    least : float
        Where lines begin, in the unit of the rows.
    foot : str
        Said below the lines.
    """
    values = [v for row in rows for v in (row.reach, row.mark) if v is not None]
    most = max(values, default=least)
    table = Table.grid(padding=(0, 1))
    for place in range(len(heads)):
        table.add_column(justify="left" if place == 1 else "right", no_wrap=True)
    table.add_row(*(Text(name, style=QUIET) for name in heads))
    for row in rows:
        reached = [
            None if value is None else _cell(value, least, most, cells)
            for value in (row.reach, row.mark)
        ]
        table.add_row(row.height, _line(cells, *reached), *row.beside)
    if foot:
        table.add_row("", Text(foot, style=QUIET))
    return table


def _cell(value: float, least: float, most: float, cells: int) -> int:
    """Which cell of a line a value reaches, from 0."""
    share = (value - least) / max(most - least, 1e-9)
    return round(min(max(share, 0.0), 1.0) * (cells - 1))


def _line(count: int, reach: int | None, mark: int | None = None) -> str:
    """A line that reaches a cell, with a mark in another; thick where it stands on the line."""
    long = 0 if reach is None else reach + 1
    cells = [LINE] * long + [" "] * (count - long)
    if mark is not None:
        cells[mark] = _MARK_ON_LINE if mark < long else MARK
    return "".join(cells)
