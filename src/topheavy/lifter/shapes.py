"""Which typical shapes agree best with the evidence, and which full-range best each implies.

A grid of shapes over weakest height, lockout surplus and rise; the bottom surplus stays typical.
For each shape a piece of evidence implies a least strength B of the whole lift: a partial L from
height h says B = L / s(h), a best P under a hung load C says B = max of (P + C) / s. The better
the pieces agree, and the nearer the shape is to the typical one, the likelier it is.
"""

from __future__ import annotations

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
)
from topheavy.lifter.known import (
    full_u_kg,
    hung_above,
    hung_u_kg,
    isometric_kg,
    miss_u_kg,
    shares_of,
)
from topheavy.lifter.typical import Shape, curve_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.evidence import Evidence
    from topheavy.lifter.known import Frame
    from topheavy.lifter.typical import Span, TypicalShape

    Floats = NDArray[np.float64]

_SURPLUSES, _RISES = 10, 3
_SURE: Final = 0.002
"""Least relative uncertainty of any piece [-], so that none is taken as without error."""


@dataclass(frozen=True, slots=True, eq=False)
class Shapes:
    """The grid of shapes, and how well each agrees.

    Parameters
    ----------
    weakest : array of int, shape (shapes,)
        Index of the weakest height.
    shares, top, rise : array, shape (shapes,)
        Weakest share of the travel, lockout surplus, rise [-].
    bottom : Span
        Of the bottom surplus [-].
    misfit : array, shape (shapes,)
        Sum of squares [-] of how far evidence and typical parameters are off, in standard
        uncertainties; relative likelihood is exp(-misfit / 2).
    best_kg : array, shape (shapes,)
        Full-range best [kg] that the evidence implies, weighted.
    relative_u : float
        Its relative standard uncertainty [-].
    """

    weakest: NDArray[np.intp]
    shares: Floats
    top: Floats
    rise: Floats
    bottom: Span
    misfit: Floats
    best_kg: Floats
    relative_u: float

    def shape(self, which: int, bottom_surplus: float) -> Shape:
        """One shape of the grid, with a bottom surplus [-]."""
        return Shape(
            weakest=float(self.shares[which]),
            bottom_surplus=bottom_surplus,
            lockout_surplus=float(self.top[which]),
            rise=float(self.rise[which]),
        )


def weigh_shapes(
    pieces: Sequence[Evidence],
    frame: Frame,
    heights_m: Floats,
    weakest: Sequence[int],
    typical: TypicalShape,
) -> Shapes:
    """Weigh every shape of the grid against the evidence.

    Parameters
    ----------
    pieces : sequence of Evidence
        At least one of them a maximum.
    frame : Frame
        Of which lift.
    heights_m : array, shape (heights,)
        Heights [m] from bottom to top.
    weakest : sequence of int
        Indices of the weakest heights that are possible.
    typical : TypicalShape
        Spans and typical values.
    """
    tops = _values(typical.lockout_surplus, _SURPLUSES)
    rises = _values(typical.rise, _RISES)
    index = np.repeat(np.asarray(weakest, dtype=np.intp), tops.size * rises.size)
    top = np.tile(np.repeat(tops, rises.size), len(weakest))
    rise = np.tile(rises, len(weakest) * tops.size)
    shares = shares_of(heights_m, frame.travel)
    grid = curve_of(
        shares, shares[index, None], typical.bottom_surplus.typical, top[:, None], rise[:, None]
    )
    implied, relative_u = _implied(pieces, frame, heights_m, shares[index], grid)
    weights = relative_u[:, None] ** -2
    log_best = np.sum(weights * np.log(implied), axis=0) / np.sum(weights)
    misfit = np.sum(weights * (np.log(implied) - log_best) ** 2, axis=0)
    misfit += _off(shares[index], typical.weakest) + _off(top, typical.lockout_surplus)
    misfit += _off(rise, typical.rise)
    misfit += _one_sided(pieces, frame, heights_m, np.exp(log_best)[:, None] * grid)
    return Shapes(
        weakest=index,
        shares=shares[index],
        top=top,
        rise=rise,
        bottom=typical.bottom_surplus,
        misfit=misfit,
        best_kg=np.exp(log_best),
        relative_u=float(np.sum(weights) ** -0.5),
    )


def _implied(
    pieces: Sequence[Evidence], frame: Frame, heights_m: Floats, weakest: Floats, grid: Floats
) -> tuple[Floats, Floats]:
    """Full-range best that each maximum implies, by shape, and its relative uncertainty."""
    implied, relative_u = [], []

    def read(height_m: float) -> Floats:
        return grid[:, int(np.argmin(np.abs(heights_m - height_m)))]

    for piece in pieces:
        if isinstance(piece, FullRange | Partial) and piece.maximal:
            middle_kg = best_of(piece).middle_kg
            scale = np.ones(len(grid))
            if isinstance(piece, Partial):
                above = weakest < frame.share(piece.height_m)
                scale = np.where(above, read(piece.height_m), 1.0)
            implied.append(middle_kg / scale)
            relative_u.append(full_u_kg(piece, frame) / middle_kg)
        elif isinstance(piece, Isometric):
            likely_kg, u_kg = isometric_kg(piece, frame)
            implied.append(likely_kg / read(piece.height_m))
            relative_u.append(u_kg / likely_kg)
        elif isinstance(piece, HungBest) and piece.maximal:
            load_kg = piece.straight_kg + hung_above(piece.hung, heights_m)
            implied.append(np.max(load_kg / grid, axis=1))
            relative_u.append(hung_u_kg(piece, frame) / piece.straight_kg)
    return np.array(implied), np.maximum(np.array(relative_u), _SURE)


def _one_sided(
    pieces: Sequence[Evidence], frame: Frame, heights_m: Floats, strength_kg: Floats
) -> Floats:
    """Squares of how far a shape is stronger than a miss, or weaker than a lift, allows."""
    total = np.zeros(len(strength_kg))
    for piece in pieces:
        if isinstance(piece, Miss):
            at = int(np.argmin(np.abs(heights_m - piece.height_m)))
            over = np.log(strength_kg[:, at] / piece.load_kg)
            relative = max(miss_u_kg(piece, frame) / piece.load_kg, _SURE)
        elif isinstance(piece, Partial) and not piece.maximal:
            above = heights_m >= piece.height_m - 1e-12
            over = np.log(piece.load_kg / np.min(strength_kg[:, above], axis=1))
            relative = max(full_u_kg(piece, frame) / piece.load_kg, _SURE)
        elif isinstance(piece, HungBest) and not piece.maximal:
            load_kg = piece.straight_kg + hung_above(piece.hung, heights_m)
            over = np.log(np.max(load_kg / strength_kg, axis=1))
            relative = max(hung_u_kg(piece, frame) / piece.straight_kg, _SURE)
        else:
            continue
        total += (np.maximum(over, 0.0) / relative) ** 2
    return total


def _values(span: Span, count: int) -> Floats:
    """Spread over a span, the typical value among them."""
    low = np.linspace(span.low, span.typical, count)
    return np.concatenate([low, np.linspace(span.typical, span.high, count)[1:]])


def _off(value: Floats, span: Span) -> Floats:
    """Square of how far a parameter is from typical, the ends of its span two spreads out."""
    below = (span.typical - span.low) / 2 or 1.0
    above = (span.high - span.typical) / 2 or 1.0
    gap = value - span.typical
    return np.asarray((gap / np.where(gap < 0, below, above)) ** 2, dtype=np.float64)
