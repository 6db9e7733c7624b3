"""Slack dragged to one side: the closed form, its side pull and its curve."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Strand
from topheavy.mechanics.slack import dragged_curve, dragged_length_m, side_pull_n


def lifted_m(height_m: float, length_m: float, friction: float) -> float:
    """Length off the floor by integrating the cable's equilibrium, not by the closed form.

    From the floor up, the tension's horizontal part a (as a length of chain) stays and its
    vertical part grows with the length: dy/ds = s / sqrt(a^2 + s^2).
    """

    def top(hung_m: float) -> float:
        a = friction * (length_m - hung_m)
        path = solve_ivp(
            lambda s, _: s / np.sqrt(a**2 + s**2 + 1e-30), (0, hung_m), [0.0], rtol=1e-9, atol=1e-12
        )
        return float(path.y[0, -1]) - height_m

    return float(brentq(top, height_m, length_m, xtol=1e-9))


@pytest.mark.parametrize("friction", [0.3, 0.7])
@pytest.mark.parametrize("height_m", [0.1, 0.5, 1.2])
def test_closed_form_is_the_catenary_in_balance_with_friction(
    height_m: float, friction: float
) -> None:
    wanted = lifted_m(height_m, 1.52, friction)
    assert float(dragged_length_m(height_m, 1.52, friction)) == pytest.approx(wanted, rel=1e-6)


def test_without_friction_the_chain_hangs_straight_down() -> None:
    heights = np.array([-0.2, 0.0, 0.4, 1.0, 1.7])
    assert dragged_length_m(heights, 1.0, 0.0).tolist() == pytest.approx([0, 0, 0.4, 1.0, 1.0])


def test_taut_chain_is_all_off_the_floor_and_pulls_no_more_to_the_side() -> None:
    assert dragged_length_m([1.0, 1.3], 1.0, 0.7).tolist() == [1.0, 1.0]
    assert side_pull_n([1.0, 1.3], 1.0, 0.7, 5.0).tolist() == [0.0, 0.0]


def test_side_pull_is_friction_on_what_still_lies() -> None:
    lying_m = 1.0 - float(dragged_length_m(0.5, 1.0, 0.7))
    wanted = 0.7 * 5.0 * STANDARD_GRAVITY_M_PER_S2 * lying_m
    assert float(side_pull_n(0.5, 1.0, 0.7, 5.0)) == pytest.approx(wanted)


def test_nothing_hanging_pulls_nothing() -> None:
    assert side_pull_n([-0.5, 0.0], 1.0, 0.7, 5.0).tolist() == [0.0, 0.0]


def test_curve_follows_the_closed_form_as_closely_as_it_says() -> None:
    chain = Chain(links=32, pitch_m=0.0475, density_kg_per_m=6.105)
    strand = Strand(chain.density_kg_per_m, chain.length_m, 0.2, chain)
    heights = np.linspace(0.0, 2.0, 20_001)
    wanted = 6.105 * dragged_length_m(heights - 0.25, chain.length_m, 0.7)
    gap = np.max(np.abs(dragged_curve(strand, 0.05, 0.7).at(heights) - wanted))
    assert gap < 0.0005 * chain.mass_kg


def test_strand_without_length_drags_nothing() -> None:
    assert dragged_curve(Strand(5.0, 0.0, 0.2), 0.0, 0.7).at([0.0, 1.0]).tolist() == [0.0, 0.0]
