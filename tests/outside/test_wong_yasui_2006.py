"""Wong & Yasui, Falling chains, Am. J. Phys. 74 (2006) 490.

Seen: abstract. It holds that a chain falling from a heap keeps its energy. The matter is disputed,
so topheavy gives a range, and this is its lower end: k = 1/2.
"""

from __future__ import annotations

import pytest
from scipy.integrate import quad

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.moving import ENERGY_KEPT, raising_force_n

DENSITY = 5.0
HEAP = LoadCurve.strand(DENSITY, 2.0, 0.0)


def test_energy_keeping_bound() -> None:
    """5 kg/m, 0.8 m, 0.5 m/s: 39.852 N, 1e-3 N (computed)."""
    force_n = raising_force_n(HEAP, 0.0, 0.8, 0.5, 0.0, ENERGY_KEPT)
    assert force_n == pytest.approx(39.852, abs=1e-3)


def test_at_the_bound_all_work_is_in_the_chain() -> None:
    """Work = potential + kinetic energy; the least any lift at this speed can take."""
    speed, z = 1.1, 0.9
    work = quad(lambda h: float(raising_force_n(HEAP, 0.0, h, speed, 0.0, ENERGY_KEPT)), 0, z)[0]
    energy = DENSITY * G * z**2 / 2 + 0.5 * DENSITY * z * speed**2
    assert work == pytest.approx(energy, rel=1e-9)


def test_less_than_the_bound_would_make_energy_and_is_refused() -> None:
    with pytest.raises(BadInputError):
        raising_force_n(HEAP, 0.0, 0.8, 0.5, 0.0, ENERGY_KEPT - 0.01)
