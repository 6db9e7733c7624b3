"""Reading a gym file: from a path or a text to a gym, or to everything that is wrong with it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import FileError
from topheavy.gymfile.build import gym_from
from topheavy.gymfile.places import cut_short, header_lines, printable
from topheavy.gymfile.problems import GymFileError, Problems, in_pounds_too
from topheavy.gymfile.sections import Document

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

LARGEST_BYTES: Final = 5_000_000
"""Largest gym file that is read [bytes]; the largest sensible one is a few thousand lines."""

_HINTS: Final = {
    "Expected newline": "are quotes missing, or are two things on one line?",
    "Unclosed array": "is a comma missing in the list, or its closing ]?",
    "Unclosed inline table": "is a comma missing between the braces, or the closing }?",
    "Invalid value": "is the value missing, or the quotes around it?",
    "Expected '='": "is the = missing, or are the quotes around a name of two words?",
    "Invalid statement": "a line starts with a key, a [table] or a # for a note",
    "Expected ']": "is a closing bracket missing? A table is [gym] or [[chain]]",
    "Unterminated string": "is the closing quote missing?",
    "Illegal character": "is the closing quote missing at the end of the line?",
    "Cannot overwrite a value": "the same key stands twice in one table",
    "Cannot declare": "the same table stands twice; one of several is [[chain]]",
    "Invalid initial character for a key part": "is the key before the = missing?",
    "Unescaped": "write two backslashes for one",
    'Expected "\'"': "is the closing quote missing?",
}
"""What a coach would look for, by what the parser says."""

_WHERE: Final = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

_PART: Final = r"""(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')"""
_TOO_DEEP: Final = re.compile(
    rf"""(?<![\w"'.-]){_PART}(?:[ \t]*+\.[ \t]*+{_PART}){{50}}""", re.ASCII
)
"""A key of more than 50 parts: the parser's work grows with the square of their number, so that
one line of a small file would keep a processor busy for hours."""


def read_gym(path: str | Path) -> Gym:
    """Read a gym file.

    Parameters
    ----------
    path : str or Path
        A TOML file in UTF-8, at most 5 MB.

    Returns
    -------
    Gym
        Frozen, in SI.

    Raises
    ------
    FileError
        The file can't be read, is no UTF-8, is too large, or is no TOML (with line and column).
    GymFileError
        The TOML describes no gym; its `problems` list everything that is wrong.
    """
    text, name = file_text(path, "gym file")
    return parse_gym(text, name)


def file_text(path: str | Path, what: str) -> tuple[str, str]:
    """Read the text of a file.

    Parameters
    ----------
    path : str or Path
        UTF-8, at most 5 MB.
    what : str
        What it should be, such as ``"gym file"``.

    Returns
    -------
    text, name : str
        What is in it, and how errors call it.

    Raises
    ------
    FileError
        The file can't be read, is no UTF-8, or is too large.
    """
    name = printable(str(path))
    try:
        with Path(path).open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise FileError("There is no such file", field=name, wanted=f"a {what}") from None
    except IsADirectoryError:
        raise FileError(
            "That is a directory", field=name, got="a directory", wanted=f"a {what} in it"
        ) from None
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise FileError(f"The file can't be read: {reason}", field=name) from None
    if len(content) > LARGEST_BYTES:
        raise _too_large(name, what)
    return utf8_text(content, name, "plain text saved as UTF-8"), name


def parse_gym(text: str, name_of_source: str = "gym file") -> Gym:
    """Read a gym from the text of a gym file.

    Parameters
    ----------
    text : str
        TOML.
    name_of_source : str
        What the text is called in errors.

    Returns
    -------
    Gym
        Frozen, in SI.

    Raises
    ------
    FileError
        The text is no TOML, or too long.
    GymFileError
        The TOML describes no gym; its `problems` list everything that is wrong.

    Examples
    --------
    >>> gym = parse_gym('''
    ... [gym]
    ... name = "The Barn"
    ...
    ... [[bar]]
    ... name = "power bar"
    ... mass = "45 lb"
    ... sleeve = "41.5 cm"
    ... ''')
    >>> round(gym.stock.bar("power bar").mass_kg, 2)
    20.41
    """
    if len(text) > LARGEST_BYTES:
        raise _too_large(name_of_source, "gym file")
    return gym_of_tables(toml_of(text, name_of_source), name_of_source, header_lines(text))


def gym_of_tables(
    tables: dict[str, Any], name_of_source: str, lines: dict[str, list[int]] | None = None
) -> Gym:
    """Make a gym of the tables that a gym file consists of; raises as `parse_gym`.

    Parameters
    ----------
    tables : dict
        As parsed from TOML.
    name_of_source : str
        What they are called in errors.
    lines : dict, optional
        Lines of the ``[[name]]`` headers, by name.
    """
    problems = Problems()
    gym = gym_from(Document(tables, lines or {}, problems))
    if gym is None:
        told = problems.in_order
        if _shows_pounds(tables):
            told = [in_pounds_too(problem) for problem in told]
        raise GymFileError(name_of_source, told)
    return gym


def _shows_pounds(tables: dict[str, Any]) -> bool:
    about = tables.get("gym")
    return isinstance(about, dict) and about.get("units") == "lb"


def read_tables(path: str | Path) -> tuple[dict[str, Any], Gym]:
    """Read a gym file; return its tables as they stand, and the gym; raises as `read_gym`."""
    text, name = file_text(path, "gym file")
    gym = parse_gym(text, name)
    return toml_of(text, name), gym


def utf8_text(content: bytes, name: str, wanted: str) -> str:
    """Decode a file's content; a byte that is no UTF-8 is told with its line and what is wanted."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise FileError(
            "The file is not UTF-8 text",
            field=f"{name}, line {line}",
            got=f"byte 0x{content[error.start]:02x}",
            wanted=wanted,
        ) from None


def _hint(message: str) -> str:
    """Say in plain words what usually lies behind a parser's complaint."""
    return next((f" ({plain})" for said, plain in _HINTS.items() if said in message), "")


def _too_large(name: str, what: str) -> FileError:
    return FileError(
        f"The file is too large for a {what}",
        field=name,
        got=f"more than {LARGEST_BYTES // 1_000_000} MB",
        wanted=f"at most {LARGEST_BYTES // 1_000_000} MB",
    )


def toml_of(text: str, name: str, several: str = "chain") -> dict[str, Any]:
    """Parse TOML, or say where it is none.

    Parameters
    ----------
    text : str
        TOML.
    name : str
        What it is called in errors.
    several : str
        A table of which such a file has several, for the hint.

    Raises
    ------
    FileError
        No TOML, with line and column.
    """
    too_deep = FileError("The tables are nested too deep", field=name)
    if _TOO_DEEP.search(text):
        raise too_deep
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise too_deep from None
    except ValueError as error:
        known = isinstance(error, tomllib.TOMLDecodeError)
        message = str(error) if known else "a number has too many digits"
        where = _WHERE.search(message)
        line = int(where[1]) if where and where[1] else None
        at = f", line {line}, column {where[2]}" if where and line else ""
        raise FileError(
            f"Not valid TOML: {_WHERE.sub('', message)}{_hint(message)}",
            field=name + (at or (", at its end" if where else "")),
            got=cut_short(text.split("\n")[line - 1].strip()) if line else None,
            wanted=f"TOML; text and quantities stand in quotes, [[{several}]] in double brackets",
        ) from None
