"""Where a lifter stands in the day's work, and what is on the bar before the next set."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.training.work import next_number

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.gym.log import LoggedSet
    from topheavy.training.on_bar import OnBar
    from topheavy.training.work import Work

_SAME_KG = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where one lifter stands.

    Parameters
    ----------
    work : Work
        Of the day.
    done : tuple of LoggedSet
        Its sets in the log, in the order they were lifted.
    next_number : int or None
        Which set is next; None when all is done.
    """

    work: Work
    done: tuple[LoggedSet, ...]
    next_number: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOn:
    """What the last lifter left on a bar.

    Parameters
    ----------
    lifter : str
        Whose set it was.
    logged : LoggedSet
        Which set.
    bar : OnBar or None
        What is on it; None when other plates were on than planned.
    """

    lifter: str
    logged: LoggedSet
    bar: OnBar | None


def stand(work: Work, sets: Iterable[LoggedSet]) -> Standing:
    """Say where a lifter stands.

    Parameters
    ----------
    work : Work
        Of the day.
    sets : iterable of LoggedSet
        Of the day, in the order they were lifted; none that was corrected or struck out.
    """
    done = tuple(one for one in sets if _of(work, one))
    numbers = tuple(one.number for one in done if one.number is not None)
    return Standing(work=work, done=done, next_number=next_number(work, numbers))


def left_on(works: Sequence[Work], sets: Iterable[LoggedSet], station: str) -> LeftOn | None:
    """Say what the last set lifted at a station left on its bar.

    Parameters
    ----------
    works : sequence of Work
        Everybody's of the day.
    sets : iterable of LoggedSet
        Of the day, in the order they were lifted; none that was corrected or struck out.
    station : str
        Where.

    Returns
    -------
    LeftOn or None
        None when nobody has lifted there today.
    """
    last = None
    for one in sets:
        if one.station == station:
            last = one
    if last is None:
        return None
    for work in works:
        if _of(work, last) and last.number is not None:
            return LeftOn(lifter=last.lifter, logged=last, bar=_bar(work, last))
    return LeftOn(lifter=last.lifter, logged=last, bar=None)


def _bar(work: Work, logged: LoggedSet) -> OnBar | None:
    """What was on in a set: as planned, if the loads are as planned."""
    number = logged.number or 0
    if not 1 <= number <= len(work.steps) or work.station != logged.station:
        return None
    step = work.steps[number - 1]
    same = abs(step.straight_kg - logged.straight_kg) < _SAME_KG
    top_kg = logged.rig.top_kg if logged.rig else logged.straight_kg
    return step.bar if same and abs(step.top_kg - top_kg) < _SAME_KG else None


def _of(work: Work, logged: LoggedSet) -> bool:
    return (logged.lifter, logged.lift, logged.session) == (work.lifter, work.lift, work.session)
