"""From a block to its sessions: who does what in which week, before any rig is found."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, Literal

from topheavy.training.attempts import MOST_ATTEMPTS
from topheavy.training.days import DAYS, DayName
from topheavy.training.weeks_loads import deload_sets, loads_of_wave

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.rigging.target import Base
    from topheavy.training.bases import LoadName
    from topheavy.training.weeks import Block, Change, HangName, TrainingDay, Wave

KindName = DayName | Literal["test"]

TEST: Final = "test"
TEST_ATTEMPTS: Final = min(3, MOST_ATTEMPTS)
"""Singles of a test that count: a max within three to five attempts (see `training.attempts`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One session of one lifter, as planned.

    Parameters
    ----------
    week : int
        From 1.
    weekday : int
        0 is Monday.
    day : int
        Which of the plan's days it is, from 0.
    wave : int
        Which wave, from 0; -1 in the test week.
    lifter, lift, station : str
        Who, what and where; the station may be empty.
    kind : {'heavy', 'speed', 'repetition', 'technique', 'test'}
        Kind of day.
    hang : {'straight', 'chain', 'bands', 'mixed'}
        What hangs.
    load : float
        Share of the best at `at`, or of strength where the lift is hardest with `match` [-].
    load_kg : float or None
        The load at `at` [kg] when it was written down by hand.
    at : {'straight', 'bottom', 'mean', 'top'}
        Which load of the rig is meant.
    share : float
        Accommodating share wanted [-].
    of : {'top', 'bottom', 'best'}
        What it is a fraction of.
    match : bool
        The rig follows the lifter's strength.
    sets, reps : int
        To be done.
    deload : bool
        Whether it is a deload week.
    begins_min : int or None
        Minutes after midnight.
    lasts_min : int
        How long it lasts [min].
    note : str
        What the coach noted.
    """

    week: int
    weekday: int
    day: int
    wave: int
    lifter: str
    lift: str
    station: str
    kind: KindName
    hang: HangName
    load: float
    load_kg: float | None = None
    at: LoadName = "mean"
    share: float = 0.0
    of: Base = "top"
    match: bool = False
    sets: int
    reps: int
    deload: bool = False
    begins_min: int | None = None
    lasts_min: int = 60
    note: str = ""

    @property
    def rigged(self) -> bool:
        """Whether anything hangs."""
        return self.hang != "straight"


def slots_of(block: Block, lifters: tuple[str, ...]) -> tuple[tuple[Slot, ...], tuple[Change, ...]]:
    """List every session of a block, in the order of the calendar.

    Parameters
    ----------
    block : Block
        As planned.
    lifters : tuple of str
        Everybody, for days that name nobody.

    Returns
    -------
    slots : tuple of Slot
        Changes by hand applied.
    idle : tuple of Change
        Changes that change nothing.

    Examples
    --------
    >>> from topheavy.training.weeks import Block, TrainingDay
    >>> monday = TrainingDay(weekday=0, lifts=("squat",))
    >>> block = Block(name="x", start="2026-11-30", days=(monday,))
    >>> slots, _ = slots_of(block, ("Pip",))
    >>> [(slot.week, slot.hang, round(slot.load, 3)) for slot in slots][:3]
    [(1, 'straight', 0.8), (2, 'straight', 0.83), (3, 'chain', 0.8)]
    """
    found: list[Slot] = []
    used: set[int] = set()
    for slot in _planned(block, lifters):
        if slot.week == 1 and slot.weekday < block.first_weekday:
            continue
        changed: Slot | None = slot
        for number, change in enumerate(block.changes):
            if _speaks_of(change, slot):
                used.add(number)
                changed = _changed(changed, change) if changed else None
        found += [changed] if changed else []
    found.sort(key=lambda slot: (slot.week, slot.weekday, slot.begins_min or 0, slot.day))
    idle = tuple(change for number, change in enumerate(block.changes) if number not in used)
    return tuple(found), idle


def _planned(block: Block, lifters: tuple[str, ...]) -> Iterator[Slot]:
    first = 1
    for number, wave in enumerate(block.waves):
        for place, day in enumerate(block.days):
            for who in day.lifters or lifters:
                yield from _of_wave(wave, number, first, (place, day), who)
        first += wave.weeks
    if block.test_week:
        yield from _tests(block, lifters, first)


def _of_wave(
    wave: Wave, number: int, first: int, placed: tuple[int, TrainingDay], who: str
) -> Iterator[Slot]:
    place, day = placed
    usual = DAYS[day.kind]
    sets = usual.sets if day.sets is None else day.sets
    reps = usual.reps if day.reps is None else day.reps
    hang = day.hang or wave.hang
    for week, load in enumerate(loads_of_wave(wave, day.kind)):
        deload = wave.deload and week == wave.weeks - 1
        yield Slot(
            week=first + week,
            weekday=day.weekday,
            day=place,
            wave=number,
            lifter=who,
            lift=day.lifts[number % len(day.lifts)],
            station=day.station,
            kind=day.kind,
            hang=hang,
            load=load,
            at=wave.at,
            share=0.0 if hang == "straight" else wave.share_in(week),
            of=wave.of,
            match=wave.match and hang != "straight",
            sets=deload_sets(sets) if deload else sets,
            reps=reps,
            deload=deload,
            begins_min=day.begins_min,
            lasts_min=day.lasts_min,
        )


def _tests(block: Block, lifters: tuple[str, ...], week: int) -> Iterator[Slot]:
    """Singles in each lift, on the first heavy day it has, or else on its first day."""
    days = sorted(enumerate(block.days), key=lambda one: (one[1].kind != "heavy", one[1].weekday))
    seen: set[tuple[str, str]] = set()
    for place, day in days:
        for who in day.lifters or lifters:
            lift = day.lifts[0]
            if (who, lift) in seen:
                continue
            seen.add((who, lift))
            yield Slot(
                week=week,
                weekday=day.weekday,
                day=place,
                wave=-1,
                lifter=who,
                lift=lift,
                station=day.station,
                kind=TEST,
                hang="straight",
                load=1.0,
                at="straight",
                sets=TEST_ATTEMPTS,
                reps=1,
                begins_min=day.begins_min,
                lasts_min=day.lasts_min,
            )


def _speaks_of(change: Change, slot: Slot) -> bool:
    return (
        change.week == slot.week
        and change.lifter in {"", slot.lifter}
        and change.lift in {"", slot.lift}
        and change.weekday in {None, slot.weekday}
    )


def _changed(slot: Slot, change: Change) -> Slot | None:
    if change.off:
        return None
    if change.load is not None:
        slot = replace(slot, load=change.load, load_kg=None)
    if change.load_kg is not None:
        slot = replace(slot, load_kg=change.load_kg)
    if change.share is not None and slot.rigged:
        slot = replace(slot, share=change.share, match=False)
    return replace(
        slot,
        sets=slot.sets if change.sets is None else change.sets,
        reps=slot.reps if change.reps is None else change.reps,
        note=change.note or slot.note,
    )
