"""Words for terminals that can't show every character: degraded, never a crash."""

from __future__ import annotations

import codecs
import unicodedata
from dataclasses import fields, is_dataclass, replace
from typing import Any, Final, TypeVar

HANDLER: Final = "topheavy.spelling"
"""Name of the error handler that streams use."""

_SPELLED: Final = {
    "\N{PLUS-MINUS SIGN}": "+-",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{EM DASH}": "-",
    "\N{EN DASH}": "-",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{LEFT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{HORIZONTAL ELLIPSIS}": "...",
    "\N{DEGREE SIGN}": " deg",
    "\N{BOX DRAWINGS HEAVY HORIZONTAL}": "=",
    "\N{BOX DRAWINGS LIGHT HORIZONTAL}": "-",
    "\N{BOX DRAWINGS HEAVY VERTICAL}": "#",
    "\N{BOX DRAWINGS LIGHT VERTICAL}": "|",
}

T = TypeVar("T")


def spell(text: str, encoding: str) -> str:
    """Write a text with the characters that an encoding has.

    >>> spell("115.4 ± 1.5 kg, Jörn", "ascii"), spell("1 ± 2", "utf-8")
    ('115.4 +- 1.5 kg, Jorn', '1 ± 2')
    """
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return "".join(_spelled(character, encoding) for character in text)
    return text


def spelled(view: T, encoding: str) -> T:
    """Spell every word of a view, so that tables are laid out with what will be printed.

    Parameters
    ----------
    view : dataclass, tuple, dict or str
        What is to be shown; anything else comes back as it is.
    encoding : str
        Of the stream it goes to.
    """
    if encoding.lower().replace("-", "").startswith("utf"):
        return view
    found: Any = view
    if isinstance(view, str):
        found = spell(view, encoding)
    elif is_dataclass(view) and not isinstance(view, type):
        words = {f.name: spelled(getattr(view, f.name), encoding) for f in fields(view)}
        found = replace(view, **words)
    elif isinstance(view, tuple):
        found = tuple(spelled(item, encoding) for item in view)
    elif isinstance(view, dict):
        found = {spelled(key, encoding): spelled(item, encoding) for key, item in view.items()}
    return found  # type: ignore[no-any-return]


def _spelled(character: str, encoding: str) -> str:
    try:
        character.encode(encoding)
    except UnicodeEncodeError:
        bare = _SPELLED.get(character) or unicodedata.normalize("NFKD", character)
        return bare.encode("ascii", "ignore").decode() or "?"
    return character


def _handle(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    wrong = error.object[error.start : error.end]
    return "".join(_spelled(character, "ascii") for character in wrong), error.end


codecs.register_error(HANDLER, _handle)
