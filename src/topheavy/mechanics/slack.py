"""Slack dragged out to one side instead of piled under the bar: catenary and floor friction."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.hang import Strand

    Floats = NDArray[np.float64]

_KNOTS = 257


def dragged_length_m(height_m: ArrayLike, length_m: ArrayLike, friction: ArrayLike) -> Floats:
    """Length of chain off the floor when the rest is laid out straight and slides.

    A catenary of length s from the floor to height h has s2 = h2 + 2 a h, where a is its
    horizontal pull as a length of chain; the chain left on the floor resists by friction,
    a = mu (L - s). So s = -mu h + sqrt((mu h)2 + h2 + 2 mu h L).

    Parameters
    ----------
    height_m : array_like
        Height of the strand's upper end above the floor [m]; below zero counts as zero.
    length_m : array_like
        Length of the strand L [m]. All three broadcast.
    friction : array_like
        Coefficient of friction mu, chain on floor [-].

    Returns
    -------
    array
        s [m], 0 to L.

    References
    ----------
    Catenary: Irvine, Cable Structures (1981), chapter 1 (from memory).

    Examples
    --------
    >>> bool(dragged_length_m(1.0, 1.0, 0.7) == 1.0)
    True
    """
    length = np.asarray(length_m, dtype=np.float64)
    h = np.clip(np.asarray(height_m, dtype=np.float64), 0.0, length)
    drag = np.asarray(friction, dtype=np.float64) * h
    return np.minimum(-drag + np.sqrt(drag**2 + h**2 + 2 * drag * length), length)


def side_pull_n(
    height_m: ArrayLike, length_m: float, friction: float, density_kg_per_m: float
) -> Floats:
    """Horizontal pull on the bar end [N] of one dragged strand: mu lambda g (L - s).

    Parameters
    ----------
    height_m : array_like
        Height of the strand's upper end above the floor [m].
    length_m : float
        Length of the strand [m].
    friction : float
        Chain on floor [-].
    density_kg_per_m : float
        Mass per length [kg/m].

    Returns
    -------
    array
        Pull [N]; zero while nothing hangs.
    """
    lifted = dragged_length_m(height_m, length_m, friction)
    weight = density_kg_per_m * STANDARD_GRAVITY_M_PER_S2
    return np.where(np.asarray(height_m) > 0, friction * weight * (length_m - lifted), 0.0)


def dragged_curve(strand: Strand, surface_m: float, friction: float) -> LoadCurve:
    """Load curve of one dragged strand, joined through points on the closed form.

    Parameters
    ----------
    strand : Strand
        What hangs.
    surface_m : float
        Height of the floor [m].
    friction : float
        Chain on floor [-].

    Returns
    -------
    LoadCurve
        Within 0.05 % of the strand's weight of `dragged_length_m` (points denser near the floor).
    """
    if strand.length_m <= 0:
        return LoadCurve.constant(0.0)
    h = strand.length_m * np.linspace(0.0, 1.0, _KNOTS) ** 2
    load_kg = strand.density_kg_per_m * dragged_length_m(h, strand.length_m, friction)
    return LoadCurve.through(h + strand.offset_m + surface_m, load_kg)
