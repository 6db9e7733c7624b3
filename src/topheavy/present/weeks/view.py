"""A block of weeks as one frozen view: for screen, page and JSON alike."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, mass, share
from topheavy.present.rig.steps import loading_text
from topheavy.present.weeks import dates, words
from topheavy.training.weeks import WEEKDAYS
from topheavy.training.weeks_checks import SOURCES

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.services.weeks import Laid, WeeksAnswer
    from topheavy.training.weeks_planned import Flag, WeekNumbers
    from topheavy.units import UnitSystem

_OF_ONE_RIG = {
    "swing",
    "drag",
    "nothing lifts",
    "no change",
    "slack feeder",
    "fold hangs",
    "thin chain",
    "bands from above",
}
PROMISE = (
    "A plan is no promise: what it does for a lifter nobody knows beforehand. Change it as the "
    "lifter comes along."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionRow:
    """One session of one lifter; `of_weekday` counts the plan's tables of one weekday from 1."""

    week: int
    date: str
    weekday: str
    time: str
    lasts_min: int
    day: int
    of_weekday: int
    lifter: str
    lift: str
    station: str
    kind: str
    deload: bool
    sets: int
    reps: int
    work: str
    reserve: str
    planned: str
    of_planned: str
    plan_of: str
    rig: str
    straight: Figure | None
    bottom: Figure | None
    mean: Figure | None
    top: Figure | None
    plates_a_side: str
    share: Figure | None
    share_of: str
    of_best: Figure | None
    effort: Figure | None
    work_done: Figure | None
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NumbersRow:
    """What a lifter does in a week."""

    week: int
    lifter: str
    sessions: int
    sets: int
    reps: int
    work: Figure
    rig_changes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekRow:
    """One week of the block."""

    number: int
    iso_week: str
    monday: str
    sunday: str
    dates: str
    wave: str
    week_of_wave: str
    deload: bool
    test: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FlagRow:
    """Something to look at."""

    code: str
    who: str
    weeks: tuple[int, ...]
    when: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeksView:
    """Everything a coach sees of a block, or of a part of it."""

    title: str
    gym: str
    block: str
    shown: str
    mass_unit: str
    lifters: tuple[str, ...]
    weeks: tuple[WeekRow, ...]
    sessions: tuple[SessionRow, ...]
    numbers: tuple[NumbersRow, ...]
    flags: tuple[FlagRow, ...]
    flags_elsewhere: int
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    promise: str


def view_weeks(
    answer: WeeksAnswer, units: UnitSystem, lifter: str = "", week: int | None = None
) -> WeeksView:
    """Put a block, or a part of it, into words and figures.

    Parameters
    ----------
    answer : WeeksAnswer
        From `topheavy.services.weeks.answer_weeks`.
    units : UnitSystem
        What the user wants to see.
    lifter : str
        Only of this lifter; empty for everybody.
    week : int or None
        Only this week, from 1; None for all.
    """
    block = answer.question.block
    weeks = [row for row in _weeks(answer) if week in {None, row.number}]
    flags = [flag for flag in answer.flags if not lifter or flag.lifter in {"", lifter}]
    here = [flag for flag in flags if week is None or week in flag.weeks]
    sessions = [
        one
        for one in answer.sessions
        if _wanted(one.planned.slot.lifter, one.planned.slot.week, lifter, week)
    ]
    shown = ", ".join(filter(None, (lifter, "" if week is None else f"week {week}")))
    return WeeksView(
        title=f"{block.name}, {weeks[0].dates if week else _span(weeks)}",
        gym=answer.question.gym.name,
        block=block.name,
        shown=shown or "everybody, all weeks",
        mass_unit=units.mass_unit,
        lifters=(lifter,) if lifter else answer.lifters,
        weeks=tuple(weeks),
        sessions=tuple(_session(one, answer, units) for one in sessions),
        numbers=tuple(
            _numbers(row) for row in answer.numbers if _wanted(row.lifter, row.week, lifter, week)
        ),
        flags=tuple(_flag(flag, units) for flag in here),
        flags_elsewhere=len(flags) - len(here),
        sources=SOURCES,
        cautions=_cautions(sessions),
        promise=PROMISE,
    )


def by_day(rows: Iterable[SessionRow]) -> list[list[SessionRow]]:
    """Put sessions together that are on one day in one lift, in the order they come."""
    days: dict[tuple[str, int, str], list[SessionRow]] = {}
    for row in rows:
        days.setdefault((row.date, row.day, row.lift), []).append(row)
    return list(days.values())


def _cautions(sessions: Sequence[Laid]) -> tuple[str, ...]:
    """Each caution once, in its fullest words; one of some rigs alone says of whose."""
    fullest: dict[str, str] = {}
    owners: dict[str, dict[str, None]] = {}
    for one in sessions:
        for caution in one.cautions:
            own = caution.code in _OF_ONE_RIG
            key = caution.text if own else caution.code
            fullest[key] = max(fullest.get(key, ""), caution.text, key=len)
            who = f"{one.planned.slot.lifter}, {one.planned.slot.lift}" if own else ""
            owners.setdefault(key, {}).setdefault(who)
    return tuple(
        f"{'; '.join(owners[key])}: {text}" if all(owners[key]) else text
        for key, text in fullest.items()
    )


def _wanted(who: str, when: int, lifter: str, week: int | None) -> bool:
    return who in {lifter or who} and when in {week or when}


def _span(weeks: Sequence[WeekRow]) -> str:
    """From the first day to the last."""
    first, last = (dt.date.fromisoformat(day) for day in (weeks[0].monday, weeks[-1].sunday))
    return f"{dates.said(first, year=first.year != last.year)} to {dates.said(last, year=True)}"


def _weeks(answer: WeeksAnswer) -> list[WeekRow]:
    block = answer.question.block
    rows = []
    number = 1
    for wave in block.waves:
        for place in range(1, wave.weeks + 1):
            deload = wave.deload and place == wave.weeks
            said = f"{place} of {wave.weeks}" + (", deload" if deload else "")
            rows.append(_week(answer, number, words.wave_words(wave), said, deload=deload))
            number += 1
    if block.test_week:
        rows.append(_week(answer, number, words.TEST_WORDS, "", test=True))
    return rows


def _week(
    answer: WeeksAnswer,
    number: int,
    wave: str,
    place: str,
    *,
    deload: bool = False,
    test: bool = False,
) -> WeekRow:
    block = answer.question.block
    monday, sunday = (dates.day_of(block, number, weekday) for weekday in (0, 6))
    return WeekRow(
        number=number,
        iso_week=dates.iso_week(monday),
        monday=monday.isoformat(),
        sunday=sunday.isoformat(),
        dates=f"{dates.said(monday)} to {dates.said(sunday, year=True)}",
        wave=wave,
        week_of_wave=place,
        deload=deload,
        test=test,
    )


def _session(one: Laid, answer: WeeksAnswer, units: UnitSystem) -> SessionRow:
    planned, slot, block = one.planned, one.planned.slot, answer.question.block
    loads, known = planned.loads, planned.loads is not None
    figures = [mass(units, loads.at(at)) if loads else None for at in words.PLACES]
    return SessionRow(
        week=slot.week,
        date=dates.day_of(block, slot.week, slot.weekday).isoformat(),
        weekday=WEEKDAYS[slot.weekday].capitalize(),
        time=dates.clock(slot.begins_min),
        lasts_min=slot.lasts_min,
        day=slot.day,
        of_weekday=1 + sum(day.weekday == slot.weekday for day in block.days[: slot.day]),
        lifter=slot.lifter,
        lift=slot.lift,
        station=one.place.station.name,
        kind=words.kind_words(slot),
        deload=slot.deload,
        sets=slot.sets,
        reps=slot.reps,
        work=f"{slot.sets} x {slot.reps}",
        reserve=words.reserve_words(slot),
        planned=words.load_words(slot, units) if known else words.NO_LOAD,
        of_planned=words.short_load(slot) if known else "",
        plan_of=words.base_words(slot),
        rig=words.rig_words(one.built),
        straight=figures[0],
        bottom=figures[1],
        mean=figures[2],
        top=figures[3],
        plates_a_side=loading_text(one.loading) if one.loading else "",
        share=None if planned.share is None else share(planned.share),
        share_of="" if planned.share is None else words.share_base(slot),
        of_best=None if planned.share_of_best is None else share(planned.share_of_best),
        effort=None if planned.effort is None else share(planned.effort),
        work_done=energy(planned.work_j) if known else None,
        note=slot.note,
    )


def energy(work_j: float) -> Figure:
    """Show work [J] in kilojoules.

    >>> energy(13460.2).text
    '13.5 kJ'
    """
    return Figure(work_j, "J", f"{work_j / 1e3:.1f} kJ")


def _work(row: WeekNumbers) -> Figure:
    """Work of a week, which nobody knows where no load is known."""
    if row.by_feel == row.sessions:
        return Figure(row.work_j, "J", "not known")
    known = energy(row.work_j)
    return known if not row.by_feel else Figure(row.work_j, "J", f"{known} and more")


def _numbers(row: WeekNumbers) -> NumbersRow:
    return NumbersRow(
        week=row.week,
        lifter=row.lifter,
        sessions=row.sessions,
        sets=row.sets,
        reps=row.reps,
        work=_work(row),
        rig_changes=row.new_rigs,
    )


def _flag(flag: Flag, units: UnitSystem) -> FlagRow:
    who = ", ".join(filter(None, (flag.lifter, flag.lift, flag.kind)))
    return FlagRow(
        code=flag.code,
        who=who,
        weeks=flag.weeks,
        when=words.weeks_words(flag.weeks),
        text=flag.phrase.say(units),
    )
