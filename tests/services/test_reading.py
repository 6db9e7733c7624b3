"""A reading against the curves it reads, and by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from topheavy.gym.people import Travel
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.services.reading import hung_straight, read_rig

TRAVEL = Travel(bottom_m=0.66, top_m=1.07, height_u_m=0.003)
CHAIN = Chain(links=32, pitch_m=0.056, density_kg_per_m=5.3, density_u_kg_per_m=0.1, known_by="a")
HELD = Suspension(feeder_m=0.58, feeder_density_kg_per_m=0.34, connector_m=0.07, connector_kg=0.2)
END = End((Doubled(chains=(CHAIN, CHAIN), suspension=HELD),))
RIG = Rig(25.0, 60.0, END, END)
MAT = Ground(surface_m=0.02)
READ = read_rig(RIG, TRAVEL, MAT, best_kg=140.0)


def test_loads_at_the_ends_and_between_are_the_curve_s() -> None:
    up, down = RIG.curve(MAT, "raising"), RIG.curve(MAT, "lowering")
    assert READ.bottom.load_kg == float(up.at(0.66))
    assert READ.top.load_kg == float(up.at(1.07))
    assert READ.mean.load_kg == up.mean(0.66, 1.07)
    assert (READ.lowering_bottom_kg, READ.lowering_top_kg) == (
        float(down.at(0.66)),
        float(down.at(1.07)),
    )
    assert READ.raising_kg == tuple(up.at(READ.heights_m).tolist())
    assert READ.lowering_kg == tuple(down.at(READ.heights_m).tolist())


def test_top_worked_out_by_hand() -> None:
    """Bar 1.07 m, fold 0.65 m down, mat 20 mm, pile 14 mm: 0.386 m of eight strands is up."""
    hung_kg = 8 * 5.3 * (1.07 - 0.65 - 0.02 - 0.25 * 0.056) + 2 * 0.2 + 2 * 0.34 * 0.58
    assert READ.hung_top_kg == pytest.approx(hung_kg)
    assert READ.top.load_kg == pytest.approx(85 + hung_kg)
    assert READ.straight_weight_kg == 85.0


def test_the_way_down_is_as_unsure_as_its_own_piles_and_slopes() -> None:
    """By hand, clear of every kink.

    A height or the pile rule moves all 8 strands, a heap its own. A mean over the lift is the
    load half way; bottom and top are measured apart, and each moves it by half.
    """
    travel = Travel(bottom_m=1.0, top_m=1.3, height_u_m=0.003)
    read = read_rig(RIG, travel, MAT)
    strand, gap_m = 5.3, 0.65 + 0.02 + MAT.pile_m(CHAIN, "lowering")
    rule, own = MAT.rule_u_m(CHAIN, "lowering"), MAT.strand_u_m(CHAIN, "lowering")
    masses = [0.0025 / 3**0.5 * kg for kg in (25.0, 60.0)]
    piles = [8 * strand * rule, 8**0.5 * strand * own]
    for height_m, measured, got in (
        (1.0, 1.0, read.lowering_bottom_u_kg),
        (1.15, 0.5**0.5, read.lowering_mean_u_kg),
    ):
        parts = [*masses, *piles, measured * 0.003 * 8 * strand, 8 * 0.1 * (height_m - gap_m)]
        assert got == pytest.approx(sum(part**2 for part in parts) ** 0.5, rel=1e-6)


def test_share_is_said_of_each_base() -> None:
    more_kg = READ.top.load_kg - READ.bottom.load_kg
    assert READ.share.of_top == pytest.approx(more_kg / READ.top.load_kg)
    assert READ.share.of_bottom == pytest.approx(more_kg / READ.bottom.load_kg)
    assert READ.share.of_best == pytest.approx(more_kg / 140)
    assert read_rig(RIG, TRAVEL, MAT).share.of_best is None
    assert 0 < READ.share.of_top_u < 0.05


def test_deload_is_what_is_off_the_bar_at_the_bottom() -> None:
    assert READ.deload == pytest.approx(1 - READ.hung_bottom_kg / READ.hung_top_kg)
    assert read_rig(Rig(20.0, 40.0, End(), End()), TRAVEL, MAT).deload is None


def test_work_is_the_mean_load_raised_over_the_travel() -> None:
    assert READ.work_j == pytest.approx(9.80665 * READ.mean.load_kg * 0.41)


def test_the_fold_s_height_at_the_bottom() -> None:
    assert list(READ.fold_gap_m) == pytest.approx([0.66 - 0.02 - 0.65])
    draped = End((Draped(chains=(CHAIN,)),))
    assert read_rig(Rig(20.0, 0.0, draped, draped), TRAVEL, MAT).fold_gap_m == ()


def test_links_are_counted_on_both_ends() -> None:
    """Fold 0.4 m above the mat: 7.1 pitches, eight tops a strand; at the bottom it lies."""
    for side in (READ.left, READ.right):
        assert [(piece.links, piece.top.off, piece.bottom.off) for piece in side] == [
            (32, 16, 0),
            (32, 16, 0),
        ]
    assert READ.links_down_at_top == 16


def test_ends_that_differ_are_told() -> None:
    lighter = replace(CHAIN, density_kg_per_m=5.0)
    right = End((Doubled(chains=(CHAIN, lighter), suspension=HELD),))
    uneven = read_rig(Rig(25.0, 60.0, END, right), TRAVEL, MAT)
    assert uneven.imbalance_kg == pytest.approx(2 * 0.3 * (1.07 - 0.65 - 0.02 - 0.014))
    assert READ.imbalance_kg == 0


def test_only_dragged_slack_pulls_sideways_and_it_weighs_more() -> None:
    dragged = read_rig(RIG, TRAVEL, replace(MAT, lay="dragged"))
    assert READ.side_pull_n == 0
    assert dragged.side_pull_n > 50
    assert dragged.top.load_kg > READ.top.load_kg
    assert dragged.left[0].top.off > READ.left[0].top.off


def test_the_pile_makes_the_way_down_lighter() -> None:
    assert all(d <= u + 1e-9 for u, d in zip(READ.raising_kg, READ.lowering_kg, strict=True))
    assert READ.lowering_top_kg < READ.top.load_kg


def test_uncertainty_grows_with_what_is_off_the_floor() -> None:
    assert 0 < READ.bottom.u_kg < READ.mean.u_kg < READ.top.u_kg
    assert READ.u_kg[0] == pytest.approx(READ.bottom.u_kg)
    assert READ.u_kg[-1] == pytest.approx(READ.top.u_kg)


def test_hung_straight_is_the_same_chain_in_single_strands() -> None:
    """Half the strands, so half the change over the lift while the floor holds the rest."""
    straight = hung_straight(RIG)
    assert straight.straight_weight_kg == RIG.straight_weight_kg
    assert straight.left.hangs == (Straight(chain=CHAIN), Straight(chain=CHAIN))
    read = read_rig(straight, TRAVEL, MAT)
    assert read.top.load_kg - read.bottom.load_kg == pytest.approx(4 * 5.3 * 0.41)
    assert read.left[0].strands == 1
