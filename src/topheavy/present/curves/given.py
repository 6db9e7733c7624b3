"""What a drawing of curves is made from: loads by height, and strength with its range."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_travel
from topheavy.present.picture.facts import read

if TYPE_CHECKING:
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.units import UnitSystem

Kind = Literal["plain", "straight", "chosen", "band", "other"]
"""What a curve is: plain weight, chain hung straight, the rig itself, a band, anything else."""

Point = tuple[float, float]
"""Load [kg] and height [m]."""

_SAME_M: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """One load curve.

    Parameters
    ----------
    name : str
        As it stands at its end, such as ``"hung straight"``; not empty.
    kind : {'plain', 'straight', 'chosen', 'band', 'other'}
        How it is drawn.
    points : tuple of (float, float)
        Load [kg] and height [m], bottom first, two or more; heights never fall, and the same
        height twice is a jump.
    """

    name: str
    kind: Kind
    points: tuple[Point, ...]

    @classmethod
    def of(
        cls,
        name: str,
        kind: Kind,
        load: LoadCurve,
        travel_m: tuple[float, float],
        add_kg: float = 0,
    ) -> Curve:
        """Read a load curve over a travel (bottom, top) [m], `add_kg` [kg] more at every height.

        Examples
        --------
        >>> from topheavy.mechanics.curve import LoadCurve
        >>> strand = LoadCurve.strand(20.0, 1.0, 0.8)
        >>> Curve.of("chain", "chosen", strand, (0.8, 1.2), 60.0).ends_kg
        (60.0, 68.0)
        """
        corners = read(load, *travel_m).corners
        points = tuple((load_kg + add_kg, height_m) for load_kg, height_m in corners)
        return cls(name=name, kind=kind, points=points)

    @property
    def ends_kg(self) -> tuple[float, float]:
        """Load at the bottom and at the top [kg]."""
        return self.points[0][0], self.points[-1][0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """A lifter's strength by height, with its range.

    Parameters
    ----------
    name : str
        As it stands at its end, such as ``"your strength"``.
    heights_m : tuple of float
        Heights [m], bottom first, two or more, rising.
    low_kg, best_kg, high_kg : tuple of float
        Least, likeliest and greatest strength [kg] at each height.
    """

    name: str
    heights_m: tuple[float, ...]
    low_kg: tuple[float, ...]
    best_kg: tuple[float, ...]
    high_kg: tuple[float, ...]

    @classmethod
    def of(cls, curve: StrengthCurve, name: str = "strength") -> Strength:
        """Take over a strength curve."""
        lows, bests, highs = (
            tuple(values.tolist()) for values in (curve.low_kg, curve.best_kg, curve.high_kg)
        )
        heights_m = tuple(curve.height_m.tolist())
        return cls(name=name, heights_m=heights_m, low_kg=lows, best_kg=bests, high_kg=highs)

    @property
    def weakest(self) -> Point:
        """Least of the likeliest strength [kg], and the height where it is [m]."""
        return min(zip(self.best_kg, self.heights_m, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A word on one height [m], set beside the curves."""

    height_m: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveSheet:
    """Everything a drawing of curves is made from.

    Parameters
    ----------
    bottom_m, top_m : float
        Height of the bar at both ends of the lift [m].
    units : UnitSystem
        What numbers are printed in.
    curves : tuple of Curve
        What is on the bar, one to six, each within the travel.
    strength : Strength or None
        The lifter's, over the travel.
    bottom_at, top_at : str
        What bottom and top are for the lifter, such as ``"on the chest"``; may be empty.
    notes : tuple of Note
        Words on heights within the travel.
    title : str
        The drawing in one line, for those who can't see it.
    width, height : float
        Size of the sheet [drawing units, points when printed], 300 by 200 at least.
    type_size : float
        Size of the type [drawing units].

    Raises
    ------
    BadInputError
        Bottom not below top, no curve or too many, a point that is not finite or outside the
        travel, heights that fall, or a sheet too small.
    """

    bottom_m: float
    top_m: float
    units: UnitSystem
    curves: tuple[Curve, ...]
    strength: Strength | None = None
    bottom_at: str = ""
    top_at: str = ""
    notes: tuple[Note, ...] = ()
    title: str = "Load on the bar by height"
    width: float = 510.0
    height: float = 310.0
    type_size: float = 10.5

    def __post_init__(self) -> None:
        require_travel(self.bottom_m, self.top_m)
        if not 1 <= len(self.curves) <= MOST_CURVES:
            raise BadInputError(
                "A drawing holds a few curves",
                field="curves",
                got=len(self.curves),
                wanted=f"1 to {MOST_CURVES}",
            )
        if self.width < _LEAST_WIDTH or self.height < _LEAST_HEIGHT or self.type_size <= 0:
            raise BadInputError(
                "The sheet is too small",
                field="width",
                got=f"{self.width:g} by {self.height:g}",
                wanted=f"{_LEAST_WIDTH:g} by {_LEAST_HEIGHT:g} or more",
            )
        for curve in self.curves:
            self._check(curve.name, curve.points)
        if self.strength is not None:
            lines = (self.strength.low_kg, self.strength.best_kg, self.strength.high_kg)
            for line in lines:
                points = tuple(zip(line, self.strength.heights_m, strict=True))
                self._check(self.strength.name, points)
        for note in self.notes:
            self._check(note.words, ((0.0, note.height_m),) * 2)

    def _check(self, name: str, points: tuple[Point, ...]) -> None:
        heights = [height_m for _, height_m in points]
        inside = all(self.bottom_m - _SAME_M <= h <= self.top_m + _SAME_M for h in heights)
        finite = all(math.isfinite(load_kg) for load_kg, _ in points)
        if len(points) < 2 or not inside or not finite or heights != sorted(heights):
            raise BadInputError(
                "A curve can't be drawn",
                field=name or "curve",
                wanted="two points or more, finite, rising, within the lift: "
                f"{self.bottom_m:g} to {self.top_m:g} m",
            )


MOST_CURVES: Final = 6
_LEAST_WIDTH: Final = 300.0
_LEAST_HEIGHT: Final = 200.0
