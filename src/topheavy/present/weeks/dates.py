"""Days of a block on the calendar: ISO weeks, and moments in the gym's time zone."""

from __future__ import annotations

import datetime as dt
import zoneinfo
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from topheavy.training.weeks import Block


def monday_of(block: Block) -> dt.date:
    """Find the Monday of a block's first week.

    >>> from topheavy.training.weeks import Block, TrainingDay
    >>> block = Block(
    ...     name="x", start="2026-12-02", days=(TrainingDay(weekday=0, lifts=("squat",)),)
    ... )
    >>> monday_of(block).isoformat()
    '2026-11-30'
    """
    start = dt.date.fromisoformat(block.start)
    try:
        last = start + dt.timedelta(weeks=block.weeks)
    except OverflowError:
        last = dt.date.max
    if start.year < 1900 or last.year > 9998:
        raise BadInputError(
            "No calendar goes there", field="plan.start", got=block.start, wanted="1900 to 9998"
        )
    return start - dt.timedelta(days=start.weekday())


def day_of(block: Block, week: int, weekday: int) -> dt.date:
    """Find the day of a week of a block, weeks from 1, Monday 0."""
    return monday_of(block) + dt.timedelta(days=7 * (week - 1) + weekday)


def week_with(block: Block, day: str) -> int:
    """Which week of a block a day is in; the first before it begins, the last after its end.

    >>> from topheavy.training.weeks import Block, TrainingDay
    >>> block = Block(
    ...     name="x", start="2026-11-30", days=(TrainingDay(weekday=0, lifts=("squat",)),)
    ... )
    >>> [week_with(block, day) for day in ("2026-11-25", "2026-12-13", "2027-06-01")]
    [1, 2, 7]
    """
    days = (dt.date.fromisoformat(day) - monday_of(block)).days
    return min(max(days // 7 + 1, 1), block.weeks)


def iso_week(day: dt.date) -> str:
    """Name the ISO week of a day.

    >>> iso_week(dt.date(2027, 1, 1))
    '2026-W53'
    """
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02d}"


def said(day: dt.date, *, year: bool = False) -> str:
    """Write a day as people say it.

    >>> said(dt.date(2026, 11, 30)), said(dt.date(2026, 11, 30), year=True)
    ('30 Nov', '30 Nov 2026')
    """
    months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
    return f"{day.day} {months[day.month - 1]}" + (f" {day.year}" if year else "")


def clock(begins_min: int | None) -> str:
    """Write minutes after midnight as a time; empty when none is planned.

    >>> clock(1110), clock(None)
    ('18:30', '')
    """
    return "" if begins_min is None else f"{begins_min // 60:02d}:{begins_min % 60:02d}"


@dataclass(frozen=True, slots=True)
class Span:
    """When a session is, in universal time."""

    begins: dt.datetime
    ends: dt.datetime


def span_of(day: dt.date, begins_min: int, lasts_min: int, time_zone: str) -> Span:
    """Find when a session is.

    Parameters
    ----------
    day : date
        The day, in the gym's time zone.
    begins_min : int
        Minutes after midnight there.
    lasts_min : int
        How long it lasts [min].
    time_zone : str
        Of the IANA list.

    Raises
    ------
    BadInputError
        The clocks go forward over that time, so it does not exist.

    Examples
    --------
    >>> span = span_of(dt.date(2026, 11, 30), 18 * 60 + 30, 75, "Europe/Vienna")
    >>> span.begins.isoformat(), span.ends.isoformat()
    ('2026-11-30T17:30:00+00:00', '2026-11-30T18:45:00+00:00')
    """
    zone = zoneinfo.ZoneInfo(time_zone)
    there = dt.datetime.combine(day, dt.time(begins_min // 60, begins_min % 60), tzinfo=zone)
    begins = there.astimezone(dt.UTC)
    if begins.astimezone(zone).replace(tzinfo=None) != there.replace(tzinfo=None):
        raise BadInputError(
            "The clocks go forward over that time",
            field="day.time",
            got=f"{day.isoformat()} {clock(begins_min)} in {time_zone}",
            wanted="a time that exists on that day",
        )
    return Span(begins, begins + dt.timedelta(minutes=lasts_min))
