"""Where a bar sticks: from its first peak of speed, through its slowest, until it has recovered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.motion.track import vertex

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.track import Track

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

LEAST_DROP: Final = 0.01
"""The bar sticks when it loses at least this share of its first peak speed (assumed: less can't be
told from a wobble)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sticking:
    """The sticking region of n reps: nan throughout where the bar does not stick.

    Studies call the part from `start` to `slowest` the sticking period.

    Parameters
    ----------
    start_s, slowest_s, end_s : array, shape (n,)
        Time of the first peak of speed, of the least speed after it, and of when the bar is as
        fast again as at the start, or else at its second peak [s]. A missed rep has no end.
    start_part, slowest_part, end_part : array, shape (n,)
        Share of the travel done by then [-].
    start_m_per_s, slowest_m_per_s : array, shape (n,)
        Speed at the start and at the slowest [m/s].
    last_peak_s : array, shape (n,)
        Time of the last peak of speed [s]: from here on the bar slows towards lockout. Given
        whether the bar sticks or not.
    """

    start_s: Floats
    slowest_s: Floats
    end_s: Floats
    start_part: Floats
    slowest_part: Floats
    end_part: Floats
    start_m_per_s: Floats
    slowest_m_per_s: Floats
    last_peak_s: Floats


def sticking_region(track: Track, travel_m: Floats, missed: NDArray[np.bool_]) -> Sticking:
    """Find the sticking region of every rep.

    Parameters
    ----------
    track : Track
        Time, height and speed of the reps, shape (rows, n) each.
    travel_m : array, shape (n,)
        Travel [m].
    missed : array of bool, shape (n,)
        Reps that stall: they stick where they stop.

    References
    ----------
    Defined as in van den Tillaar & Ettema, J. Sports Sci. 28 (2010) 529 (abstract).
    """
    rise = np.diff(track.speed_m_per_s, axis=0)
    first = _first(rise < 0.0, None)
    slow = _first(rise > 0.0, first)
    second = _first(rise < 0.0, slow)
    final = np.full_like(first, len(rise))
    slow = np.where((slow < 0) & (first >= 0) & missed, final, slow)
    start, least = turning_point(track, first), turning_point(track, slow)
    dropped = least.speed <= (1.0 - LEAST_DROP) * start.speed
    sticks = (first >= 0) & (slow > first) & dropped
    end = _recovered(track, slow, np.where(second < 0, final, second), start.speed)
    last = np.where(sticks & (second >= 0), second, np.where(sticks | (first < 0), final, first))
    gone = ~sticks | missed
    return Sticking(
        start_s=_where(sticks, start.time),
        slowest_s=_where(sticks, least.time),
        end_s=_where(~gone, end.time),
        start_part=_where(sticks, start.height / travel_m),
        slowest_part=_where(sticks, least.height / travel_m),
        end_part=_where(~gone, end.height / travel_m),
        start_m_per_s=_where(sticks, start.speed),
        slowest_m_per_s=_where(sticks, least.speed),
        last_peak_s=turning_point(track, last).time,
    )


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """A point on each track: time [s], height [m], speed [m/s]."""

    time: Floats
    height: Floats
    speed: Floats


def turning_point(track: Track, row: Ints) -> Point:
    """Refine the turning point of speed next to a row of each rep by a parabola through three."""
    at = np.arange(row.size)
    row = np.clip(row, 0, len(track.speed_m_per_s) - 1)
    time, speed = vertex(track.time_s, track.speed_m_per_s, row)
    was_s, was = track.time_s[row, at], track.speed_m_per_s[row, at]
    return Point(time, track.height_m[row, at] + (time - was_s) * 0.5 * (was + speed), speed)


def _first(hits: NDArray[np.bool_], after: Ints | None) -> Ints:
    """First row of each column that hits, beyond the row `after`; -1 where there is none."""
    if after is not None:
        rows = np.arange(len(hits))[:, None]
        hits = hits & (rows > after[None, :]) & (after >= 0)[None, :]
    first: Ints = np.where(hits.any(axis=0), hits.argmax(axis=0), -1)
    return first


def _recovered(track: Track, slow: Ints, second: Ints, speed: Floats) -> Point:
    """Where the bar is as fast again as `speed`, or at its second peak when it never is."""
    again = _first(track.speed_m_per_s >= speed[None, :], slow)
    at = np.arange(speed.size)
    peak = turning_point(track, second)
    there = np.maximum(again, 1)
    v0, v1 = track.speed_m_per_s[there - 1, at], track.speed_m_per_s[there, at]
    part = np.clip((speed - v0) / np.where(v1 > v0, v1 - v0, 1.0), 0.0, 1.0)

    def between(rows: Floats) -> Floats:
        before: Floats = rows[there - 1, at]
        after: Floats = rows[there, at]
        mixed: Floats = before + part * (after - before)
        return mixed

    early = (again >= 0) & (again <= second)
    return Point(
        np.where(early, between(track.time_s), peak.time),
        np.where(early, between(track.height_m), peak.height),
        np.where(early, speed, peak.speed),
    )


def _where(known: NDArray[np.bool_], values: Floats) -> Floats:
    return np.where(known, values, np.nan)
