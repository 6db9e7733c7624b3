"""What an import would do, or did, as one frozen view, and on the terminal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.store.log_view import SetRow, how_it_went
from topheavy.present.terminal import ACCENT, QUIET, facts, headed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnRow:
    """A column of the file: its header, what it is taken for, its unit, and its first cell."""

    header: str
    taken_for: str
    unit: str
    first: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportView:
    """An import.

    Parameters
    ----------
    gym, file : str
        Where to, and where from.
    columns : tuple of ColumnRow
        How the file is read.
    always : tuple of (str, str)
        What holds for every row.
    decimal, day_order : str
        How numbers and days are written in it.
    count, known : int
        Sets in the file, and those of them that are in the log already.
    first_day, last_day : str
        Of the sets.
    first : tuple of SetRow
        The first sets as they are understood.
    done : bool
        Whether they are in the log now.
    """

    gym: str
    file: str
    columns: tuple[ColumnRow, ...]
    always: tuple[tuple[str, str], ...]
    decimal: str
    day_order: str
    count: int
    known: int
    first_day: str
    last_day: str
    first: tuple[SetRow, ...]
    done: bool


def render_import(view: ImportView) -> RenderableType:
    """Lay the import out: columns, the first sets as understood, and what comes of it."""
    new = view.count - view.known
    counted = [
        ("sets", f"{view.count:,}, from {view.first_day} to {view.last_day}"),
        ("in the log already", f"{view.known:,}, not doubled"),
        ("new", f"{new:,}"),
        ("days", f"written as {', '.join(_ORDER[letter] for letter in view.day_order)}"),
        ("decimals", f"after a {'comma' if view.decimal == ',' else 'point'}"),
        *((word, f"{text} in every row") for word, text in view.always),
    ]
    parts: list[RenderableType] = [
        Text(f"{view.file} for {view.gym}", style=ACCENT),
        headed("Columns", _columns(view)),
        headed("The first sets, as understood", _sets(view)),
        headed("All together", facts(counted)),
    ]
    if view.done:
        parts.append(Text(f"Imported: {new:,} new sets are in the log."))
    else:
        parts.append(
            Text(
                "Nothing is imported yet. If this is right, say the same with --yes.", style=ACCENT
            )
        )
    return Group(*parts)


_ORDER = {"y": "year", "m": "month", "d": "day"}


def _columns(view: ImportView) -> RenderableType:
    table = ruled("column", "taken for", "unit", "first cell")
    for column in table.columns:
        column.justify, column.overflow = "left", "fold"
    for row in view.columns:
        style = "" if row.taken_for else QUIET
        table.add_row(row.header, row.taken_for or "left out", row.unit, row.first, style=style)
    return table


def _sets(view: ImportView) -> RenderableType:
    table = ruled("day", "lifter", "lift", "straight", "bottom", "top", "reps")
    for column in (*table.columns[:3], table.columns[6]):
        column.justify, column.overflow = "left", "fold"
    for row in view.first:
        loads = [one.text if one else "" for one in (row.bottom, row.top)]
        table.add_row(row.day, row.lifter, row.lift, row.straight.text, *loads, how_it_went(row))
    return table
