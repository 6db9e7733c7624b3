"""The normal distribution, where a single formula is not worth a slow import."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

_FAR: Final = 9.0
"""From here on less than 1.2e-19 is left of the distribution: nothing to a double near 1."""


def cumulative(t: ArrayLike) -> NDArray[np.float64]:
    """Share of a standard normal distribution below t: Phi(t) = erfc(-t / sqrt(2)) / 2.

    Parameters
    ----------
    t : array_like
        Standard deviations from the mean [-], any shape.

    Returns
    -------
    array
        Phi(t) [-], the shape of `t`, to 2e-16; exactly 0 or 1 from nine standard deviations on.

    References
    ----------
    Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.29 (from memory).

    Examples
    --------
    >>> cumulative([-1.0, 0.0, 40.0]).round(6).tolist()
    [0.158655, 0.5, 1.0]
    """
    away = np.asarray(t, dtype=np.float64)
    below = np.where(np.isnan(away), np.nan, away > 0)
    near = np.abs(away) < _FAR
    scaled = away[near] * -math.sqrt(0.5)
    below[near] = [0.5 * math.erfc(x) for x in scaled.tolist()]
    return below
