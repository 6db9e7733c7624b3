"""A session with the rig of the day: sets x reps x load, target speed, volume."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import NotInStockError
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import model_for
from topheavy.lifter.plausible import plausible
from topheavy.services.rig import answer_rig
from topheavy.services.top_set import effort_of, loads_of, strong_of
from topheavy.training.session import plan_session
from topheavy.training.target_speed import target_speed

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer, RigQuestion
    from topheavy.services.top_set import Strong
    from topheavy.training.session import Plan, Session
    from topheavy.training.target_speed import TargetSpeed

_MANY = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionQuestion:
    """A question for a session.

    Parameters
    ----------
    rig : RigQuestion
        The rig of the day.
    plan : Plan
        Kind of day, sets, reps, when a set ends.
    """

    rig: RigQuestion
    plan: Plan


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SessionAnswer:
    """A session with the rig of the day.

    Parameters
    ----------
    question : SessionQuestion
        What was asked.
    rig : RigAnswer
        The rig.
    session : Session
        Sets, loads, checks.
    strong : Strong
        How strong the lifter is, as far as known.
    hardest_m : float or None
        Height where the lift is hardest [m]; None when strength is not known.
    speed : TargetSpeed or None
        Mean speed to expect of a first rep; None where it can't be said.
    """

    question: SessionQuestion
    rig: RigAnswer
    session: Session
    strong: Strong
    hardest_m: float | None
    speed: TargetSpeed | None


def answer_session(question: SessionQuestion) -> SessionAnswer:
    """Find the rig of the day and lay the session out.

    Raises
    ------
    NotInStockError
        No rig can be built.
    """
    rig = answer_rig(question.rig)
    strong = strong_of(rig)
    hardest = effort_of(rig, strong)
    session = plan_session(
        question.plan, loads_of(rig), strong.best_kg, None if hardest is None else hardest[0]
    )
    return SessionAnswer(
        question=question,
        rig=rig,
        session=session,
        strong=strong,
        hardest_m=None if hardest is None else hardest[1],
        speed=speed_of(rig, strong) if question.plan.loss is not None else None,
    )


def speed_of(rig: RigAnswer, strong: Strong) -> TargetSpeed | None:
    """Mean speed of a first rep, where a load-velocity line was read for the lift.

    Parameters
    ----------
    rig : RigAnswer
        The rig.
    strong : Strong
        How strong the lifter is.
    """
    place = rig.question.place
    if strong.curve is None:
        return None
    try:
        model = model_for(place.lift.name)
    except NotInStockError:
        return None
    travel = place.travel
    lifter = RepLifter(
        best_kg=strong.curve.full_range_kg,
        bottom_m=travel.bottom_m,
        top_m=travel.top_m,
        strength=strong.curve,
    )
    many = plausible(model, _MANY, travel_m=travel.travel_m)
    return target_speed(lifter, OnBar.of_rig(rig.best.rig, place.ground), many)
