"""Which bands go together: pairs that pull alike on both ends of the bar."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import combinations
from math import inf
from operator import add
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.banded import Banded

    Floats = NDArray[np.float64]

Edge = tuple[int, int]

MOST_BANDS: Final = 16

_SAME_KG: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPair:
    """Two bands for the two ends of the bar, hung alike.

    Parameters
    ----------
    left, right : Banded
        The bands.
    worst_kg : float
        Largest difference of what they add to the bar over the travel [kg].
    """

    left: Banded
    right: Banded
    worst_kg: float

    def imbalance_kg(self, height_m: ArrayLike) -> Floats:
        """How much more the left band adds to the bar [kg] at each height [m], with its sign."""
        return self.left.load_kg(height_m) - self.right.load_kg(height_m)

    def imbalance_u_kg(self, height_m: ArrayLike) -> Floats:
        """Standard uncertainty of that difference [kg]: both bands' readings, the pegs alike."""
        heights = np.asarray(height_m, dtype=np.float64)
        spreads = [
            hang.band.tension_u_kg(hang.length_m(heights), beyond=hang.beyond)
            * hang.upright(heights)
            for hang in (self.left, self.right)
        ]
        spread: Floats = np.hypot(*spreads)
        return spread


def match_pairs(hangs: Sequence[Banded], pairs: int | None = None) -> tuple[BandPair, ...]:
    """Find the pairs that differ least.

    The largest difference of any pair over the travel is as small as can be; among such choices
    the sum of the differences is. Exact: every choice is weighed, by sets of bands left.

    Parameters
    ----------
    hangs : sequence of Banded
        Up to 16 bands, all hung in the same way over the same travel.
    pairs : int or None
        How many pairs [-]; as many as there are when None. Bands that fit nowhere stay out.

    Returns
    -------
    tuple of BandPair
        Best pair first; within a pair in the order given.

    Raises
    ------
    BadInputError
        Fewer than two bands for each pair, too many bands, a band that stands twice, or bands
        hung in different ways.
    """
    wanted = len(hangs) // 2 if pairs is None else pairs
    _check(hangs, wanted)
    bottom, top = hangs[0].travel_m
    curves = [hang.curve() for hang in hangs]
    worst = {
        (i, j): curves[i].worst_gap(curves[j], bottom, top)
        for i, j in combinations(range(len(hangs)), 2)
    }
    chosen = sorted(_chosen(worst, len(hangs), wanted), key=lambda edge: (worst[edge], edge))
    return tuple(BandPair(left=hangs[i], right=hangs[j], worst_kg=worst[i, j]) for i, j in chosen)


def _check(hangs: Sequence[Banded], wanted: int) -> None:
    if not 1 <= wanted <= len(hangs) // 2:
        raise BadInputError(
            "A pair takes two bands",
            field="pairs",
            got=f"{wanted} pairs of {len(hangs)} bands",
            wanted="at least one pair, and two bands for each",
        )
    if len(hangs) > MOST_BANDS:
        raise BadInputError(
            "Too many bands to weigh every choice",
            field="hangs",
            got=len(hangs),
            wanted=f"up to {MOST_BANDS} bands of a kind at a time",
        )
    if len({hang.band.tag for hang in hangs}) < len(hangs):
        raise BadInputError("A band stands twice", field="hangs", wanted="each band once")
    if len({(hang.pegs, hang.travel_m, hang.beyond) for hang in hangs}) > 1:
        raise BadInputError(
            "Bands are compared as they hang alike",
            field="hangs",
            wanted="the same pegs and the same travel for all",
        )


def _chosen(worst: Mapping[tuple[int, int], float], count: int, wanted: int) -> list[Edge]:
    """Pairs with the smallest largest difference, and then the smallest sum."""
    bound = _best(worst, count, wanted, max)[0]
    near = {edge: gap for edge, gap in worst.items() if gap <= bound + _SAME_KG}
    return _best(near, count, wanted, add)[1]


def _best(
    worst: Mapping[tuple[int, int], float],
    count: int,
    wanted: int,
    fold: Callable[[float, float], float],
) -> tuple[float, list[Edge]]:
    """Least folded difference [kg] of so many pairs, and the pairs.

    By sets of bands left: the first of them stays out, or goes with one of the others.
    """

    @cache
    def least(left: int, pairs: int) -> tuple[float, tuple[Edge, ...]]:
        if pairs == 0:
            return 0.0, ()
        if left.bit_count() < 2 * pairs:
            return inf, ()
        first = (left & -left).bit_length() - 1
        others = left & ~(1 << first)
        found = least(others, pairs)
        for second in range(first + 1, count):
            gap = worst.get((first, second))
            if gap is None or not others >> second & 1:
                continue
            rest, edges = least(others & ~(1 << second), pairs - 1)
            if fold(gap, rest) < found[0]:
                found = fold(gap, rest), ((first, second), *edges)
        return found

    value, edges = least((1 << count) - 1, wanted)
    return value, list(edges)
