"""What a coach wrote down of a lifter in one lift: sets, efforts on pins, misses, bar speeds.

Records say what happened, with the gym's own names for what hung. What they tell of strength is
worked out elsewhere. Heights are floor to bar centre, as the heights of the lift itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.gym.day import day_number
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from topheavy.gym.people import Travel
    from topheavy.mechanics.curve import LoadCurve

Third = Literal["lower", "middle", "top"]
"""A third of the way up."""

THIRDS: Final[tuple[Third, ...]] = ("lower", "middle", "top")

MOST_REPS: Final = 30
"""Most repetitions, those left in reserve counted, that say anything of a single."""

MOST_LEFT: Final = 10
"""Most repetitions in reserve that anybody can count."""

SEEN_U_M: Final = 0.01
"""Standard uncertainty of a height that was seen, not taped [m]; own judgement."""

HangStyle = Literal["doubled", "draped", "straight"]
SpeedKind = Literal["mean", "propulsive"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BandsUsed:
    """A pair of bands, one on each end, by their tags.

    Parameters
    ----------
    left, right : str
        Tags.
    peg : str
        The peg of the station they hang from, alike on both sides.
    second_peg : str
        Where the other end is anchored when the bands are doubled; empty: single.
    """

    left: str
    right: str
    peg: str
    second_peg: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HungThen:
    """What hung on the bar, by the names in the gym's stock.

    Parameters
    ----------
    left, right : tuple of str
        Tags of the chain pieces on each end.
    style : {'doubled', 'draped', 'straight'}
        How they hung.
    feeder, setting, connector : str
        What doubled chain hung from; empty otherwise.
    bands : tuple of BandsUsed
        Pairs of bands.

    Raises
    ------
    BadInputError
        Nothing hung, or doubled chain without a feeder and its setting, or a feeder without
        doubled chain.
    """

    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    style: HangStyle = "doubled"
    feeder: str = ""
    setting: str = ""
    connector: str = ""
    bands: tuple[BandsUsed, ...] = ()

    def __post_init__(self) -> None:
        chain = bool(self.left or self.right)
        if not chain and not self.bands:
            raise BadInputError(
                "Nothing says what hung",
                field="left",
                wanted='tags of the pieces, such as left = ["A1"] and right = ["A2"], or bands',
            )
        doubled = chain and self.style == "doubled"
        if doubled and not (self.feeder and self.setting):
            raise BadInputError(
                "Doubled chain hung from a feeder, at one of its settings",
                field="setting" if self.feeder else "feeder",
                wanted='such as feeder = "ring strap" and setting = "7"; or style = "straight"',
            )
        if not doubled and (self.feeder or self.setting or self.connector):
            raise BadInputError(
                "Only doubled chain hangs from a feeder and a connector",
                field=next(n for n in ("feeder", "setting", "connector") if getattr(self, n)),
                got=self.feeder or self.setting or self.connector,
                wanted="no feeder here, or doubled chain",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class HungLoads:
    """What chain and bands put on the bar, when that was written down and not their names.

    Parameters
    ----------
    curve : LoadCurve
        Their load by height where the lift's heights were measured [kg over m].
    """

    curve: LoadCurve


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftedSet:
    """A set, or a single, with straight weight.

    Parameters
    ----------
    load_kg : float
        Bar, collars and plates [kg], > 0.
    reps : int
        Repetitions done, 1 to 30.
    reps_left : float
        Repetitions that were left [-], 0 to 10.
    tried : bool
        Whether the lifter tried for as much as would go, or, with repetitions left, knows how
        many. False: it was lifted, no more is known.
    from_m : float or None
        Where it started when that was above the bottom [m]: on pins, boards or blocks.
    day : str
        Such as ``"2026-09-12"``; empty when nobody noted it.
    """

    load_kg: float
    reps: int = 1
    reps_left: float = 0.0
    tried: bool = True
    from_m: float | None = None
    day: str = ""

    def __post_init__(self) -> None:
        require_positive("load_kg", self.load_kg)
        require_not_negative("reps_left", self.reps_left)
        if not (1 <= self.reps <= MOST_REPS and self.reps % 1 == 0):
            raise BadInputError(
                "A set has a whole number of repetitions",
                field="reps",
                got=self.reps,
                wanted=f"1 to {MOST_REPS}",
            )
        if self.reps_left > MOST_LEFT or self.reps + self.reps_left > MOST_REPS:
            raise BadInputError(
                "So many repetitions say nothing of a single",
                field="reps",
                got=f"{self.reps} and {self.reps_left:g} left",
                wanted=f"{MOST_REPS} or fewer in all, {MOST_LEFT} or fewer of them left",
            )
        _check_day(self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class PinEffort:
    """A push or pull with all there is against pins that don't move, the lifter on a scale.

    Parameters
    ----------
    height_m : float
        Height of the bar on the pins [m].
    effort_kg, rest_kg : float
        What the scale showed at the best effort, and with the lifter at rest [kg].
    day : str
        As for `LiftedSet`.
    """

    height_m: float
    effort_kg: float
    rest_kg: float
    day: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.rest_kg < self.effort_kg < math.inf:
            raise BadInputError(
                "The scale must show more at best effort than at rest",
                field="effort",
                got=f"{self.effort_kg:g} kg, at rest {self.rest_kg:g} kg",
                wanted="a reading above the one at rest",
            )
        _check_day(self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class MissedRep:
    """A repetition that stopped on the way up.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg], > 0.
    height_m : float or None
        Where the bar stopped [m].
    third : {'lower', 'middle', 'top'} or None
        In which third of the way up, when nobody took a height.
    hung : HungThen, HungLoads or None
        What hung on the bar besides.
    day : str
        As for `LiftedSet`.
    """

    straight_kg: float
    height_m: float | None = None
    third: Third | None = None
    hung: HungThen | HungLoads | None = None
    day: str = ""

    def __post_init__(self) -> None:
        require_positive("straight_kg", self.straight_kg)
        if (self.height_m is None) == (self.third is None):
            raise BadInputError(
                "Nothing says where the bar stopped"
                if self.third is None
                else "Where the bar stopped is said twice",
                field="third",
                wanted='a height, such as "84 cm", or a third: lower, middle or top',
            )
        _check_day(self.day)

    def stopped_at(self, travel: Travel) -> tuple[float, float]:
        """Height where the bar stopped [m], and its standard uncertainty [m].

        A third stands for its middle, evenly spread.

        Examples
        --------
        >>> from topheavy.gym.people import Travel
        >>> missed = MissedRep(straight_kg=145.0, third="middle")
        >>> [round(part, 3) for part in missed.stopped_at(Travel(bottom_m=0.66, top_m=1.07))]
        [0.865, 0.039]
        """
        if self.third is None:
            return self.height_m or 0.0, SEEN_U_M
        part = travel.travel_m / len(THIRDS)
        middle_m = travel.bottom_m + (THIRDS.index(self.third) + 0.5) * part
        return middle_m, part / math.sqrt(12)


@dataclass(frozen=True, slots=True, kw_only=True)
class HungLift:
    """A single over the full range with chain or bands on the bar.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg], > 0.
    hung : HungThen or HungLoads
        What hung.
    tried : bool
        Whether the lifter tried for as much as would go.
    day : str
        As for `LiftedSet`.
    """

    straight_kg: float
    hung: HungThen | HungLoads
    tried: bool = True
    day: str = ""

    def __post_init__(self) -> None:
        require_positive("straight_kg", self.straight_kg)
        _check_day(self.day)


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedRead:
    """Speed of the bar on the way up, straight weight, moved as fast as the lifter could.

    Parameters
    ----------
    load_kg : float
        Bar, collars and plates [kg], > 0.
    speed_m_per_s : float
        What the device showed [m/s], > 0.
    kind : {'mean', 'propulsive'}
        Mean over the whole way up, or until the bar is braked.
    day : str
        As for `LiftedSet`.
    """

    load_kg: float
    speed_m_per_s: float
    kind: SpeedKind = "mean"
    day: str = ""

    def __post_init__(self) -> None:
        require_positive("load_kg", self.load_kg)
        require_positive("speed_m_per_s", self.speed_m_per_s)
        _check_day(self.day)


Record = LiftedSet | PinEffort | MissedRep | HungLift | SpeedRead
"""One thing that was written down."""


def _check_day(day: str) -> None:
    if day:
        day_number(day, "day")
