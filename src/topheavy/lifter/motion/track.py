"""The track of a bar: time, height, speed and force, tidied up to the end of full effort."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.raising import CELLS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.easing import Easing
    from topheavy.lifter.motion.lockout import Moment
    from topheavy.lifter.motion.march import Steps
    from topheavy.lifter.motion.raising import Climb

    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Track:
    """Time [s], height above the bottom [m], speed [m/s] and force [N], shape (rows, n) each.

    A rep that ends early repeats its last row.
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats


def tidy_track(steps: Steps, on: Moment) -> Track:
    """Cut every rep's steps off at the moment full effort ends."""
    rows = int(steps.last.max()) + 2
    over = np.arange(rows)[:, None] > steps.last[None, :]
    pairs = (
        (steps.time_s[:rows, None], on.time_s),
        (steps.height_m[:rows], on.height_m),
        (steps.speed_m_per_s[:rows], on.speed_m_per_s),
        (steps.force_n[:rows], on.force_n),
    )
    return Track(*(np.where(over, last[None, :], table) for table, last in pairs))


def vertex(time_s: Floats, value: Floats, row: NDArray[np.intp]) -> tuple[Floats, Floats]:
    """Refine a turning point next to a row of each column by a parabola through three rows.

    Parameters
    ----------
    time_s, value : array, shape (rows, n)
        Time [s] and what turns [any unit].
    row : array of int, shape (n,)
        Where it turns, to a row.

    Returns
    -------
    time_s, value : array, shape (n,)
        The turning point; the row itself where nothing turns, as at the first and last row.
    """
    at = np.arange(row.size)
    around = np.maximum(row - 1, 0), row, np.minimum(row + 1, len(value) - 1)
    t0, t1, t2 = (time_s[r, at] for r in around)
    v0, v1, v2 = (value[r, at] for r in around)
    inside = (t0 < t1) & (t1 < t2)
    left = (v1 - v0) / np.where(inside, t1 - t0, 1.0)
    right = (v2 - v1) / np.where(inside, t2 - t1, 1.0)
    span = np.where(inside, t2 - t0, 1.0)
    bend = (right - left) / span
    slope = (left * (t2 - t1) + right * (t1 - t0)) / span
    turns = inside & (left * right < 0.0)
    shift = np.where(turns, -slope / np.where(turns, 2.0 * bend, 1.0), 0.0)
    return t1 + shift, v1 + shift * (slope + bend * shift)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Energy:
    """Where the lifter's work went, in n reps [J], shape (n,) each.

    Parameters
    ----------
    work_j : array
        Work of the lifter on the bar, added up along the way.
    lifted_j : array
        Raising bar, plates and limbs.
    chain_j : array
        Raising chain.
    band_j : array
        Stretching bands.
    lost_j : array
        Jerking links into motion, and chain thrown slack before lockout.
    kinetic_j : array
        Motion left at the end: of a bar that arrives at lockout still moving.
    """

    work_j: Floats
    lifted_j: Floats
    chain_j: Floats
    band_j: Floats
    lost_j: Floats
    kinetic_j: Floats

    @property
    def imbalance(self) -> Floats:
        """What the parts miss of the work, as a share of it [-]; 0 where nothing was lifted."""
        parts = self.lifted_j + self.chain_j + self.band_j + self.lost_j + self.kinetic_j
        some = self.lifted_j + self.chain_j + self.band_j > 0.0
        return np.where(some, (self.work_j - parts) / np.where(some, parts, 1.0), 0.0)

    @property
    def chain_share(self) -> Floats:
        """Share of the work that went into chain, losses included [-]."""
        some = self.work_j > 0.0
        gone = self.chain_j + self.lost_j
        return np.where(some, gone / np.where(some, self.work_j, 1.0), 0.0)


def energy_of(climb: Climb, on: Moment, easing: Easing, eased: Floats) -> Energy:
    """Account for the work of every rep.

    Parameters
    ----------
    climb, on, easing : Climb, Moment, Easing
        The reps, and how they went.
    eased : array, shape (n,)
        1 for reps that ease into lockout, else 0 [-].
    """
    height_m = np.where(eased > 0, climb.travel_m, on.height_m)
    work = on.work_j + eased * easing.work_j
    band = np.zeros(climb.count)
    if climb.pull_n is not None:
        band = _area(climb, climb.pull_n, height_m)
    return Energy(
        work_j=work,
        lifted_j=STANDARD_GRAVITY_M_PER_S2 * climb.steady_kg * height_m,
        chain_j=STANDARD_GRAVITY_M_PER_S2 * _area(climb, climb.hung_kg, height_m),
        band_j=band,
        lost_j=(climb.pick_up - 0.5) * on.joined_j + eased * easing.lost_j,
        kinetic_j=(1.0 - eased) * 0.5 * on.mass_kg * on.speed_m_per_s**2,
    )


def _area(climb: Climb, table: Floats, height_m: Floats) -> Floats:
    """Integrate a table over height, from the bottom to `height_m`."""
    cell_m = climb.travel_m / CELLS
    sums = np.zeros_like(table)
    np.cumsum(0.5 * (table[:, 1:] + table[:, :-1]), axis=1, out=sums[:, 1:])
    cell = np.clip(height_m / cell_m, 0.0, CELLS)
    whole = np.minimum(cell.astype(np.intp), CELLS - 1)
    part = cell - whole
    low: Floats = table[climb.rig, whole]
    high: Floats = table[climb.rig, whole + 1]
    below: Floats = sums[climb.rig, whole]
    return cell_m * (below + part * (low + 0.5 * part * (high - low)))
