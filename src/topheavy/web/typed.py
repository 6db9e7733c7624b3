"""Numbers as they are typed into a form."""

from __future__ import annotations

import re
from typing import Final

from topheavy.errors import BadInputError

_BARE: Final = re.compile(r"[+-]?(\d+\s+\d+/\d+|\d+/\d+|\d+([.,]\d*)?|[.,]\d+)", re.ASCII)
_WHOLE: Final = re.compile(r"\d{1,9}", re.ASCII)


def with_unit(text: str, unit: str) -> str:
    """Give a number that was typed without a unit its unit.

    >>> with_unit("66", "cm"), with_unit("1 1/4", "in"), with_unit("66 mm", "cm")
    ('66 cm', '1 1/4 in', '66 mm')
    """
    text = text.strip()
    return f"{text} {unit}" if unit and _BARE.fullmatch(text) else text


def whole(text: str) -> int | str:
    """Read a whole number; anything else stays as it was typed, for a reader that says so.

    >>> whole("32"), whole("3.5")
    (32, '3.5')
    """
    return int(text) if _WHOLE.fullmatch(text) else text


def whole_number(text: str, field: str, wanted: str) -> int:
    """Read a whole number, or say what is wrong with it.

    Parameters
    ----------
    text : str
        What was typed.
    field : str
        Where.
    wanted : str
        What would be right, such as ``"1 or more"``.

    Raises
    ------
    BadInputError
        It is none.

    Examples
    --------
    >>> whole_number(" 5 ", "sets", "1 or more")
    5
    """
    found = whole(text.strip())
    if isinstance(found, str):
        raise BadInputError("Not a whole number", field=field, got=repr(text), wanted=wanted)
    return found
