"""A CSV file as rows of text, each with its line, before anything is understood."""

from __future__ import annotations

import csv
import gc
import io
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, FileError
from topheavy.gymfile.read import utf8_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from topheavy.errors import TopheavyError

LARGEST_BYTES: Final = 80_000_000
MOST_ROWS: Final = 500_000
MOST_COLUMNS: Final = 200
MOST_SHOWN: Final = 25
"""Guards: largest file [bytes], most rows, most columns, and how many mistakes are listed."""

_DELIMITERS: Final = ",;\t|"


class LogFileError(BadInputError):
    """A log file with mistakes, all of them told, by line.

    Parameters
    ----------
    source : str
        Name of the file.
    problems : sequence of TopheavyError
        What is wrong.
    """

    def __init__(self, source: str, problems: Sequence[TopheavyError]) -> None:
        self.source = source
        self.problems = tuple(problems)
        told = []
        for number, one in enumerate(self.problems[:MOST_SHOWN], 1):
            message, *facts = one.lines()
            told.append("\n     ".join([f"{number}. {message}", *facts]))
        more = len(self.problems) - MOST_SHOWN
        told += [f"and {more} more."] if more > 0 else []
        count = len(self.problems)
        head = f"{count} mistake{'s' if count > 1 else ''} in {source}; nothing was imported:"
        super().__init__("\n  ".join([head, *told]))

    def lines(self) -> list[str]:
        """Tell every mistake on lines of its own."""
        return [self.message]


@dataclass(frozen=True, slots=True)
class TextTable:
    """A file of rows.

    Parameters
    ----------
    name : str
        Of the file.
    header : list of str
        Its first row.
    rows : list of (int, list of str)
        The others: line, from 1, and cells, spaces at the ends taken off.
    delimiter : str
        What stands between cells.
    seen : dict
        What `distinct` found before, by column.
    """

    name: str
    header: list[str]
    rows: list[tuple[int, list[str]]]
    delimiter: str
    seen: dict[int, list[tuple[int, str]]] = field(default_factory=dict, repr=False, compare=False)

    def distinct(self, index: int) -> list[tuple[int, str]]:
        """Cells of a column that are not empty, each text once with its first line."""
        if index not in self.seen:
            backwards = reversed(self.rows)
            first = {cells[index]: line for line, cells in backwards}
            lines = sorted((line, cell) for cell, line in first.items() if cell)
            self.seen[index] = lines
        return self.seen[index]

    def column(self, index: int) -> list[tuple[int, str]]:
        """Lines and cells of a column that are not empty."""
        return [(line, cells[index]) for line, cells in self.rows if cells[index]]


def read_table(path: Path, called: str = "") -> TextTable:
    """Read a CSV file.

    Parameters
    ----------
    path : Path
        Where it is.
    called : str
        What it is called in errors; else its path.

    Raises
    ------
    FileError
        It can't be read, is too large, is no text in UTF-8, or is no CSV.
    LogFileError
        Rows with other than the header's number of cells.
    """
    text, name = _text(path, called)
    delimiter = _delimiter(text, name)
    rows: list[tuple[int, list[str]]] = []
    problems: list[TopheavyError] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    start = 1
    try:
        header = [cell.strip() for cell in next(reader)]
        columns = len(header)
        with uncollected():
            for cells in reader:
                line, start = start + 1, reader.line_num
                if len(cells) == columns:
                    rows.append((line, list(map(str.strip, cells))))
                elif any(cell.strip() for cell in cells):
                    problems.append(_ragged(line, len(cells), columns))
                if len(rows) > MOST_ROWS:
                    raise _too_many(name)
    except csv.Error as error:
        raise FileError(
            f"Not valid CSV: {error}", field=f"{name}, line {reader.line_num}", wanted=_CSV
        ) from None
    filled = [(line, cells) for line, cells in rows if any(cells)]
    if problems:
        raise LogFileError(name, problems)
    if not filled:
        raise FileError("There is no set in the file", field=name, wanted="a row for each set")
    return TextTable(name, header, filled, delimiter)


@contextmanager
def uncollected() -> Iterator[None]:
    """Make very many values that all stay: looking among them for garbage takes half the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


_CSV: Final = "a header and a row for each set, cells apart by comma, semicolon or tab"


def _text(path: Path, called: str) -> tuple[str, str]:
    name = called or ascii(str(path))[1:-1]
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise FileError("There is no such file", field=name, wanted="a CSV file") from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise FileError(f"The file can't be read: {reason}", field=name) from None
    if len(content) > LARGEST_BYTES:
        raise FileError(
            "The file is too large to import at once",
            field=name,
            got=f"more than {LARGEST_BYTES // 1_000_000} MB",
            wanted=f"at most {LARGEST_BYTES // 1_000_000} MB, {MOST_ROWS:,} sets: cut it by year",
        )
    if content[:2] in {b"\xff\xfe", b"\xfe\xff"} or b"\x00" in content[:4096]:
        raise FileError(
            "The file is not CSV",
            field=name,
            got="not text, or text in another coding",
            wanted=f"CSV in UTF-8: {_CSV}",
        )
    return utf8_text(content, name, "CSV saved as UTF-8"), name


def _delimiter(text: str, name: str) -> str:
    first = next((line for line in text.splitlines() if line.strip()), "")
    counts = {mark: first.count(mark) for mark in _DELIMITERS}
    best = max(counts, key=lambda mark: counts[mark])
    if not counts[best] or counts[best] >= MOST_COLUMNS or "\x00" in first:
        shown = first[:60]
        raise FileError(
            "The file is not CSV", field=f"{name}, line 1", got=ascii(shown), wanted=_CSV
        )
    return best


def _ragged(line: int, cells: int, columns: int) -> BadInputError:
    return BadInputError(
        "A row with too few cells" if cells < columns else "A row with too many cells",
        field=f"line {line}",
        got=cells,
        wanted=f"{columns}, as in the header; a cell with the separator in it stands in quotes",
    )


def _too_many(name: str) -> FileError:
    return FileError(
        "Too many sets to import at once",
        field=name,
        got=f"more than {MOST_ROWS:,}",
        wanted=f"at most {MOST_ROWS:,}: cut the file by year",
    )
