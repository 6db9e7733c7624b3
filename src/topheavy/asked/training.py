"""Questions for a ramp and for a session, out of the words they were asked in."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.asked.quantities import load_kg
from topheavy.errors import BadInputError
from topheavy.services.ramp import RampQuestion, Tried
from topheavy.services.session import SessionQuestion
from topheavy.training.days import day_named
from topheavy.training.session import Plan
from topheavy.units import parse_quantity

if TYPE_CHECKING:
    from topheavy.services.rig import RigQuestion
    from topheavy.training.days import Day

_REPS: Final = 3
_SETS_X_REPS: Final = re.compile(r"\s*(\d{1,4})\s*[xX*]\s*(\d{1,4})\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class RampAsked:
    """What was said of a ramp; each as its option of ``topheavy ramp`` says it.

    Parameters
    ----------
    reps : int or None
        Repetitions of the top set; else 3, of singles 1.
    singles : bool
        Singles up to a max.
    chain_from : int
        Set from which the chain is on, from 1.
    after : str or None
        Straight weight of the last single.
    missed, missed_before : bool
        Whether it was missed, and the one before it.
    reps_left : float or None
        How many more were in it.
    bar_speed : float or None
        Its mean speed on the way up [m/s].
    attempt : int
        Which attempt it was, from 1.
    """

    reps: int | None = None
    singles: bool = False
    chain_from: int = 1
    after: str | None = None
    missed: bool = False
    missed_before: bool = False
    reps_left: float | None = None
    bar_speed: float | None = None
    attempt: int = 1


def ramp_question(rig: RigQuestion, asked: RampAsked) -> RampQuestion:
    """Make the question for a ramp to a rig.

    Parameters
    ----------
    rig : RigQuestion
        The rig of the top set.
    asked : RampAsked
        The words.

    Raises
    ------
    BadInputError
        Words not understood, or facts of a single that nobody named.
    """
    reps = asked.reps if asked.reps is not None else 1 if asked.singles else _REPS
    return RampQuestion(
        rig=rig,
        reps=reps,
        singles=asked.singles,
        chain_from=asked.chain_from,
        tried=_tried(asked, load_kg(asked.after, "--after", rig.ask.best_kg)),
    )


def _tried(asked: RampAsked, straight_kg: float | None) -> Tried | None:
    """The last single, if one was told."""
    if straight_kg is not None:
        return Tried(
            straight_kg=straight_kg,
            made=not asked.missed,
            number=asked.attempt,
            missed_before=asked.missed_before,
            reps_left=asked.reps_left,
            speed_m_per_s=asked.bar_speed,
        )
    how = {
        "--missed": asked.missed,
        "--missed-before": asked.missed_before,
        "--reps-left": asked.reps_left is not None,
        "--bar-speed": asked.bar_speed is not None,
        "--attempt": asked.attempt != 1,
    }
    told = [option for option, given in how.items() if given]
    if told:
        raise BadInputError(
            "Of which single?",
            field=told[0],
            got=f"{told[0]} without --after",
            wanted="--after with the straight weight that was on the bar",
        )
    return None


def session_question(
    rig: RigQuestion, day: str = "heavy", do: str | None = None, stop_at: str | None = None
) -> SessionQuestion:
    """Make the question for a session with a rig.

    Parameters
    ----------
    rig : RigQuestion
        The rig of the day.
    day : str
        Kind of day, by its name.
    do : str or None
        Sets and reps, such as 5x3; else as usual for the day.
    stop_at : str or None
        Loss of speed that ends a set, such as 10%.

    Raises
    ------
    BadInputError
        Words not understood.
    """
    loss = None if stop_at is None else parse_quantity(stop_at, "share", field="--stop-at")
    return SessionQuestion(rig=rig, plan=_plan(day_named(day), do, loss))


def _plan(day: Day, do: str | None, loss: float | None) -> Plan:
    """Fill in sets and reps as typed."""
    if do is None:
        return Plan.of(day, loss=loss)
    found = _SETS_X_REPS.fullmatch(do)
    wanted = "sets and reps, such as 5x3"
    if found is None:
        raise BadInputError("Not sets and reps", field="--do", got=repr(do), wanted=wanted)
    usual = Plan.of(day, loss=loss)
    try:
        return replace(usual, sets=int(found[1]), reps=int(found[2]))
    except BadInputError as error:
        raise BadInputError(
            error.message, field="--do", got=repr(do), wanted=f"{error.wanted} {error.field}"
        ) from error
