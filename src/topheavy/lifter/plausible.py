"""Many lifters in place of one: those whose reps look like measured ones, narrowed by what is seen.

A load-velocity line does not tell the numbers of the model apart, least of all the strength at
lockout. So answers come as ranges over all the lifters that fit, and one missed rep, or one best
with chain, is worth more than any default.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.columns import joined
from topheavy.lifter.rep import simulate_batch
from topheavy.lifter.velocity import LINES, plain_reps, speed_of
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.inputs import OnBar, RepLifter
    from topheavy.lifter.motion_model import Motion, MotionModel
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]

_LOADS: Final = (0.5, 0.7, 0.9, 1.0)
_BATCH: Final = 1024
_BATCHES: Final = 60
_PATIENCE: Final = 4
_RARE: Final = 0.002


def plausible(
    model: MotionModel, count: int, seed: int = 0, travel_m: float | None = None
) -> Motion:
    """Draw lifters that lift plain weight about as fast as measured ones do.

    Numbers are drawn from their ranges; a lifter is kept with the chance that its speeds at 50,
    70, 90 and 100 % of 1RM, taken together, have under the published line and its error.

    Parameters
    ----------
    model : MotionModel
        The model of the lift.
    count : int
        How many lifters [-], >= 1.
    seed : int
        Which draw [-]; the same seed gives the same lifters.
    travel_m : float, optional
        Travel of the lifter at hand [m]; the model's own when None.

    Returns
    -------
    Motion
        Numbers of `count` lifters, every one of whom completes a 1RM.

    Raises
    ------
    BadInputError
        With this travel hardly any lifter moves as measured ones do.
    """
    line = LINES[model.pattern]
    travel = travel_m or model.travel_m.value
    loads = np.array(_LOADS)
    published = line.speed_at(loads)
    dice = np.random.default_rng([seed, 1])
    kept: list[Motion] = []
    found = 0
    for batch in range(_BATCHES):
        drawn = model.drawn(_BATCH, seed * _BATCHES + batch)
        many = drawn.taken(np.tile(np.arange(_BATCH), loads.size))
        ascents = plain_reps(many, np.repeat(loads, _BATCH), travel)
        speed = speed_of(ascents, line.kind).reshape(loads.size, _BATCH)
        off = (speed - published[:, None]) / line.error_m_per_s
        chance = np.exp(-0.5 * np.mean(off**2, axis=0))
        good = np.flatnonzero(dice.random(_BATCH) < np.where(np.isnan(chance), 0.0, chance))
        if good.size:
            kept.append(drawn.taken(good[: count - found]))
            found += kept[-1].count
        if found >= count:
            return joined(kept)
        if batch >= _PATIENCE and found < _RARE * (batch + 1) * _BATCH:
            break
    raise BadInputError(
        f"With a travel of {travel:g} m hardly any {model.pattern} in the model moves as measured",
        field="travel_m",
        got=travel,
        wanted=f"{model.travel_m.low:g} to {model.travel_m.high:g} m",
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """One rep that this lifter was seen to do, with all there was.

    Parameters
    ----------
    on_bar : OnBar
        What was on the bar.
    completed : bool
        Whether it reached lockout.
    stuck_at_m : float or None
        Height at which a missed rep stopped, or a made one was slowest [m], floor to bar centre.
    within_m : float
        How well that height is known [m], > 0.
    """

    on_bar: OnBar
    completed: bool
    stuck_at_m: float | None = None
    within_m: float = 0.05


def narrowed(lifter: RepLifter, lifters: Motion, seen: Seen) -> Motion:
    """Keep the lifters who would have done what was seen.

    Parameters
    ----------
    lifter : RepLifter
        Who was seen.
    lifters : Motion
        Numbers of many lifters, such as `plausible` draws.
    seen : Seen
        The rep.

    Returns
    -------
    Motion
        Numbers of those left.

    Raises
    ------
    BadInputError
        Nobody is left: what was seen contradicts the 1RM, the heights or the model.
    """
    ascents = simulate_batch(RepBatch.of(lifter, seen.on_bar, lifters))
    fits = ascents.completed == seen.completed
    if seen.stuck_at_m is not None:
        part = (seen.stuck_at_m - lifter.bottom_m) / lifter.travel_m
        at = np.where(ascents.completed, ascents.sticking.slowest_part, ascents.reached_part)
        near = np.abs(np.nan_to_num(at, nan=np.inf) - part) * lifter.travel_m <= seen.within_m
        fits = fits & near
    if not fits.any():
        raise BadInputError(
            f"No lifter with this 1RM does that with {seen.on_bar.name} in the model",
            field="seen",
            got="completed" if seen.completed else "missed",
            wanted="another 1RM, other heights, or a strength curve of this lifter's own",
        )
    return lifters.taken(fits)


def tuned_to_best_speed(motion: Motion, speed_m_per_s: float, travel_m: float) -> Motion:
    """Set `Motion.reserve` so that a 1RM moves as fast as this lifter's does.

    Powerlifters grind slower than the students that lines were measured on, since they take a
    1RM nearer to their limit.

    Parameters
    ----------
    motion : Motion
        Numbers of one lifter.
    speed_m_per_s : float
        Mean speed of the lifter's 1RM with plain weight [m/s], > 0.
    travel_m : float
        Travel [m].

    Raises
    ------
    BadInputError
        No reserve gives that speed.
    """
    require_positive("speed_m_per_s", speed_m_per_s)
    reserve = np.linspace(0.6, 1.2, 61)
    for _ in range(3):
        many = replace(motion.spread(reserve.size), reserve=reserve)
        ascents = plain_reps(many, 1.0, travel_m)
        fast = ascents.completed & (ascents.mean_m_per_s > speed_m_per_s)
        last = int(np.sum(np.logical_and.accumulate(fast))) - 1
        if last < 0 or last + 1 == reserve.size:
            raise BadInputError(
                "A 1RM does not move like that in the model",
                field="speed_m_per_s",
                got=speed_m_per_s,
                wanted="a mean speed such as 0.1 to 0.4 m/s",
            )
        reserve = np.linspace(reserve[last], reserve[last + 1], 41)
    return replace(motion, reserve=float(reserve[0]))


def spread_reps(lifter: RepLifter, on_bar: OnBar, lifters: Motion) -> Ascents:
    """Simulate one rig for many plausible lifters: the spread of every figure."""
    return simulate_batch(RepBatch.of(lifter, on_bar, lifters))
