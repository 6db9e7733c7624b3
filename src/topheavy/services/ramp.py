"""The ramp to the day's top set with the rig of the day, and the next attempt after a single."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.velocity import LINES
from topheavy.services.rig import answer_rig
from topheavy.services.top_set import (
    gear_of,
    hanging_of,
    lighter_of,
    loads_of,
    strong_of,
)
from topheavy.training.attempt_plates import load_attempt
from topheavy.training.attempts import LastAttempt, next_attempt
from topheavy.training.bases import LOAD_NAMES, Bases, percent_of
from topheavy.training.ramp import plan_ramp
from topheavy.training.ramp_parts import TopSet, check_top_set

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer, RigQuestion
    from topheavy.services.top_set import Strong
    from topheavy.training.attempt_plates import LoadedAttempt
    from topheavy.training.bases import Percent
    from topheavy.training.ramp_parts import Ramp


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A single that was tried with the rig of the day.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    made : bool
        Whether it was locked out.
    number : int
        Which attempt, from 1.
    missed_before : bool
        Whether the attempt before it was missed.
    reps_left : float or None
        What the lifter could have done more [-].
    speed_m_per_s : float or None
        Mean speed on the way up [m/s].
    """

    straight_kg: float
    made: bool
    number: int = 1
    missed_before: bool = False
    reps_left: float | None = None
    speed_m_per_s: float | None = None

    def __post_init__(self) -> None:
        self.with_hung(0.0)

    def with_hung(self, hung_kg: float) -> LastAttempt:
        """The attempt with what hung at the limiting height [kg]; refuses what makes no sense."""
        return LastAttempt(
            load_kg=self.straight_kg + hung_kg,
            made=self.made,
            number=self.number,
            missed_before=self.missed_before,
            reps_left=self.reps_left,
            speed_m_per_s=self.speed_m_per_s,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RampQuestion:
    """A question for a ramp.

    Parameters
    ----------
    rig : RigQuestion
        The rig of the day; its straight weight is that of the top set.
    reps : int
        Reps of the top set.
    singles : bool
        Singles up to a max; the top set is the goal.
    chain_from : int
        Set from which the chain is on.
    tried : Tried or None
        The last attempt, to be told the next.
    """

    rig: RigQuestion
    reps: int = 3
    singles: bool = False
    chain_from: int = 1
    tried: Tried | None = None

    def __post_init__(self) -> None:
        check_top_set(self.reps, singles=self.singles, chain_from=self.chain_from)
        if self.tried is None:
            return
        if not self.singles:
            raise BadInputError(
                "The next attempt is told for singles up to a max",
                field="after",
                wanted="--singles with it",
            )
        bar_kg = self.rig.place.setup.bar_kg
        if self.tried.straight_kg < bar_kg - 1e-6:
            raise BadInputError(
                "That is less than the bar and its collars",
                field="after",
                got=f"{self.tried.straight_kg:g} kg",
                wanted=f"{bar_kg:g} kg or more: bar, collars and plates together",
            )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RampAnswer:
    """A ramp for the rig of the day.

    Parameters
    ----------
    question : RampQuestion
        What was asked.
    rig : RigAnswer
        The rig.
    ramp : Ramp
        Its sets.
    strong : Strong
        How strong the lifter is, as far as known.
    percents : tuple of Percent
        Loads of the top set as percentages of the best; empty when no best is known.
    next_one : LoadedAttempt or None
        The next attempt, when the last one was told.
    """

    question: RampQuestion
    rig: RigAnswer
    ramp: Ramp
    strong: Strong
    percents: tuple[Percent, ...]
    next_one: LoadedAttempt | None


def answer_ramp(question: RampQuestion) -> RampAnswer:
    """Find the rig of the day and the ramp to it.

    Raises
    ------
    NotInStockError
        No rig can be built, or plates can't make a weight that was told.
    BadInputError
        A ramp or an attempt that makes no sense.
    """
    rig = answer_rig(question.rig)
    strong = strong_of(rig)
    ramp = ramp_to(
        rig, strong, question.reps, singles=question.singles, chain_from=question.chain_from
    )
    percents: tuple[Percent, ...] = ()
    if strong.best_kg is not None:
        bases, loads = Bases(best_kg=strong.best_kg), loads_of(rig)
        percents = tuple(percent_of(loads, at, "best", bases) for at in LOAD_NAMES)
    return RampAnswer(
        question=question,
        rig=rig,
        ramp=ramp,
        strong=strong,
        percents=percents,
        next_one=None if question.tried is None else _next(question.tried, rig, ramp),
    )


def ramp_to(
    rig: RigAnswer, strong: Strong, reps: int, *, singles: bool = False, chain_from: int = 1
) -> Ramp:
    """Plan the ramp to a rig, found or chosen; raises as `answer_ramp`.

    Parameters
    ----------
    rig : RigAnswer
        The rig of the day with the plates of the top set.
    strong : Strong
        How strong the lifter is.
    reps : int
        Reps of the top set.
    singles : bool
        Singles up to a max.
    chain_from : int
        Set from which the chain is on.
    """
    place = rig.question.place
    top = TopSet(
        straight_kg=rig.best.rig.straight_weight_kg,
        reps=reps,
        hanging=hanging_of(rig),
        lighter=lighter_of(rig),
        singles=singles,
        chain_from=chain_from,
        from_floor=place.lift.station == "platform",
    )
    return plan_ramp(top, gear_of(rig), place.travel, strong.curve)


def _next(tried: Tried, rig: RigAnswer, ramp: Ramp) -> LoadedAttempt:
    """The next attempt, of the load at the limiting height, in plates."""
    hung_kg = float(hanging_of(rig).curve.at(ramp.limit_m))
    lines = {str(name): line for name, line in LINES.items()}
    advice = next_attempt(tried.with_hung(hung_kg), lines.get(rig.question.place.lift.name))
    try:
        return load_attempt(advice, tried.straight_kg, hung_kg, gear_of(rig))
    except NotInStockError as error:
        raise NotInStockError(
            error.message, field="after", got=error.got, wanted=error.wanted
        ) from error
