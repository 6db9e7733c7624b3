"""A one-repetition maximum from a set: a range of formulas, not one false digit."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from statistics import median
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.lifter.formulas import FORMULAS

if TYPE_CHECKING:
    from collections.abc import Mapping

DAY_TO_DAY: Final = 0.02
"""Relative standard uncertainty of a maximal single [-].

Chosen between the coefficient of variation of a chain-loaded bench 1RM in trained men, 1.4 %
(McCurdy et al. 2008, abstract), and the median over 32 studies of many kinds of people, 4.2 %
(Grgic et al. 2020, abstract; both are between two tests). Give your own for a beginner.
"""

PER_REPETITION: Final = 0.01
"""Growth of the relative standard uncertainty with each repetition past the first [-].

Own judgement. It puts a set of five near 5 %, what a regression made for it leaves (2.98 kg:
Reynolds et al. 2006, abstract; over a mean bench press guessed at 60 kg), and a set of fifteen near
14 %: at 70 % of the squat 1RM trained lifters did 6 to 26 repetitions (Zourdos et al. 2021, read in
part).
"""

_MOST_REPS: Final = 30
_TRUSTED_REPS: Final = 10
_MOST_LEFT: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class OneRepMax:
    """What a set says of the 1RM.

    Parameters
    ----------
    low_kg, middle_kg, high_kg : float
        Least, median and greatest of the formulas [kg]; repetitions left in reserve are taken as
        one (or two) fewer for the least and more for the greatest.
    u_kg : float
        Standard uncertainty of the middle [kg] for one lifter: the day, the formulas' spread, and
        how far lifters differ in repetitions at one share of their 1RM.
    values_kg : mapping of str to float
        Each formula's value [kg]; empty for a maximal single, which needs no formula.
    caveats : tuple of str
        Where the formulas leave their range.
    """

    low_kg: float
    middle_kg: float
    high_kg: float
    u_kg: float
    values_kg: Mapping[str, float] = field(default_factory=dict)
    caveats: tuple[str, ...] = ()


def one_rm(
    load_kg: float, reps: int, *, reps_left: float = 0.0, lift: str | None = None
) -> OneRepMax:
    """Estimate the 1RM from a set.

    Parameters
    ----------
    load_kg : float
        Load [kg], straight weight, > 0.
    reps : int
        Repetitions done over the full range, 1 to 30.
    reps_left : float
        Repetitions in reserve [-], 0 to 10: what the lifter could have done more. See
        `reps_left_of` for an RPE.
    lift : str, optional
        Name of the lift, for caveats that hold for it alone.

    Returns
    -------
    OneRepMax
        Range, each formula's value, caveats.

    Raises
    ------
    BadInputError
        A load that is not above zero, repetitions that are not a whole number from 1, or more
        than 30 to failure, where some formulas have no meaning.

    References
    ----------
    The formulas: `topheavy.lifter.formulas`. Not past ten repetitions: Reynolds, Gordon & Robergs
    2006 (abstract). Error of repetitions in reserve, about one up to five from failure, more than
    two from seven on: Hackett et al. 2017 (abstract). Deadlift underestimated by all seven: LeSuer
    et al. 1997 (from memory).

    Examples
    --------
    >>> best = one_rm(100.0, 5)
    >>> round(best.low_kg, 1), round(best.middle_kg, 1), round(best.high_kg, 1)
    (112.5, 116.6, 119.0)
    >>> one_rm(140.0, 1).middle_kg
    140.0
    """
    _check_set(load_kg, reps, reps_left)
    total = reps + reps_left
    if total == 1:
        return OneRepMax(
            low_kg=load_kg, middle_kg=load_kg, high_kg=load_kg, u_kg=DAY_TO_DAY * load_kg
        )
    off = 0.0 if reps_left == 0 else 1.0 if reps_left <= 5 else 2.0
    values = {f.name: load_kg * f.factor(total) for f in FORMULAS}
    low = min(f.factor(max(total - off, 1.0)) for f in FORMULAS) * load_kg
    high = max(f.factor(total + off) for f in FORMULAS) * load_kg
    middle = median(values.values())
    relative = math.hypot(
        DAY_TO_DAY, PER_REPETITION * (total - 1), (high - low) / middle / math.sqrt(12)
    )
    return OneRepMax(
        low_kg=low,
        middle_kg=middle,
        high_kg=high,
        u_kg=relative * middle,
        values_kg=values,
        caveats=_caveats(total, reps_left, lift),
    )


def reps_left_of(rpe: float) -> float:
    """Repetitions in reserve [-] for a rating of perceived exertion: 10 - RPE.

    Parameters
    ----------
    rpe : float
        Rating [-] on the scale for lifting, 1 to 10; 10 is a set with nothing left.

    Raises
    ------
    BadInputError
        Off the scale.

    References
    ----------
    Zourdos et al., Novel resistance training-specific rating of perceived exertion scale measuring
    repetitions in reserve, J Strength Cond Res 30, 267-275, 2016 (from memory; a later paper of
    the group, Zourdos et al. 2021, read in part).

    Examples
    --------
    >>> reps_left_of(8.5)
    1.5
    """
    if not 1 <= rpe <= 10:
        raise BadInputError("An RPE runs from 1 to 10", field="rpe", got=rpe, wanted="1 to 10")
    return 10.0 - rpe


def _check_set(load_kg: float, reps: int, reps_left: float) -> None:
    if not 0 < load_kg < math.inf:
        raise BadInputError(
            "A load is above zero", field="load_kg", got=load_kg, wanted="a number above 0"
        )
    if not (reps >= 1 and reps % 1 == 0):
        raise BadInputError(
            "A set has a whole number of repetitions",
            field="reps",
            got=reps,
            wanted="a whole number, 1 or more",
        )
    if not 0 <= reps_left <= _MOST_LEFT:
        raise BadInputError(
            "Repetitions in reserve are not negative, and nobody can count more than ten",
            field="reps_left",
            got=reps_left,
            wanted=f"0 to {_MOST_LEFT}",
        )
    if reps + reps_left > _MOST_REPS:
        raise BadInputError(
            "So many repetitions say nothing of a single",
            field="reps",
            got=f"{reps + reps_left:g} to failure",
            wanted=f"{_MOST_REPS} or fewer to failure, better {_TRUSTED_REPS} or fewer",
        )


def _caveats(total: float, reps_left: float, lift: str | None) -> tuple[str, ...]:
    found = []
    if total > _TRUSTED_REPS:
        found.append(
            f"More than {_TRUSTED_REPS} repetitions to failure: the formulas were made for fewer, "
            "and lifters differ widely. Test a heavier set."
        )
    if reps_left > 0:
        found.append(
            "Repetitions in reserve are a feeling: taken as one off near failure, two off further "
            "from it."
        )
    if lift is not None and "deadlift" in lift:
        found.append("These formulas tend to say too little for the deadlift.")
    return tuple(found)
