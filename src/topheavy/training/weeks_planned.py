"""A session of a block with its rig's loads, and the numbers of a lifter's week."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.phrase import Phrase, Remark
    from topheavy.training.bases import Loads
    from topheavy.training.session import Session
    from topheavy.training.weeks_slots import Slot


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One session with its loads.

    Parameters
    ----------
    slot : Slot
        As planned.
    loads : Loads or None
        On the bar [kg]; None when nothing says what the lifter can lift.
    best_kg : float or None
        Straight-weight best [kg].
    share, share_of_best : float or None
        Accommodating share of the base that was asked for, and of the best [-].
    effort : float or None
        Greatest use of strength anywhere in the lift [-].
    work_j : float
        Work on the bar on the way up over all reps, from the real load curve [J].
    rig : str
        What hangs, as a name; the same name is the same rig. Empty with straight weight.
    session : Session or None
        How it adds up; None for a test and where loads are not known.
    remarks : tuple of Remark
        Where stock and plates could not do what was asked for.
    """

    slot: Slot
    loads: Loads | None = None
    best_kg: float | None = None
    share: float | None = None
    share_of_best: float | None = None
    effort: float | None = None
    work_j: float = 0.0
    rig: str = ""
    session: Session | None = None
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekNumbers:
    """What a lifter does in a week.

    Parameters
    ----------
    lifter : str
        Who.
    week : int
        From 1.
    sessions, sets, reps : int
        Counts; warm-ups are not in them.
    work_j : float
        Work on the bar on the way up [J], of sessions whose load is known.
    by_feel : int
        Sessions whose load nobody knows.
    new_rigs : int
        Times that the rig is another than the lifter had before in the lift.
    """

    lifter: str
    week: int
    sessions: int
    sets: int
    reps: int
    work_j: float
    by_feel: int
    new_rigs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """Something in a plan to look at: it warns, and never changes anything.

    Parameters
    ----------
    code : str
        A short name that never changes.
    lifter, lift : str
        Whose and which; empty when of the whole plan.
    kind : str
        Which kind of day; empty when of all.
    weeks : tuple of int
        In which weeks, from 1.
    phrase : Phrase
        What, and what to do.
    """

    code: str
    lifter: str
    lift: str
    kind: str = ""
    weeks: tuple[int, ...]
    phrase: Phrase


def numbers_of(planned: Iterable[Planned]) -> tuple[WeekNumbers, ...]:
    """Add up each lifter's weeks, by week and then in the order that lifters come.

    Parameters
    ----------
    planned : iterable of Planned
        In the order of the calendar.
    """
    sessions = list(planned)
    order = {
        name: place for place, name in enumerate(dict.fromkeys(one.slot.lifter for one in sessions))
    }
    news = _new_rigs(sessions)
    found: dict[tuple[int, int], WeekNumbers] = {}
    for number, one in enumerate(sessions):
        slot = one.slot
        key = (slot.week, order[slot.lifter])
        had = found.get(key) or _none_yet(slot)
        found[key] = WeekNumbers(
            lifter=slot.lifter,
            week=slot.week,
            sessions=had.sessions + 1,
            sets=had.sets + slot.sets,
            reps=had.reps + slot.sets * slot.reps,
            work_j=had.work_j + one.work_j,
            by_feel=had.by_feel + (one.loads is None),
            new_rigs=had.new_rigs + (number in news),
        )
    return tuple(found[key] for key in sorted(found))


def _none_yet(slot: Slot) -> WeekNumbers:
    return WeekNumbers(
        lifter=slot.lifter,
        week=slot.week,
        sessions=0,
        sets=0,
        reps=0,
        work_j=0.0,
        by_feel=0,
        new_rigs=0,
    )


def _new_rigs(sessions: list[Planned]) -> set[int]:
    """Which sessions have another rig than the lifter last had in the lift."""
    last: dict[tuple[str, str], str] = {}
    news = set()
    for number, one in enumerate(sessions):
        if one.rig:
            key = (one.slot.lifter, one.slot.lift)
            if last.get(key) != one.rig:
                news.add(number)
            last[key] = one.rig
    return news
