"""How strong this lifter is at each height of a lift, from all that the gym knows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.contradictions import ContradictionError
from topheavy.lifter.evidence import FullRange, Miss, Partial, best_of
from topheavy.lifter.strength import strength_curve
from topheavy.services.evidence_words import evidence_phrase
from topheavy.services.gathered import gather
from topheavy.services.strength_advice import SAMPLES, Advice, tells_most
from topheavy.units import SYSTEMS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.evidence import Evidence
    from topheavy.lifter.one_rm import OneRepMax
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.services.gathered import Gathered
    from topheavy.services.known_of_lifter import Used
    from topheavy.services.rig import Place, RigQuestion

    Floats = NDArray[np.float64]

__all__ = ["FromSet", "StrengthAnswer", "answer_strength", "curve_from", "gather", "strength_of"]

_MOST: Final = (0.025, 0.975)


@dataclass(frozen=True, slots=True, kw_only=True)
class FromSet:
    """What a set stands for, by every formula."""

    used: Used
    best: OneRepMax


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrengthAnswer:
    """How strong a lifter is, and what that rests on.

    Parameters
    ----------
    place : Place
        Who, what and where.
    gathered : Gathered
        What is known.
    curve : StrengthCurve
        Strength by height.
    low_kg, high_kg : array, shape (heights,)
        Within which 95 of 100 plausible curves, and the likeliest, have the strength at each
        height [kg]. The curve's own low and high are all that is possible.
    best_low_kg, best_high_kg : float
        Within which 95 of 100 plausible curves have the full-range best [kg].
    weakest_low_m, weakest_high_m : float
        Within which 95 of 100 have their weakest height [m].
    sets : tuple of FromSet
        The sets among the evidence.
    advice : Advice
        The single that would tell most.
    """

    place: Place
    gathered: Gathered
    curve: StrengthCurve
    low_kg: Floats
    high_kg: Floats
    best_low_kg: float
    best_high_kg: float
    weakest_low_m: float
    weakest_high_m: float
    sets: tuple[FromSet, ...]
    advice: Advice


def answer_strength(place: Place, extra: Sequence[Evidence] = ()) -> StrengthAnswer:
    """Say how strong a lifter is at each height; parameters and errors as `strength_of`."""
    gathered = gather(place, extra)
    curve = curve_from(place, gathered)
    curves_kg = curve.samples(SAMPLES)
    low_kg, high_kg = np.quantile(curves_kg, _MOST, axis=0)
    best_low_kg, best_high_kg = np.quantile(np.min(curves_kg, axis=1), _MOST)
    low_m, high_m = np.quantile(curve.height_m[np.argmin(curves_kg, axis=1)], _MOST)
    return StrengthAnswer(
        place=place,
        gathered=gathered,
        curve=curve,
        low_kg=np.minimum(low_kg, curve.best_kg),
        high_kg=np.maximum(high_kg, curve.best_kg),
        best_low_kg=float(best_low_kg),
        best_high_kg=float(best_high_kg),
        weakest_low_m=float(low_m),
        weakest_high_m=float(high_m),
        sets=tuple(_sets(place, gathered)),
        advice=tells_most(curve, curves_kg),
    )


def _sets(place: Place, gathered: Gathered) -> list[FromSet]:
    found = []
    for one in gathered.used:
        if isinstance(one.piece, FullRange | Partial) and one.piece.maximal:
            best = best_of(one.piece, place.lift.name)
            if best.values_kg:
                found.append(FromSet(used=one, best=best))
    return found


def strength_of(place: Place, extra: Sequence[Evidence] = ()) -> StrengthCurve:
    """Make the strength curve of a lifter at a station from all that is known.

    Parameters
    ----------
    place : Place
        Who, what and where.
    extra : sequence of Evidence
        What is known besides; heights above the floor there. A single that was made replaces the
        best of the gym file.

    Raises
    ------
    NotInStockError
        Nothing says how strong the lifter is.
    BadInputError
        Pieces that contradict each other, or a height outside the lift.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gymfile import demo_gym
    >>> from topheavy.services.rig import Place
    >>> gym = demo_gym()
    >>> place = Place(
    ...     gym=gym,
    ...     lifter=gym.lifter("Osric"),
    ...     lift=lift_named("bench press"),
    ...     station=gym.station("bench 1"),
    ... )
    >>> curve = strength_of(place)
    >>> round(curve.full_range_kg, 1)
    142.5
    """
    return curve_from(place, gather(place, extra))


def strength_asked(question: RigQuestion) -> StrengthCurve:
    """Make the strength curve that goes with a rig question; raises as `strength_of`."""
    if question.matching is not None:
        return question.matching.strength
    return strength_of(question.place, question.evidence)


def curve_from(place: Place, gathered: Gathered) -> StrengthCurve:
    """Make the strength curve of what was gathered; raises as `strength_of`."""
    pieces = gathered.evidence
    if all(isinstance(piece, Miss) for piece in pieces):
        raise _nothing(place, gathered)
    try:
        return strength_curve(place.lift, place.travel, pieces)
    except ContradictionError as error:
        raise _told(error, place, gathered) from error


def _told(error: ContradictionError, place: Place, gathered: Gathered) -> BadInputError:
    """Name the pieces as the gym says them, and where each comes from."""
    units, top_m = SYSTEMS[place.gym.units], place.travel.top_m
    said = []
    for piece in error.pieces:
        origin = next((one.origin for one in gathered.used if one.piece is piece), "")
        said.append(f"{evidence_phrase(piece, top_m).say(units)} ({origin})")
    return BadInputError(
        error.message,
        field=f"{place.lifter.name}, {place.lift.name}",
        got="; ".join(said),
        wanted=error.wanted,
    )


def _nothing(place: Place, gathered: Gathered) -> NotInStockError:
    who, lift = place.lifter.name, place.lift.name
    not_used = "; ".join(one.say() for one in gathered.left_out)
    return NotInStockError(
        f"Nothing says how strong {who} is in the {lift}",
        field=f"{who}, {lift}",
        got=f"not used: {not_used}" if not_used else None,
        wanted=f"a best single in the {lift}, a set with the reps that were left, or a best from "
        "pins: as an option or in the gym file. Heights alone say nothing of strength",
    )
