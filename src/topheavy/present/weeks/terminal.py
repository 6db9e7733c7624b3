"""A block of weeks on the terminal: a group's week, or a lifter's block."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, FirstThatFits, headed, listed, ruled
from topheavy.present.weeks import dates
from topheavy.present.weeks.view import by_day
from topheavy.present.weeks.words import weeks_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.weeks.view import FlagRow, SessionRow, WeeksView

_MOST_FLAGS = 12


def render_week(view: WeeksView) -> RenderableType:
    """Lay out one week: each day, each lifter."""
    week = view.weeks[0]
    said = f"Week {week.number}, {week.dates} ({week.iso_week})"
    place = f" ({week.week_of_wave})" if week.week_of_wave else ""
    parts: list[RenderableType] = [
        Text(f"{view.block}. {said}", style=ACCENT),
        Text(f"{view.gym}. {week.wave[:1].upper()}{week.wave[1:]}{place}.", style=QUIET),
    ]
    parts += _bases(view)
    parts += [_day(rows, view.mass_unit) for rows in by_day(view.sessions)]
    if not view.sessions:
        parts.append(Text("No session this week."))
    if view.numbers:
        parts.append(headed("The week", _numbers(view, by="lifter")))
    return Group(*parts, *_end(view))


def render_block(view: WeeksView) -> RenderableType:
    """Lay out a block: its weeks, and each lifter's sessions or numbers."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. {', '.join(view.lifters)}", style=QUIET),
        headed("Weeks", _weeks(view)),
    ]
    if len(view.lifters) == 1:
        parts.append(headed(f"Sessions of {view.lifters[0]}", *_bases(view), _sessions(view)))
        rigs = _rigs(view.sessions)
        if rigs:
            parts.append(headed("Rigs, both ends alike", listed(rigs)))
        parts.append(headed("Each week", _numbers(view, by="week")))
    else:
        parts.append(headed("Reps and work, each week", _matrix(view)))
    return Group(*parts, *_end(view))


def _bases(view: WeeksView) -> list[Text]:
    """What the percentages of the plan are of, each base once."""
    found = dict.fromkeys(row.plan_of for row in view.sessions if row.of_planned)
    bases = [one for one in found if not any(o != one and o.startswith(one) for o in found)]
    return [Text(f"Plan: percent {'; or '.join(bases)}.", style=QUIET)] if bases else []


def _day(rows: Sequence[SessionRow], unit: str) -> RenderableType:
    first = rows[0]
    day = dates.said(dt.date.fromisoformat(first.date))
    time = f", {first.time}" if first.time else ""
    title = f"{first.weekday} {day}{time}: {first.lift}, {first.kind}"
    loads = FirstThatFits((_loads(rows, unit), listed(_line(row) for row in rows)), wrapped=True)
    hung = [f"{row.lifter}, {row.share} {row.share_of}: {row.rig}" for row in rows if row.rig]
    notes = [f"{row.lifter}: {row.note}" for row in rows if row.note]
    return headed(title, loads, *([listed([*hung, *notes])] if hung or notes else []))


def _loads(rows: Sequence[SessionRow], unit: str) -> Table:
    table = ruled("", "do", "plan", f"bottom {unit}", "mean", "top", "plates a side")
    table.columns[-1].justify = "left"
    for row in rows:
        table.add_row(row.lifter, row.work, row.of_planned or row.planned, *_numerals(row, unit))
    return table


def _numerals(row: SessionRow, unit: str) -> list[str]:
    """Loads without their unit, then plates."""
    figures = (row.bottom, row.mean, row.top)
    shown = [figure.text.removesuffix(f" {unit}") if figure else "" for figure in figures]
    return [*shown, row.plates_a_side]


def _line(row: SessionRow) -> str:
    """A session on lines of words, for a narrow terminal."""
    said = f"{row.lifter}, {row.work}, {row.planned}"
    if row.bottom and row.mean and row.top:
        said += f": {row.bottom} bottom, {row.mean} mean, {row.top} top; {row.plates_a_side} a side"
    return said


def _weeks(view: WeeksView) -> RenderableType:
    table = ruled("", "from", "wave", "")
    for column in table.columns[1:]:
        column.justify = "left"
    for week in view.weeks:
        monday = dates.said(dt.date.fromisoformat(week.monday))
        table.add_row(str(week.number), monday, week.wave, week.week_of_wave)
    return table


def _sessions(view: WeeksView) -> RenderableType:
    lines = listed(
        f"week {row.week}, {row.weekday}, {row.lift}, {row.kind}: {_line(row)}"
        for row in view.sessions
    )
    return FirstThatFits((_block(view), lines), wrapped=True)


def _block(view: WeeksView) -> Table:
    unit = view.mass_unit
    table = ruled("", "day", "lift", "do", "plan", f"bottom {unit}", "mean", "top", "a side")
    for place in (1, 2, 8):
        table.columns[place].justify = "left"
    table.columns[8].overflow = "fold"
    table.padding = (0, 1, 0, 0)
    week = 0
    for row in view.sessions:
        if week and row.week != week:
            table.add_section()
        cells = [str(row.week) if row.week != week else "", row.weekday[:3]]
        cells += [f"{row.lift}, {row.kind}", row.work, row.of_planned or row.planned]
        table.add_row(*cells, *_numerals(row, unit))
        week = row.week
    return table


def _rigs(sessions: Iterable[SessionRow]) -> list[str]:
    """Each rig once, with its lift, weeks and shares."""
    rigs: dict[tuple[str, str], list[SessionRow]] = {}
    for row in sessions:
        if row.rig:
            rigs.setdefault((row.lift, row.rig), []).append(row)
    return [
        f"{lift}, {weeks_words([row.week for row in rows])}, {_shares(rows)}: {rig}"
        for (lift, rig), rows in rigs.items()
    ]


def _shares(rows: Sequence[SessionRow]) -> str:
    """From the least to the greatest accommodating share."""
    shares = sorted((row.share for row in rows if row.share), key=lambda share: share.value)
    texts = list(dict.fromkeys((shares[0].text, shares[-1].text)))
    return f"{' to '.join(texts)} {rows[0].share_of}"


def _numbers(view: WeeksView, *, by: str) -> Table:
    table = ruled("", "sessions", "sets", "reps", "work", "rig changes")
    for row in view.numbers:
        name = row.lifter if by == "lifter" else f"week {row.week}"
        counts = (row.sessions, row.sets, row.reps, row.work.text, row.rig_changes)
        table.add_row(name, *(str(count) for count in counts))
    return table


def _matrix(view: WeeksView) -> Table:
    table = ruled("", *view.lifters)
    found = {(row.week, row.lifter): row for row in view.numbers}
    for week in view.weeks:
        rows = [found.get((week.number, lifter)) for lifter in view.lifters]
        cells = ["" if row is None else f"{row.reps}, {row.work}" for row in rows]
        table.add_row(f"week {week.number}", *cells)
    return table


def _end(view: WeeksView) -> list[RenderableType]:
    parts: list[RenderableType] = []
    if view.flags:
        lines = [_flag(flag) for flag in view.flags[:_MOST_FLAGS]]
        more = len(view.flags) - len(lines)
        lines += [f"and {more} more: --json has them all"] if more else []
        parts.append(headed("Look at this (nothing was changed for it)", listed(lines)))
    if view.flags_elsewhere:
        parts.append(Text(f"  {view.flags_elsewhere} to look at in other weeks.", style=QUIET))
    if view.flags:
        parts.append(headed("Sources", listed(view.sources)))
    parts += [headed("Mind", listed(view.cautions)), Text(""), Text(view.promise, style=QUIET)]
    return parts


def _flag(flag: FlagRow) -> str:
    who = f"{flag.who}, " if flag.who else ""
    return f"{who}{flag.when}: {flag.text}"
