"""Where something stands in a gym file, as a coach would look for it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

_HEADER: Final = re.compile(r"^[ \t]*\[\[[ \t]*([a-z]+)[ \t]*\]\]", re.MULTILINE)
_KEY: Final = re.compile(r'^([ \t]*)([A-Za-z0-9_-]+|"[^"]*")[ \t]*=')
_ANY_HEADER: Final = re.compile(r"^[ \t]*\[")
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]{1,40}")
_LONGEST: Final = 60


@dataclass(frozen=True, slots=True)
class Place:
    """A table in the file.

    Parameters
    ----------
    path : tuple of str or int
        Keys and list positions from the root, positions from 0 as in the parsed file.
    called : str
        The tag or name of what the table describes.
    line : int or None
        Line of its ``[[header]]``, from 1.
    spots : tuple of (str, int, int)
        Line and column of each of its keys, from 1, where they were looked up.
    """

    path: tuple[str | int, ...]
    called: str = ""
    line: int | None = None
    spots: tuple[tuple[str, int, int], ...] = ()

    def key(self, *keys: str | int) -> str:
        """Write a key of this table, its tables counted from 1.

        >>> Place(("chain", 1), "A2", 7).key("weighed", 0)
        'chain[2].weighed[1] (A2, line 7)'
        """
        hints = [self.called] if self.called else []
        spot = next((spot for spot in self.spots if keys and spot[0] == keys[0]), None)
        if spot:
            hints += [f"line {spot[1]}, column {spot[2]}"]
        else:
            hints += [f"line {self.line}"] if self.line else []
        return written((*self.path, *keys)) + (f" ({', '.join(hints)})" if hints else "")


def written(path: Sequence[str | int]) -> str:
    """Write a path with its positions counted from 1, odd keys in quotes.

    >>> written(("lifter", 0, "lifts", "bench press", "top"))
    'lifter[1].lifts."bench press".top'
    """
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            key = step if _BARE_KEY.fullmatch(step) else quoted(step)
            text += f".{key}" if text else key
    return text


def printable(text: str) -> str:
    r"""Show a text on one line, without anything a terminal would obey.

    >>> print(printable(chr(27) + "[31m"))
    \x1b[31m
    """
    return text if text.isprintable() else ascii(text)[1:-1]


def cut_short(text: str) -> str:
    """Show the beginning of a text, on one line."""
    return printable(text if len(text) <= _LONGEST else text[:_LONGEST] + "...")


def quoted(value: object) -> str:
    """Show what stood in the file, on one line and cut short."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):
        return str(value) if abs(value) < 10**18 else "a number of more than 18 digits"
    if isinstance(value, str):
        return f'"{cut_short(value)}"'
    if isinstance(value, list):
        return f"a list of {len(value)}"
    return "a table" if isinstance(value, dict) else str(value)


def header_lines(text: str) -> dict[str, list[int]]:
    """Find the lines of the ``[[name]]`` headers in a TOML text, by name."""
    lines: dict[str, list[int]] = {}
    end, line = 0, 1
    for header in _HEADER.finditer(text):
        line += text.count("\n", end, header.start())
        end = header.start()
        lines.setdefault(header[1], []).append(line)
    return lines


def spots_below(lines: Sequence[str], header: int | None) -> tuple[tuple[str, int, int], ...]:
    """Line and column of every key below a header, up to the next one; none without a header.

    Parameters
    ----------
    lines : sequence of str
        The file.
    header : int or None
        Line of the header, from 1.

    Examples
    --------
    >>> spots_below(["[room]", 'opens = "18:00"', "  spotters = 2", "[[session]]"], 1)
    (('opens', 2, 1), ('spotters', 3, 3))
    """
    if header is None:
        return ()
    spots: list[tuple[str, int, int]] = []
    for number, line in enumerate(lines[header:], header + 1):
        if _ANY_HEADER.match(line):
            break
        key = _KEY.match(line)
        if key:
            spots.append((key[2].strip('"'), number, len(key[1]) + 1))
    return tuple(spots)
