"""Readings of a scale in a CSV file."""

from __future__ import annotations

import csv
import re
from typing import TYPE_CHECKING, Final

from topheavy.asked.weighing import MOST, WAYS, reading_of
from topheavy.errors import BadInputError, FileError
from topheavy.units import UNITS

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.asked.weighing import Doubt
    from topheavy.services.weighing.case import ScaleReading

_LARGEST: Final = 1_000_000
_HEADER: Final = (
    'a first line that names the columns with their units, such as "height [cm],mass [kg],way"'
)
_COLUMNS: Final = {
    "height": "height",
    "mass": "mass",
    "load": "mass",
    "weight": "mass",
    "reading": "mass",
    "way": "way",
    "direction": "way",
}
_NAME: Final = re.compile(r"([a-z]+)[\s_(\[/]*(.*?)[\s)\]]*", re.IGNORECASE | re.DOTALL)


def read_csv(path: Path, doubt: Doubt) -> list[ScaleReading]:
    """Read a CSV file with a height and a mass in every line, and perhaps the way.

    Commas, semicolons or tabs between the columns; units in the header, or in every cell; blank
    lines, and lines that begin with #, are passed over.

    Raises
    ------
    FileError
        No such file, no text, no header.
    BadInputError
        A line without a height and a mass; the error names the line.
    """
    lines = [
        (number, line)
        for number, line in enumerate(_text(path).splitlines(), 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not lines:
        raise FileError("There are no readings in the file", field=str(path), wanted=_HEADER)
    between = max(",;\t", key=lines[0][1].count)
    cells = [[cell.strip() for cell in row] for row in _rows(lines, between, path)]
    columns = _columns(cells[0], f"{path}, line {lines[0][0]}")
    if not 1 <= len(cells) - 1 <= MOST:
        raise FileError(
            "No such number of readings makes sense",
            field=str(path),
            got=f"{len(cells) - 1} readings",
            wanted=f"1 to {MOST}",
        )
    found = []
    for (number, _), row in zip(lines[1:], cells[1:], strict=True):
        where = f"{path}, line {number}"
        value = {
            name: f"{row[place]} {unit}".strip() if place < len(row) else ""
            for name, (place, unit) in columns.items()
        }
        if value.get("way", "").lower() not in WAYS:
            raise BadInputError(
                "Not a way", field=where, got=repr(value["way"]), wanted="up, down, or nothing"
            )
        found.append(reading_of(value["height"], value["mass"], value.get("way", ""), where, doubt))
    return found


def _text(path: Path) -> str:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            return file.read(_LARGEST)
    except FileNotFoundError:
        raise FileError("There is no such file", field=str(path), wanted="a CSV file") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise FileError(f"The file can't be read: {reason}", field=str(path)) from None


def _rows(lines: list[tuple[int, str]], between: str, path: Path) -> list[list[str]]:
    """Cells of each line; a quoted cell may not run over its line."""
    try:
        return [next(csv.reader([line], delimiter=between, strict=True)) for _, line in lines]
    except csv.Error as error:
        raise FileError(f"Not a CSV file: {error}", field=str(path), wanted=_HEADER) from None


def _columns(header: list[str], where: str) -> dict[str, tuple[int, str]]:
    """Place and unit of each known column."""
    columns: dict[str, tuple[int, str]] = {}
    known = {unit for dimension in ("mass", "length") for unit in UNITS[dimension]}
    for place, title in enumerate(header):
        found = _NAME.fullmatch(title)
        name = _COLUMNS.get(found[1].lower()) if found else None
        if found is None or name is None:
            continue
        unit = "" if name == "way" else found[2].lower()
        if name in columns or (unit and unit not in known):
            raise BadInputError(
                "A column that can't be told", field=where, got=repr(title), wanted=_HEADER
            )
        columns[name] = (place, unit)
    if not {"height", "mass"} <= set(columns):
        raise BadInputError(
            "The columns have no names", field=where, got=repr(",".join(header)), wanted=_HEADER
        )
    return columns
