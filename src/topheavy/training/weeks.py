"""A block of weeks as planned: waves, days of the week, changes by hand, a test week."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.rigging.target import Base
    from topheavy.training.bases import LoadName
    from topheavy.training.days import DayName

HangName = Literal["straight", "chain", "bands", "mixed"]
"""What a wave is done with: straight weight, chain, bands, or chain and bands together."""

WEEKDAYS: Final = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
)  # fmt: skip

MOST_WAVE_WEEKS: Final = 4
MOST_WEEKS: Final = 52

USUAL_SHARE: Final = 0.20
"""Accommodating share of the top load when nobody says another [-]: in the middle of what studies
used; Nijem et al. 2016 (abstract) had 19.9 %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wave:
    """One to four weeks on one way of loading.

    Parameters
    ----------
    hang : {'straight', 'chain', 'bands', 'mixed'}
        What hangs.
    weeks : int
        1 to 4.
    share : tuple of float
        Accommodating share wanted [-], one for all weeks or one a week; ignored with `match` and
        with straight weight.
    of : {'top', 'bottom', 'best'}
        What `share` is a fraction of.
    at : {'straight', 'bottom', 'mean', 'top'}
        Which load of the rig `loads` speak of.
    match : bool
        The rig follows the lifter's strength, and loads are shares of it where the lift is hardest.
    loads : mapping of str to tuple of float
        By kind of day, shares of the best [-], one for all weeks or one a week; kinds left out
        rise as is usual. With a deload, its own week may be left out.
    deload : bool
        The last week is a planned deload.

    Raises
    ------
    BadInputError
        A number out of range, or not one for each week.
    """

    hang: HangName
    weeks: int
    share: tuple[float, ...] = (USUAL_SHARE,)
    of: Base = "top"
    at: LoadName = "mean"
    match: bool = False
    loads: Mapping[DayName, tuple[float, ...]] = field(default_factory=dict)
    deload: bool = False

    def __post_init__(self) -> None:
        if not 1 <= self.weeks <= MOST_WAVE_WEEKS:
            raise BadInputError(
                "A wave has one to four weeks",
                field="weeks",
                got=self.weeks,
                wanted=f"1 to {MOST_WAVE_WEEKS}; write more waves for more weeks",
            )
        if self.deload and self.weeks == 1:
            raise BadInputError(
                "A wave of one week leaves nothing to deload from",
                field="deload",
                got="a wave of 1 week with deload = true",
                wanted="2 weeks or more, or no deload",
            )
        self._check_count("share", len(self.share), (1, self.weeks))
        for kind, shares in self.loads.items():
            self._check_count(kind, len(shares), (1, self.weeks, self.weeks - self.deload))

    def _check_count(self, name: str, count: int, right: tuple[int, ...]) -> None:
        if count not in right:
            told = sorted(set(right) - {0})
            raise BadInputError(
                "Not one for each week of the wave",
                field=name,
                got=f"{count} for {self.weeks} weeks",
                wanted=" or ".join(str(one) for one in told),
            )

    def share_in(self, week: int) -> float:
        """Wanted accommodating share in a week of the wave, from 0 [-]."""
        return self.share[week] if len(self.share) > 1 else self.share[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrainingDay:
    """What is done on a day of the week.

    Parameters
    ----------
    weekday : int
        0 is Monday, 6 Sunday.
    lifts : tuple of str
        Names of lifts; of several, each wave has the next.
    kind : {'heavy', 'speed', 'repetition', 'technique'}
        Kind of day.
    sets, reps : int or None
        When other than usual for the kind.
    lifters : tuple of str
        Who; empty for everybody.
    station : str
        Where; empty: where the lifter was measured, or the first that suits.
    hang : {'straight', 'chain', 'bands', 'mixed'} or None
        When other than the wave's.
    begins_min : int or None
        Minutes after midnight; None when no time is planned.
    lasts_min : int
        How long it lasts [min].
    """

    weekday: int
    lifts: tuple[str, ...]
    kind: DayName = "heavy"
    sets: int | None = None
    reps: int | None = None
    lifters: tuple[str, ...] = ()
    station: str = ""
    hang: HangName | None = None
    begins_min: int | None = None
    lasts_min: int = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a coach changed by hand in one week.

    Parameters
    ----------
    week : int
        From 1.
    lifter, lift : str
        Whose and which; empty for all.
    weekday : int or None
        0 is Monday; None for every day.
    load : float or None
        Share of the best, or of strength in a matched wave [-].
    load_kg : float or None
        The load itself [kg], in place of a share.
    share : float or None
        Accommodating share, of what the wave says [-].
    sets, reps : int or None
        Other sets and reps.
    off : bool
        No session.
    note : str
        Why; shown with the session.
    """

    week: int
    lifter: str = ""
    lift: str = ""
    weekday: int | None = None
    load: float | None = None
    load_kg: float | None = None
    share: float | None = None
    sets: int | None = None
    reps: int | None = None
    off: bool = False
    note: str = ""


USUAL_WAVES: Final = (
    Wave(hang="straight", weeks=2),
    Wave(hang="chain", weeks=4, deload=True),
)
"""Waves when nobody says which: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A block of weeks.

    Parameters
    ----------
    name : str
        As it stands on the sheets.
    start : str
        A day of its first week, as ``"2026-11-30"``; nothing is planned before it.
    first_weekday : int
        Which day of the week `start` is: 0 is Monday.
    days : tuple of TrainingDay
        Days of the week, in the order of the plan.
    waves : tuple of Wave
        In order.
    lifters : tuple of str
        Who trains; empty for everybody who was measured for a lift.
    changes : tuple of Change
        What was changed by hand; where two speak of the same, the later holds.
    test_week : bool
        Whether a week of singles up to a max, with straight weight, follows the waves.
    time_zone : str
        Such as ``"Europe/Vienna"``; empty when no times are planned.

    Raises
    ------
    BadInputError
        No day, no week, or more weeks than a year has.
    """

    name: str
    start: str
    first_weekday: int = 0
    days: tuple[TrainingDay, ...]
    waves: tuple[Wave, ...] = USUAL_WAVES
    lifters: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    test_week: bool = True
    time_zone: str = ""

    def __post_init__(self) -> None:
        if not self.days:
            raise BadInputError(
                "A plan needs a day", field="day", wanted="one [[day]] or more, with its lift"
            )
        if not 1 <= self.weeks <= MOST_WEEKS:
            raise BadInputError(
                "A block has a week or more, and no more than a year",
                field="wave",
                got=f"{self.weeks} weeks",
                wanted=f"1 to {MOST_WEEKS}, the test week counted",
            )

    @property
    def weeks(self) -> int:
        """How many weeks, the test week counted."""
        return sum(wave.weeks for wave in self.waves) + self.test_week
