"""The swing of a hanging chain: D. Bernoulli 1732, Euler 1781.

Seen: derivation read in lecture notes and part of O'Neil, Advanced Engineering Mathematics,
section 15.3: u(x, t) = J0(2 omega sqrt(x/g)) cos(omega t), x from the free end, zero at the top.
Zeros of J0 from scipy.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.linalg import eigh_tridiagonal
from scipy.special import j0, jn_zeros

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.mechanics.sway import sway_frequencies_hz


def test_first_three_modes_of_one_metre() -> None:
    """0.5993, 1.3756, 2.1565 Hz, 1e-4 (computed)."""
    assert sway_frequencies_hz(1.0) == pytest.approx((0.5993, 1.3756, 2.1565), abs=1e-4)


def test_the_zeros_are_those_of_the_tables() -> None:
    """2.4048, 5.5201, 8.6537: Abramowitz & Stegun 1964, table 9.5 (from memory), 1e-4."""
    assert jn_zeros(0, 3) == pytest.approx([2.4048, 5.5201, 8.6537], abs=1e-4)


@pytest.mark.parametrize("length_m", [0.3, 1.0, 1.52])
def test_the_top_stands_still_in_every_mode(length_m: float) -> None:
    """Boundary condition of the equation: J0(2 omega sqrt(L/g)) = 0."""
    omega = 2 * np.pi * np.array(sway_frequencies_hz(length_m, 5))
    assert j0(2 * omega * np.sqrt(length_m / G)) == pytest.approx(0.0, abs=1e-9)


def test_a_chain_of_many_pendulums_swings_alike() -> None:
    """Discrete hanging masses, eigenvalues by LAPACK: first mode within 0.1 % for 1000 links."""
    links, length_m = 1000, 1.2
    link_m = length_m / links
    below = np.arange(links, 0, -1, dtype=float)  # links that hang on each, top first
    diagonal = G / link_m * (below + np.append(below[1:], 0.0))
    off = -G / link_m * below[1:]
    omega2 = eigh_tridiagonal(diagonal, off, eigvals_only=True, select="i", select_range=(0, 0))
    assert float(np.sqrt(omega2[0]) / (2 * np.pi)) == pytest.approx(
        sway_frequencies_hz(length_m, 1)[0], rel=1e-3
    )
