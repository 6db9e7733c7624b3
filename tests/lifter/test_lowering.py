"""The way down: free fall bounds chain, not bands; profiles, energy, refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError
from topheavy.lifter.lowering import let_go, lower_under_control
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.moving import lowering_force_n

LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
CHAIN = LoadCurve.strand(40.0, 0.9, 0.80)
FALL_S = (2 * 0.4 / G) ** 0.5


@given(
    straight=st.floats(5.0, 300.0),
    density=st.floats(0.0, 300.0),
    offset=st.floats(0.3, 1.1),
    push=st.floats(0.0, 0.99),
)
@settings(max_examples=60)
def test_chain_never_falls_faster_than_free(
    straight: float, density: float, offset: float, push: float
) -> None:
    on_bar = OnBar(straight_kg=straight, hung=LoadCurve.strand(density, 1.0, offset))
    resist = push * float(on_bar.load_at(1.2))
    fall = let_go(LIFTER, on_bar, resist)
    assert fall.peak_g <= 1.0 + 1e-12
    assert not fall.faster_than_free_fall
    assert fall.end_m_per_s <= (2 * G * 0.4) ** 0.5 + 1e-9


@pytest.mark.parametrize("hung", [LoadCurve.constant(0.0), CHAIN, LoadCurve.lump(30.0, 1.0)])
def test_let_go_is_free_fall_with_whatever_hangs(hung: LoadCurve) -> None:
    fall = let_go(LIFTER, OnBar(straight_kg=60.0, hung=hung))
    assert fall.duration_s == pytest.approx(FALL_S, rel=1e-4)
    assert fall.end_m_per_s == pytest.approx(G * FALL_S, rel=1e-9)
    assert fall.peak_g == pytest.approx(1.0)


@given(straight=st.floats(10.0, 200.0), pull=st.floats(1.0, 80.0))
def test_a_band_pulls_the_bar_down_faster_than_it_falls(straight: float, pull: float) -> None:
    """(1 + tension / weight) g exactly."""
    fall = let_go(LIFTER, OnBar(straight_kg=straight, band=LoadCurve.constant(pull)))
    assert fall.faster_than_free_fall
    assert fall.peak_g == pytest.approx(1.0 + pull / straight)
    assert fall.duration_s == pytest.approx(FALL_S / (1.0 + pull / straight) ** 0.5, rel=1e-4)


def test_with_band_and_chain_the_chain_goes_slack() -> None:
    """It falls freely beside the bar, so the band has only bar and plates to pull."""
    both = OnBar(straight_kg=60.0, hung=CHAIN, band=LoadCurve.constant(30.0))
    assert let_go(LIFTER, both).peak_g == pytest.approx(1.5)


def test_a_steady_push_agrees_with_a_solver() -> None:
    """(W + C) a = R - (W + C) g: chain that lands slows the bar; scipy's solve_ivp at 1e-10."""
    on_bar = OnBar(straight_kg=80.0, hung=CHAIN)

    def motion(_t: float, y: np.ndarray) -> list[float]:
        mass = 80.0 + float(CHAIN.at(y[0]))
        return [-y[1], G - 60.0 * G / mass]

    floor = lambda _t, y: y[0] - 0.80  # noqa: E731
    floor.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(motion, (0, 5), (1.2, 0.0), rtol=1e-10, atol=1e-12, events=floor)
    fall = let_go(LIFTER, on_bar, resist_kg=60.0)
    assert fall.duration_s == pytest.approx(solved.t[-1], rel=1e-3)
    assert fall.end_m_per_s == pytest.approx(solved.y[1, -1], rel=1e-4)
    assert fall.work_j == pytest.approx(60.0 * G * 0.4)


def test_a_push_that_holds_what_is_left_stops_the_bar() -> None:
    on_bar = OnBar(straight_kg=60.0, hung=CHAIN)
    fall = let_go(LIFTER, on_bar, resist_kg=72.0)
    assert fall.stopped
    assert 0.80 < fall.height_m[-1] < 1.05


def test_lowered_under_control_goes_from_rest_to_rest() -> None:
    """Least-jerk profile: peaks 1.875 travel / time and 5.7735 travel / time squared."""
    down = lower_under_control(LIFTER, OnBar(straight_kg=100.0), 2.0)
    assert down.height_m[[0, -1]].tolist() == pytest.approx([1.2, 0.8])
    assert down.speed_m_per_s[[0, -1]].tolist() == [0.0, 0.0]
    assert down.peak_m_per_s == pytest.approx(1.875 * 0.4 / 2.0, rel=1e-6)
    assert down.peak_g * G == pytest.approx(5.7735 * 0.4 / 4.0, rel=1e-3)
    assert np.allclose(np.gradient(down.height_m, down.time_s), -down.speed_m_per_s, atol=1e-3)


@pytest.mark.parametrize("seconds", [1.0, 3.0])
def test_the_lifter_takes_up_the_weight_times_the_travel(seconds: float) -> None:
    """From rest to rest, plates and bands give back what they took; landing chain keeps some."""
    plain = lower_under_control(LIFTER, OnBar(straight_kg=100.0), seconds)
    assert plain.work_j == pytest.approx(100.0 * G * 0.4, rel=1e-4)
    chain = OnBar(straight_kg=60.0, hung=CHAIN)
    lowered = lower_under_control(LIFTER, chain, seconds)
    slow = 60.0 * G * 0.4 + CHAIN.work_j(0.8, 1.2)
    assert lowered.work_j < slow
    assert lowered.work_j == pytest.approx(slow, rel=0.02 if seconds > 2 else 0.1)


def test_forces_on_the_way_down_are_those_of_moving_chain() -> None:
    on_bar = OnBar(straight_kg=60.0, hung=CHAIN)
    down = lower_under_control(LIFTER, on_bar, 0.6)
    force = lowering_force_n(CHAIN, 60.0, down.height_m, -down.acceleration_m_per_s2)
    assert np.allclose(down.force_n, force)
    assert down.peak_force_n == pytest.approx(float(np.max(force)))


def test_the_lowering_curve_is_used_on_the_way_down() -> None:
    on_bar = OnBar(straight_kg=60.0, hung=CHAIN, hung_lowering=CHAIN.raised(0.08))
    light = lower_under_control(LIFTER, on_bar, 2.0)
    heavy = lower_under_control(LIFTER, replace(on_bar, hung_lowering=None), 2.0)
    assert light.force_n[0] == pytest.approx(heavy.force_n[0] - 40.0 * 0.08 * G)


@pytest.mark.parametrize(
    ("field", "straight", "resist"),
    [("straight_kg", 0.0, 0.0), ("resist_kg", 60.0, -1.0), ("resist_kg", 60.0, 80.0)],
)
def test_what_can_not_be_is_refused(field: str, straight: float, resist: float) -> None:
    with pytest.raises(BadInputError) as error:
        let_go(LIFTER, OnBar(straight_kg=straight, hung=CHAIN), resist)
    assert error.value.field == field
    with pytest.raises(BadInputError):
        lower_under_control(LIFTER, OnBar(straight_kg=60.0), 0.0)
