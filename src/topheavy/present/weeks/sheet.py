"""Weeks to print: who does what with which rig, with boxes to tick."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.typeset import INKS, paper_for, typeset
from topheavy.present.weeks import dates
from topheavy.present.weeks.view import by_day

if TYPE_CHECKING:
    from topheavy.present.weeks.view import SessionRow, WeekRow, WeeksView
    from topheavy.units import UnitSystem

_SIZES_PT: Final = (11.4, 10.8, 10.2, 9.6, 9.0, 8.4, 7.8)
"""Sizes of the type [pt], the largest that keeps each week on its page; no text is ever cut."""

_TEMPLATE: Final = Path(__file__).with_name("sheet.typ")


def sheet_pdf(view: WeeksView, units: UnitSystem) -> bytes:
    """Set the sheets of a block or of one week: A4 in kg and US Letter in lb, lying.

    Parameters
    ----------
    view : WeeksView
        What is on them: of everybody, each week on a page of its own, or of one lifter.
    units : UnitSystem
        Those of the view.

    Returns
    -------
    bytes
        A PDF as `topheavy.present.typeset.typeset` makes it.

    Raises
    ------
    BadInputError
        The sheet can't be set.
    """
    refused = BadInputError(
        "The sheet can't be set", field="sheet", wanted="shorter names, or fewer weeks"
    )
    return typeset(_TEMPLATE, sheet_data(view, paper_for(units)), {}, refused)


def sheet_data(view: WeeksView, paper: str) -> dict[str, Any]:
    """Collect what the template shows: words and numbers of the view, nothing worked out anew."""
    alone = len(view.lifters) == 1
    return {
        "paper": paper,
        "inks": INKS,
        "title": f"{view.block}: {view.shown}",
        "block": view.block,
        "gym": view.gym,
        "who": view.lifters[0] if alone else "everybody",
        "alone": alone,
        "sizes_pt": [9.4] if alone else list(_SIZES_PT),
        "weeks": [_week(week, view, alone=alone) for week in view.weeks],
        "flags": halves([f"{flag.who or 'plan'}, {flag.when}: {flag.text}" for flag in view.flags]),
        "cautions": halves(list(view.cautions)),
        "promise": view.promise,
    }


def _week(week: WeekRow, view: WeeksView, *, alone: bool) -> dict[str, Any]:
    rows = [row for row in view.sessions if row.week == week.number]
    place = f", {week.week_of_wave}" if week.week_of_wave else ""
    return {
        "name": f"Week {week.number}",
        "dates": f"{week.dates}, {week.iso_week}",
        "wave": f"{week.wave[:1].upper()}{week.wave[1:]}{place}",
        "tables": [_of_lifter(rows)] if alone else [_of_day(day) for day in by_day(rows)],
        "numbers": [
            f"{row.lifter}: {row.sets} sets, {row.reps} reps, {row.work}"
            for row in view.numbers
            if row.week == week.number
        ],
    }


def halves(lines: list[str]) -> list[list[str]]:
    """Put lines into two columns of about as many letters.

    >>> halves(["a long first line", "short", "one"])
    [['a long first line'], ['short', 'one']]
    """
    left: list[str] = []
    total = sum(map(len, lines))
    for line in lines:
        if left and sum(map(len, left)) + len(line) / 2 > total / 2:
            break
        left.append(line)
    return [left, lines[len(left) :]]


def _of_day(rows: list[SessionRow]) -> dict[str, Any]:
    first = rows[0]
    stations = {row.station for row in rows}
    return {
        "title": f"{_day(first)}: {first.lift}, {first.kind}",
        "about": ", ".join([*(stations if len(stations) == 1 else ()), first.reserve]),
        "rows": [
            _row(row, row.lifter, row.planned if len(stations) == 1 else _there(row))
            for row in rows
        ],
    }


def _there(row: SessionRow) -> str:
    return f"{row.station}, {row.planned}"


def _of_lifter(rows: list[SessionRow]) -> dict[str, Any]:
    said = [
        _row(
            row, f"{_day(row, short=True)}: {row.lift}", f"{row.kind}, {row.planned}; {row.reserve}"
        )
        for row in rows
    ]
    return {"title": "", "about": "", "rows": said}


def _day(row: SessionRow, *, short: bool = False) -> str:
    day = dates.said(dt.date.fromisoformat(row.date))
    return f"{row.weekday[:3] if short else row.weekday} {day}" + (
        f", {row.time}" if row.time else ""
    )


def _row(row: SessionRow, name: str, about: str) -> dict[str, Any]:
    return {
        "name": name,
        "about": about,
        "do": row.work,
        "sets": row.sets,
        "bottom": row.bottom.text if row.bottom else "",
        "mean": row.mean.text if row.mean else "",
        "top": row.top.text if row.top else "",
        "plates": row.plates_a_side,
        "rig": f"{row.rig} ({row.share} {row.share_of})" if row.rig else "",
        "note": row.note,
    }
