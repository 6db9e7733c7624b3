"""Laws of hung chain that hold for any rig."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import BARE_FLOOR, Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.links import LinkCount, count_doubled, count_straight
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.slack import dragged_length_m, side_pull_n
from topheavy.mechanics.uncertainty import InputSpread, ends_budget, load_budget, share_budget

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.hang import Way


def millimetres(low: int, high: int) -> st.SearchStrategy[float]:
    """Lengths as a tape gives them [m]."""
    return st.integers(low, high).map(lambda mm: mm / 1000)


CHAINS = st.builds(
    Chain,
    links=st.integers(1, 60),
    pitch_m=millimetres(16, 100),
    density_kg_per_m=st.floats(0.3, 15.0),
    density_u_kg_per_m=st.floats(0.0, 0.3),
    known_by=st.sampled_from(["", "calipers", "size name"]),
)
PIECES = st.lists(CHAINS, min_size=1, max_size=3).map(tuple)
SUSPENSIONS = st.builds(
    Suspension,
    feeder_m=millimetres(50, 1500),
    feeder_density_kg_per_m=st.floats(0.0, 1.0),
    connector_m=millimetres(0, 120),
    connector_kg=st.floats(0.0, 1.0),
    feeder_u_m=st.floats(0.0, 0.02),
)
HANGS = st.one_of(
    st.builds(Straight, chain=CHAINS, drop_m=millimetres(0, 300)),
    st.builds(Doubled, chains=PIECES, suspension=SUSPENSIONS),
    st.builds(Draped, chains=PIECES, drop_m=millimetres(0, 100)),
)
ENDS = st.lists(HANGS, max_size=3).map(tuple).map(End)
RIGS = st.builds(Rig, st.floats(5.0, 30.0), st.floats(0.0, 300.0), ENDS, ENDS)
HEIGHTS = np.linspace(-0.2, 3.0, 161)
HEIGHT = millimetres(0, 2500)
SHIFT = millimetres(-300, 300)
FRICTION = st.floats(0.0, 1.2)
GROUNDS = st.sampled_from([Ground(), Ground(lay="dragged")])
WAYS: tuple[Way, ...] = ("still", "raising", "lowering")
STILL: Way = "still"


@given(RIGS)
def test_ends_may_be_swapped(rig: Rig) -> None:
    mirrored = Rig(rig.bar_kg, rig.plates_kg, rig.right, rig.left)
    assert rig.curve().at(HEIGHTS) == pytest.approx(mirrored.curve().at(HEIGHTS))


@given(RIGS)
def test_load_runs_from_plain_weight_on_the_floor_to_everything_in_the_air(rig: Rig) -> None:
    curve = rig.curve(way=STILL)
    assert float(curve.at(-0.01)) == pytest.approx(rig.straight_weight_kg)
    whole_kg = rig.straight_weight_kg + rig.left.mass_kg + rig.right.mass_kg
    assert float(curve.at(20.0)) == pytest.approx(whole_kg)
    assert curve.never_falls


@given(ENDS, ENDS)
def test_hangs_on_one_end_add(one: End, other: End) -> None:
    both = End(one.hangs + other.hangs).curve().at(HEIGHTS)
    assert both == pytest.approx(one.curve().at(HEIGHTS) + other.curve().at(HEIGHTS))


@given(PIECES, SUSPENSIONS)
def test_pieces_on_one_connector_add_to_what_the_connector_carries_alone(
    chains: tuple[Chain, ...], held: Suspension
) -> None:
    """The suspension hangs once, however many pieces it holds."""
    bare = replace(held, feeder_density_kg_per_m=0.0, connector_kg=0.0)
    together = End((Doubled(chains=chains, suspension=held),)).curve().at(HEIGHTS)
    first = End((Doubled(chains=chains[:1], suspension=held),)).curve().at(HEIGHTS)
    rest = End(tuple(Doubled(chains=(c,), suspension=bare) for c in chains[1:]))
    assert together == pytest.approx(first + rest.curve().at(HEIGHTS), abs=1e-9)


@given(RIGS)
def test_lowering_is_never_above_raising_and_raising_never_above_still(rig: Rig) -> None:
    still, raising, lowering = (rig.curve(way=way).at(HEIGHTS) for way in WAYS)
    assert np.all(lowering <= raising + 1e-9)
    assert np.all(raising <= still + 1e-9)


@given(RIGS, SHIFT, HEIGHT, GROUNDS)
def test_a_floor_so_much_higher_shifts_the_curve_up(
    rig: Rig, surface_m: float, height_m: float, ground: Ground
) -> None:
    low, high = rig.curve(ground), rig.curve(replace(ground, surface_m=surface_m))
    assume(np.min(np.abs(low.height_m - height_m)) > 1e-6)
    shifted = float(high.at(height_m + surface_m))
    assert shifted == pytest.approx(float(low.at(height_m)), rel=1e-9, abs=1e-6)


@given(RIGS, FRICTION, st.sampled_from(WAYS))
def test_dragged_slack_is_never_lighter_than_piled(rig: Rig, friction: float, way: Way) -> None:
    loads = rig.curve(Ground(lay="dragged", friction=friction), way).at(HEIGHTS)
    piled = rig.curve(way=way)
    # The dragged curve joins points on its closed form: 0.05 % of the chain's weight.
    slip_kg = 5e-4 * (rig.left.mass_kg + rig.right.mass_kg)
    assert np.all(loads >= piled.at(HEIGHTS) - slip_kg - 1e-9)


@given(CHAINS, millimetres(200, 800), millimetres(50, 700))
def test_doubled_unloads_twice_what_straight_does(
    chain: Chain, bottom_m: float, travel_m: float
) -> None:
    """Same chain, same travel, some of each strand still on the floor at the top.

    An odd piece does so once its middle link hangs.
    """
    top_m = bottom_m + travel_m
    assume(top_m < chain.length_m and travel_m < chain.links // 2 * chain.pitch_m)
    straight = End((Straight(chain=chain),)).curve(way=STILL)
    held = Suspension(feeder_m=bottom_m - chain.links % 2 * chain.pitch_m)
    doubled = End((Doubled(chains=(chain,), suspension=held),)).curve(way=STILL)
    once, twice = (float(np.diff(c.at([bottom_m, top_m]))[0]) for c in (straight, doubled))
    assert twice == pytest.approx(2 * once, rel=1e-9)


@given(CHAINS, SUSPENSIONS)
def test_lump_and_long_connector_agree_once_both_hang(chain: Chain, held: Suspension) -> None:
    assume(held.connector_m > 0)
    lumped = replace(held, feeder_m=held.fold_m, connector_m=0.0, feeder_density_kg_per_m=0.0)
    long = replace(held, feeder_density_kg_per_m=0.0)
    curves = [
        End((Doubled(chains=(chain,), suspension=s),)).curve(way=STILL) for s in (lumped, long)
    ]
    above = held.fold_m + np.array([1e-6, 0.05, 0.5, 5.0])
    assert curves[0].at(above) == pytest.approx(curves[1].at(above), abs=1e-9)
    below = np.linspace(0.0, held.fold_m, 20)
    assert np.all(curves[0].at(below) <= curves[1].at(below) + 1e-9)


@given(millimetres(-500, 4000), st.floats(0.01, 3.5), FRICTION)
def test_dragged_length_lies_between_plumb_and_whole(
    height_m: float, length_m: float, friction: float
) -> None:
    lifted = float(dragged_length_m(height_m, length_m, friction))
    plumb = min(max(height_m, 0.0), length_m)
    assert plumb - 1e-12 <= lifted <= length_m


@given(st.floats(0.01, 3.5), FRICTION, FRICTION)
def test_dragged_length_grows_with_height_and_friction(
    length_m: float, one: float, other: float
) -> None:
    heights = np.linspace(0.0, length_m, 200)
    low, high = (dragged_length_m(heights, length_m, mu) for mu in sorted([one, other]))
    assert np.all(np.diff(low) >= -1e-12)
    assert np.all(high >= low - 1e-12)


@given(st.floats(0.01, 3.5), FRICTION, st.floats(0.1, 15.0))
def test_side_pull_fades_to_nothing_as_the_chain_is_lifted(
    length_m: float, friction: float, density: float
) -> None:
    pull = side_pull_n(np.linspace(1e-6, length_m, 200), length_m, friction, density)
    assert np.all(np.diff(pull) <= 1e-9)
    assert pull[-1] == pytest.approx(0.0, abs=1e-9)
    assert np.all(pull >= 0)


@given(ENDS, HEIGHT)
def test_only_dragged_slack_pulls_to_the_side(end: End, height_m: float) -> None:
    assert end.side_pull_n(height_m, BARE_FLOOR) == 0.0
    assert end.side_pull_n(height_m, Ground(lay="dragged")) >= 0.0
    assert end.side_pull_n(20.0, Ground(lay="dragged")) == pytest.approx(0.0, abs=1e-9)


def counts(chain: Chain, above_m: float) -> tuple[LinkCount, LinkCount]:
    return count_straight(chain, above_m), count_doubled(chain, above_m)


@given(CHAINS, millimetres(-500, 7000))
def test_every_link_is_off_or_down(chain: Chain, above_m: float) -> None:
    for count in counts(chain, above_m):
        assert count.off + count.down == chain.links
        assert 0 <= count.clear <= count.off <= count.clear + count.strands


@given(CHAINS, millimetres(-500, 7000), millimetres(0, 500))
def test_links_only_leave_the_floor_on_the_way_up(
    chain: Chain, above_m: float, more_m: float
) -> None:
    for low, high in zip(counts(chain, above_m), counts(chain, above_m + more_m), strict=True):
        assert low.off <= high.off
        assert low.clear <= high.clear


FOLD = Suspension(feeder_m=0.5)


def curves_kg(chain: Chain, above_m: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Load [kg] straight and doubled with the chain's head `above_m` [m] above the floor."""
    straight = End((Straight(chain=chain),)).curve(way=STILL)
    doubled = End((Doubled(chains=(chain,), suspension=FOLD),)).curve(way=STILL)
    return straight.at(above_m), doubled.at(np.asarray(above_m) + FOLD.fold_m)


@given(CHAINS, st.floats(0.0, 7.0))
def test_steps_stay_within_half_a_link_a_strand_of_the_curve(chain: Chain, above_m: float) -> None:
    half_link_kg = 0.5 * chain.link_mass_kg * (1 + 1e-6)
    for count, curve_kg in zip(counts(chain, above_m), curves_kg(chain, above_m), strict=True):
        assert abs(count.mass_kg(chain) - curve_kg) <= count.strands * half_link_kg


@given(CHAINS, st.integers(0, 62))
def test_steps_average_to_the_curve_over_a_pitch(chain: Chain, pitches: int) -> None:
    """Every pitch of any piece, odd or even, and past its end."""
    above_m = chain.pitch_m * (pitches + (np.arange(64) + 0.5) / 64)
    steps = [counts(chain, float(z)) for z in above_m]
    for number, curve_kg in enumerate(curves_kg(chain, above_m)):
        mean_kg = np.mean([step[number].mass_kg(chain) for step in steps])
        assert mean_kg == pytest.approx(np.mean(curve_kg))


@given(RIGS, st.floats(0.0, 0.02), GROUNDS)
def test_combined_uncertainty_is_at_least_its_largest_part(
    rig: Rig, height_u_m: float, ground: Ground
) -> None:
    budget = load_budget(rig, HEIGHTS, ground, "raising", InputSpread(height_u_m=height_u_m))
    assert np.all(np.isfinite(budget.combined_kg))
    assert np.all(budget.combined_kg >= budget.grouped()[budget.largest()] - 1e-12)


@given(RIGS, HEIGHT, millimetres(50, 900))
def test_more_plates_hold_the_share_down(rig: Rig, bottom_m: float, travel_m: float) -> None:
    travel = (bottom_m, bottom_m + travel_m)
    share = share_budget(rig, travel, BARE_FLOOR, "raising", InputSpread())
    heavier = replace(rig, plates_kg=rig.plates_kg + 50.0)
    assert 0.0 <= share.share < 1.0
    less = share_budget(heavier, travel, BARE_FLOOR, "raising", InputSpread())
    assert less.share <= share.share + 1e-12
    ends = ends_budget(rig, travel, BARE_FLOOR, "raising", InputSpread())
    assert ends.combined_kg.shape == (2,)


@given(RIGS, HEIGHT)
def test_ends_swapped_leave_the_uncertainty(rig: Rig, height_m: float) -> None:
    mirrored = Rig(rig.bar_kg, rig.plates_kg, rig.right, rig.left)
    one, other = (
        float(load_budget(r, height_m, BARE_FLOOR, "raising", InputSpread()).combined_kg)
        for r in (rig, mirrored)
    )
    assert one == pytest.approx(other)
