"""A session with a rig: sets x reps x load, when a set ends, and whether it adds up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.lifter.formulas import FORMULAS
from topheavy.phrase import Amount, Phrase, Remark
from topheavy.training.bases import LOAD_NAMES, Bases, LoadName, percent_of
from topheavy.training.days import check_loss
from topheavy.training.volume import check_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.training.bases import Loads, Percent
    from topheavy.training.days import Day
    from topheavy.training.volume import VolumeCheck

MOST_SETS: Final = 20
"""More sets than this are a slip of the pen [-]."""

MOST_REPS: Final = 30
"""The formulas from reps to a 1RM say nothing beyond [-]."""

_ALMOST: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is to be done.

    Parameters
    ----------
    day : Day
        Kind of day.
    sets, reps : int
        Sets, and reps in each.
    loss : float or None
        Loss of speed that ends a set [-]; None: no speed rule.

    Raises
    ------
    BadInputError
        A number out of range.
    """

    day: Day
    sets: int
    reps: int
    loss: float | None

    def __post_init__(self) -> None:
        for name, count, most in (("sets", self.sets, MOST_SETS), ("reps", self.reps, MOST_REPS)):
            if not 1 <= count <= most:
                raise BadInputError(
                    f"No session has that many {name}",
                    field=name,
                    got=count,
                    wanted=f"1 to {most}",
                )
        if self.loss is not None:
            check_loss(self.loss)

    @classmethod
    def of(
        cls,
        day: Day,
        sets: int | None = None,
        reps: int | None = None,
        loss: float | None = None,
    ) -> Plan:
        """Fill in from the kind of day what nobody said.

        Parameters
        ----------
        day : Day
            Kind of day.
        sets, reps : int or None
            Sets, and reps in each.
        loss : float or None
            Loss of speed that ends a set [-].
        """
        return cls(
            day=day,
            sets=day.sets if sets is None else sets,
            reps=day.reps if reps is None else reps,
            loss=day.loss if loss is None else loss,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """A session.

    Parameters
    ----------
    plan : Plan
        What is to be done.
    loads : Loads
        On the bar [kg].
    percents : tuple of Percent
        Each load as a percentage of the best; empty when no best is known.
    volume : mapping of str to VolumeCheck
        The repetition table, entered with bottom, mean and top load in turn; empty without a best.
    effort : float or None
        Greatest use of strength anywhere in the lift [-]; None when strength is not known.
    reps_to_failure : tuple of (int, int) or None
        How many reps the formulas expect at that effort: fewest and most; None without it.
    remarks : tuple of Remark
        What to know.
    """

    plan: Plan
    loads: Loads
    percents: tuple[Percent, ...]
    volume: dict[LoadName, VolumeCheck]
    effort: float | None
    reps_to_failure: tuple[int, int] | None
    remarks: tuple[Remark, ...]


def plan_session(
    plan: Plan, loads: Loads, best_kg: float | None = None, effort: float | None = None
) -> Session:
    """Put a session together.

    Parameters
    ----------
    plan : Plan
        What is to be done.
    loads : Loads
        On the bar [kg].
    best_kg : float, optional
        Straight-weight best [kg].
    effort : float, optional
        Greatest use of strength anywhere in the lift [-], > 0.

    Returns
    -------
    Session
        It warns, and never changes what was asked for.

    Examples
    --------
    >>> from topheavy.training.bases import Hung
    >>> from topheavy.training.days import day_named
    >>> loads = Hung(bottom_kg=0.0, mean_kg=14.0, top_kg=30.0).under(85.0)
    >>> session = plan_session(Plan.of(day_named("heavy")), loads, best_kg=120.0, effort=0.85)
    >>> session.volume["mean"].zone.name, session.reps_to_failure
    ('80s', (4, 7))
    """
    percents: tuple[Percent, ...] = ()
    volume: dict[LoadName, VolumeCheck] = {}
    if best_kg is not None:
        bases = Bases(best_kg=best_kg)
        percents = tuple(percent_of(loads, at, "best", bases) for at in LOAD_NAMES)
        volume = {
            one.at: check_volume(one.share, plan.sets, plan.reps)
            for one in percents
            if one.at != "straight"
        }
    to_failure = None if effort is None else reps_to_failure(effort)
    return Session(
        plan=plan,
        loads=loads,
        percents=percents,
        volume=volume,
        effort=effort,
        reps_to_failure=to_failure,
        remarks=tuple(_remarks(plan, loads, best_kg, effort, to_failure)),
    )


def reps_to_failure(effort: float) -> tuple[int, int]:
    """How many reps the published formulas expect at a share of strength.

    Parameters
    ----------
    effort : float
        Load / strength where the lift is hardest [-], > 0.

    Returns
    -------
    tuple of (int, int)
        Fewest and most over the formulas; (0, 0) above one, at most 30.

    Notes
    -----
    The formulas were made with plain weight. How many reps a lifter does at one load differs
    widely: at 70 % of the squat 1RM, 6 to 26 (Zourdos et al. 2021, read in part).

    Examples
    --------
    >>> reps_to_failure(0.85), reps_to_failure(1.1)
    ((4, 7), (0, 0))
    """
    if not effort > 0:
        raise BadInputError(
            "An effort is above zero", field="effort", got=effort, wanted="more than 0"
        )
    if effort > 1:
        return 0, 0
    can = [
        max((r for r in range(1, MOST_REPS + 1) if f.factor(r) <= 1 / effort + _ALMOST), default=1)
        for f in FORMULAS
    ]
    return min(can), max(can)


def _remarks(
    plan: Plan,
    loads: Loads,
    best_kg: float | None,
    effort: float | None,
    to_failure: tuple[int, int] | None,
) -> Iterator[Remark]:
    if effort is not None and effort > 1:
        yield Remark(
            "too heavy",
            Phrase(
                f"This is {100 * effort:.0f} % of what the lifter is thought to move where the "
                "lift is hardest: expect a miss. Take weight off."
            ),
        )
    elif to_failure is not None:
        yield from _near_failure(plan, to_failure)
    if best_kg is None:
        yield Remark(
            "no best",
            Phrase(
                "No best is known for this lift, so no percentage of it and no check on volume. "
                "Go by reps left."
            ),
        )
    else:
        yield from _outside(plan, loads, best_kg)


def _near_failure(plan: Plan, to_failure: tuple[int, int]) -> Iterator[Remark]:
    fewest, most = to_failure
    left = plan.day.reps_left[0]
    if plan.reps + left > most:
        yield Remark(
            "to failure",
            Phrase(
                f"{_counted(plan.reps)} with {left} left is more than the formulas expect here "
                f"({_span(fewest, most)} to failure). Fewer reps, or less weight."
            ),
        )


def _outside(plan: Plan, loads: Loads, best_kg: float) -> Iterator[Remark]:
    day = plan.day
    mean = loads.mean_kg / best_kg
    if not day.low - 5e-3 <= mean <= day.high + 5e-3:
        heavier = mean > day.high
        yield Remark(
            "outside",
            Phrase(
                f"The mean load is {100 * mean:.0f} % of the best: "
                f"{'heavier' if heavier else 'lighter'} than a {day.name} day's usual "
                f"{100 * day.low:.0f} to {100 * day.high:.0f} %, a mean of {{}} to {{}} here.",
                (Amount(day.low * best_kg, "mass"), Amount(day.high * best_kg, "mass")),
            ),
        )


def _counted(count: int) -> str:
    return "1 rep" if count == 1 else f"{count} reps"


def _span(low: int, high: int) -> str:
    return str(low) if low == high else f"{low} to {high}"
