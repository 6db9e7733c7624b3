"""How the way up ends: the very moment, and easing off into lockout in closed form."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.march import ARRIVED, EASED, STALLED
from topheavy.lifter.motion.raising import CELLS, Rates

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.march import Steps
    from topheavy.lifter.motion.raising import Climb

    Floats = NDArray[np.float64]

SLICES: Final = 24
"""Slices that easing off is cut into to add up work and to draw it."""

_TRIES: Final = 12


@dataclass(frozen=True, slots=True, eq=False)
class Moment:
    """Where full effort ends in each of n reps: at a stall, on easing off, or at lockout.

    Parameters
    ----------
    time_s, height_m, speed_m_per_s, force_n, mass_kg : array, shape (n,)
        Time [s], height above the bottom [m], speed [m/s], force of the lifter [N] and mass that
        moves [kg].
    work_j, joined_j : array, shape (n,)
        Work of the lifter until then, and twice the kinetic energy that links took up as they
        joined [J].
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    mass_kg: Floats
    work_j: Floats
    joined_j: Floats


class _LastStep:
    """The step in which each rep ends, as cubics through both ends of it."""

    def __init__(self, climb: Climb, steps: Steps) -> None:
        self.climb, self.steps = climb, steps
        self.which = np.arange(climb.count)
        first, second = steps.last, steps.last + 1
        self.start_s = steps.time_s[first]
        self.step_s = steps.time_s[second] - self.start_s
        at = self.which
        self.height = steps.height_m[first, at], steps.height_m[second, at]
        self.speed = steps.speed_m_per_s[first, at], steps.speed_m_per_s[second, at]
        self.drive = steps.drive[0], steps.drive[1]
        self.push = steps.push[0], steps.push[1]
        self.held = 1.0 - climb.start_share

    def states(self, part: Floats) -> tuple[Floats, Floats]:
        """Height and drive at a part of the step."""
        return _cubic(part, self.step_s, self.height, self.speed), _cubic(
            part, self.step_s, self.drive, self.push
        )

    def rates(self, part: Floats) -> tuple[Floats, Rates]:
        """Height, and the rates there."""
        time_s = self.start_s + part * self.step_s
        risen = 1.0 - self.held * np.exp(-time_s / self.climb.activation_s)
        active = risen * np.exp(-time_s / self.climb.fatigue_s)
        height, drive = self.states(part)
        return height, self.climb.rates(self.which, height, drive, active)

    def beyond(self, part: Floats) -> Floats:
        """Zero at the ending, above it after."""
        height, drive = self.states(part)
        mass = _mass(self.climb, height)
        speed = drive / mass**self.climb.pick_up
        left = self.climb.travel_m - height
        eased = speed**2 - 2.0 * self.climb.ease_m_per_s2 * left
        kind = self.steps.end
        return np.where(kind == STALLED, -drive, np.where(kind == EASED, eased, -left))


def last_moment(climb: Climb, steps: Steps) -> Moment:
    """Find the moment in which full effort ends, within the last step.

    Parameters
    ----------
    climb : Climb
        The reps.
    steps : Steps
        Their steps, from `climb_up`.
    """
    step = _LastStep(climb, steps)
    high = _root(step)
    height, now = step.rates(high)
    (_, first), (_, middle) = (step.rates(high * part) for part in (0.0, 0.5))
    power = first.force * first.speed + 4.0 * middle.force * middle.speed + now.force * now.speed
    joins = 0.5 * (now.mass - first.mass) * (now.speed**2 + first.speed**2)
    stalled = steps.end == STALLED
    return Moment(
        time_s=step.start_s + high * step.step_s,
        height_m=np.where(steps.end == ARRIVED, climb.travel_m, height),
        speed_m_per_s=np.where(stalled, 0.0, now.speed),
        force_n=now.force,
        mass_kg=now.mass,
        work_j=steps.work_j + high * step.step_s * power / 6.0,
        joined_j=steps.joined_j + joins,
    )


def _root(step: _LastStep) -> Floats:
    """Part of the last step at which each rep ends, by false position (Illinois)."""
    low, high = np.zeros(step.which.size), np.ones(step.which.size)
    at_low, at_high = step.beyond(low), step.beyond(high)
    middle = high
    for _ in range(_TRIES):
        fall = at_high - at_low
        middle = low - at_low * (high - low) / np.where(fall > 0.0, fall, np.inf)
        value = step.beyond(middle)
        after = value >= 0.0
        at_low = np.where(after, 0.5 * at_low, value)
        at_high = np.where(after, value, 0.5 * at_high)
        low, high = np.where(after, low, middle), np.where(after, middle, high)
    return middle


@dataclass(frozen=True, slots=True, eq=False)
class Easing:
    """Easing off into lockout, at SLICES + 1 evenly spaced heights of each of n reps.

    Parameters
    ----------
    time_s, height_m, speed_m_per_s, force_n : array, shape (SLICES + 1, n)
        Time [s], height above the bottom [m], speed [m/s], force of the lifter [N].
    work_j, lost_j : array, shape (n,)
        Work of the lifter [J], which may be below zero: the lifter holds the bar back; and what
        joining links and chain thrown slack take [J].
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    work_j: Floats
    lost_j: Floats


def ease_off(climb: Climb, on: Moment) -> Easing:
    """Slow down steadily from the moment `on` to rest at lockout, in closed form.

    Where the bar slows by more than free fall the lifter pulls it down, and the chain, which
    can't be pushed, flies up slack.

    Parameters
    ----------
    climb : Climb
        The reps.
    on : Moment
        Where each begins to ease off.
    """
    ease = climb.ease_m_per_s2
    share = np.linspace(0.0, 1.0, SLICES + 1)[:, None]
    left_m = climb.travel_m - on.height_m
    height_m = on.height_m + share * left_m
    speed = on.speed_m_per_s * np.sqrt(1.0 - share)
    hung_kg, pull_n = hangs_at(climb, height_m)
    apparent = STANDARD_GRAVITY_M_PER_S2 - ease
    joins = climb.pick_up * np.diff(hung_kg, axis=0) * (0.5 * (speed[1:] ** 2 + speed[:-1] ** 2))
    slice_m = left_m / SLICES
    chain_j = _between(hung_kg) * apparent * slice_m + joins
    slack_j = np.maximum(-chain_j, 0.0)
    other_n = climb.steady_kg * apparent + pull_n
    work = np.sum(_between(other_n) * slice_m + chain_j + slack_j, axis=0)
    steep = np.diff(hung_kg, axis=0) / np.where(slice_m > 0.0, slice_m, np.inf)
    steep = np.concatenate([steep, steep[-1:]])
    chain_n = np.maximum(hung_kg * apparent + climb.pick_up * steep * speed**2, 0.0)
    return Easing(
        time_s=on.time_s + (on.speed_m_per_s - speed) / ease,
        height_m=height_m,
        speed_m_per_s=speed,
        force_n=other_n + chain_n,
        work_j=work,
        lost_j=np.sum(slack_j + (1.0 - 0.5 / climb.pick_up) * joins, axis=0),
    )


def table_at(table: Floats, row: NDArray[np.intp], cell: Floats) -> Floats:
    """Read tables of shape (r, CELLS + 1) between their heights, `cell` [cells] from the bottom."""
    cell = np.clip(cell, 0.0, CELLS)
    whole = np.minimum(cell.astype(np.intp), CELLS - 1)
    low: Floats = table[row, whole]
    high: Floats = table[row, whole + 1]
    return low + (cell - whole) * (high - low)


def _mass(climb: Climb, height_m: Floats) -> Floats:
    cell = height_m * (CELLS / climb.travel_m)
    return climb.steady_kg + table_at(climb.hung_kg, climb.rig, cell)


def hangs_at(climb: Climb, height_m: Floats) -> tuple[Floats, Floats]:
    """Chain off the floor [kg] and pull of bands [N] at heights of shape (rows, n)."""
    cell = height_m * (CELLS / climb.travel_m)
    hung = table_at(climb.hung_kg, climb.rig, cell)
    if climb.pull_n is None:
        return hung, np.zeros_like(hung)
    return hung, table_at(climb.pull_n, climb.rig, cell)


def _between(rows: Floats) -> Floats:
    return 0.5 * (rows[1:] + rows[:-1])


def _cubic(
    part: Floats, step_s: Floats, value: tuple[Floats, Floats], slope: tuple[Floats, Floats]
) -> Floats:
    """Hermite's cubic through two values and slopes."""
    p2, p3 = part**2, part**3
    bend = (p3 - 2.0 * p2 + part) * slope[0] + (p3 - p2) * slope[1]
    return (2.0 * p3 - 3.0 * p2 + 1.0) * value[0] + (3.0 * p2 - 2.0 * p3) * value[1] + step_s * bend
