"""From the rows of a mapped file to sets, or to everything that is wrong with them, by line."""

from __future__ import annotations

import hashlib
import uuid
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.gym.log import LoggedSet, RigThen
from topheavy.gym.records import THIRDS
from topheavy.logfile.mapping import CELL, DAY
from topheavy.logfile.table import LogFileError, uncollected
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
    with uncollected():
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


Pair = tuple[Any, str]
"""A value, and how it is written where ids are made of it."""

_SLOTS: Final = (
    "lifter", "lift", "station", "day", "time", "session", "set", "straight", "rig", "reps",
    "reps left", "bar speed", "missed", "third", "note", "corrects", "struck",
    "bottom", "mean", "top", "curve", "id", "by",
)  # fmt: skip
_AT: Final = {word: place for place, word in enumerate(_SLOTS)}
_NEEDED_AT: Final = tuple(
    (_AT[word], word) for word in ("day", "lifter", "lift", "straight", "reps")
)
_RIG, _MISS, _THIRD = (_AT[word] for word in ("rig", "missed", "third"))
_RIG_AT: Final = tuple(_AT[word] for word in ("bottom", "mean", "top", "rig", "curve"))
_EMPTY: Final = {
    **dict.fromkeys(("station", "time", "session", "note", "corrects", "rig", "id", "by"), ""),
    "struck": False,
    "curve": (),
}
"""What stands where a cell is empty; else None."""

_CONTENT: Final = (
    "{'lifter': %s, 'lift': %s, 'station': %s, 'day': %s, 'time': %s, 'session': %s, "
    "'number': %s, 'straight_kg': %s, 'rig': %s, 'reps': %s, 'reps_left': %s, "
    "'speed_m_per_s': %s, 'missed': %s, 'third': %s, 'note': %s, 'corrects': %s, 'struck': %s}"
)
"""What ids are made of; it never changes, or files would be imported twice."""


class _Once(dict[Any, Pair]):
    """Values by cell, each read when it first comes; what can't be read raises every time."""

    def __init__(self, read: Callable[[Any], Any]) -> None:
        super().__init__()
        self.read = read

    def __missing__(self, cell: Any) -> Pair:
        value = self.read(cell)
        pair = self[cell] = (value, repr(value))
        return pair


class _Reader:
    """Reads rows of one file, each different cell of a column once."""

    def __init__(self, mapping: FileMapping, gym: Gym, by: str) -> None:
        self.gym = gym
        self.seen: dict[str, int] = {}
        self.base = hashlib.sha1(
            _NAMESPACE.bytes + f"{gym.name.casefold()}|".encode(), usedforsecurity=False
        )
        start: dict[str, Any] = dict.fromkeys(_SLOTS) | _EMPTY | {"by": by}
        start |= {word: self._text_reader(word)(text) for word, text in mapping.always.items()}
        self.start: list[Pair] = [(value, repr(value)) for value in start.values()]
        self.columns: list[tuple[int, int, _Once]] = []
        for column in mapping.used:
            known = _Once(self._cell_reader(column, mapping))
            known[""] = self.start[_AT[_word(column)]]
            self.columns.append((_AT[_word(column)], column.index, known))
        self.rigs = _Once(_rig)

    def read(self, cells: list[str]) -> LoggedSet:
        """Read a row; raises TopheavyError."""
        row = self.start.copy()
        for place, index, known in self.columns:
            row[place] = known[cells[index]]
        for place, word in _NEEDED_AT:
            if row[place][0] is None:
                raise BadInputError(f"The {word} is missing", field=word)
        row[_RIG] = self.rigs[tuple([row[place][0] for place in _RIG_AT])]
        if row[_MISS][0] is None:
            row[_MISS] = _MADE if row[_THIRD][0] is None else _MISSED
        values, told = zip(*row, strict=True)
        return LoggedSet(
            id=values[21] or self._made_id(_CONTENT % told[:17]),
            lifter=values[0],
            lift=values[1],
            station=values[2],
            day=values[3],
            time=values[4],
            session=values[5],
            number=values[6],
            straight_kg=values[7],
            rig=values[8],
            reps=values[9],
            reps_left=values[10],
            speed_m_per_s=values[11],
            missed=values[12],
            third=values[13],
            note=values[14],
            corrects=values[15],
            struck=values[16],
            by=values[22],
        )

    def _made_id(self, content: str) -> str:
        """As uuid.uuid5 in our namespace, of the content and how often it came."""
        count = self.seen[content] = self.seen.get(content, 0) + 1
        digest = self.base.copy()
        digest.update(f"{content}|{count}".encode())
        text = digest.hexdigest()
        variant = _VARIANTS[text[16]]
        return f"{text[:8]}-{text[8:12]}-5{text[13:16]}-{variant}{text[17:20]}-{text[20:32]}"

    def _cell_reader(self, column: Column, mapping: FileMapping) -> Callable[[str], Any]:
        """What reads the cells of a column."""
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
        return readers.get(kind) or self._text_reader(word)

    def _text_reader(self, word: str) -> Callable[[str], Any]:
        named: dict[str, Callable[[str], str]] = {
            "lifter": lambda name: self.gym.lifter(name).name,
            "lift": lambda name: lift_named(name).name,
            "station": lambda name: self.gym.station(name).name,
        }
        read = named.get(word, str)
        return lambda cell: read(_unguarded(cell))


_MISSED: Final = (True, "True")
_MADE: Final = (False, "False")
_VARIANTS: Final = {digit: "89ab"[int(digit, 16) % 4] for digit in "0123456789abcdef"}
"""First digit of the fourth group of a UUID, by what the digest has there."""


def _word(column: Column) -> str:
    return column.meaning.word if column.meaning else ""


def _unguarded(cell: str) -> str:
    """Take off the quote that keeps a spreadsheet from reading a text as a formula."""
    return cell[1:] if cell[:1] == "'" and cell.lstrip("'").startswith(_FORMULAS) else cell


def _rig(told: tuple[Any, ...]) -> RigThen | None:
    """A rig of its loads at bottom, mean and top, its words and its curve."""
    bottom, mean, top, words, curve = told
    if bottom is None and mean is None and top is None:
        if words or curve:
            raise BadInputError(
                "Something hung, and no loads are given",
                field="rig",
                got=repr(words),
                wanted="the loads at bottom and top, and their mean",
            )
        return None
    if bottom is None or top is None:
        raise BadInputError(
            "Of a rig, the loads at bottom and top are needed",
            field="bottom" if bottom is None else "top",
            wanted="both, all that was on the bar",
        )
    return RigThen.told(bottom, top, mean, words=words, curve=curve)


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
