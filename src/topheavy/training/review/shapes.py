"""A lifter's strength by its shape alone, and which straight weight is as hard as a load."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.strength import StrengthCurve
    from topheavy.mechanics.curve import LoadCurve

    Floats = NDArray[np.float64]

SAMPLES: Final = 200
"""How many plausible lifters stand for what is not known of this one."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shapes:
    """Strength over its own least value.

    Parameters
    ----------
    height_m : array, shape (heights,)
        Heights [m], rising.
    likeliest : array, shape (heights,)
        The likeliest shape [-], least 1.
    sampled : array, shape (SAMPLES, heights)
        Plausible ones [-], least 1 each.
    """

    height_m: Floats
    likeliest: Floats
    sampled: Floats


def shapes_of(curve: StrengthCurve) -> Shapes:
    """Take the shape of a strength curve, and its plausible ones.

    Parameters
    ----------
    curve : StrengthCurve
        Strength by height.
    """
    sampled = curve.samples(SAMPLES)
    return Shapes(
        height_m=curve.height_m,
        likeliest=curve.best_kg / np.min(curve.best_kg),
        sampled=sampled / np.min(sampled, axis=1, keepdims=True),
    )


def straight_as_hard(straight_kg: float, hung: LoadCurve | None, shapes: Shapes) -> float:
    """Straight weight that uses strength as much where it is hardest [kg].

    Where load over strength is greatest, E / min S = max (P + C) / S: so E = max (P + C) / s, with
    s = S / min S. How strong the lifter is does not matter for it, the shape alone does.

    Parameters
    ----------
    straight_kg : float
        Straight weight P [kg].
    hung : LoadCurve or None
        What hangs, C; None for nothing.
    shapes : Shapes
        The lifter's.

    Examples
    --------
    >>> import numpy as np
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> shape = np.array([1.1, 1.0, 1.3])
    >>> mine = Shapes(height_m=np.array([0.6, 0.8, 1.0]), likeliest=shape, sampled=shape[None])
    >>> straight_as_hard(90.0, LoadCurve.through([0.6, 1.0], [0.0, 26.0]), mine)
    103.0
    """
    if hung is None:
        return straight_kg
    load = straight_kg + _hung_at(hung, shapes)
    return float(np.max(load / shapes.likeliest))


def sampled_as_hard(straight_kg: float, hung: LoadCurve | None, shapes: Shapes) -> Floats:
    """Do as `straight_as_hard`, for each of the plausible shapes [kg].

    Parameters
    ----------
    straight_kg : float
        Straight weight [kg].
    hung : LoadCurve or None
        What hangs; None for nothing.
    shapes : Shapes
        The lifter's.

    Returns
    -------
    array, shape (SAMPLES,)
        Straight weights [kg].
    """
    if hung is None:
        return np.full(len(shapes.sampled), straight_kg)
    load = straight_kg + _hung_at(hung, shapes)
    return np.asarray(np.max(load / shapes.sampled, axis=1), dtype=np.float64)


def _hung_at(hung: LoadCurve, shapes: Shapes) -> Floats:
    return np.asarray(hung.at(shapes.height_m), dtype=np.float64)
