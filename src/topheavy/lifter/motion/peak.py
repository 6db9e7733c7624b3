"""The greatest force, found between the steps: it comes early, while the force still builds up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.raising import CELLS, hangs_at, table_at

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.raising import Climb
    from topheavy.lifter.motion.track import Track

    Floats = NDArray[np.float64]

_PARTS: Final = np.linspace(0.0, 1.0, 9)[:, None]


def peak_force_n(climb: Climb, track: Track) -> Floats:
    """Greatest force of the lifter in each rep [N], shape (n,).

    Height and speed run as cubics through the steps on both sides of the greatest force, and the
    force is worked out along them.

    Parameters
    ----------
    climb : Climb
        The reps.
    track : Track
        How they went.
    """
    row = np.argmax(track.force_n, axis=0)
    at = np.arange(row.size)
    most: Floats = track.force_n[row, at]
    for before, after in ((row - 1, row), (row, row + 1)):
        ends = np.clip(before, 0, len(track.force_n) - 1), np.clip(after, 0, len(track.force_n) - 1)
        most = np.maximum(most, np.max(_forces_between(climb, track, ends), axis=0))
    return most


def _forces_between(
    climb: Climb, track: Track, ends: tuple[NDArray[np.intp], NDArray[np.intp]]
) -> Floats:
    """Force at evenly spaced moments between two rows of each rep, shape (parts, n)."""
    at = np.arange(climb.count)
    start, end = ((row, at) for row in ends)
    first, last = track.time_s[start], track.time_s[end]
    step = last - first
    v0, v1 = track.speed_m_per_s[start], track.speed_m_per_s[end]
    gain = [step * _acceleration(climb, track, side) for side in (start, end)]
    p = _PARTS
    bend = (p**3 - 2 * p**2 + p) * gain[0] + (p**3 - p**2) * gain[1]
    speed = (2 * p**3 - 3 * p**2 + 1) * v0 + (3 * p**2 - 2 * p**3) * v1 + bend
    rise = (p - p**3 + 0.5 * p**4) * v0 + (p**3 - 0.5 * p**4) * v1
    rise = rise + (p**4 / 4 - 2 * p**3 / 3 + p**2 / 2) * gain[0] + (p**4 / 4 - p**3 / 3) * gain[1]
    height = track.height_m[start] + step * rise
    return _force(climb, first + p * step, height, speed)


def _force(climb: Climb, time_s: Floats, height_m: Floats, speed: Floats) -> Floats:
    held = 1.0 - climb.start_share
    active = (1.0 - held * np.exp(-time_s / climb.activation_s)) * np.exp(-time_s / climb.fatigue_s)
    cell = height_m * (CELLS / climb.travel_m)
    capacity = table_at(climb.capacity_n, np.arange(climb.count), cell)
    x = speed / climb.speed_limit_m_per_s
    return active * capacity * (1.0 - x) / (1.0 + x / climb.hill)


def _acceleration(
    climb: Climb, track: Track, place: tuple[NDArray[np.intp], NDArray[np.intp]]
) -> Floats:
    """Acceleration there [m/s2]; what joining links take is left out, it is little so early."""
    hung, pull = hangs_at(climb, track.height_m[place], place[1])
    mass = climb.steady_kg + hung
    return (track.force_n[place] - pull) / mass - STANDARD_GRAVITY_M_PER_S2
