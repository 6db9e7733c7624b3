"""Loads of a wave, week by week: rising, then eased off for a deload."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from topheavy.training.days import DayName
    from topheavy.training.weeks import Wave

USUAL: Final[dict[DayName, tuple[float, float]]] = {
    "heavy": (0.80, 0.03),
    "speed": (0.52, 0.03),
    "repetition": (0.58, 0.03),
    "technique": (0.45, 0.02),
}
"""Load of a wave's first week, as a share of the best, and how much more each week has [-]. Four
weeks of it stay inside what is usual for the kind of day, each step below 6 %; the numbers
themselves are common practice, no source."""

DELOAD_LOAD: Final = 0.85
"""Load of a deload week, as a share of the wave's first week [-]: common practice, no source."""

DELOAD_SETS: Final = 0.5
"""Sets of a deload week, as a share of those planned, rounded up [-]. That volume and load both go
down and the lifts stay is what 246 lifters said (Rogerson et al. 2024, abstract read); by how much
is common practice, no source."""


def rising(first: float, step: float, weeks: int) -> tuple[float, ...]:
    """Raise a load [-] by a step each week.

    Examples
    --------
    >>> [round(load, 3) for load in rising(0.8, 0.05, 3)]
    [0.8, 0.85, 0.9]
    """
    return tuple(first + step * week for week in range(weeks))


def loads_of_wave(wave: Wave, kind: DayName) -> tuple[float, ...]:
    """Say the load of each week of a wave.

    Parameters
    ----------
    wave : Wave
        As planned.
    kind : {'heavy', 'speed', 'repetition', 'technique'}
        Kind of day.

    Returns
    -------
    tuple of float
        Shares of the best, or of strength in a matched wave [-], one a week.

    Examples
    --------
    >>> from topheavy.training.weeks import Wave
    >>> loads = loads_of_wave(Wave(hang="chain", weeks=4, deload=True), "heavy")
    >>> [round(load, 3) for load in loads]
    [0.8, 0.83, 0.86, 0.68]
    """
    hard = wave.weeks - wave.deload
    given = wave.loads.get(kind)
    if given is None:
        given = rising(*USUAL[kind], hard)
    if len(given) == 1:
        given = given * hard
    return given if len(given) == wave.weeks else (*given, DELOAD_LOAD * given[0])


def deload_sets(sets: int) -> int:
    """How many of the planned sets a deload week keeps.

    >>> [deload_sets(sets) for sets in (1, 4, 5)]
    [1, 2, 3]
    """
    return math.ceil(DELOAD_SETS * sets)
