"""What each column of a file is taken for, and how its numbers and days are written.

Guessed only where the file leaves no doubt; otherwise whoever imports it has to say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.logfile.meanings import MEANINGS, NEEDED, meaning_named, meaning_of, split_header

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from topheavy.logfile.meanings import Kind, Meaning
    from topheavy.logfile.table import TextTable

DayOrder = Literal["ymd", "dmy", "mdy"]
DAY_ORDERS: Final[tuple[DayOrder, ...]] = ("ymd", "dmy", "mdy")
UNITS: Final[dict[str, tuple[str, ...]]] = {"mass": ("kg", "lb"), "speed": ("m/s", "cm/s")}
_NUMBERS: Final[tuple[Kind, ...]] = ("mass", "speed", "number")

CELL: Final = re.compile(r"([+-]?[0-9][0-9.,]*|[+-]?[.,][0-9]+)\s*([a-zA-Z/]*)")
DAY: Final = re.compile(r"([0-9]{1,4})\s*[-./]\s*([0-9]{1,2})\s*[-./]\s*([0-9]{1,4})")
_LINES_SHOWN: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: where, its header, what it means, and its unit, empty for none."""

    index: int
    header: str
    meaning: Meaning | None
    unit: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What whoever imports a file said of it.

    Parameters
    ----------
    columns : mapping
        Meaning by header.
    units : mapping
        Unit by meaning; the empty meaning stands for every column with a mass.
    decimal : str
        ``"."`` or ``","``; empty when nobody said.
    day_order : str
        One of `DAY_ORDERS`; empty when nobody said.
    always : mapping
        Text by meaning, where the file has no such column.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    decimal: str = ""
    day_order: str = ""
    always: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class FileMapping:
    """How a file is read: its columns, and how numbers and days are written in it."""

    columns: tuple[Column, ...]
    decimal: str
    day_order: DayOrder
    always: Mapping[str, str]

    @property
    def used(self) -> tuple[Column, ...]:
        """Columns that mean something."""
        return tuple(column for column in self.columns if column.meaning is not None)


def map_file(table: TextTable, said: Said) -> FileMapping:
    """Find out what a file's columns are, from its header, its cells and what was said.

    Raises
    ------
    BadInputError
        Something that the file leaves open, or contradicts: a meaning that stands twice or is
        missing, units that are mixed or unknown, decimal points and commas, days in two orders.
    """
    meanings = _meanings(table, said)
    columns = tuple(
        Column(index=index, header=header, meaning=meaning, unit=_unit(table, index, meaning, said))
        for index, (header, meaning) in enumerate(zip(table.header, meanings, strict=True))
    )
    used = [column for column in columns if column.meaning is not None]
    return FileMapping(
        columns=columns,
        decimal=_decimal(table, used, said.decimal),
        day_order=_day_order(table, used, said.day_order),
        always={word: text for word, text in said.always.items() if text},
    )


def _meanings(table: TextTable, said: Said) -> list[Meaning | None]:
    by_header = {header.casefold(): word for header, word in said.columns.items()}
    known = {header.casefold() for header in table.header}
    for header in said.columns:
        if header.casefold() not in known:
            raise BadInputError(
                "No such column in the file",
                field="--map",
                got=repr(header),
                wanted="one of " + ", ".join(repr(one) for one in table.header),
            )
    found = [
        meaning_named(by_header[header.casefold()], "--map")
        if header.casefold() in by_header
        else meaning_of(header)
        for header in table.header
    ]
    words = [meaning.word for meaning in found if meaning is not None]
    for word in words:
        if words.count(word) > 1:
            headers = [
                repr(h) for h, m in zip(table.header, found, strict=True) if m and m.word == word
            ]
            raise BadInputError(
                f"Two columns are taken for {word}",
                field="header",
                got=" and ".join(headers),
                wanted=f'--map "HEADER={word}" for one of them, --map "HEADER=-" for the other',
            )
    missing = [word for word in NEEDED if word not in words and not said.always.get(word)]
    if missing:
        raise BadInputError(
            f"No column is taken for {', '.join(missing)}",
            field="header",
            got=", ".join(repr(header) for header in table.header),
            wanted=f'--map "HEADER={missing[0]}"'
            + (f", or --{missing[0]} for all" if missing[0] in {"lifter", "lift"} else ""),
        )
    return found


def _unit(table: TextTable, index: int, meaning: Meaning | None, said: Said) -> str:
    """The one unit of a column, wherever it is said."""
    if meaning is None or meaning.kind not in UNITS:
        return ""
    known = UNITS[meaning.kind]
    in_cells: dict[str, list[int]] = {}
    for line, cell in table.distinct(index):
        match = CELL.fullmatch(cell)
        if match:
            in_cells.setdefault(_one_unit(match[2]), []).append(line)
    header = split_header(table.header[index])[1]
    told = said.units.get(meaning.word) or (said.units.get("") if meaning.kind == "mass" else None)
    units = {unit for unit in in_cells if unit} | ({header} & {*known})
    if len(units) > 1 or (units and "" in in_cells and header not in known and not told):
        raise BadInputError(
            f"Units are mixed in the column that is taken for {meaning.word}",
            field=f"column {table.header[index]!r}",
            got="; ".join(_where(unit or "no unit", lines) for unit, lines in in_cells.items())
            + (f"; header {header}" if header in known else ""),
            wanted=f"one of {' or '.join(known)}, the same for the whole column",
        )
    chosen = told or next(iter(units), "") or ("m/s" if meaning.kind == "speed" else "")
    if chosen not in known or (units and chosen not in units):
        raise BadInputError(
            f"Nothing says the unit of {meaning.word}"
            if not chosen
            else f"In the file {meaning.word} has another unit"
            if units and chosen in known
            else f"Not a unit of the {meaning.word}",
            field=f"column {table.header[index]!r}",
            got=" and ".join([*units]) or (repr(chosen) if chosen else None),
            wanted=f"--unit {meaning.word}={' or '.join(known)}",
        )
    return chosen


def _one_unit(text: str) -> str:
    unit = text.lower()
    return {"lbs": "lb", "kgs": "kg", "kilo": "kg"}.get(unit, unit)


def _where(what: str, lines: Sequence[int]) -> str:
    shown = ", ".join(str(line) for line in lines[:_LINES_SHOWN])
    more = len(lines) - _LINES_SHOWN
    return f"{what} in line {shown}" + (f" and {more} more" if more > 0 else "")


def _decimal(table: TextTable, columns: Sequence[Column], said: str) -> str:
    if said not in {"", ".", ","}:
        raise BadInputError(
            "Not a decimal mark", field="--decimal", got=repr(said), wanted=". or ,"
        )
    if said:
        return said
    found: dict[str, list[int]] = {}
    unsure: list[tuple[int, str]] = []
    for line, number in _numbers(table, columns):
        marks = {mark for mark in ".," if mark in number}
        if len(marks) == 2 or any(number.count(mark) > 1 for mark in marks):
            unsure.append((line, number))
        for mark in marks:
            found.setdefault(mark, []).append(line)
            if mark == "," and re.fullmatch(r"[+-]?[0-9]{1,3},[0-9]{3}", number):
                unsure.append((line, number))
    if unsure or len(found) > 1:
        line, number = unsure[0] if unsure else (0, "")
        raise BadInputError(
            "It is not clear which mark is the decimal one",
            field=f"line {line}" if unsure else table.name,
            got=repr(number)
            if unsure
            else "; ".join(_where(repr(mark), lines) for mark, lines in found.items()),
            wanted="--decimal . or --decimal , and no mark between thousands",
        )
    return next(iter(found), ".")


def _numbers(table: TextTable, columns: Sequence[Column]) -> Iterator[tuple[int, str]]:
    for column in columns:
        if column.meaning and column.meaning.kind in _NUMBERS:
            for line, cell in table.distinct(column.index):
                match = CELL.fullmatch(cell)
                if match:
                    yield line, match[1]


def _day_order(table: TextTable, columns: Sequence[Column], said: str) -> DayOrder:
    orders = [order for order in DAY_ORDERS if order == said]
    if said and not orders:
        raise BadInputError(
            "Not an order of day, month and year",
            field="--day-order",
            got=repr(said),
            wanted=", ".join(DAY_ORDERS),
        )
    if orders:
        return orders[0]
    proofs: dict[DayOrder, tuple[int, str]] = {}
    unsure: tuple[int, str] | None = None
    for column in columns:
        if column.meaning is MEANINGS["day"]:
            for line, cell in table.distinct(column.index):
                order = _proved(cell)
                if order is not None:
                    proofs.setdefault(order, (line, cell))
                elif DAY.fullmatch(cell):
                    unsure = unsure or (line, cell)
    if len(proofs) > 1:
        raise BadInputError(
            "Days are written in more than one order",
            field="column of the day",
            got="; ".join(f"{cell} in line {line}" for line, cell in proofs.values()),
            wanted="one order; a day that can't be is told with --day-order "
            + ", ".join(DAY_ORDERS),
        )
    if unsure is not None and not proofs:
        raise BadInputError(
            "It is not clear which is the day and which the month",
            field=f"line {unsure[0]}",
            got=unsure[1],
            wanted="--day-order dmy, or --day-order mdy",
        )
    return next(iter(proofs), "ymd")


def _proved(cell: str) -> DayOrder | None:
    """The only order in which a cell can be a day; None when it is none, or open."""
    match = DAY.fullmatch(cell)
    if match is None:
        return None
    first, second = int(match[1]), int(match[2])
    if len(match[1]) == 4:
        return "ymd"
    if first > 12 >= second:
        return "dmy"
    return "mdy" if second > 12 >= first else None
