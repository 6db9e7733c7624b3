"""What a coach knows of a lifter's strength, each piece with its own uncertainty.

Five kinds, and what each says of the strength S at a height:

==============  =================================================================================
`FullRange`     least S over the whole lift
`Partial`       least S from a height to the top: pins, boards, blocks, a half squat
`Isometric`     S at a height, loosely, from a pull or push on fixed pins read from a scale
`Miss`          S at the height where the bar stopped is no more than what was on it there
`HungBest`      straight weight P under a hung load C: P + C is nowhere more than S, somewhere it
==============  =================================================================================

Heights are of the bar centre above the same surface as the lift's bottom and top.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.lifter.one_rm import DAY_TO_DAY, one_rm
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from topheavy.lifter.one_rm import OneRepMax
    from topheavy.mechanics.curve import LoadCurve

PIN_HEIGHT_U_M = 0.005
"""Standard uncertainty of a height taken with a tape [m]; own judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FullRange:
    """A best over the full range at straight weight: a single, or a set.

    Parameters
    ----------
    load_kg : float
        Load [kg], bar and plates, > 0.
    reps : int
        Repetitions, 1 to 30; 1 is a single.
    reps_left : float
        Repetitions in reserve [-], 0 to 10.
    maximal : bool
        False: it was lifted, but nobody tried for more; then it is a lower bound only.
    load_u_kg : float or None
        Standard uncertainty of the best it stands for [kg], >= 0. None: 2 % for a single (the
        day), what the formulas leave for a set.
    reckoned : bool
        True: nobody lifted it, it was reckoned from bar speed. It counts by its uncertainty, and
        never as a single that was made.

    Examples
    --------
    >>> FullRange(load_kg=100.0).words
    'full-range best of 100 kg'
    """

    load_kg: float
    reps: int = 1
    reps_left: float = 0.0
    maximal: bool = True
    load_u_kg: float | None = None
    reckoned: bool = False

    def __post_init__(self) -> None:
        one_rm(self.load_kg, self.reps, reps_left=self.reps_left)
        _check_u(self.load_u_kg)

    @property
    def is_single(self) -> bool:
        """Whether it is a single that was made and tried for."""
        one = self.reps == 1 and self.reps_left == 0
        return one and self.maximal and not self.reckoned

    @property
    def words(self) -> str:
        """Name of this piece in messages; SI units."""
        if self.reckoned:
            return f"full-range best of {self.load_kg:.4g} kg by bar speed"
        return f"full-range {_of_load(self)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Partial:
    """A best from a height to lockout at straight weight.

    Parameters
    ----------
    height_m : float
        Height of the bar at its lowest [m]: on the pins, boards or blocks.
    load_kg, reps, reps_left, maximal, load_u_kg
        As for `FullRange`.
    height_u_m : float
        Standard uncertainty of the height [m], >= 0.

    Examples
    --------
    >>> Partial(height_m=0.95, load_kg=120.0).words
    'partial best of 120 kg from 0.95 m'
    """

    height_m: float
    load_kg: float
    reps: int = 1
    reps_left: float = 0.0
    maximal: bool = True
    load_u_kg: float | None = None
    height_u_m: float = PIN_HEIGHT_U_M

    def __post_init__(self) -> None:
        one_rm(self.load_kg, self.reps, reps_left=self.reps_left)
        _check_u(self.load_u_kg)
        _check_height(self.height_m, self.height_u_m)

    @property
    def words(self) -> str:
        """Name of this piece in messages; SI units."""
        return f"partial {_of_load(self)} from {self.height_m:g} m"


@dataclass(frozen=True, slots=True, kw_only=True)
class Isometric:
    """A pull or push against fixed pins, read from a scale.

    Isometric force is related to dynamic strength only loosely. Between lifters r = 0.16 and 0.33
    in the bench press (Ignjatovic et al. 2009, abstract), 0.70 to 0.88 in a hexagonal-bar deadlift
    at three heights (Miller et al. 2021, abstract). If both forces differ by 15 % between lifters,
    their ratio then scatters by 7 to 19 %. So the strength at that height is taken as 0.6 to 1.2 of
    the reading, 0.9 most likely: own judgement. Measure your own ratio where a partial is known.

    Parameters
    ----------
    height_m : float
        Height of the bar on the pins [m].
    force_n : float
        Force on the bar [N], > 0: what the scale shows at the best effort less what it shows with
        the lifter at rest, times g when it shows kg.
    share_low, share : float
        Dynamic strength over isometric force [-]: least and most likely, 0 < low <= share.
    share_high : float
        Greatest [-], >= share.
    height_u_m : float
        Standard uncertainty of the height [m], >= 0.

    Examples
    --------
    >>> pull = Isometric.from_scale(height_m=0.6, effort_kg=280.0, rest_kg=90.0)
    >>> round(pull.load_kg, 1), pull.words
    (190.0, 'isometric effort of 190 kg at 0.6 m')
    """

    height_m: float
    force_n: float
    share_low: float = 0.6
    share: float = 0.9
    share_high: float = 1.2
    height_u_m: float = PIN_HEIGHT_U_M

    def __post_init__(self) -> None:
        require_positive("force_n", self.force_n)
        _check_height(self.height_m, self.height_u_m)
        if not 0 < self.share_low <= self.share <= self.share_high < math.inf:
            raise BadInputError(
                "The shares of an isometric force must rise from low to high",
                field="share",
                got=f"{self.share_low:g}, {self.share:g}, {self.share_high:g}",
                wanted="0 < low <= likely <= high",
            )

    @classmethod
    def from_scale(cls, *, height_m: float, effort_kg: float, rest_kg: float) -> Isometric:
        """Make it from two readings of a scale [kg] under the lifter: at best effort, at rest."""
        if not 0 <= rest_kg < effort_kg < math.inf:
            raise BadInputError(
                "The scale must show more at best effort than at rest",
                field="effort_kg",
                got=f"{effort_kg:g} kg, at rest {rest_kg:g} kg",
                wanted="a reading above the one at rest",
            )
        return cls(height_m=height_m, force_n=(effort_kg - rest_kg) * STANDARD_GRAVITY_M_PER_S2)

    @property
    def load_kg(self) -> float:
        """The force as a load [kg]."""
        return self.force_n / STANDARD_GRAVITY_M_PER_S2

    @property
    def words(self) -> str:
        """Name of this piece in messages; SI units."""
        return f"isometric effort of {self.load_kg:.4g} kg at {self.height_m:g} m"


@dataclass(frozen=True, slots=True, kw_only=True)
class Miss:
    """A repetition that stopped on the way up.

    Where the bar came to rest the lifter could not hold it up: the strength there is no more than
    the load. The first height where strength falls short lies at or below it.

    Parameters
    ----------
    height_m : float
        Height where the bar stopped [m].
    load_kg : float
        All that was on the bar at that height [kg], hung chain and bands too, > 0.
    load_u_kg : float or None
        Standard uncertainty [kg], >= 0, the day's form included. None: 2 %.
    height_u_m : float
        Standard uncertainty of the height [m], >= 0. Seen, not taped: 0.01 by default.

    Examples
    --------
    >>> Miss(height_m=0.9, load_kg=105.0).words
    'miss of 105 kg at 0.9 m'
    """

    height_m: float
    load_kg: float
    load_u_kg: float | None = None
    height_u_m: float = 0.01

    def __post_init__(self) -> None:
        require_positive("load_kg", self.load_kg)
        _check_u(self.load_u_kg)
        _check_height(self.height_m, self.height_u_m)

    @property
    def words(self) -> str:
        """Name of this piece in messages; SI units."""
        return f"miss of {self.load_kg:g} kg at {self.height_m:g} m"


@dataclass(frozen=True, slots=True, kw_only=True)
class HungBest:
    """A best single, full range, with chain or bands hung on the bar.

    Parameters
    ----------
    straight_kg : float
        Straight weight P [kg]: bar, collars and plates, > 0.
    hung : LoadCurve
        Load of what hangs, C, by height. It must not fall on the way up.
    maximal : bool
        False: lifted, but nobody tried for more.
    load_u_kg : float or None
        Standard uncertainty of P [kg], >= 0. None: 2 % of the load at the top.

    Raises
    ------
    BadInputError
        A weight that is not above zero, or a hung load that falls on the way up.

    Examples
    --------
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> HungBest(straight_kg=90.0, hung=LoadCurve.strand(20.0, 2.0, 0.8)).words
    'best of 90 kg under hung load'
    """

    straight_kg: float
    hung: LoadCurve
    maximal: bool = True
    load_u_kg: float | None = None

    def __post_init__(self) -> None:
        require_positive("straight_kg", self.straight_kg)
        _check_u(self.load_u_kg)
        if not self.hung.never_falls:
            raise BadInputError(
                "A hung load must not fall on the way up",
                field="hung",
                wanted="chain or bands that load the bar more the higher it is",
            )

    @property
    def words(self) -> str:
        """Name of this piece in messages; SI units."""
        kind = "best" if self.maximal else "lift"
        return f"{kind} of {self.straight_kg:g} kg under hung load"


Evidence = FullRange | Partial | Isometric | Miss | HungBest
"""One piece of what a coach knows."""


def best_of(piece: FullRange | Partial, lift: str | None = None) -> OneRepMax:
    """The 1RM that a single or a set stands for, by the name of its lift; see `one_rm`.

    Examples
    --------
    >>> round(best_of(FullRange(load_kg=100.0, reps=5)).middle_kg, 1)
    116.6
    """
    return one_rm(piece.load_kg, piece.reps, reps_left=piece.reps_left, lift=lift)


def best_u_kg(piece: FullRange | Partial) -> float:
    """Standard uncertainty [kg] of the 1RM that a single or a set stands for."""
    return best_of(piece).u_kg if piece.load_u_kg is None else piece.load_u_kg


def day_u_kg(given_kg: float | None, load_kg: float) -> float:
    """Standard uncertainty [kg] of one effort at `load_kg` [kg]: as given, or 2 %."""
    return DAY_TO_DAY * load_kg if given_kg is None else given_kg


def _of_load(piece: FullRange | Partial) -> str:
    if not piece.maximal:
        return f"lift of {piece.load_kg:g} kg"
    if piece.reps == 1 and piece.reps_left == 0:
        return f"best of {piece.load_kg:g} kg"
    left = f", {piece.reps_left:g} left" if piece.reps_left else ""
    return f"set of {piece.reps} with {piece.load_kg:g} kg{left}"


def _check_u(load_u_kg: float | None) -> None:
    if load_u_kg is not None:
        require_not_negative("load_u_kg", load_u_kg)


def _check_height(height_m: float, height_u_m: float) -> None:
    if not math.isfinite(height_m):
        raise BadInputError("A height is a number", field="height_m", got=height_m)
    require_not_negative("height_u_m", height_u_m)
