"""What a set stands for: the straight single, over the full range, that would have been as hard.

Two steps: from the rig to straight weight by the shape of the lifter's strength, and from
repetitions to a single by the published formulas. What is not known of either is drawn once for
each of many plausible lifters and kept for all sets of one lifter: a formula that flatters sets of
five flatters all of them, so that it can't pass for progress.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from statistics import median
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.formulas import FORMULAS
from topheavy.lifter.one_rm import PER_REPETITION
from topheavy.training.review.seen import HARD_REPS
from topheavy.training.review.shapes import SAMPLES, sampled_as_hard, straight_as_hard

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from topheavy.mechanics.curve import LoadCurve
    from topheavy.training.review.seen import SeenSet
    from topheavy.training.review.shapes import Shapes

    Floats = NDArray[np.float64]

OFF_LEFT: Final = 1.0
"""By how many repetitions those left are misjudged near failure [-]: about one up to five from it
(Hackett et al. 2017, abstract)."""

MOST_APART: Final = (0.025, 0.975)
"""Between these quantiles lie 95 of 100 readings."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """A set as a straight single.

    Parameters
    ----------
    seen : SeenSet
        The set.
    as_hard_kg : float
        Straight weight as hard as what was on the bar [kg].
    single_kg : float
        The single it stands for [kg].
    told : bool
        Whether how near its end the set was is known; if not, it stands for that much at least.
    """

    seen: SeenSet
    as_hard_kg: float
    single_kg: float
    told: bool


def single_factor(total: float) -> float:
    """A single over the load of a set to failure [-]: the middle of the published formulas.

    Parameters
    ----------
    total : float
        Repetitions to failure [-], 1 to 10.

    Examples
    --------
    >>> single_factor(1.0), round(single_factor(5.0), 3)
    (1.0, 1.166)
    """
    return 1.0 if total <= 1 else median(formula.factor(total) for formula in FORMULAS)


def least_factor(reps: int) -> float:
    """A single over the load of a set that was done [-]: the least of the formulas.

    Parameters
    ----------
    reps : int
        Repetitions done; past ten they count as ten.

    Examples
    --------
    >>> least_factor(1), round(least_factor(5), 3), least_factor(10) == least_factor(25)
    (1.0, 1.125, True)
    """
    counted = min(reps, HARD_REPS)
    return 1.0 if counted <= 1 else min(formula.factor(counted) for formula in FORMULAS)


def read_sets(sets: Iterable[SeenSet], shapes: Shapes | None) -> tuple[Reading, ...]:
    """Read sets as straight singles; those without a repetition or that can't be compared are out.

    Parameters
    ----------
    sets : iterable of SeenSet
        Of one lifter in one lift.
    shapes : Shapes or None
        The lifter's; None: sets with chain or bands can't be compared.
    """
    known: dict[tuple[int, float], float] = {}
    found = []
    for one in sets:
        if not one.reps or not one.placed or (one.hung is not None and shapes is None):
            continue
        key = (id(one.hung), one.straight_kg)
        if key not in known:
            known[key] = _as_hard(one.straight_kg, one.hung, shapes)
        as_hard_kg = known[key]
        factor = single_factor(one.total) if one.tells else least_factor(one.reps)
        found.append(
            Reading(seen=one, as_hard_kg=as_hard_kg, single_kg=as_hard_kg * factor, told=one.tells)
        )
    return tuple(found)


def _as_hard(straight_kg: float, hung: LoadCurve | None, shapes: Shapes | None) -> float:
    return straight_kg if shapes is None else straight_as_hard(straight_kg, hung, shapes)


def sampled_singles(readings: Iterable[Reading], shapes: Shapes | None) -> Floats:
    """The singles that sets may stand for, for each plausible lifter [kg].

    Parameters
    ----------
    readings : iterable of Reading
        Sets of one lifter.
    shapes : Shapes or None
        The lifter's.

    Returns
    -------
    array, shape (SAMPLES, readings)
        Singles [kg], none below the straight weight that is as hard as the set.
    """
    columns = [_sampled(reading, shapes) for reading in readings]
    return np.column_stack(columns) if columns else np.empty((SAMPLES, 0))


def spread_of(reading: Reading, shapes: Shapes | None) -> tuple[float, float]:
    """Between which singles 95 of 100 readings of a set lie [kg].

    Parameters
    ----------
    reading : Reading
        The set.
    shapes : Shapes or None
        The lifter's.
    """
    low, high = np.quantile(_sampled(reading, shapes), MOST_APART)
    return min(float(low), reading.single_kg), max(float(high), reading.single_kg)


def _sampled(reading: Reading, shapes: Shapes | None) -> Floats:
    seen = reading.seen
    if shapes is None:
        as_hard = np.full(SAMPLES, seen.straight_kg)
    else:
        as_hard = sampled_as_hard(seen.straight_kg, seen.hung, shapes)
    if not reading.told:
        return as_hard * least_factor(seen.reps)
    return as_hard * _factors(seen.reps, seen.reps_left or 0.0)


@cache
def _factors(reps: int, left: float) -> Floats:
    """Factors of plausible lifters: which formula holds, how they differ, how they misjudge."""
    if reps + left <= 1:
        return np.ones(SAMPLES)
    draws = np.random.default_rng(0)
    which = draws.permutation(SAMPLES) % len(FORMULAS)
    differs = draws.standard_normal(SAMPLES)
    off = draws.uniform(-OFF_LEFT, OFF_LEFT, SAMPLES) if left else np.zeros(SAMPLES)
    totals = reps + np.maximum(left + off, 0.0)
    factors = np.array(
        [
            1.0 if total <= 1 else FORMULAS[number].factor(total)
            for number, total in zip(which.tolist(), totals.tolist(), strict=True)
        ]
    )
    found: Floats = np.maximum(factors * (1 + differs * PER_REPETITION * (totals - 1)), 1.0)
    found.setflags(write=False)
    return found
