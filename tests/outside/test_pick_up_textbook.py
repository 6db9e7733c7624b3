"""Chain lifted from a loose heap at constant speed: F = density (g z + v2).

Kleppner & Kolenkow, An Introduction to Mechanics, chapter on momentum, and Morin, Introduction to
Classical Mechanics, chapter on momentum (both from memory); the same result derived in an open
lecture page (read). Cayley 1857, chain drawn over an edge from a heap falls with g/3 (through
Wong & Yasui 2006, abstract; the figure from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from scipy.integrate import quad, solve_ivp

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.moving import pick_up_force_n, raising_force_n

if TYPE_CHECKING:
    import numpy as np

DENSITY = 5.0
HEAP = LoadCurve.strand(DENSITY, 100.0, 0.0)


def test_static_weight() -> None:
    """5 kg/m, 0.8 m: 39.227 N, 1e-3 N (computed)."""
    assert raising_force_n(HEAP, 0.0, 0.8, 0.0, 0.0) == pytest.approx(39.227, abs=1e-3)


def test_steady_lift() -> None:
    """The same at 0.5 m/s: 40.477 N, 1e-3 N (computed)."""
    assert raising_force_n(HEAP, 0.0, 0.8, 0.5, 0.0) == pytest.approx(40.477, abs=1e-3)


def test_force_is_weight_plus_momentum_of_the_links_that_joined() -> None:
    """Newton's second law for the whole chain: impulse less weight = density z v, exactly."""
    speed, z = 1.3, 0.9
    impulse = quad(lambda h: float(raising_force_n(HEAP, 0.0, h, speed, 0.0)) / speed, 0, z)[0]
    weight = quad(lambda h: DENSITY * h * G / speed, 0, z)[0]
    assert impulse - weight == pytest.approx(DENSITY * z * speed, rel=1e-9)


def test_half_the_energy_of_joining_is_lost() -> None:
    """Work less lift = density z v2, twice the kinetic energy the chain has."""
    speed, z = 1.3, 0.9
    work = quad(lambda h: float(raising_force_n(HEAP, 0.0, h, speed, 0.0)), 0, z)[0]
    kinetic = 0.5 * DENSITY * z * speed**2
    assert work - DENSITY * G * z**2 / 2 == pytest.approx(2 * kinetic, rel=1e-9)


@pytest.mark.parametrize(("pick_up", "share_of_g"), [(1.0, 1 / 3), (0.5, 1 / 2)])
def test_chain_drawn_over_an_edge_from_a_heap(pick_up: float, share_of_g: float) -> None:
    """Falls with g/3 when links are jerked loose (Cayley), g/2 when energy is kept."""

    def motion(_t: float, state: np.ndarray) -> list[float]:
        hanging, speed = state
        pull = float(pick_up_force_n(HEAP, hanging, speed, pick_up))
        return [speed, G - pull / (DENSITY * hanging)]

    start = 1e-6
    fall = solve_ivp(motion, (0.0, 1.0), [start, 0.0], rtol=1e-9, atol=1e-12)
    hanging, speed = fall.y[:, -1]
    assert speed**2 / (2 * hanging) == pytest.approx(share_of_g * G, rel=1e-4)
