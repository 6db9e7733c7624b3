"""The work of one day out of a block of weeks: everybody's sessions, with the rigs of the plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import TopheavyError
from topheavy.services.work import WorkAsk, work_with
from topheavy.training.days import DAYS
from topheavy.training.session import Plan
from topheavy.training.weeks_slots import TEST

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.services.weeks import Laid, WeeksAnswer
    from topheavy.training.work import Work


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysWork:
    """Work of a day of a plan, and the sessions that could not be made into any, with the reason.

    Parameters
    ----------
    works : tuple of Work
        In the order of the plan.
    left_out : tuple of str
        Who, what and why.
    """

    works: tuple[Work, ...]
    left_out: tuple[str, ...]


def works_of_day(
    answer: WeeksAnswer, week: int, weekday: int, day: str, new_id: Callable[[], str]
) -> DaysWork:
    """Make a day of a plan into work.

    Parameters
    ----------
    answer : WeeksAnswer
        The block with its rigs.
    week, weekday : int
        Which day of it: weeks from 1, Monday 0.
    day : str
        The same on the calendar.
    new_id : callable
        Draws a UUID.
    """
    works, left_out = [], []
    for laid in answer.sessions:
        slot = laid.planned.slot
        if (slot.week, slot.weekday) != (week, weekday):
            continue
        who = f"{slot.lifter}, {slot.lift}"
        if laid.planned.loads is None:
            left_out.append(f"{who}: no load is planned, go by reps left")
            continue
        try:
            works.append(_work(laid, laid.planned.loads.straight_kg, day, new_id()))
        except TopheavyError as error:
            left_out.append(f"{who}: {error.message}")
    return DaysWork(works=tuple(works), left_out=tuple(left_out))


def _work(laid: Laid, straight_kg: float, day: str, new_id: str) -> Work:
    slot = laid.planned.slot
    plan = None
    if slot.kind != TEST:
        kind = DAYS[slot.kind]
        plan = Plan(day=kind, sets=slot.sets, reps=slot.reps, loss=kind.loss)
    at = ""
    if slot.begins_min is not None:
        at = f"{slot.begins_min // 60:02d}:{slot.begins_min % 60:02d}"
    ask = WorkAsk(id=new_id, day=day, plan=plan, source="weeks", at=at)
    return work_with(laid.place, laid.built, straight_kg, ask, laid.cautions)
