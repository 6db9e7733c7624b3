"""Tension of a band against its length: a polynomial that starts at rest length and never falls.

In the Bernstein form T(s) = sum of c_k B(k, n)(s), s from 0 at rest length to 1 at the longest
reading, c_0 = 0: when no coefficient is less than the one before, T never falls. For degree 2
the rule is exact, for higher ones it is on the safe side (Farouki, The Bernstein polynomial
basis: a centennial retrospective, 2012; from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import comb
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

_LAST_PART: Final = 1 / 3


@dataclass(frozen=True, slots=True)
class BandLaw:
    """Tension by length: nothing when slack, then a polynomial, then a straight line.

    Parameters
    ----------
    rest_m, longest_m : float
        Length where the band begins to pull, and longest length it was read at [m].
    rises_kg : tuple of float
        Steps c_1 - c_0, c_2 - c_1, ... of the Bernstein coefficients [kg]. Their number is the
        degree, at least 2.

    Examples
    --------
    A band that pulls 10 kg at 1.5 m and 18 kg at 2 m, softening on the way:

    >>> law = BandLaw(1.0, 2.0, (11.0, 7.0))
    >>> law.tension_kg([0.9, 1.0, 1.5, 2.0]).tolist()
    [0.0, 0.0, 10.0, 18.0]
    """

    rest_m: float
    longest_m: float
    rises_kg: tuple[float, ...]

    @property
    def degree(self) -> int:
        """Degree of the polynomial."""
        return len(self.rises_kg)

    def tension_kg(self, length_m: ArrayLike) -> Floats:
        """Tension [kg as a scale reads it] at lengths [m]; straight on beyond the longest."""
        tension: Floats = self.basis(length_m) @ np.array(self.rises_kg)
        return tension

    def basis(self, length_m: ArrayLike) -> Floats:
        """What one kilogram more in each rise adds to the tension: shape (..., degree) [-]."""
        return rise_basis(self._stretch(length_m), self.degree)

    def slope_kg_per_m(self, length_m: ArrayLike) -> Floats:
        """Stiffness [kg/m] at lengths [m]: 0 when slack; at rest length that of the stretch."""
        s = self._stretch(length_m)
        pulls = np.asarray(length_m, dtype=np.float64) >= self.rest_m
        steps = _bernstein(np.minimum(s, 1.0), self.degree - 1) @ np.array(self.rises_kg)
        inside = np.where(pulls, self.degree * steps / self.span_m, 0.0)
        slope: Floats = np.where(s > 1.0, self._onward_kg / self.span_m, inside)
        return slope

    def energy_kg_m(self, length_m: ArrayLike) -> Floats:
        """Energy held at lengths [m], in kg m: the integral of the tension, exact."""
        s = self._stretch(length_m)
        inside, beyond = np.minimum(s, 1.0), np.maximum(s - 1.0, 0.0)
        tensions = np.concatenate([[0.0], np.cumsum(self.rises_kg)])
        areas = np.concatenate([[0.0], np.cumsum(tensions)]) / (self.degree + 1)
        more = beyond * (tensions[-1] + 0.5 * beyond * self._onward_kg)
        energy: Floats = self.span_m * (_bernstein(inside, self.degree + 1) @ areas + more)
        return energy

    @property
    def span_m(self) -> float:
        """How far the band was stretched at its longest reading [m]."""
        return self.longest_m - self.rest_m

    @property
    def stiffest_kg_per_m(self) -> float:
        """No stretch within the readings is stiffer than this [kg/m]."""
        return self.degree * max(self.rises_kg) / self.span_m

    @property
    def most_bent_kg_per_m2(self) -> float:
        """The stiffness changes nowhere faster than this [kg/m per m], rest length left out."""
        bends = np.abs(np.diff(self.rises_kg))
        return self.degree * (self.degree - 1) * float(np.max(bends)) / self.span_m**2

    @property
    def _onward_kg(self) -> float:
        """Rise beyond the longest reading [kg] for as much stretch as up to there."""
        return float(_onward(self.degree) @ np.array(self.rises_kg))

    def _stretch(self, length_m: ArrayLike) -> Floats:
        lengths = np.asarray(length_m, dtype=np.float64)
        return np.maximum((lengths - self.rest_m) / self.span_m, 0.0)


def rise_basis(stretch: ArrayLike, degree: int) -> Floats:
    """Share of each rise that the tension has at stretches s [-], 0 at rest, 1 at the longest.

    Parameters
    ----------
    stretch : array_like
        s >= 0 [-], any shape; beyond 1 it goes straight on, as steep as over the last third of
        the readings: a polynomial's slope at its very end is its least certain.
    degree : int
        Degree n >= 1.

    Returns
    -------
    array, shape (..., n)
        Sum of B(j, n) over j >= k, for k = 1 to n [-], and more beyond 1.
    """
    s = np.asarray(stretch, dtype=np.float64)
    beyond: Floats = np.maximum(s - 1.0, 0.0)[..., np.newaxis] * _onward(degree)
    return _shares(np.minimum(s, 1.0), degree) + beyond


def _onward(degree: int) -> Floats:
    """Share of each rise in the slope over the last third [-]."""
    last = _shares(np.array([1.0 - _LAST_PART, 1.0]), degree)
    slope: Floats = (last[1] - last[0]) / _LAST_PART
    return slope


def _shares(s: Floats, degree: int) -> Floats:
    basis = _bernstein(s, degree)
    shares: Floats = np.cumsum(basis[..., ::-1], axis=-1)[..., ::-1][..., 1:]
    return shares


def _bernstein(s: Floats, degree: int) -> Floats:
    """Bernstein polynomials of a degree at s in [0, 1]: shape (..., degree + 1)."""
    k = np.arange(degree + 1)
    choose = np.array([comb(degree, one) for one in k], dtype=np.float64)
    t = s[..., np.newaxis]
    basis: Floats = choose * t**k * (1.0 - t) ** (degree - k)
    return basis
