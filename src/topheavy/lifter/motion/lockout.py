"""The moment in which full effort ends: at a stall, on easing off, or at lockout."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.motion.march import ARRIVED, EASED, STALLED
from topheavy.lifter.motion.raising import Rates, Under

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.march import Steps
    from topheavy.lifter.motion.raising import Climb

    Floats = NDArray[np.float64]

_TRIES: Final = 8


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
        self.under = Under.of(climb, self.which)

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
        return height, self.under.rates(self.climb, height, drive, active)

    def beyond(self, part: Floats) -> Floats:
        """Zero at the ending, above it after."""
        height, drive = self.states(part)
        speed = self.under.speed(self.climb, height, drive)
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
    """Part of the last step at which each rep ends, by false position (Illinois).

    Its end where the step begins beyond the ending: a lifter who would have eased off before, but
    has the force to only now; and where the rep creeps on when time is up.
    """
    low, high = np.zeros(step.which.size), np.ones(step.which.size)
    at_low, at_high = step.beyond(low), step.beyond(high)
    at_its_end = (at_low > 0.0) | (at_high < 0.0)
    middle = high
    for _ in range(_TRIES):
        fall = at_high - at_low
        middle = low - at_low * (high - low) / np.where(fall > 0.0, fall, np.inf)
        middle = np.where(at_its_end, 1.0, middle)
        value = step.beyond(middle)
        after = value >= 0.0
        at_low = np.where(after, 0.5 * at_low, value)
        at_high = np.where(after, value, 0.5 * at_high)
        low, high = np.where(after, low, middle), np.where(after, middle, high)
    return middle


def _cubic(
    part: Floats, step_s: Floats, value: tuple[Floats, Floats], slope: tuple[Floats, Floats]
) -> Floats:
    """Hermite's cubic through two values and slopes."""
    p2, p3 = part**2, part**3
    bend = (p3 - 2.0 * p2 + part) * slope[0] + (p3 - p2) * slope[1]
    return (2.0 * p3 - 3.0 * p2 + 1.0) * value[0] + (3.0 * p2 - 2.0 * p3) * value[1] + step_s * bend
