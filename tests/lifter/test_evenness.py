"""Heaviest weight under hung load and evenness, on arrays of rigs."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.optimize import minimize_scalar

from topheavy.errors import BadInputError
from topheavy.lifter.evenness import effort_at, evenest_straight, evenness, heaviest_straight
from topheavy.lifter.typical import Shape

SHAPE = Shape(weakest=0.35, bottom_surplus=0.2, lockout_surplus=0.4, rise=0.3)


@pytest.mark.parametrize(
    ("top_lb", "separate_lb"), [(20.0, 292.9), (40.0, 285.7), (80.0, 270.8), (120.0, 255.4)]
)
def test_equal_best_under_growing_chain(top_lb: float, separate_lb: float) -> None:
    """300 lb straight; chain from nothing to `top_lb`: what is left, by a general minimiser.

    A separate calculation of the same shape gave the figures to 0.1 lb at a step not known.
    """
    shares = np.linspace(0, 1, 401)
    straight, _ = heaviest_straight(300 * SHAPE.at(shares), top_lb * shares)
    found = minimize_scalar(
        lambda u: 300 * float(SHAPE.at(u)) - top_lb * u,
        bounds=(0.3, 0.6),
        method="bounded",
        options={"xatol": 1e-9},
    )
    assert float(straight) == pytest.approx(float(found.fun), abs=0.01)
    assert float(straight) == pytest.approx(separate_lb, abs=0.15)


def test_the_heaviest_chain_is_limited_at_lockout() -> None:
    """With 200 lb of chain 218.9 lb is left, limited at the top.

    The separate calculation said 222.6: it had left lockout out, where the least is 222.2.
    """
    shares = np.linspace(0, 1, 1001)
    strength, hung = 300 * SHAPE.at(shares), 200 * shares
    straight, limit = heaviest_straight(strength, hung)
    at_lockout = 1 + 0.4 * (1 - np.exp(-((0.65 / 0.3) ** 2)))
    assert float(straight) == pytest.approx(300 * at_lockout - 200)
    assert shares[limit] == 1.0
    short_of_it, _ = heaviest_straight(strength[:900], hung[:900])
    assert float(short_of_it) == pytest.approx(222.6, abs=0.4)


def test_many_rigs_at_once_are_each_rig_alone() -> None:
    random = np.random.default_rng(1)
    strength = random.uniform(80, 160, 30)
    hung = np.cumsum(random.uniform(0, 3, (500, 30)), axis=1)
    straight, limit = heaviest_straight(strength, hung, effort=0.9)
    assert straight.shape == limit.shape == (500,)
    for row in (0, 17, 499):
        alone, at = heaviest_straight(strength, hung[row], effort=0.9)
        assert (float(alone), int(at)) == (float(straight[row]), int(limit[row]))
        assert float(alone) == min(0.9 * s - c for s, c in zip(strength, hung[row], strict=True))


def test_many_lifters_and_many_rigs_broadcast() -> None:
    strength = np.array([[100.0, 120.0], [90.0, 140.0]])
    hung = np.array([[0.0, 0.0], [0.0, 30.0], [0.0, 60.0]])
    straight, _ = heaviest_straight(strength[:, None, :], hung[None, :, :])
    assert straight.tolist() == [[100.0, 90.0, 60.0], [90.0, 90.0, 80.0]]


def test_too_much_hung_load_goes_below_zero() -> None:
    straight, limit = heaviest_straight([100.0, 120.0], [0.0, 150.0])
    assert (float(straight), int(limit)) == (-30.0, 1)


def test_no_strength_is_infinite_effort() -> None:
    assert effort_at([0.0, 50.0], [10.0, 25.0]).tolist() == [np.inf, 0.5]


def test_means_are_over_height_not_over_points() -> None:
    heights = np.array([0.0, 0.1, 0.4])
    load = np.array([100.0, 50.0, 100.0])
    even = evenness([100.0, 100.0, 100.0], load, heights, wanted=0.75)
    used = load / 100
    assert float(even.mean) == pytest.approx(trapezoid(used, heights) / 0.4)
    assert float(even.off) == pytest.approx(np.sqrt(trapezoid((used - 0.75) ** 2, heights) / 0.4))
    assert (float(even.least), float(even.most)) == (0.5, 1.0)


def test_a_load_that_follows_strength_is_perfectly_even() -> None:
    strength = np.array([100.0, 90.0, 130.0])
    even = evenness(strength, 0.8 * strength, [0, 0.2, 0.5], wanted=0.8)
    assert float(even.off) == pytest.approx(0.0, abs=1e-12)
    assert float(even.mean) == pytest.approx(0.8)


def test_evenest_weight_agrees_with_a_general_minimiser() -> None:
    shares = np.linspace(0, 1, 101)
    strength, hung = 100 * SHAPE.at(shares), 30 * shares

    def off(straight_kg: float) -> float:
        return float(evenness(strength, straight_kg + hung, shares, wanted=0.7).off)

    found = minimize_scalar(off, bounds=(0.0, 100.0), method="bounded", options={"xatol": 1e-8})
    best = evenest_straight(strength, hung, shares, wanted=0.7)
    assert float(best) == pytest.approx(float(found.x), abs=1e-4)


def test_evenest_weight_stops_at_what_can_be_lifted_and_at_zero() -> None:
    strength, heights = np.array([100.0, 100.0, 200.0]), [0.0, 0.1, 0.2]
    plain = evenest_straight(strength, np.zeros(3), heights, wanted=1.0)
    assert float(plain) == 100.0
    heavy = evenest_straight(strength, np.array([0.0, 90.0, 190.0]), heights, wanted=0.2)
    assert float(heavy) == 0.0
    too_heavy = evenest_straight(strength, np.array([0.0, 110.0, 190.0]), heights, wanted=0.9)
    assert float(too_heavy) == -10.0


@pytest.mark.parametrize("effort", [0.0, -0.5, 1.01, np.nan])
def test_refuses_an_effort_that_is_no_share(effort: float) -> None:
    with pytest.raises(BadInputError, match="share of strength"):
        heaviest_straight([100.0], [0.0], effort=effort)


@pytest.mark.parametrize(("strength", "load"), [([1.0, 2.0], [1.0]), (1.0, 1.0), ([], [])])
def test_refuses_arrays_that_do_not_fit(strength: object, load: object) -> None:
    with pytest.raises(BadInputError, match="same heights"):
        effort_at(strength, load)  # type: ignore[arg-type]  # what a caller may pass by mistake


@pytest.mark.parametrize("heights", [[0.0, 0.0, 1.0], [1.0, 0.5, 0.0], [0.0, 1.0], 1.0])
def test_refuses_heights_that_do_not_rise(heights: object) -> None:
    with pytest.raises(BadInputError, match="must rise"):
        evenness([1.0, 1.0, 1.0], [1.0, 1.0, 1.0], heights)  # type: ignore[arg-type]  # as above
