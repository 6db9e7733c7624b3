"""A rep: how the bar goes up, for one lifter or thousands at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.columns import joined, taken
from topheavy.lifter.motion.easing import ease_off
from topheavy.lifter.motion.lockout import last_moment
from topheavy.lifter.motion.march import EASED, STALLED, climb_up
from topheavy.lifter.motion.peak import peak_force_n
from topheavy.lifter.motion.sticking import Sticking, sticking_region
from topheavy.lifter.motion.track import Energy, Track, energy_of, tidy_track, vertex

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.easing import Easing
    from topheavy.lifter.motion.inputs import OnBar, RepLifter
    from topheavy.lifter.motion.lockout import Moment
    from topheavy.lifter.motion.march import Steps
    from topheavy.lifter.motion.raising import Climb
    from topheavy.lifter.motion_model import Motion

    Floats = NDArray[np.float64]

AT_ONCE: Final = 2048
"""Reps that march together: their arrays fit the processor's cache."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ascents:
    """How n reps went up. Predictions of a fitted model, validated by no study found.

    Parameters
    ----------
    completed : array of bool, shape (n,)
        Whether lockout was reached.
    duration_s : array, shape (n,)
        From first movement to lockout, or to where a missed rep stops [s].
    reached_part : array, shape (n,)
        Share of the travel that was reached [-]: 1 when completed.
    mean_m_per_s, propulsive_m_per_s, peak_m_per_s : array, shape (n,)
        Mean speed; mean speed of the propulsive phase, until the bar slows by more than free
        fall; greatest speed [m/s].
    peak_force_n, peak_force_ratio : array, shape (n,)
        Greatest force of the lifter on bar and limbs [N], and over the force that holds them
        still at the bottom [-]. With plain weight the ratio is 1 + greatest acceleration / g.
    peak_power_w, mean_power_w : array, shape (n,)
        Power of that force [W].
    propulsive_share, slowing_share : array, shape (n,)
        Shares of the time: until the bar slows by more than free fall, and from the last peak of
        speed to lockout [-]. nan in missed reps.
    top_load_kg, hung_top_kg : array, shape (n,)
        Load at rest at lockout, and what of it hangs [kg].
    sticking : Sticking
        Where the bar sticks.
    energy : Energy
        Where the work went.
    """

    completed: NDArray[np.bool_]
    duration_s: Floats
    reached_part: Floats
    mean_m_per_s: Floats
    propulsive_m_per_s: Floats
    peak_m_per_s: Floats
    peak_force_n: Floats
    peak_force_ratio: Floats
    peak_power_w: Floats
    mean_power_w: Floats
    propulsive_share: Floats
    slowing_share: Floats
    top_load_kg: Floats
    hung_top_kg: Floats
    sticking: Sticking
    energy: Energy

    @property
    def count(self) -> int:
        """How many reps."""
        return self.completed.size


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Path:
    """One rep drawn out, from first movement to lockout or stall.

    Parameters
    ----------
    time_s, height_m, speed_m_per_s, force_n, power_w : array, shape (p,)
        Time [s], height of the bar above the floor [m], speed [m/s], force of the lifter with
        limbs [N], power [W].
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    power_w: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rep:
    """One rep: its path, and its figures as arrays of one.

    `path` is drawn on fine steps; `ascent` is an `Ascents` of one rep.
    """

    path: Path
    ascent: Ascents


def simulate(lifter: RepLifter, on_bar: OnBar, motion: Motion) -> Rep:
    """Simulate one rep, going up from rest at the bottom with all the lifter has.

    Parameters
    ----------
    lifter : RepLifter
        Who: 1RM, heights, strength.
    on_bar : OnBar
        What: plates, chain, bands.
    motion : Motion
        Numbers of the model, of one lifter.

    Returns
    -------
    Rep
        Path and figures.

    Raises
    ------
    BadInputError
        A value out of range.

    Notes
    -----
    The model's numbers come from a fit to load-velocity lines measured with plain weight; what it
    says of chain and bands is a prediction that no study found has tested.

    Examples
    --------
    >>> from topheavy.lifter.motion.inputs import OnBar, RepLifter
    >>> from topheavy.lifter.motion_model import BENCH
    >>> lifter = RepLifter(best_kg=100.0, bottom_m=0.75, top_m=1.15)
    >>> rep = simulate(lifter, OnBar(straight_kg=80.0), BENCH.typical())
    >>> round(float(rep.ascent.mean_m_per_s[0]), 2)
    0.46
    """
    climb = RepBatch.of(lifter, on_bar, motion).climb()
    march = _march(climb, fineness=4)
    return Rep(path=_path(march, lifter.bottom_m), ascent=_figures(climb, march))


def simulate_batch(batch: RepBatch) -> Ascents:
    """Simulate every rep of a batch.

    Parameters
    ----------
    batch : RepBatch
        The reps.

    Returns
    -------
    Ascents
        Figures of each, in the batch's order. Duration and peak force are within 0.1 % of an
        adaptive solver at tight tolerance.

    Raises
    ------
    BadInputError
        A value out of range, or arrays that do not belong together.
    """
    whole = batch.order()
    parts = [whole[i : i + AT_ONCE] for i in range(0, whole.size, AT_ONCE)]
    done = [_figures(climb, _march(climb)) for climb in (batch.climb(part) for part in parts)]
    back = np.empty_like(whole)
    back[whole] = np.arange(whole.size)
    return taken(joined(done), back)


@dataclass(frozen=True, slots=True, eq=False)
class _March:
    steps: Steps
    on: Moment
    easing: Easing
    track: Track


def _march(climb: Climb, fineness: int = 1) -> _March:
    steps = climb_up(climb, fineness)
    on = last_moment(climb, steps)
    return _March(steps, on, ease_off(climb, on), tidy_track(steps, on))


def _figures(climb: Climb, march: _March) -> Ascents:
    steps, on, track = march.steps, march.on, march.track
    eased = steps.end == EASED
    missed = steps.end == STALLED
    ease = march.easing.ease_m_per_s2
    duration = np.where(eased, march.easing.time_s[-1], on.time_s)
    reached = np.where(missed, on.height_m, climb.travel_m)
    sticking = sticking_region(track, climb.travel_m, missed)
    energy = energy_of(climb, on, march.easing, eased.astype(np.float64))
    peak_n = peak_force_n(climb, track)
    pulled = eased & (ease > STANDARD_GRAVITY_M_PER_S2)
    return Ascents(
        completed=~missed,
        duration_s=duration,
        reached_part=reached / climb.travel_m,
        mean_m_per_s=_over(reached, duration),
        propulsive_m_per_s=_over(
            np.where(pulled, on.height_m, reached), np.where(pulled, on.time_s, duration)
        ),
        peak_m_per_s=_highest(track, track.speed_m_per_s),
        peak_force_n=peak_n,
        peak_force_ratio=peak_n / climb.held_n(0),
        peak_power_w=_highest(track, track.force_n * track.speed_m_per_s),
        mean_power_w=_over(energy.work_j, duration),
        propulsive_share=np.where(
            missed, np.nan, np.where(pulled, _over(on.time_s, duration), 1.0)
        ),
        slowing_share=np.where(missed, np.nan, 1.0 - _over(sticking.last_peak_s, duration)),
        top_load_kg=climb.held_n(-1) / STANDARD_GRAVITY_M_PER_S2 - climb.limbs_kg,
        hung_top_kg=climb.hung_kg[climb.rig, -1],
        sticking=sticking,
        energy=energy,
    )


def _highest(track: Track, value: Floats) -> Floats:
    """Greatest of each column, refined by a parabola between the steps."""
    return vertex(track.time_s, value, np.argmax(value, axis=0))[1]


def _over(amount: Floats, time_s: Floats) -> Floats:
    """Divide by a time that may be 0: nothing on_bar, nan."""
    some = time_s > 0.0
    return np.where(some, amount / np.where(some, time_s, 1.0), np.nan)


def _path(march: _March, bottom_m: float) -> Path:
    track, rows = march.track, int(march.steps.last[0]) + 2
    tables = (track.time_s, track.height_m, track.speed_m_per_s, track.force_n)
    columns = [[table[:rows, 0]] for table in tables]
    if march.steps.end[0] == EASED:
        easing = march.easing
        tail = (easing.time_s, easing.height_m, easing.speed_m_per_s, easing.force_n)
        for column, table in zip(columns, tail, strict=True):
            column.append(table[1:, 0])
    time, height, speed, force = (np.concatenate(column) for column in columns)
    return Path(
        time_s=time,
        height_m=bottom_m + height,
        speed_m_per_s=speed,
        force_n=force,
        power_w=force * speed,
    )
