"""Typical shapes of strength by height, one a lift, with how far lifters may differ from them.

A shape is strength over its own least value, against u = (height - bottom) / travel:

    s(u) = 1 + b ((v - u)+ / v)^2 + c (1 - exp(-((u - v)+ / w)^2))

It falls from 1 + b at the bottom to 1 at the weakest height v, and rises to 1 + c.

No study read gives such a curve with numbers. What is known, and how far the spans below lean on
it, stands beside each lift. The spans are own judgement, drawn wide: of averages over lifters,
positions guessed from joint angles, and one model. A measured partial beats them all.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import NotInStockError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Strength over its least value, by share of the travel.

    Parameters
    ----------
    weakest : float
        Where strength is least: v, share of the travel [-], 0 to 1.
    bottom_surplus : float
        How much stronger at the bottom than at the weakest: b [-], >= 0.
    lockout_surplus : float
        How much stronger far above the weakest: c [-], >= 0.
    rise : float
        Over which share of the travel it rises: w [-], > 0.
    """

    weakest: float
    bottom_surplus: float
    lockout_surplus: float
    rise: float

    def at(self, share_of_travel: ArrayLike) -> Floats:
        """Strength over its least value [-] at each share of the travel [-], any shape.

        Examples
        --------
        >>> shape = Shape(weakest=0.35, bottom_surplus=0.2, lockout_surplus=0.4, rise=0.3)
        >>> shape.at([0.0, 0.35, 1.0]).round(3).tolist()
        [1.2, 1.0, 1.396]
        """
        u = np.asarray(share_of_travel, dtype=np.float64)
        return curve_of(u, self.weakest, self.bottom_surplus, self.lockout_surplus, self.rise)


def curve_of(
    share_of_travel: Floats,
    weakest: Floats | float,
    bottom: Floats | float,
    top: Floats | float,
    rise: Floats | float,
) -> Floats:
    """s(u) [-] for arrays of parameters [-] that broadcast with the shares of travel [-]."""
    u, v = share_of_travel, np.asarray(weakest, dtype=np.float64)
    below = np.maximum(v - u, 0.0) / np.where(v > 0, v, 1.0)
    above = np.maximum(u - v, 0.0) / rise
    rising = -np.expm1(-(above**2))
    return np.asarray(1.0 + bottom * below**2 + top * rising, dtype=np.float64)


@dataclass(frozen=True, slots=True)
class Span:
    """A parameter's least, typical and greatest value [-]; the ends lie two spreads out."""

    low: float
    typical: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TypicalShape:
    """The shape of one lift, and the spans of its parameters.

    Parameters
    ----------
    weakest, bottom_surplus, lockout_surplus, rise : Span
        Of the parameters of `Shape`, same order.
    basis : str
        What is known, in a sentence a lifter can read.
    """

    weakest: Span
    bottom_surplus: Span
    lockout_surplus: Span
    rise: Span
    basis: str

    @property
    def shape(self) -> Shape:
        """The typical shape itself."""
        return Shape(
            weakest=self.weakest.typical,
            bottom_surplus=self.bottom_surplus.typical,
            lockout_surplus=self.lockout_surplus.typical,
            rise=self.rise.typical,
        )

    @property
    def slope(self) -> float:
        """Steepest rise of the typical shape [- per whole travel]: sqrt(2/e) c / w."""
        return math.sqrt(2 / math.e) * self.lockout_surplus.typical / self.rise.typical

    def least(self, share_of_travel: Floats, weakest: float) -> Floats:
        """Least s [-] of any shape within the spans whose weakest height is `weakest` [-]."""
        b, c, w = self.bottom_surplus.low, self.lockout_surplus.low, self.rise.high
        return curve_of(share_of_travel, weakest, b, c, w)

    def greatest(self, share_of_travel: Floats, weakest: float) -> Floats:
        """Greatest s [-] of any shape within the spans whose weakest height is `weakest` [-]."""
        b, c, w = self.bottom_surplus.high, self.lockout_surplus.high, self.rise.low
        return curve_of(share_of_travel, weakest, b, c, w)


_BENCH: Final = TypicalShape(
    weakest=Span(0.15, 0.35, 0.55),
    bottom_surplus=Span(0.0, 0.2, 0.6),
    lockout_surplus=Span(0.1, 0.4, 1.0),
    rise=Span(0.2, 0.3, 0.5),
    basis="Isometric pushes at twelve heights are weakest in the sticking region; a partial press "
    "is heavier the shorter it is, once by 5 %. A model with 20, 40 or 80 % more strength at "
    "lockout fits bar speeds equally well.",
)
# van den Tillaar, Saeterbakken & Ettema 2012 (abstract: a region of lower isometric force at the
# sticking region, 12 heights); Martinez-Cava et al. 2019 (abstract: 1RM full < 2/3 < 1/3 of the
# range, 42 men); Mookerjee & Ratamess 1999 (abstract: partial 1RM 4.8 % above full, 5 men). The
# lockout surplus: 0.2 to 0.8 fitted the load-velocity line of Gonzalez-Badillo & Sanchez-Medina
# 2010 alike in the model of one repetition; widened by half as much again.

_SQUAT: Final = TypicalShape(
    weakest=Span(0.0, 0.2, 0.45),
    bottom_surplus=Span(0.0, 0.1, 0.5),
    lockout_surplus=Span(0.2, 0.7, 1.6),
    rise=Span(0.25, 0.35, 0.6),
    basis="In 26 athletes the half squat was about a quarter to a third heavier than the parallel "
    "one, and the quarter squat could not be foretold from it. Isometric force rises from a "
    "right-angled knee to straight legs.",
)
# Enoki et al. 2023 (abstract: half 1RM = 1.0728 x parallel + 24.641 kg, r 0.725; none for the
# quarter squat); Paulus, Reiser & Troxell 2008 (abstract: isometric least at 90 degrees of 90 to
# 170, without exception); van den Tillaar et al. 2014 (abstract: a sticking region in 10 of 15).

_DEADLIFT: Final = TypicalShape(
    weakest=Span(0.0, 0.15, 0.5),
    bottom_surplus=Span(0.0, 0.05, 0.4),
    lockout_surplus=Span(0.05, 0.3, 0.9),
    rise=Span(0.25, 0.45, 0.6),
    basis="Eighteen wrestlers pulled 18 % more from just above the knee than from the floor; "
    "isometric pulls of powerlifters grow with height.",
)
# Gillingham et al. 2023 (abstract: 226.0 +- 40.6 kg from 2.54 cm above the patella, 191.7 +- 37.2
# from the floor, r 0.85, so 11 % of scatter in the ratio); Beckham et al. 2012 (abstract: force
# grows from floor to knee to 5 cm short of lockout).

_PRESS: Final = TypicalShape(
    weakest=Span(0.1, 0.35, 0.65),
    bottom_surplus=Span(0.0, 0.2, 0.6),
    lockout_surplus=Span(0.05, 0.3, 0.9),
    rise=Span(0.2, 0.3, 0.5),
    basis="No study of strength by height was found for the overhead press: taken from the bench "
    "press, and wider.",
)


def _upper_part(of: TypicalShape, basis: str) -> TypicalShape:
    """A lift that begins above the bottom of another: its weakest height is near its own start.

    Strength falls to it no more steeply than in the whole lift, so that little is lost on the way.
    """
    weakest, surplus = Span(0.0, 0.1, of.weakest.high), of.bottom_surplus
    likely = surplus.typical * (weakest.typical / of.weakest.typical) ** 2
    return TypicalShape(
        weakest=weakest,
        bottom_surplus=Span(surplus.low, likely, surplus.high),
        lockout_surplus=Span(0.0, 0.75 * of.lockout_surplus.typical, of.lockout_surplus.high),
        rise=of.rise,
        basis=f"{basis} No study was found for this lift itself.",
    )


_BOARD: Final = _upper_part(_BENCH, "Taken as the upper part of the bench press.")
_HALF: Final = _upper_part(_SQUAT, "Taken as the upper part of the squat.")
_BLOCK: Final = _upper_part(_DEADLIFT, "Taken as the upper part of the deadlift.")
_PIN: Final = _upper_part(_PRESS, "Taken as the upper part of the overhead press.")

TYPICAL: Final = {
    "bench press": _BENCH,
    "paused bench press": _BENCH,
    "close-grip bench press": _BENCH,
    "incline press": _BENCH,
    "board press": _BOARD,
    "pin press": _BOARD,
    "floor press": _BOARD,
    "squat": _SQUAT,
    "paused squat": _SQUAT,
    "front squat": _SQUAT,
    "box squat": _SQUAT,
    "half squat": _HALF,
    "deadlift": _DEADLIFT,
    "paused deadlift": _DEADLIFT,
    "sumo deadlift": _DEADLIFT,
    "deficit deadlift": _DEADLIFT,
    "block pull": _BLOCK,
    "rack pull": _BLOCK,
    "overhead press": _PRESS,
    "push press": _PRESS,
    "overhead pin press": _PIN,
}
"""The typical shape of every lift by name; variants share the shape of their lift."""

OPEN: Final = TypicalShape(
    weakest=Span(0.0, 0.3, 1.0),
    bottom_surplus=Span(0.0, 0.2, 3.0),
    lockout_surplus=Span(0.0, 0.4, 4.0),
    rise=Span(0.02, 0.3, 1.0),
    basis="Any shape with one weakest height, up to five times as strong at lockout.",
)
"""What is left when a lifter's own numbers do not fit the typical spans."""


def typical_for(lift_name: str) -> TypicalShape:
    """Find the typical shape of a lift by its full name.

    Raises
    ------
    NotInStockError
        No such lift.

    Examples
    --------
    >>> typical_for("deadlift").shape.lockout_surplus
    0.3
    """
    found = TYPICAL.get(lift_name)
    if found is None:
        raise NotInStockError(
            f"No typical strength curve for {lift_name!r}",
            field="lift",
            got=repr(lift_name),
            wanted=", ".join(TYPICAL),
        )
    return found
