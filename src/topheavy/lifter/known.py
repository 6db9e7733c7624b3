"""Evidence put into bounds: where strength is at least, or at most, how much.

Every bound is taken at two standard uncertainties. An uncertain height counts as an uncertain
load: times the typical rise of strength with height. Heights become shares of the travel,
u = (height - bottom) / travel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.evidence import (
    FullRange,
    HungBest,
    Isometric,
    Miss,
    Partial,
    best_of,
    best_u_kg,
    day_u_kg,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.lifter.evidence import Evidence
    from topheavy.mechanics.curve import LoadCurve

    Floats = NDArray[np.float64]

COVERAGE: Final = 2.0
"""How many standard uncertainties a bound allows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Which lift evidence is about.

    Parameters
    ----------
    lift : str
        Name.
    travel : Travel
        Bottom and top [m].
    slope : float
        Typical steepest rise of strength [- per whole travel], over the least strength.
    """

    lift: str
    travel: Travel
    slope: float

    def share(self, height_m: float) -> float:
        """Share of the travel [-] at a height [m]."""
        return float(shares_of(height_m, self.travel))

    def for_height(self, height_u_m: float) -> float:
        """Relative uncertainty of load [-] that an uncertainty of height [m] makes."""
        return self.slope * height_u_m / self.travel.travel_m


@dataclass(frozen=True, slots=True)
class Least:
    """Strength is at least `load_kg` everywhere from share `start` of the travel up."""

    start: float
    load_kg: float


@dataclass(frozen=True, slots=True)
class LeastAt:
    """Strength is at least `load_kg` at some share of the travel from `start` to `end`."""

    start: float
    end: float
    load_kg: float


@dataclass(frozen=True, slots=True)
class MostAt:
    """Strength is at most `load_kg` at some share of the travel from `start` to `end`."""

    start: float
    end: float
    load_kg: float


@dataclass(frozen=True, slots=True, eq=False)
class Under:
    """Strength is nowhere less than `least_kg`, and somewhere at most `most_kg`.

    Parameters
    ----------
    least_kg, most_kg : array, shape (heights,)
        Straight weight and hung load [kg] less and plus twice the uncertainty.
    touch : array of bool, shape (heights,)
        Which heights may be the one where they meet: those every curve has, and this hung load's
        own knots.
    maximal : bool
        False: the second part is not known.
    """

    least_kg: Floats
    most_kg: Floats
    touch: NDArray[np.bool_]
    maximal: bool


Bound = Least | LeastAt | MostAt | Under
_JUMP_M: Final = 1e-9


def shares_of(heights_m: object, travel: Travel) -> Floats:
    """Shares of the travel [-] at heights [m]."""
    return (np.asarray(heights_m, dtype=np.float64) - travel.bottom_m) / travel.travel_m


def hung_above(hung: LoadCurve, heights_m: Floats) -> Floats:
    """Hung load [kg] at rising heights [m], where it jumps the load just above; at the last, below.

    Strength does not jump, so just above a jump is where it is tried hardest; what lifts off only
    at the last height is never carried.
    """
    return np.asarray(hung.at(np.minimum(heights_m + _JUMP_M, heights_m[-1])), dtype=np.float64)


def bounds_of(
    piece: Evidence, frame: Frame, heights_m: Floats, regular: NDArray[np.bool_]
) -> tuple[Bound, ...]:
    """Put one piece of evidence into bounds.

    Parameters
    ----------
    piece : Evidence
        What is known.
    frame : Frame
        Of which lift.
    heights_m : array, shape (heights,)
        Heights [m] the bounds of hung loads are wanted at.
    regular : array of bool, shape (heights,)
        Which of them every curve of this lift has.
    """
    if isinstance(piece, FullRange | Partial):
        return _of_best(piece, frame)
    if isinstance(piece, HungBest):
        return (_of_hung(piece, frame, heights_m, regular),)
    at = frame.share(piece.height_m)
    if isinstance(piece, Isometric):
        off = COVERAGE * frame.for_height(piece.height_u_m) * piece.load_kg
        low_kg, high_kg = piece.share_low * piece.load_kg, piece.share_high * piece.load_kg
        return LeastAt(at, at, max(low_kg - off, 0.0)), MostAt(at, at, high_kg + off)
    return (MostAt(at, at, piece.load_kg + COVERAGE * miss_u_kg(piece, frame)),)


def full_u_kg(piece: FullRange | Partial, frame: Frame) -> float:
    """Standard uncertainty [kg] of the best a single or set stands for, its height included."""
    if isinstance(piece, FullRange):
        return best_u_kg(piece)
    return math.hypot(best_u_kg(piece), frame.for_height(piece.height_u_m) * piece.load_kg)


def miss_u_kg(piece: Miss, frame: Frame) -> float:
    """Standard uncertainty of a miss's load [kg], its height included."""
    day_kg = day_u_kg(piece.load_u_kg, piece.load_kg)
    return math.hypot(day_kg, frame.for_height(piece.height_u_m) * piece.load_kg)


def hung_u_kg(piece: HungBest, frame: Frame) -> float:
    """Standard uncertainty of a best under hung load [kg]: 2 % of the load at the top."""
    at_top_kg = piece.straight_kg + float(piece.hung.at(frame.travel.top_m))
    return day_u_kg(piece.load_u_kg, at_top_kg)


def isometric_kg(piece: Isometric, frame: Frame) -> tuple[float, float]:
    """Likely strength [kg] an isometric effort stands for, and its uncertainty [kg]."""
    spread = (piece.share_high - piece.share_low) / (2 * COVERAGE)
    off = frame.for_height(piece.height_u_m)
    return piece.share * piece.load_kg, math.hypot(spread, off) * piece.load_kg


def _of_best(piece: FullRange | Partial, frame: Frame) -> tuple[Bound, ...]:
    """Of a best; the load of a set was lifted, so the best is no less."""
    start = frame.share(piece.height_m) if isinstance(piece, Partial) else -np.inf
    off_kg = COVERAGE * full_u_kg(piece, frame)
    if not piece.maximal:
        return (Least(start, max(piece.load_kg - off_kg, 0.0)),)
    middle_kg = best_of(piece, frame.lift).middle_kg
    sure_kg = piece.load_kg if piece.reps > 1 else 0.0
    end = MostAt(start, np.inf, middle_kg + off_kg)
    return Least(start, max(middle_kg - off_kg, sure_kg)), end


def _of_hung(piece: HungBest, frame: Frame, heights_m: Floats, regular: NDArray[np.bool_]) -> Under:
    load_kg = piece.straight_kg + hung_above(piece.hung, heights_m)
    off_kg = COVERAGE * hung_u_kg(piece, frame)
    own = np.isin(heights_m, piece.hung.height_m)
    return Under(load_kg - off_kg, load_kg + off_kg, regular | own, piece.maximal)


def knots_of(pieces: Sequence[Evidence], travel: Travel) -> Floats:
    """Heights [m] that the evidence itself needs: its own, and the knots of hung loads."""
    own = [p.height_m for p in pieces if isinstance(p, Partial | Isometric | Miss)]
    hung = [p.hung.height_m for p in pieces if isinstance(p, HungBest)]
    heights = np.concatenate([np.array(own), *hung])
    return heights[(heights > travel.bottom_m) & (heights < travel.top_m)]
