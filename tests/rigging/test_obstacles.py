"""When nothing fits: each limit that blocks is named, and the smallest addition would really do."""

from __future__ import annotations

from dataclasses import replace

import pytest

from topheavy.gym.people import Travel
from topheavy.gym.stock import (
    Bar,
    ChainPiece,
    Connector,
    Feeder,
    FeederSetting,
    Plate,
    Stock,
)
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.rigging.limits import Limits
from topheavy.rigging.obstacles import Addition, explain
from topheavy.rigging.problem import Setup
from topheavy.rigging.target import Target
from topheavy.rigging.trade import best_rig

TOLERANCE_KG = 1.0


def pieces(count: int, links: int = 24) -> tuple[ChainPiece, ...]:
    chain = Chain(links=links, pitch_m=0.056, density_kg_per_m=5.3)
    return tuple(
        ChainPiece(tag=f"A{i}", size="5/8 in", wire_diameter_m=0.016, chain=chain)
        for i in range(count)
    )


def setup(*, chain: int = 4, rating_kg: float = 500.0, feeder_m: float = 0.60) -> Setup:
    stock = Stock(
        chains=pieces(chain),
        feeders=(
            Feeder(
                name="ring strap",
                form="rings",
                settings=(FeederSetting(label="1", length_m=feeder_m),),
                whole_m=feeder_m,
                density_kg_per_m=0.0,
                rating_kg=500.0,
                count=2,
                setting_u_m=0.002,
            ),
        ),
        connectors=(
            Connector(name="link", mass_kg=0.2, length_m=0.07, rating_kg=rating_kg, count=2),
        ),
        bars=(Bar(name="bar", mass_kg=20.0, sleeve_m=0.415),),
        plates=tuple(
            Plate(mass_kg=kg, width_m=0.02, diameter_m=0.45, count=4) for kg in (20.0, 10.0, 5.0)
        ),
    )
    return Setup(
        stock=stock,
        bar=stock.bars[0],
        collar=None,
        travel=Travel(bottom_m=0.67, top_m=1.07),
        ground=Ground(),
    )


def wanted(bottom_kg: float, top_kg: float) -> Target:
    return Target(
        heights_m=(0.67, 1.07), loads_kg=(bottom_kg, top_kg), full_deload=True, links_down=1
    )


def rise_kg(pairs: int) -> float:
    """Load picked up over the lift by so many pairs of pieces, pile counted."""
    here = setup(chain=2 * pairs)
    rig = best_rig(here, wanted(60.0, 60.0 + 16.0 * pairs), Limits(most_pieces=2 * pairs))
    assert rig is not None
    assert rig.pieces == 2 * pairs
    low, high = rig.rig.curve(here.ground, "raising").at([0.67, 1.07])
    return float(high - low)


def kinds(additions: tuple[Addition, ...]) -> set[str]:
    return {type(addition.offer.thing).__name__ for addition in additions}


def test_too_few_pieces_allowed_is_named() -> None:
    target = wanted(60.4, 60.4 + rise_kg(2))
    obstacles = explain(setup(), target, Limits(most_pieces=2), TOLERANCE_KG)
    assert "at most 2 pieces" in [blocker.limit for blocker in obstacles.blockers]


def test_of_an_odd_limit_the_next_pair_is_tried() -> None:
    target = wanted(60.4, 60.4 + rise_kg(2))
    obstacles = explain(setup(chain=4), target, Limits(most_pieces=3), TOLERANCE_KG)
    (blocker,) = (b for b in obstacles.blockers if b.limit == "at most 3 pieces")
    assert blocker.built.pieces == 4


def test_the_fewest_pieces_that_do_are_shown() -> None:
    target = wanted(60.4, 60.4 + rise_kg(3))
    obstacles = explain(setup(chain=12), target, Limits(most_pieces=2), TOLERANCE_KG)
    (blocker,) = (b for b in obstacles.blockers if b.limit == "at most 2 pieces")
    assert blocker.built.pieces == 6


def test_an_overloaded_connector_is_named_and_a_stronger_one_would_do() -> None:
    here, target = setup(rating_kg=40.0), wanted(60.4, 60.4 + rise_kg(2))
    obstacles = explain(here, target, Limits(), TOLERANCE_KG)
    assert "design factor" in [blocker.limit for blocker in obstacles.blockers]
    assert "Connector" in kinds(obstacles.additions)


def test_a_feeder_that_leaves_chain_on_the_bar_is_named_and_the_right_one_would_do() -> None:
    here, target = setup(feeder_m=0.40), wanted(60.4, 60.4 + rise_kg(2))
    obstacles = explain(here, target, Limits(), TOLERANCE_KG)
    feeders = [a.offer.thing for a in obstacles.additions if isinstance(a.offer.thing, Feeder)]
    assert [round(f.settings[0].length_m, 3) for f in feeders] == [0.60]
    assert all(a.built.miss_kg <= TOLERANCE_KG for a in obstacles.additions)


def test_missing_chain_is_named_with_the_fewest_pieces_that_do() -> None:
    here, target = setup(chain=2), wanted(60.4, 60.4 + rise_kg(3))
    obstacles = explain(here, target, Limits(), TOLERANCE_KG)
    counts = [
        addition.offer.count
        for addition in obstacles.additions
        if isinstance(addition.offer.thing, ChainPiece) and addition.offer.thing.chain.links == 24
    ]
    assert counts == [4]


def test_small_plates_would_do_where_the_bottom_is_off() -> None:
    here, target = setup(), wanted(63.0, 63.0 + rise_kg(2))
    obstacles = explain(here, target, Limits(), TOLERANCE_KG)
    plates = [a.offer.thing for a in obstacles.additions if isinstance(a.offer.thing, Plate)]
    assert [plate.mass_kg for plate in plates] == [1.25]


def test_additions_come_lightest_first_and_each_really_does() -> None:
    here, target = setup(chain=2), wanted(60.4, 60.4 + rise_kg(2))
    obstacles = explain(here, target, Limits(), TOLERANCE_KG)
    masses = [addition.offer.added_kg for addition in obstacles.additions]
    assert masses == sorted(masses)
    assert masses
    for addition in obstacles.additions:
        built = best_rig(replace(here, stock=addition.offer.stock), target, Limits(most_pieces=12))
        assert built is not None
        assert built.cost_kg <= addition.built.miss_kg + addition.built.imbalance_kg + 0.2 + 1.2


@pytest.mark.parametrize("top_kg", [300.0])
def test_nothing_is_promised_where_nothing_would_do(top_kg: float) -> None:
    obstacles = explain(setup(), wanted(60.0, top_kg), Limits(), TOLERANCE_KG)
    assert obstacles.blockers == ()
    assert obstacles.additions == ()
