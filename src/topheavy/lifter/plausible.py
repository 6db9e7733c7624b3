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
from topheavy.lifter.motion.inputs import OnBar, StrengthRows
from topheavy.lifter.rep import simulate_batch
from topheavy.lifter.velocity import LINES, plain_reps, speed_of
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from topheavy.lifter.motion.inputs import RepLifter
    from topheavy.lifter.motion_model import Motion, MotionModel
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]
    Reps = Callable[[Motion, Floats, int], Ascents]

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
    travel = travel_m or model.travel_m.value

    def reps(many: Motion, loads: Floats, _: int) -> Ascents:
        return plain_reps(many, loads, travel)

    drawn = _drawn(model, count, seed, travel, reps)
    return joined([motion for motion, _, _ in drawn])


def plausible_with(
    model: MotionModel, count: int, lifter: RepLifter, seed: int = 0
) -> tuple[Motion, StrengthRows]:
    """Draw lifters as `plausible` does, each with a strength curve of its own.

    Numbers and curve are drawn each by itself and kept together: a pair stays when it lifts plain
    weight as measured lifters do, its 1RM being the least of its curve.

    Parameters
    ----------
    model : MotionModel
        The model of the lift.
    count : int
        How many lifters [-], >= 1.
    lifter : RepLifter
        Heights, and as `strength` the curves to draw from, such as `StrengthCurve.samples`.
    seed : int
        Which draw [-].

    Returns
    -------
    Motion, StrengthRows
        Numbers of `count` lifters, and the strength of each at the heights of `lifter.grid_m`.

    Raises
    ------
    BadInputError
        With this travel, or these curves, hardly any lifter moves as measured ones do.
    """
    table = lifter.strength_kg(model.typical())
    least_kg = np.min(table, axis=1)

    def picked(batch: int) -> NDArray[np.intp]:
        return np.random.default_rng([seed, 2, batch]).integers(len(table), size=_BATCH)

    def reps(many: Motion, loads: Floats, batch: int) -> Ascents:
        which = np.tile(picked(batch), loads.size // _BATCH)
        return simulate_batch(
            RepBatch(
                motion=many,
                best_kg=least_kg[which],
                travel_m=lifter.travel_m,
                straight_kg=loads * least_kg[which],
                strength_kg=table,
                hung_kg=np.zeros((1, table.shape[1])),
                strength_of=which,
            )
        )

    drawn = _drawn(model, count, seed, lifter.travel_m, reps)
    rows = np.concatenate([picked(batch)[good] for _, good, batch in drawn])
    return joined([motion for motion, _, _ in drawn]), StrengthRows(lifter.grid_m, table[rows])


def _drawn(
    model: MotionModel, count: int, seed: int, travel_m: float, reps: Reps
) -> list[tuple[Motion, NDArray[np.intp], int]]:
    """Draw batches until enough lifters are kept: their numbers, places in the batch, and batch."""
    line = LINES[model.pattern]
    loads = np.array(_LOADS)
    published = line.speed_at(loads)
    dice = np.random.default_rng([seed, 1])
    kept: list[tuple[Motion, NDArray[np.intp], int]] = []
    found = 0
    for batch in range(_BATCHES):
        drawn = model.drawn(_BATCH, seed * _BATCHES + batch)
        many = drawn.taken(np.tile(np.arange(_BATCH), loads.size))
        ascents = reps(many, np.repeat(loads, _BATCH), batch)
        speed = speed_of(ascents, line.kind).reshape(loads.size, _BATCH)
        off = (speed - published[:, None]) / line.error_m_per_s
        chance = np.exp(-0.5 * np.mean(off**2, axis=0))
        good = np.flatnonzero(dice.random(_BATCH) < np.where(np.isnan(chance), 0.0, chance))
        good = good[: count - found]
        if good.size:
            kept.append((drawn.taken(good), good, batch))
            found += good.size
        if found >= count:
            return kept
        if batch >= _PATIENCE and found < _RARE * (batch + 1) * _BATCH:
            break
    raise BadInputError(
        f"With a travel of {travel_m:g} m hardly any {model.pattern} in the model moves as "
        "measured",
        field="travel_m",
        got=travel_m,
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
    fits = fitting(lifter, lifters, seen)
    if not fits.any():
        raise BadInputError(
            f"No lifter with this 1RM does that with {seen.on_bar.name} in the model",
            field="seen",
            got="completed" if seen.completed else "missed",
            wanted="another 1RM, other heights, or a strength curve of this lifter's own",
        )
    return lifters.taken(fits)


def fitting(lifter: RepLifter, lifters: Motion, seen: Seen) -> NDArray[np.bool_]:
    """Tell which of many lifters would have done what was seen; parameters as for `narrowed`."""
    ascents = simulate_batch(RepBatch.of(lifter, seen.on_bar, lifters))
    fits: NDArray[np.bool_] = ascents.completed == seen.completed
    if seen.stuck_at_m is not None:
        part = (seen.stuck_at_m - lifter.bottom_m) / lifter.travel_m
        at = np.where(ascents.completed, ascents.sticking.slowest_part, ascents.reached_part)
        near = np.abs(np.nan_to_num(at, nan=np.inf) - part) * lifter.travel_m <= seen.within_m
        fits = fits & near
    return fits


def tuned_to_best_speed(
    motion: Motion, speed_m_per_s: float, travel_m: float, lifter: RepLifter | None = None
) -> Motion:
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
    lifter : RepLifter, optional
        Whose strength curve to move it with; the model's typical shape when None.

    Raises
    ------
    BadInputError
        No reserve gives that speed.
    """
    require_positive("speed_m_per_s", speed_m_per_s)
    reserve = np.linspace(0.6, 1.2, 61)
    for _ in range(3):
        many = replace(motion.spread(reserve.size), reserve=reserve)
        ascents = (
            plain_reps(many, 1.0, travel_m)
            if lifter is None
            else spread_reps(lifter, OnBar(straight_kg=lifter.best_kg), many)
        )
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


def spread_reps(
    lifter: RepLifter, on_bar: OnBar, lifters: Motion, straight_kg: Floats | None = None
) -> Ascents:
    """Simulate one rig for many plausible lifters: the spread of every figure.

    Parameters
    ----------
    lifter : RepLifter
        Heights, 1RM and strength.
    on_bar : OnBar
        The rig.
    lifters : Motion
        Numbers of the many.
    straight_kg : array, optional
        Bar, collars and plates of each [kg], instead of the rig's own.
    """
    return simulate_batch(RepBatch.of(lifter, on_bar, lifters, straight_kg))
