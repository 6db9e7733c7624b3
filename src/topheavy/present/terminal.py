"""Parts of what the terminal prints, at 80 columns and without them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich import box
from rich.console import Console, Group
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import RenderableType

    from topheavy.present.rig_view import CurvePoint

ACCENT = "bold"
QUIET = "dim"
_BAR_CELLS = 44


def screen(*, stderr: bool = False) -> Console:
    """Make the console that everything is printed on."""
    return Console(stderr=stderr, highlight=False, soft_wrap=False)


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


def facts(pairs: Iterable[tuple[str, str]]) -> Table:
    """Show names and values in two columns; empty values are left out."""
    table = Table.grid(padding=(0, 2))
    table.add_column(style=QUIET, no_wrap=True)
    table.add_column(overflow="fold")
    for name, value in pairs:
        if value:
            table.add_row(name, value)
    return table


def ruled(*columns: str) -> Table:
    """Start a table whose first column is words and whose others are numbers."""
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, header_style=QUIET)
    for place, column in enumerate(columns):
        table.add_column(column, justify="left" if place == 0 else "right")
    return table


def curve_chart(points: tuple[CurvePoint, ...], rows: int = 9) -> Table:
    """Draw load against height: the higher the bar, the longer the line.

    Parameters
    ----------
    points : tuple of CurvePoint
        From bottom to top.
    rows : int
        Lines to use.
    """
    step = (len(points) - 1) / (rows - 1)
    picked = [points[round(step * row)] for row in reversed(range(rows))]
    heaviest = max(p.raising.value for p in points)
    lightest = min(min(p.raising.value, p.straight.value) for p in points)
    start = max(0.0, lightest - 0.25 * (heaviest - lightest))
    table = Table.grid(padding=(0, 1))
    for _ in range(3):
        table.add_column(justify="right", no_wrap=True)
    for point in picked:
        table.add_row(point.height.text, _line(point, start, heaviest), point.raising.text)
    table.columns[1].justify = "left"
    return table


def _line(point: CurvePoint, start: float, heaviest: float) -> Text:
    """A line as long as the load, with a mark where the same chain hung straight would be."""

    def cell(load_kg: float) -> int:
        share = (load_kg - start) / max(heaviest - start, 1e-9)
        return round(share * (_BAR_CELLS - 1))

    line = Text("━" * (cell(point.raising.value) + 1), style=ACCENT)
    line.append(" " * (_BAR_CELLS + 1 - len(line)))
    mark = min(max(cell(point.straight.value), 0), _BAR_CELLS)
    characters = list(line.plain)
    characters[mark] = "┃" if characters[mark] == "━" else "│"
    return Text("".join(characters))
