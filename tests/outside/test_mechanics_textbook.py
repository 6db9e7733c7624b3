"""Free fall, a spring, work and energy: what any mechanics textbook says of a rep's two ways.

Kleppner & Kolenkow, An Introduction to Mechanics, chapters on Newton's laws, on work and energy
and on the harmonic oscillator (from memory): a body let go falls h in sqrt(2 h / g) and a hanging
chain with it; on a spring without mass it swings about where the spring holds it, with the angular
frequency sqrt(k / m); the work done on a body is its gain in kinetic and potential energy. Links
that join a moving chain take half of what the pull gives them as heat: same book, momentum. Seen:
computed here in closed form, or by the trapezium rule from the path alone.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.lifter.lowering import let_go
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import MODELS
from topheavy.lifter.rep import simulate
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
TRAVEL_M = 0.40
HUNG = LoadCurve.strand(24.0, 0.9, 0.80) + LoadCurve.strand(6.0, 0.3, 0.95)
BAND = LoadCurve.through([0.80, 1.20], [2.0, 12.0])


@pytest.mark.parametrize("hung", [LoadCurve.constant(0.0), HUNG, LoadCurve.strand(200.0, 1.0, 0.3)])
def test_chain_let_go_lands_with_free_fall(hung: LoadCurve) -> None:
    """sqrt(2 h / g) and sqrt(2 g h), whatever hangs: links that land pull nothing down."""
    fall = let_go(LIFTER, OnBar(straight_kg=60.0, hung=hung))
    assert fall.duration_s == pytest.approx(math.sqrt(2 * TRAVEL_M / G), rel=1e-4)
    assert fall.end_m_per_s == pytest.approx(math.sqrt(2 * G * TRAVEL_M), rel=1e-6)
    assert fall.peak_g == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("straight_kg", "low_kg", "high_kg"), [(60, 0, 30), (100, 5, 60), (25, 10, 11)]
)
def test_a_bar_let_go_with_a_band_swings_down_on_a_spring(
    straight_kg: float, low_kg: float, high_kg: float
) -> None:
    """Harmonic: z = rest + (top - rest) cos(w t), so faster than free fall.

    Stiffness k = (high - low) g / travel; the bar would rest where the band, pressed, bears it.
    At the top it starts down with g (1 + tension / weight).
    """
    band = LoadCurve.through([0.80, 1.20], [low_kg, high_kg])
    fall = let_go(LIFTER, OnBar(straight_kg=straight_kg, band=band))
    per_m = (high_kg - low_kg) / TRAVEL_M
    w = math.sqrt(per_m * G / straight_kg)
    above_rest_m = (straight_kg + high_kg) / per_m
    time_s = math.acos(1.0 - TRAVEL_M / above_rest_m) / w
    assert fall.duration_s == pytest.approx(time_s, rel=1e-3)
    assert fall.end_m_per_s == pytest.approx(w * above_rest_m * math.sin(w * time_s), rel=1e-4)
    assert fall.peak_g == pytest.approx(1.0 + high_kg / straight_kg, rel=1e-6)
    assert fall.duration_s < math.sqrt(2 * TRAVEL_M / G)


@pytest.mark.parametrize("pattern", sorted(MODELS))
@pytest.mark.parametrize("share", [0.7, 0.8, 0.9])
@pytest.mark.parametrize("kind", ["plain", "chain", "band", "both"])
@pytest.mark.parametrize("pick_up", [0.5, 1.0])
def test_work_is_what_the_loads_gained(
    pattern: str, share: float, kind: str, pick_up: float
) -> None:
    """0.1 %, from height, speed and force along the path; nothing of the rep's own account.

    Lost where links join: (k - 1/2) v2 a kilogram, none at k = 1/2, half of the pull at k = 1.
    With bars this heavy nobody brakes so hard that chain goes slack and keeps its motion.
    """
    hung = HUNG if kind in {"chain", "both"} else LoadCurve.constant(0.0)
    band = BAND if kind in {"band", "both"} else LoadCurve.constant(0.0)
    motion = replace(MODELS[pattern].typical(), pick_up=pick_up)
    straight_kg = share * LIFTER.best_kg
    path = simulate(LIFTER, OnBar(straight_kg=straight_kg, hung=hung, band=band), motion).path
    height, speed, force = path.height_m, path.speed_m_per_s, path.force_n
    assert height[-1] - height[0] == pytest.approx(TRAVEL_M, rel=1e-3), "a whole rep"
    limbs_kg = float(np.ravel(motion.limb_share)[0]) * LIFTER.best_kg
    load_kg = straight_kg + limbs_kg + hung.at(height) + band.at(height)
    moving_kg = straight_kg + limbs_kg + hung.at(height)
    raised_j = G * _trapezium(load_kg, height)
    gained_j = 0.5 * (moving_kg[-1] * speed[-1] ** 2 - moving_kg[0] * speed[0] ** 2)
    lost_j = (pick_up - 0.5) * _trapezium(speed**2, hung.at(height))
    work_j = _trapezium(force, height) + _jump_j(force, height)
    assert work_j == pytest.approx(raised_j + gained_j + lost_j, rel=1e-3)


def _jump_j(force: np.ndarray, height: np.ndarray) -> float:
    """What the trapezium has too much where the lifter eases off: the force jumps at once there."""
    drop = np.diff(force)
    at = int(np.argmin(drop))
    eased = force[at] > 0.0 and drop[at] < -0.1 * force[at]
    return float(0.5 * drop[at] * (height[at + 1] - height[at])) if eased else 0.0


def _trapezium(value: np.ndarray, along: np.ndarray) -> float:
    return float(np.sum(0.5 * (value[1:] + value[:-1]) * np.diff(along)))
