"""The least and the greatest strength at each height that evidence and shape leave open.

A curve is allowed when it falls to one weakest height and rises from there, keeps every bound,
and keeps, over its own least value, to the spans of a typical shape. For one weakest height v the
allowed curves fill a box between two curves of that same form, found in closed form; over all v
the boxes are united. More bounds can only make a box smaller or empty.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.lifter.known import Least, LeastAt, MostAt, Under

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.known import Bound
    from topheavy.lifter.typical import TypicalShape

    Floats = NDArray[np.float64]

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Box:
    """All allowed curves with one weakest height lie between these two.

    Parameters
    ----------
    weakest : int
        Index of the weakest height.
    low_kg, high_kg : array, shape (heights,)
        Least and greatest strength [kg]; both fall to `weakest` and rise from there.
    """

    weakest: int
    low_kg: Floats
    high_kg: Floats


def boxes_of(
    bounds: Sequence[Bound], shares: Floats, weakest: Iterable[int], typical: TypicalShape
) -> list[Box]:
    """Find the box of each weakest height; those without an allowed curve are left out.

    Parameters
    ----------
    bounds : sequence of Bound
        What is known.
    shares : array, shape (heights,)
        Shares of the travel [-], rising from 0 to 1.
    weakest : iterable of int
        Indices of the weakest heights to try.
    typical : TypicalShape
        Spans of the shape.
    """
    found = (_box(bounds, shares, index, typical) for index in weakest)
    return [box for box in found if box is not None]


def united(boxes: Sequence[Box]) -> tuple[Floats, Floats]:
    """Least and greatest strength [kg] at each height over all boxes."""
    low = np.min([box.low_kg for box in boxes], axis=0)
    high = np.max([box.high_kg for box in boxes], axis=0)
    return low, high


def _box(bounds: Sequence[Bound], shares: Floats, index: int, typical: TypicalShape) -> Box | None:
    at = float(shares[index])
    least, greatest = typical.least(shares, at), typical.greatest(shares, at)
    low = _raised(_floor(bounds, shares, at), index)
    low = np.maximum(low, np.max(low / greatest) * least)
    high = _ceiling(bounds, shares, at)
    best_kg = np.inf
    for under in (b for b in bounds if isinstance(b, Under) and b.maximal):
        touches = np.flatnonzero((low[index:] <= under.most_kg[index:]) & under.touch[index:])
        if touches.size == 0:
            return None
        touches += index
        first, last = touches[0], touches[-1]
        high[index : first + 1] = np.minimum(high[index : first + 1], under.most_kg[last])
        best_kg = min(best_kg, float(np.max(under.most_kg[touches] / least[touches])))
    high = _lowered(high, index)
    best_kg = min(best_kg, float(np.min(high / least)))
    high = np.minimum(high, best_kg * greatest)
    if np.any(low > high * (1 + _ROUNDING)):
        return None
    return Box(index, np.minimum(low, high), high)


def _floor(bounds: Sequence[Bound], shares: Floats, at: float) -> Floats:
    """Least strength [kg] that each bound by itself asks for, given the weakest share `at`."""
    low = np.zeros_like(shares)
    for bound in bounds:
        if isinstance(bound, Under):
            low = np.maximum(low, bound.least_kg)
            continue
        if isinstance(bound, Least):
            where = shares >= bound.start - _ROUNDING
        elif isinstance(bound, LeastAt) and at <= bound.start:
            where = shares >= bound.end - _ROUNDING
        elif isinstance(bound, LeastAt) and at >= bound.end:
            where = shares <= bound.start + _ROUNDING
        else:
            continue
        low = np.where(where, np.maximum(low, bound.load_kg), low)
    return low


def _ceiling(bounds: Sequence[Bound], shares: Floats, at: float) -> Floats:
    """Greatest strength [kg] that each bound by itself leaves, given the weakest share `at`."""
    high = np.full_like(shares, np.inf)
    for bound in bounds:
        if not isinstance(bound, MostAt):
            continue
        if at <= bound.start:
            where = (shares >= at) & (shares <= bound.start + _ROUNDING)
        elif at >= bound.end:
            where = (shares >= bound.end - _ROUNDING) & (shares <= at)
        else:
            where = shares == at
        high = np.where(where, np.minimum(high, bound.load_kg), high)
    return high


def _raised(low: Floats, index: int) -> Floats:
    """Strength rises from the weakest height both ways, so a least value holds further out too."""
    below = np.maximum.accumulate(low[: index + 1][::-1])[::-1]
    above = np.maximum.accumulate(low[index:])
    return np.concatenate([below, above[1:]])


def _lowered(high: Floats, index: int) -> Floats:
    """A greatest value holds further in too, down to the weakest height."""
    below = np.minimum.accumulate(high[: index + 1])
    above = np.minimum.accumulate(high[index:][::-1])[::-1]
    return np.concatenate([below[:-1], [min(below[-1], above[0])], above[1:]])
