"""Hamm & Geminard, The weight of a falling chain, revisited, Am. J. Phys. 78 (2010) 828.

Seen: abstract and introduction read. Theory: the scale shows three times the weight of what has
landed, then drops at once to the chain's weight.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.mechanics.moving import drop_force_n

DENSITY, LENGTH = 6.0, 1.5


def test_three_times_the_landed_weight_until_it_lies() -> None:
    """Introduction: exact, ideal."""
    fallen = np.linspace(0.0, LENGTH, 50, endpoint=False)
    landed_n = DENSITY * fallen * G
    assert drop_force_n(DENSITY, LENGTH, fallen) == pytest.approx(3 * landed_n)


def test_then_a_sudden_drop_to_the_weight() -> None:
    weight_n = DENSITY * LENGTH * G
    before, after = drop_force_n(DENSITY, LENGTH, [LENGTH - 1e-9, LENGTH])
    assert before == pytest.approx(3 * weight_n)
    assert after == pytest.approx(weight_n)
    assert drop_force_n(DENSITY, LENGTH, 10.0) == pytest.approx(weight_n)


def test_the_scale_gives_back_the_momentum_of_the_fall() -> None:
    """Impulse of the scale over the whole fall = weight x time: the chain ends at rest."""
    end_s = (2 * LENGTH / G) ** 0.5
    times = np.linspace(0.0, end_s, 20_001)[:-1]
    force_n = drop_force_n(DENSITY, LENGTH, G * times**2 / 2)
    impulse = float(np.sum(0.5 * (force_n[1:] + force_n[:-1])) * (times[1] - times[0]))
    assert impulse == pytest.approx(DENSITY * LENGTH * G * end_s, rel=1e-3)
