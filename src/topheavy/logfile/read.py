"""From the rows of a mapped file to sets, or to everything that is wrong with them, by line."""

from __future__ import annotations

import hashlib
import uuid
from collections import Counter
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.gym.log import LoggedSet, RigThen
from topheavy.gym.records import THIRDS
from topheavy.logfile.mapping import CELL, DAY
from topheavy.logfile.table import LogFileError
from topheavy.units import KG_PER_LB

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.gym.gym import Gym
    from topheavy.logfile.mapping import Column, FileMapping
    from topheavy.logfile.table import TextTable

_NAMESPACE: Final = uuid.UUID("0b5f2f0e-6c55-4d0e-8a39-2f4f3b0c9d57")
"""What ids of imported sets are made in: the same set always gets the same id."""

_FACTORS: Final = {"kg": 1.0, "lb": KG_PER_LB, "m/s": 1.0, "cm/s": 0.01, "": 1.0}
_WORDS: Final = {
    "straight_kg": "straight",
    "bottom_kg": "bottom",
    "mean_kg": "mean",
    "top_kg": "top",
    "reps_left": "reps left",
    "speed_m_per_s": "bar speed",
    "number": "set",
}
"""What fields of a set are called in a file."""

_YES: Final = frozenset({"yes", "y", "true", "1", "x", "missed", "miss"})
_NO: Final = frozenset({"no", "n", "false", "0", ""})
_DIGITS: Final = 6
_FORMULAS: Final = tuple("=+-@\t\r")
_LINES_SHOWN: Final = 5


def read_sets(
    table: TextTable,
    mapping: FileMapping,
    gym: Gym,
    *,
    by: str = "",
    done: Callable[[int], object] | None = None,
) -> list[LoggedSet]:
    """Read every set of a file.

    A row without an id gets one of its content, so that the same file again is recognised: the
    first such row of a file always gets the same, the second another, the same as ever.

    Parameters
    ----------
    table : TextTable
        The file.
    mapping : FileMapping
        How it is read.
    gym : Gym
        Whose lifters and stations they are.
    by : str
        Who logged them, where the file does not say.
    done : callable, optional
        Told how many rows were dealt with, now and then.

    Raises
    ------
    LogFileError
        Every row that can't be used, by line; rows with the same mistake together.
    """
    reader = _Reader(mapping, gym, by)
    found: list[LoggedSet] = []
    wrong: dict[tuple[str, str, str, str], list[int]] = {}
    for number, (line, cells) in enumerate(table.rows, 1):
        try:
            found.append(reader.read(cells))
        except TopheavyError as error:
            said = (error.message, error.field or "", str(error.got or ""), error.wanted or "")
            wrong.setdefault(said, []).append(line)
        if done is not None and number % 2_000 == 0:
            done(number)
    if wrong:
        raise LogFileError(table.name, [_problem(said, lines) for said, lines in wrong.items()])
    return found


def _problem(said: tuple[str, str, str, str], lines: list[int]) -> BadInputError:
    message, field, got, wanted = said
    field = _WORDS.get(field, field)
    shown = ", ".join(str(line) for line in lines[:_LINES_SHOWN])
    more = len(lines) - _LINES_SHOWN
    where = f"line{'s' if len(lines) > 1 else ''} {shown}" + (
        f" and {more} more" if more > 0 else ""
    )
    return BadInputError(
        message,
        field=f"{where}, {field}" if field else where,
        got=got or None,
        wanted=wanted or None,
    )


class _Reader:
    """Reads rows of one file."""

    def __init__(self, mapping: FileMapping, gym: Gym, by: str) -> None:
        self.gym = gym
        self.by = by
        self.seen: Counter[str] = Counter()
        self.base = gym.name.casefold()
        self.readers = [(_word(c), c.index, self._cell_reader(c, mapping)) for c in mapping.used]
        self.always = {word: self._text_reader(word)(text) for word, text in mapping.always.items()}

    def read(self, cells: list[str]) -> LoggedSet:
        """Read a row; raises TopheavyError."""
        values = dict(self.always)
        for word, index, reader in self.readers:
            cell = cells[index]
            if cell:
                values[word] = reader(cell)
        for word in ("day", "lifter", "lift", "straight", "reps"):
            if word not in values:
                raise BadInputError(f"The {word} is missing", field=word)
        plain = {
            "lifter": values["lifter"],
            "lift": values["lift"],
            "station": values.get("station", ""),
            "day": values["day"],
            "time": values.get("time", ""),
            "session": values.get("session", ""),
            "number": values.get("set"),
            "straight_kg": values["straight"],
            "rig": _rig(values),
            "reps": values["reps"],
            "reps_left": values.get("reps left"),
            "speed_m_per_s": values.get("bar speed"),
            "missed": values.get("missed", values.get("third") is not None),
            "third": values.get("third"),
            "note": values.get("note", ""),
            "corrects": values.get("corrects", ""),
            "struck": values.get("struck", False),
        }
        own = values.get("id") or self._made_id(repr(plain))
        return LoggedSet(id=own, by=values.get("by", self.by), **plain)

    def _made_id(self, content: str) -> str:
        self.seen[content] += 1
        return _uuid5(f"{self.base}|{content}|{self.seen[content]}")

    def _cell_reader(self, column: Column, mapping: FileMapping) -> Callable[[str], Any]:
        """What reads the cells of a column, each text but once."""
        kind, word = column.meaning.kind if column.meaning else "text", _word(column)
        factor = _FACTORS[column.unit]

        def number(cell: str) -> float:
            found = _number(cell, mapping.decimal, word)
            return found if factor == 1.0 else round(found * factor, _DIGITS)

        readers: dict[str, Callable[[str], Any]] = {
            "mass": number,
            "speed": number,
            "number": number,
            "count": lambda cell: _count(cell, mapping.decimal, word),
            "day": lambda cell: _day(cell, mapping.day_order),
            "time": _time,
            "yes": lambda cell: _yes(cell, word),
            "third": _third,
            "curve": _curve,
        }
        return lru_cache(maxsize=10_000)(readers.get(kind) or self._text_reader(word))

    def _text_reader(self, word: str) -> Callable[[str], Any]:
        named: dict[str, Callable[[str], str]] = {
            "lifter": lambda name: self.gym.lifter(name).name,
            "lift": lambda name: lift_named(name).name,
            "station": lambda name: self.gym.station(name).name,
        }
        read = named.get(word, str)
        return lambda cell: read(_unguarded(cell))


def _uuid5(name: str) -> str:
    """As uuid.uuid5 in our namespace, without making an object of each."""
    digest = bytearray(
        hashlib.sha1(_NAMESPACE.bytes + name.encode(), usedforsecurity=False).digest()
    )
    digest[6] = digest[6] & 0x0F | 0x50
    digest[8] = digest[8] & 0x3F | 0x80
    text = digest[:16].hex()
    return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"


def _word(column: Column) -> str:
    return column.meaning.word if column.meaning else ""


def _unguarded(cell: str) -> str:
    """Take off the quote that keeps a spreadsheet from reading a text as a formula."""
    return cell[1:] if cell[:1] == "'" and cell.lstrip("'").startswith(_FORMULAS) else cell


def _rig(values: dict[str, Any]) -> RigThen | None:
    loads = [values.get(word) for word in ("bottom", "mean", "top")]
    if all(load is None for load in loads):
        if values.get("rig") or values.get("curve"):
            raise BadInputError(
                "Something hung, and no loads are given",
                field="rig",
                got=repr(values.get("rig", "")),
                wanted="the loads at bottom and top, and their mean",
            )
        return None
    bottom, mean, top = loads
    if bottom is None or top is None:
        raise BadInputError(
            "Of a rig, the loads at bottom and top are needed",
            field="bottom" if bottom is None else "top",
            wanted="both, all that was on the bar",
        )
    return RigThen(
        bottom_kg=bottom,
        mean_kg=(bottom + top) / 2 if mean is None else mean,
        top_kg=top,
        words=values.get("rig", ""),
        curve=values.get("curve", ()),
    )


def _number(cell: str, decimal: str, word: str) -> float:
    match = CELL.fullmatch(cell)
    other = "." if decimal == "," else ","
    if match is None or other in match[1] or match[1].count(decimal) > 1:
        raise BadInputError(
            "Not a number",
            field=word,
            got=ascii(cell[:40]),
            wanted=f"a number with a decimal {'comma' if decimal == ',' else 'point'}",
        )
    return float(match[1].replace(",", "."))


def _count(cell: str, decimal: str, word: str) -> int:
    found = _number(cell, decimal, word)
    if found != int(found):
        raise BadInputError("Not a whole number", field=word, got=ascii(cell[:40]))
    return int(found)


def _day(cell: str, order: str) -> str:
    match = DAY.fullmatch(cell)
    if match:
        parts = dict(zip(order, match.groups(), strict=True))
        if len(parts["y"]) == 4:
            try:
                return date(int(parts["y"]), int(parts["m"]), int(parts["d"])).isoformat()
            except ValueError:
                pass
    names = {"y": "year", "m": "month", "d": "day"}
    raise BadInputError(
        "Not a day",
        field="day",
        got=ascii(cell[:40]),
        wanted=f"{', '.join(names[one] for one in order)}, the year in four digits",
    )


def _time(cell: str) -> str:
    hour, colon, rest = cell.partition(":")
    return f"{hour.zfill(2)}:{rest[:2]}" if colon else cell


def _yes(cell: str, word: str) -> bool:
    text = cell.lower()
    if text in _YES or text in _NO:
        return text in _YES
    raise BadInputError("Neither yes nor no", field=word, got=ascii(cell[:40]), wanted="yes or no")


def _third(cell: str) -> str:
    text = {"bottom": "lower", "mid": "middle", "upper": "top"}.get(cell.lower(), cell.lower())
    if text not in THIRDS:
        raise BadInputError(
            "Not a third of the way up",
            field="third",
            got=ascii(cell[:40]),
            wanted="lower, middle or top",
        )
    return text


def _curve(cell: str) -> tuple[tuple[float, float], ...]:
    try:
        pairs = [pair.split("=") for pair in cell.split()]
        return tuple((float(height), float(load)) for height, load in pairs)
    except ValueError:
        raise BadInputError(
            "Not heights and loads",
            field="curve",
            got=ascii(cell[:40]),
            wanted="such as 0.66=0 0.87=11.2 1.07=30",
        ) from None
