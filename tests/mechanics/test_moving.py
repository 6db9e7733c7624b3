"""Chain in motion: limits, symmetry, refusals."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.moving import (
    FREE_FALL_M_PER_S2,
    chain_follows,
    drop_force_n,
    extra_chain_m,
    lowering_force_n,
    pick_up_force_n,
    raising_force_n,
)
from topheavy.mechanics.rig import End

STRAND = LoadCurve.strand(5.0, 1.5, 0.0)
CHAIN = Chain(links=40, pitch_m=0.05, density_kg_per_m=5.0)


@given(height_m=st.floats(-0.5, 3.0), weight_kg=st.floats(0.0, 400.0))
def test_at_rest_the_force_is_the_load(height_m: float, weight_kg: float) -> None:
    load_n = (weight_kg + float(STRAND.at(height_m))) * G
    assert raising_force_n(STRAND, weight_kg, height_m, 0.0, 0.0) == pytest.approx(load_n)
    assert lowering_force_n(STRAND, weight_kg, height_m, 0.0) == pytest.approx(load_n)


@given(
    height_m=st.floats(0.01, 1.49),
    speed=st.floats(0.0, 3.0),
    acceleration=st.floats(-9.0, 9.0),
    k=st.floats(0.5, 1.0),
)
def test_raising_exceeds_lowering_by_the_pick_up(
    height_m: float, speed: float, acceleration: float, k: float
) -> None:
    up = raising_force_n(STRAND, 50.0, height_m, speed, acceleration, k)
    down = lowering_force_n(STRAND, 50.0, height_m, acceleration)
    assert up - down == pytest.approx(float(pick_up_force_n(STRAND, height_m, speed, k)), abs=1e-9)
    assert up - down == pytest.approx(k * 5.0 * speed**2, abs=1e-9)


def test_doubled_chain_picks_up_twice_what_straight_does() -> None:
    straight = End((Straight(chain=CHAIN),)).curve(way="still")
    doubled = End((Doubled(chains=(CHAIN,), suspension=Suspension(feeder_m=0.2)),))
    ratio = pick_up_force_n(doubled.curve(way="still"), 0.7, 1.0) / pick_up_force_n(
        straight, 0.7, 1.0
    )
    assert ratio == pytest.approx(2.0)


def test_chain_wholly_off_the_floor_picks_up_nothing() -> None:
    assert pick_up_force_n(STRAND, [1.6, 2.0], 1.5).tolist() == [0.0, 0.0]


def test_chain_wholly_on_the_floor_leaves_the_straight_weight() -> None:
    still_down = STRAND.raised(1.0)
    assert raising_force_n(still_down, 60.0, 0.5, 1.0, 2.0) == pytest.approx(60.0 * (G + 2.0))


@given(acceleration=st.floats(-60.0, 20.0), height_m=st.floats(0.0, 2.0))
def test_chain_never_pushes_the_bar_down(acceleration: float, height_m: float) -> None:
    """With chain the lifter never feels less than without: descent no faster than free fall."""
    bare = lowering_force_n(LoadCurve.constant(0.0), 80.0, height_m, acceleration)
    assert lowering_force_n(STRAND, 80.0, height_m, acceleration) >= bare - 1e-9
    assert raising_force_n(STRAND, 80.0, height_m, 1.0, acceleration) >= bare - 1e-9


def test_a_bar_let_go_with_chain_falls_freely() -> None:
    """Zero force is met at exactly -g, with or without chain."""
    assert lowering_force_n(STRAND, 80.0, 0.8, FREE_FALL_M_PER_S2) == pytest.approx(0.0, abs=1e-9)
    assert chain_follows(FREE_FALL_M_PER_S2)
    assert not chain_follows(FREE_FALL_M_PER_S2 - 1e-6)


def test_forces_keep_the_shape_of_their_inputs() -> None:
    heights, speeds = np.linspace(0.2, 1.2, 6), np.linspace(0.0, 1.0, 6)
    assert raising_force_n(STRAND, 20.0, heights, speeds, 0.0).shape == (6,)
    assert lowering_force_n(STRAND, 20.0, heights[:, None], [[0.0, 1.0]]).shape == (6, 2)


@pytest.mark.parametrize("k", [0.49, 1.01, -1.0, float("nan")])
def test_a_pick_up_outside_its_bounds_is_refused(k: float) -> None:
    with pytest.raises(BadInputError) as error:
        raising_force_n(STRAND, 20.0, 0.5, 1.0, 0.0, k)
    assert error.value.field == "pick_up"
    with pytest.raises(BadInputError) as error:
        extra_chain_m(1.0, k)
    assert error.value.field == "pick_up"


@pytest.mark.parametrize("speed", [-0.1, float("nan"), float("inf")])
def test_links_are_not_picked_up_on_the_way_down(speed: float) -> None:
    with pytest.raises(BadInputError) as error:
        raising_force_n(STRAND, 20.0, 0.5, speed, 0.0)
    assert error.value.field == "speed_m_per_s"


def test_weight_below_zero_and_a_chain_falling_up_are_refused() -> None:
    with pytest.raises(BadInputError):
        raising_force_n(STRAND, -1.0, 0.5, 0.0, 0.0)
    with pytest.raises(BadInputError):
        lowering_force_n(STRAND, -1.0, 0.5, 0.0)
    with pytest.raises(BadInputError) as error:
        drop_force_n(5.0, 1.0, -0.1)
    assert error.value.field == "fallen_m"


def test_extra_chain_weighs_what_pick_up_takes() -> None:
    for speed in (0.25, 0.5, 1.0, 1.5):
        extra_n = 5.0 * float(extra_chain_m(speed)) * G
        assert extra_n == pytest.approx(float(pick_up_force_n(STRAND, 0.8, speed)))
