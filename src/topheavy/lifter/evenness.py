"""How heavy a load may be under a strength curve, and how evenly it uses the lifter.

Plain kernels over arrays whose last axis is height, for one rig or ten thousand. Heights may lie
at uneven steps. Between them strength and load are taken as straight, so `heaviest_straight` is
exact when the knots of both are among the heights.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from topheavy.errors import BadInputError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]


class Evenness(NamedTuple):
    """How evenly loads use the lifter; each an array over rigs.

    Parameters
    ----------
    mean, least, most : array
        Effort u = load / strength over the travel [-].
    off : array
        Root mean square of u less the wanted effort [-] over the travel: 0 is perfectly even.
    """

    mean: Floats
    least: Floats
    most: Floats
    off: Floats


def heaviest_straight(
    strength_kg: ArrayLike, hung_kg: ArrayLike, *, effort: float = 1.0
) -> tuple[Floats, NDArray[np.intp]]:
    """Heaviest straight weight under hung loads: P = min over heights of (effort x S - C).

    Parameters
    ----------
    strength_kg : array_like, shape (..., heights)
        Strength S [kg].
    hung_kg : array_like, shape (..., heights)
        Hung load C [kg]; leading axes broadcast with those of the strength.
    effort : float
        Greatest share of strength to use anywhere [-], 0 < effort <= 1.

    Returns
    -------
    straight_kg : array, shape (...)
        Straight weight [kg]; below zero when the hung load alone is too much.
    limit : array of int, shape (...)
        Index of the height where it is limited, the lowest of equals.

    Raises
    ------
    BadInputError
        Arrays that do not fit, or an effort out of range.

    Examples
    --------
    >>> straight_kg, limit = heaviest_straight([110.0, 100.0, 130.0], [[0, 0, 0], [0, 20, 60]])
    >>> straight_kg.tolist(), limit.tolist()
    ([100.0, 70.0], [1, 2])
    """
    if not 0 < effort <= 1:
        raise BadInputError(
            "An effort is a share of strength", field="effort", got=effort, wanted="above 0, to 1"
        )
    strength, hung = _fitting(strength_kg, hung_kg)
    spare = effort * strength - hung
    limit = np.argmin(spare, axis=-1)
    return np.min(spare, axis=-1), limit


def effort_at(strength_kg: ArrayLike, load_kg: ArrayLike) -> Floats:
    """Effort u = load / strength [-], both [kg] over heights; infinite where strength is zero.

    Examples
    --------
    >>> effort_at([100.0, 125.0], [[100.0, 100.0], [80.0, 100.0]]).tolist()
    [[1.0, 0.8], [0.8, 0.8]]
    """
    strength, load = _fitting(strength_kg, load_kg)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(np.where(strength > 0, load / strength, np.inf), dtype=np.float64)


def evenness(
    strength_kg: ArrayLike, load_kg: ArrayLike, height_m: ArrayLike, *, wanted: float = 1.0
) -> Evenness:
    """Say how evenly loads use the lifter over the travel.

    Parameters
    ----------
    strength_kg : array_like, shape (..., heights)
        Strength [kg], > 0.
    load_kg : array_like, shape (..., heights)
        Whole load [kg], straight weight and hung.
    height_m : array_like, shape (heights,)
        Heights [m], rising.
    wanted : float
        Wanted effort [-], > 0.

    Returns
    -------
    Evenness
        Means over height, by the trapezoidal rule.

    Raises
    ------
    BadInputError
        Arrays that do not fit, or heights that do not rise.

    Examples
    --------
    >>> loads = [[100.0, 100.0, 100.0], [90.0, 108.0, 126.0]]
    >>> even = evenness([100.0, 120.0, 140.0], loads, [0.0, 0.2, 0.4], wanted=0.9)
    >>> even.mean.round(3).tolist(), even.least.round(3).tolist(), even.off.round(3).tolist()
    ([0.845, 0.9], [0.714, 0.9], [0.116, 0.0])
    """
    used = effort_at(strength_kg, load_kg)
    weights = _weights(height_m, used.shape[-1])
    return Evenness(
        mean=used @ weights,
        least=np.min(used, axis=-1),
        most=np.max(used, axis=-1),
        off=np.sqrt((used - wanted) ** 2 @ weights),
    )


def evenest_straight(
    strength_kg: ArrayLike, hung_kg: ArrayLike, height_m: ArrayLike, *, wanted: float
) -> Floats:
    """Straight weight [kg] that keeps effort nearest the wanted one, and never above strength.

    The least-squares weight: the mean of (wanted - C/S)/S over the mean of 1/S^2, brought down to
    the heaviest the lifter can move, and up to zero.

    Parameters
    ----------
    strength_kg : array_like, shape (..., heights)
        Strength S [kg], > 0.
    hung_kg : array_like, shape (..., heights)
        Hung load C [kg].
    height_m : array_like, shape (heights,)
        Heights [m], rising.
    wanted : float
        Wanted effort [-], > 0.

    Returns
    -------
    array, shape (...)
        Straight weight [kg]; below zero, and then that of `heaviest_straight`, where the hung load
        alone is more than the strength somewhere.

    Raises
    ------
    BadInputError
        Arrays that do not fit, or heights that do not rise.

    Examples
    --------
    >>> hung = [[0.0, 0.0, 0.0], [0.0, 18.0, 36.0]]
    >>> evenest_straight([100.0, 120.0, 140.0], hung, [0, 0.2, 0.4], wanted=0.9).round(2).tolist()
    [100.0, 90.0]
    """
    strength, hung = _fitting(strength_kg, hung_kg)
    weights = _weights(height_m, strength.shape[-1])
    best = ((wanted - hung / strength) / strength) @ weights / (strength**-2 @ weights)
    heaviest, _ = heaviest_straight(strength, hung)
    return np.minimum(np.maximum(best, 0.0), heaviest)


def _fitting(one: ArrayLike, other: ArrayLike) -> tuple[Floats, Floats]:
    first, second = np.asarray(one, dtype=np.float64), np.asarray(other, dtype=np.float64)
    sizes = {a.shape[-1] if a.ndim else 0 for a in (first, second)}
    if len(sizes) != 1 or sizes == {0}:
        raise BadInputError(
            "Strength and load need a value at each of the same heights",
            field="strength_kg",
            got=f"shapes {first.shape} and {second.shape}",
            wanted="the same last axis",
        )
    return first, second


def _weights(height_m: ArrayLike, size: int) -> Floats:
    """Trapezoidal weights of a mean over height; they add up to one."""
    heights = np.asarray(height_m, dtype=np.float64)
    if heights.shape != (size,) or size < 2 or not np.all(np.diff(heights) > 0):
        raise BadInputError(
            "Heights must rise, one for each value",
            field="height_m",
            got=f"shape {heights.shape}",
            wanted=f"{size} rising heights",
        )
    steps = np.diff(heights)
    weights = np.zeros(size)
    weights[:-1] += steps / 2
    weights[1:] += steps / 2
    return weights / float(heights[-1] - heights[0])
