"""A day as a gym writes it down: year, month, day."""

from __future__ import annotations

import re
from typing import Final

import numpy as np

from topheavy.errors import BadInputError

_ISO_DAY: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def day_number(text: str, field: str) -> int:
    """Count the days from 1 January 1970.

    Parameters
    ----------
    text : str
        Such as ``"2026-09-12"``.
    field : str
        Where the day stands, for the error.

    Raises
    ------
    BadInputError
        Not a day of the calendar.

    Examples
    --------
    >>> day_number("1970-01-31", "day")
    30
    """
    if _ISO_DAY.fullmatch(text):
        try:
            return int(np.datetime64(text, "D").astype(np.int64))
        except ValueError:
            pass
    raise BadInputError(
        "Not a day", field=field, got=repr(text), wanted='year-month-day, such as "2026-09-12"'
    )
