"""Easing off into lockout: slowing down steadily, in closed form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.raising import CELLS, hangs_at, table_at

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.lockout import Moment
    from topheavy.lifter.motion.raising import Climb

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

SLICES: Final = 24
"""Slices that easing off is cut into to add up work and to draw it."""

_FEW: Final = 6
"""Slices that are enough to tell whether a lifter has the force to ease off."""


class _Slowing:
    """Reps that slow down steadily to rest at lockout, in slices of height.

    Where the bar slows by more than free fall the lifter pulls it down, and the chain, which
    can't be pushed, flies up slack.
    """

    def __init__(
        self, climb: Climb, which: Ints, state: tuple[Floats, Floats], slices: int
    ) -> None:
        height_m, speed = state
        share = np.linspace(0.0, 1.0, slices + 1)[:, None]
        left_m = climb.travel_m[which] - height_m
        some = left_m > 0.0
        self.ease = np.where(some, speed**2 / (2.0 * np.where(some, left_m, 1.0)), 0.0)
        self.height_m = height_m + share * left_m
        self.speed = speed * np.sqrt(1.0 - share)
        hung_kg, pull_n = hangs_at(climb, self.height_m, which)
        apparent = STANDARD_GRAVITY_M_PER_S2 - self.ease
        self.slice_m = left_m / slices
        self.other_n = climb.steady_kg[which] * apparent + pull_n
        joins = np.diff(hung_kg, axis=0)
        steep = joins / np.where(some, self.slice_m, np.inf)
        steep = climb.pick_up[which] * np.concatenate([steep, steep[-1:]])
        self.force_n = self.other_n + np.maximum(hung_kg * apparent + steep * self.speed**2, 0.0)
        square = 0.5 * (self.speed[1:] ** 2 + self.speed[:-1] ** 2)
        self.joins_j = climb.pick_up[which] * joins * square
        self.chain_j = _between(hung_kg) * apparent * self.slice_m + self.joins_j


def can_ease(
    climb: Climb, which: Ints, time_s: Floats, height_m: Floats, speed: Floats
) -> NDArray[np.bool_]:
    """Tell which reps can slow down steadily to rest at lockout: no more force is asked than had.

    Parameters
    ----------
    climb : Climb
        All reps.
    which : array of int, shape (m,)
        Those asked about.
    time_s, height_m, speed : array, shape (m,)
        Time since the start [s], where they are above the bottom [m], and how fast [m/s].
    """
    slowing = _Slowing(climb, which, (height_m, speed), _FEW)
    cell = slowing.height_m * (CELLS / climb.travel_m[which])
    had_n = table_at(climb.capacity_n, which, cell) * np.exp(-time_s / climb.fatigue_s[which])
    x = slowing.speed / climb.speed_limit_m_per_s[which]
    had_n = had_n * (1.0 - x) / (1.0 + x / climb.hill[which])
    enough: NDArray[np.bool_] = np.all(slowing.force_n <= had_n, axis=0)
    return enough & (height_m < climb.travel_m[which])


@dataclass(frozen=True, slots=True, eq=False)
class Easing:
    """Easing off into lockout, at SLICES + 1 evenly spaced heights of each of n reps.

    Parameters
    ----------
    time_s, height_m, speed_m_per_s, force_n : array, shape (SLICES + 1, n)
        Time [s], height above the bottom [m], speed [m/s], force of the lifter [N].
    ease_m_per_s2 : array, shape (n,)
        How hard the bar is slowed [m/s2].
    work_j, lost_j : array, shape (n,)
        Work of the lifter [J], which may be below zero: the lifter holds the bar back; and what
        joining links and chain thrown slack take [J].
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    ease_m_per_s2: Floats
    work_j: Floats
    lost_j: Floats


def ease_off(climb: Climb, on: Moment) -> Easing:
    """Slow down steadily from the moment `on` to rest at lockout.

    Parameters
    ----------
    climb : Climb
        The reps.
    on : Moment
        Where each begins to ease off.
    """
    everyone = np.arange(climb.count)
    slowing = _Slowing(climb, everyone, (on.height_m, on.speed_m_per_s), SLICES)
    slack_j = np.maximum(-slowing.chain_j, 0.0)
    plates_j = _between(slowing.other_n) * slowing.slice_m
    gone = np.where(slowing.ease > 0.0, slowing.ease, np.inf)
    return Easing(
        time_s=on.time_s + (on.speed_m_per_s - slowing.speed) / gone,
        height_m=slowing.height_m,
        speed_m_per_s=slowing.speed,
        force_n=slowing.force_n,
        ease_m_per_s2=slowing.ease,
        work_j=np.sum(plates_j + slowing.chain_j + slack_j, axis=0),
        lost_j=np.sum(slack_j + (1.0 - 0.5 / climb.pick_up) * slowing.joins_j, axis=0),
    )


def _between(rows: Floats) -> Floats:
    return 0.5 * (rows[1:] + rows[:-1])
