"""A logged set as the review sees it: set against the lifter's own heights."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.gym.day import day_number

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.people import Travel
    from topheavy.gym.records import Third
    from topheavy.mechanics.curve import LoadCurve

HARD_LEFT: Final = 3.0
"""Most repetitions left of a set that tells of strength [-]: further from failure lifters misjudge
them more (Zourdos et al. 2021, read in part); the number is own judgement."""

HARD_REPS: Final = 10
"""Most repetitions of such a set, those left counted: past ten the formulas were not made (Reynolds
et al. 2006, abstract)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SeenSet:
    """One set.

    Parameters
    ----------
    day : str
        Such as ``"2026-11-25"``.
    straight_kg : float
        Bar, collars and plates [kg].
    reps : int
        Repetitions done.
    reps_left : float or None
        How many were left [-]; 0 when it ended with a miss; None when nobody said.
    missed : bool
        Whether it ended with a miss.
    third : {'lower', 'middle', 'top'} or None
        In which third of the way up it stopped.
    hung : LoadCurve or None
        Load of chain and bands by height, where the heights of the lift were measured; None with
        straight weight, and where it can't be set against those heights.
    rig : str
        What hung, in words; empty with straight weight.
    exact : bool
        Whether the whole curve was logged, not three loads.
    """

    day: str
    straight_kg: float
    reps: int
    reps_left: float | None = None
    missed: bool = False
    third: Third | None = None
    hung: LoadCurve | None = None
    rig: str = ""
    exact: bool = True

    @property
    def at(self) -> int:
        """The day, counted from 1 January 1970."""
        return day_number(self.day, "day")

    @property
    def placed(self) -> bool:
        """Whether all that was on the bar is known by height."""
        return not self.rig or self.hung is not None

    @property
    def tells(self) -> bool:
        """Whether it tells of strength: near its end, and not of too many repetitions."""
        left = self.reps_left
        return (
            bool(self.reps) and left is not None and left <= HARD_LEFT and self.total <= HARD_REPS
        )

    @property
    def total(self) -> float:
        """Repetitions done and left [-]; those done where nobody said more."""
        return self.reps + (self.reps_left or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiftLog:
    """The sets of one lifter in one lift.

    Parameters
    ----------
    travel : Travel or None
        Bottom and top where they were measured [m]; None when they never were.
    sets : tuple of SeenSet
        By day; of a day the heaviest last. In which order they were logged does not matter.
    """

    travel: Travel | None
    sets: tuple[SeenSet, ...]

    @classmethod
    def of(cls, sets: Iterable[SeenSet], travel: Travel | None = None) -> LiftLog:
        """Put sets in order."""
        return cls(travel=travel, sets=tuple(sorted(sets, key=_order)))


def _order(one: SeenSet) -> tuple[str, str, float, int, float, bool]:
    left = -1.0 if one.reps_left is None else one.reps_left
    return one.day, one.rig, one.straight_kg, one.reps, -left, one.missed
