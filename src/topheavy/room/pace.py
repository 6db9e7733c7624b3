"""How long a group keeps a station: turns, rests and set-ups, in whole quarter minutes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from collections.abc import Sequence

GRAIN_S: Final = 15
"""Every time of a plan is a whole number of these [s]; nobody keeps a gym to the second."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How long things take in this gym. The defaults are common practice, no source: time yours.

    Parameters
    ----------
    rep_s : float
        One repetition [s].
    ready_s : float
        From "next" to the first repetition: chalk, grip, unrack [s].
    plates_s : float
        Changing plates between two lifters [s].
    rig_s : float
        Hanging other chain at a station, both ends, and looking it over [s].
    between_lifts_s : float
        Least time for a lifter between two lifts [s].
    """

    rep_s: float = 4.0
    ready_s: float = 30.0
    plates_s: float = 45.0
    rig_s: float = 240.0
    between_lifts_s: float = 300.0

    def __post_init__(self) -> None:
        require_positive("rep_s", self.rep_s)
        for name in ("ready_s", "plates_s", "rig_s", "between_lifts_s"):
            require_not_negative(name, getattr(self, name))

    def set_grains(self, reps: int) -> int:
        """One set without changing plates, in grains."""
        return grains(self.ready_s + reps * self.rep_s)

    def turn_grains(self, reps: int) -> int:
        """One set with the change of plates before it, in grains."""
        return grains(self.plates_s) + self.set_grains(reps)

    @property
    def rig_grains(self) -> int:
        """Hanging other chain, in grains."""
        return grains(self.rig_s)

    @property
    def between_grains(self) -> int:
        """Between two lifts of one lifter, in grains."""
        return grains(self.between_lifts_s)


def grains(seconds_s: float) -> int:
    """Round a time up to whole grains.

    >>> grains(31.0)
    3
    """
    return math.ceil(seconds_s / GRAIN_S - 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Sets of one lifter in a group.

    Parameters
    ----------
    sets : int
        How many.
    turn : int
        One set with its change of plates, in grains.
    cycle : int
        From the beginning of a set to the earliest beginning of the next: set and rest, in grains.
    """

    sets: int
    turn: int
    cycle: int


def round_lengths(works: Sequence[Work]) -> list[int]:
    """Length of each round of a group, in grains.

    All go once a round, one after the other; who has done all sets drops out. A round takes all
    turns, or the longest set with its rest where that is more.

    >>> round_lengths([Work(sets=3, turn=6, cycle=14), Work(sets=1, turn=10, cycle=14)])
    [16, 14, 14]
    """
    lengths = []
    for number in range(max((work.sets for work in works), default=0)):
        on = [work for work in works if work.sets > number]
        lengths.append(max(sum(work.turn for work in on), *(work.cycle for work in on)))
    return lengths
