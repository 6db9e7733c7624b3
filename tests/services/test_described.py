"""A described rig: what it hangs, what must come down, what is poor about it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import RINGS, SCREW_LINK, STOCK, pieces, plain, ring
from topheavy.catalogue.verdict import Job
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.stock import ChainPiece
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.services.described import (
    UNNAMED_CONNECTOR,
    UNNAMED_FEEDER,
    DescribedRig,
    Hanging,
    check_counts,
    dangers,
    doubts,
)
from topheavy.units import POUNDS

if TYPE_CHECKING:
    from topheavy.rigging.fixtures import Fixture

LIFT_M = (0.66, 1.07)


def hung(tags: str, fixture: Fixture | None = None) -> Hanging:
    return Hanging(fixture=fixture or ring("5"), pieces=pieces(tags))


def rig(left: tuple[Hanging, ...], right: tuple[Hanging, ...]) -> DescribedRig:
    return DescribedRig(bar_kg=25, plates_kg=60, left=left, right=right)


def test_hangs_and_pieces_come_in_one_order() -> None:
    described = rig((hung("A1 A2"), hung("B1", plain("straight"))), (hung("A3"),))
    assert [piece.tag for piece in described.left_pieces] == ["A1", "A2", "B1"]
    chains = [chain for hang in described.rig.left.hangs for chain in hang.chains]
    assert chains == [piece.chain for piece in described.left_pieces]
    assert described.rig.straight_weight_kg == 85


def test_one_piece_hangs_once_and_two_alike_are_two() -> None:
    (one,) = pieces("A1")
    twice = Hanging(fixture=ring("5"), pieces=(one,))
    with pytest.raises(BadInputError, match="hangs in two places"):
        rig((twice,), (twice,))
    (other,) = pieces("A1")
    assert rig((twice,), (Hanging(fixture=ring("5"), pieces=(other,)),)).rig.left.mass_kg > 9


def test_no_more_feeders_than_the_gym_has() -> None:
    three = rig((hung("A1"), hung("A2", ring("4"))), (hung("A3"),))
    with pytest.raises(NotInStockError, match="more of 'ring strap'") as told:
        check_counts(three, STOCK)
    assert (told.value.got, told.value.wanted) == ("3 of them", "at most 2")
    check_counts(rig((hung("A1"),), (hung("A3"),)), STOCK)


def test_a_sound_rig_is_told_of_nothing() -> None:
    sound = rig((hung("A1 A2"),), (hung("A3 A4"),))
    assert dangers(sound) == ()
    assert doubts(sound, LIFT_M, Ground(), Job(travel_m=0.41, best_kg=140)) == ()


def test_overload_counts_what_each_part_carries() -> None:
    """19.0 kg of chain: a feeder rated 76.5 kg at a factor of 4 may carry 19.1, so 19.2 is over.

    The connector carries the chain alone, the feeder the connector too (49 CFR 393.108 (b): an
    assembly is rated as its weakest part).
    """
    chain_kg = hung("A1 A2").chain_kg
    feeder = replace(RINGS, rating_kg=4 * (chain_kg + SCREW_LINK.mass_kg) - 0.1)
    connector = replace(SCREW_LINK, rating_kg=4 * chain_kg)
    found = dangers(rig((hung("A1 A2", replace(ring("5"), feeder=feeder)),), ()))
    assert [remark.code for remark in found] == ["overloaded"]
    assert found[0].phrase.text.startswith("ring strap")
    assert dangers(rig((hung("A1 A2", replace(ring("5"), connector=connector)),), ())) == ()
    assert dangers(
        rig((hung("A1 A2", replace(ring("5"), connector=connector)),), ()), design_factor=4.001
    )


def test_overload_is_said_in_the_units_asked_for() -> None:
    weak = replace(SCREW_LINK, rating_kg=20.0)
    (remark,) = dangers(rig((hung("A1", replace(ring("5"), connector=weak)),), ()))
    assert "rated 44.1 lb" in remark.say(POUNDS)
    assert "rated 20.0 kg" in remark.say()


@pytest.mark.parametrize("factor", [0.99, 0, -4, float("nan"), float("inf")])
def test_a_design_factor_below_one_is_none(factor: float) -> None:
    with pytest.raises(BadInputError, match="beyond its rating"):
        dangers(rig((hung("A1"),), ()), design_factor=factor)


def test_unrated_parts_are_dangers_and_unstated_ones_are_asked_for() -> None:
    bare = replace(SCREW_LINK, name="{hook}", rating_kg=None)
    (remark,) = dangers(rig((hung("A1", replace(ring("5"), connector=bare)),), ()))
    assert (remark.code, "{hook}" in remark.say()) == ("unrated", True)
    fixture = replace(
        ring("5"),
        feeder=replace(RINGS, name=UNNAMED_FEEDER, rating_kg=None),
        connector=replace(SCREW_LINK, name=UNNAMED_CONNECTOR, rating_kg=None),
    )
    described = rig((hung("A1", fixture),), (hung("A2", fixture),))
    assert dangers(described) == ()
    assert [remark.code for remark in doubts(described, LIFT_M, Ground())] == ["rating not stated"]


def test_retired_chain_comes_down() -> None:
    (piece,) = pieces("A9")
    worn = replace(piece, retired="bent {link}")
    (remark,) = dangers(rig((Hanging(fixture=ring("5"), pieces=(worn,)),), ()))
    assert remark.say() == "A9 is retired (bent {link}): take it down."


def test_ends_that_differ() -> None:
    more = rig((hung("A1 A2"),), (hung("A3"),))
    (remark,) = doubts(more, LIFT_M, Ground())
    assert remark.code == "lopsided"
    assert "the left is the heavier" in remark.say()
    (remark,) = doubts(more, (0.2, 0.3), Ground())
    assert remark.code == "unequal"
    assert remark.say().startswith("9.5 kg more lies ready on the left end")
    (remark,) = doubts(rig((hung("A1"),), (hung("A2", ring("3")),)), LIFT_M, Ground())
    assert "the right is the heavier" in remark.say()


def test_thin_chain_does_nothing() -> None:
    def thin(tag: str) -> Hanging:
        chain = Chain(links=54, pitch_m=0.031, density_kg_per_m=0.8)
        piece = ChainPiece(tag=tag, size="1/4 in", wire_diameter_m=0.007, chain=chain)
        return Hanging(fixture=ring("5"), pieces=(piece,))

    described = rig((thin("H1"),), (thin("H2"),))
    (remark,) = doubts(described, LIFT_M, Ground(), Job(travel_m=0.41, best_kg=140))
    assert remark.say().startswith("1/4 in chain is too thin to matter: a piece a side adds")
    assert doubts(described, LIFT_M, Ground()) == ()
