"""A block of weeks as a calendar to subscribe to or import: iCalendar, RFC 5545."""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import TYPE_CHECKING, Final

from topheavy.present.weeks.dates import span_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from topheavy.present.weeks.view import SessionRow, WeeksView

_LINE_OCTETS: Final = 75
_UTC: Final = "%Y%m%dT%H%M%SZ"


def calendar_of(view: WeeksView, time_zone: str, moment: dt.datetime) -> str:
    """Write a calendar.

    Parameters
    ----------
    view : WeeksView
        What is in it: of everybody, or of one lifter.
    time_zone : str
        Of the gym; empty when no session has a time.
    moment : datetime
        When it was written, zone-aware.

    Returns
    -------
    str
        Lines end in CR LF and have at most 75 octets. An event's identifier follows from block,
        lifter, week and day, so that importing a changed plan again changes events and doubles
        none; what was taken out of the plan stays until it is deleted in the calendar. Times are
        universal time; days without a time are whole days.

    Raises
    ------
    BadInputError
        A time that the clocks leave out.
    """
    scope = view.lifters[0] if len(view.lifters) == 1 else ""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//topheavy//weeks//EN",
        "CALSCALE:GREGORIAN",
    ]
    for rows in _days(view.sessions):
        first = rows[0]
        key = (view.gym, view.block, scope, str(first.week), first.weekday, str(first.of_weekday))
        lines += _event(rows, view, _uid(key), time_zone, moment)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines)


def _days(sessions: Sequence[SessionRow]) -> list[list[SessionRow]]:
    """Sessions of one table of the plan on one day are one event."""
    days: dict[tuple[str, int], list[SessionRow]] = {}
    for row in sessions:
        days.setdefault((row.date, row.day), []).append(row)
    return list(days.values())


def _uid(key: tuple[str, ...]) -> str:
    digest = hashlib.sha256("\n".join(key).encode()).hexdigest()
    return f"{digest[:32]}@weeks.topheavy"


def _event(
    rows: Sequence[SessionRow], view: WeeksView, uid: str, time_zone: str, moment: dt.datetime
) -> Iterator[str]:
    first = rows[0]
    lifts = ", ".join(dict.fromkeys(row.lift for row in rows))
    who = ", ".join(row.lifter for row in rows)
    where = " and ".join(dict.fromkeys(row.station for row in rows))
    yield "BEGIN:VEVENT"
    yield f"UID:{uid}"
    yield f"DTSTAMP:{moment.astimezone(dt.UTC).strftime(_UTC)}"
    yield from _when(first, time_zone)
    yield f"SUMMARY:{escaped(f'{lifts[:1].upper()}{lifts[1:]}, {first.kind}: {who}')}"
    yield f"LOCATION:{escaped(f'{where}, {view.gym}')}"
    yield f"DESCRIPTION:{escaped(chr(10).join(_lines(rows)))}"
    yield "END:VEVENT"


def _when(row: SessionRow, time_zone: str) -> Iterator[str]:
    day = dt.date.fromisoformat(row.date)
    if not row.time:
        yield f"DTSTART;VALUE=DATE:{day:%Y%m%d}"
        return
    hours, minutes = row.time.split(":")
    span = span_of(day, 60 * int(hours) + int(minutes), row.lasts_min, time_zone)
    yield f"DTSTART:{span.begins.strftime(_UTC)}"
    yield f"DTEND:{span.ends.strftime(_UTC)}"


def _lines(rows: Sequence[SessionRow]) -> Iterator[str]:
    for row in rows:
        yield f"{row.lifter}: {row.lift}, {row.kind}, {row.work}, {row.planned}, {row.reserve}."
        if row.bottom and row.mean and row.top:
            yield f"Load {row.bottom} bottom, {row.mean} mean, {row.top} top."
            yield f"Plates a side: {row.plates_a_side}."
        if row.rig:
            yield f"Rig, {row.share} {row.share_of}: {row.rig}."
        if row.note:
            yield f"Note: {row.note}"


def escaped(text: str) -> str:
    r"""Write a text value: backslash, semicolon, comma and line end escaped (RFC 5545, 3.3.11).

    >>> print(escaped("squat, heavy; 5 x 3"))
    squat\, heavy\; 5 x 3
    """
    text = text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return text.replace("\r\n", "\n").replace("\r", "\n").replace("\n", "\\n")


def folded(line: str) -> str:
    r"""Fold a line so that none has more than 75 octets, no character split (RFC 5545, 3.1).

    >>> [len(part.encode()) for part in folded("SUMMARY:" + "x" * 100).split("\r\n")]
    [75, 34]
    """
    parts, part = [], ""
    for letter in line:
        if len((part + letter).encode()) > _LINE_OCTETS:
            parts.append(part)
            part = " "
        part += letter
    return "\r\n".join([*parts, part])
