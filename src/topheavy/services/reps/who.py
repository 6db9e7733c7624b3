"""One lifter as known, and the many who might be this one: what every range comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.records import MissedRep, SpeedRead
from topheavy.lifter.motion.inputs import OnBar, RepLifter, StrengthRows
from topheavy.lifter.motion_model import model_for
from topheavy.lifter.plausible import (
    Seen,
    fitting,
    plausible_with,
    spread_reps,
    tuned_to_best_speed,
)
from topheavy.phrase import Amount, Phrase
from topheavy.services.hung_then import hung_curve_then

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.people import Station
    from topheavy.lifter.motion_model import Motion, MotionModel
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.services.rig import Place

    Fits = NDArray[np.bool_]

MANY: Final = 100
"""How many lifters every range is over."""

SPEED_U_M_PER_S: Final = 0.04
"""How far one rep's speed may be off what the same lifter usually does with that load [m/s], one
standard uncertainty, the device counted: own judgement."""

_CURVES: Final = 200
_SPARE: Final = 4
_FEWEST: Final = 20
_WITHIN_M: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Who:
    """A lifter, and many plausible ones who have this one's best, heights and records.

    Parameters
    ----------
    model : MotionModel
        The model of the lift.
    lifter : RepLifter
        The likeliest.
    motion : Motion
        The likeliest one's numbers: the model's own, with a reserve that moves this strength
        curve's 1RM as fast as the middle one of the many moves theirs.
    many : Motion
        Numbers of the many.
    each : RepLifter
        The same lifter with the strength of each of the many.
    strength : StrengthCurve
        What is known of strength.
    told : tuple of Phrase
        How records of reps narrowed the many, or why they did not.
    """

    model: MotionModel
    lifter: RepLifter
    motion: Motion
    many: Motion
    each: RepLifter
    strength: StrengthCurve
    told: tuple[Phrase, ...] = ()


def who_lifts(place: Place, strength: StrengthCurve, many: int = MANY) -> Who:
    """Put a lifter before the model: likeliest, and many who might be this one.

    Each of the many has a strength curve of its own that agrees with all evidence, moves plain
    weight as measured lifters do, and would have missed what this lifter missed, where it stopped,
    and moved known loads about as fast.

    Parameters
    ----------
    place : Place
        Who, what and where; records of missed reps and bar speed are used.
    strength : StrengthCurve
        Strength over the travel there.
    many : int
        How many plausible lifters [-], >= 1; fewer are left where records narrow them.

    Raises
    ------
    NotInStockError
        A lift that no load-velocity line was read for.
    BadInputError
        Heights or strength with which hardly any lifter moves as measured ones do.
    """
    model = model_for(place.lift.name)
    travel = place.travel
    lifter = RepLifter(
        best_kg=strength.full_range_kg,
        bottom_m=travel.bottom_m,
        top_m=travel.top_m,
        strength=strength,
    )
    records = [r for r in place.measured.records if isinstance(r, MissedRep | SpeedRead)]
    curves = StrengthRows(strength.height_m, strength.samples(_CURVES))
    wanted = many * _SPARE if records else many
    motions, rows = plausible_with(model, wanted, replace(lifter, strength=curves))
    who = Who(
        model=model,
        lifter=lifter,
        motion=model.typical(),
        many=motions,
        each=replace(lifter, strength=rows),
        strength=strength,
    )
    for record in records:
        who = _narrowed(place, who, record)
    who = _taken(who, np.arange(min(many, who.many.count)))
    return replace(who, motion=_in_the_middle(who))


def _in_the_middle(who: Who) -> Motion:
    """Numbers that move the likeliest 1RM as fast as the middle one of the many moves theirs."""
    rows = np.atleast_2d(np.asarray(who.each.strength_kg(who.many)))
    bests = spread_reps(who.each, OnBar(straight_kg=0.0), who.many, np.min(rows, axis=1))
    speed = float(np.median(bests.mean_m_per_s))
    try:
        return tuned_to_best_speed(who.model.typical(), speed, who.lifter.travel_m, who.lifter)
    except BadInputError:
        return who.model.typical()


def _narrowed(place: Place, who: Who, record: MissedRep | SpeedRead) -> Who:
    """Keep those who would have done what was written down; everybody when nobody would."""
    what = _what(record)
    try:
        fits = _fits(place, who, record)
    except TopheavyError as error:
        return replace(
            who, told=(*who.told, Phrase(f"{what.text}: {error.message}.", what.amounts))
        )
    left = int(fits.sum())
    if left < _FEWEST:
        said = "hardly any plausible lifter does that in the model, so it is not used here."
    else:
        said = (
            f"{left} of {fits.size} plausible lifters do that in the model; the rest are left out."
        )
        who = _taken(who, np.flatnonzero(fits))
    return replace(who, told=(*who.told, Phrase(f"{what.text}: {said}", what.amounts)))


def _fits(place: Place, who: Who, record: MissedRep | SpeedRead) -> Fits:
    if isinstance(record, SpeedRead):
        return _as_fast(who, record)
    there = place.measured.travel
    shift_m = place.travel.bottom_m - there.bottom_m
    stopped_m, u_m = record.stopped_at(there)
    on_bar = OnBar(straight_kg=record.straight_kg)
    if record.hung is not None:
        curve = hung_curve_then(record.hung, place.gym.stock, _where(place), there)
        on_bar = replace(on_bar, hung=curve.raised(shift_m))
    seen = Seen(
        on_bar=on_bar,
        completed=False,
        stuck_at_m=stopped_m + shift_m,
        within_m=max(_WITHIN_M, 2.0 * u_m),
    )
    return fitting(who.each, who.many, seen)


def _as_fast(who: Who, record: SpeedRead) -> Fits:
    """Draw from the many by how near their speed is to the one that was read."""
    ascents = spread_reps(who.each, OnBar(straight_kg=record.load_kg), who.many)
    mean = record.kind == "mean"
    speed = ascents.mean_m_per_s if mean else ascents.propulsive_m_per_s
    off = (speed - record.speed_m_per_s) / SPEED_U_M_PER_S
    chance = np.where(ascents.completed, np.exp(-0.5 * off**2), 0.0)
    dice = np.random.default_rng([who.many.count, 3])
    fits: Fits = dice.random(chance.size) < chance
    return fits


def _where(place: Place) -> Station:
    """Where the heights were measured, and so where the records were made."""
    there = place.measured.station
    return place.gym.station(there) if there else place.station


def _taken(who: Who, which: NDArray[np.intp]) -> Who:
    rows = who.each.strength
    if not isinstance(rows, StrengthRows):
        return who
    kept = StrengthRows(rows.height_m, rows.strength_kg[which])
    return replace(who, many=who.many.taken(which), each=replace(who.each, strength=kept))


def _what(record: MissedRep | SpeedRead) -> Phrase:
    if isinstance(record, SpeedRead):
        said = f"{record.speed_m_per_s:g} m/s with {{}}"
        return Phrase(said, (Amount(record.load_kg, "mass"),))
    said = "the miss with {}"
    return Phrase(said, (Amount(record.straight_kg, "mass"),))
