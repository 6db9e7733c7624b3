"""The day it is: asked of the clock here and nowhere else, or as the coach says."""

from __future__ import annotations

from datetime import UTC, date, datetime

from topheavy.errors import BadInputError


def the_day(text: str | None = None) -> str:
    """Say the day as year-month-day: as typed in --today, else the clock's, where it stands.

    >>> the_day("2026-11-25")
    '2026-11-25'
    """
    if text is None:
        return datetime.now(UTC).astimezone().date().isoformat()
    try:
        return date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        raise BadInputError(
            "Not a day", field="--today", got=repr(text), wanted="year-month-day: 2026-11-25"
        ) from None


def the_moment() -> datetime:
    """Say the moment it is, in universal time, to the second."""
    return datetime.now(UTC).replace(microsecond=0)
