"""Rigs beside the best where bands are allowed: with them, without, with others; what blocks."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.rigging.builders import batch, setup_of
from topheavy.errors import BadInputError
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.rigging.limits import Limits
from topheavy.rigging.obstacles import explain
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.target import Target
from topheavy.rigging.trade import alternatives, best_rig, trade

if TYPE_CHECKING:
    from topheavy.rigging.built import BuiltRig

LOW = StationPeg(name="low", peg=Peg(height_m=0.1, offset_m=0.1))
CURVED = Target(heights_m=(0.75, 0.975, 1.2), loads_kg=(62.0, 72.0, 82.0))
ENDS = Target(heights_m=(0.75, 1.2), loads_kg=(60.0, 78.0), full_deload=True)


def band(tag: str, stiff_kg_per_m: float = 20.0, retired: str = "") -> Band:
    lengths_m = (0.6, 0.8, 1.0, 1.3)
    pulls_kg = tuple(stiff_kg_per_m * (length_m - 0.4) for length_m in lengths_m)
    readings = BandReadings(tag=tag, rest_m=0.4, length_m=lengths_m, tension_kg=pulls_kg)
    return Band(readings=readings, retired=retired)


def banded(*bands: Band, chain: int = 4) -> Setup:
    setup = setup_of(*batch(chain))
    return replace(setup, stock=replace(setup.stock, bands=bands), pegs=(LOW,))


def found(setup: Setup, target: Target, limits: Limits) -> BuiltRig:
    best = best_rig(setup, target, limits)
    assert best is not None
    return best


def test_no_band_goes_on_unless_it_is_asked_for() -> None:
    assert not found(banded(band("a"), band("b")), CURVED, Limits()).bands


def test_chain_only_stands_beside_bands_and_bands_beside_chain() -> None:
    setup, limits = banded(band("a"), band("b")), Limits(most_bands=1, alternatives_within_kg=60)
    for target in (CURVED, ENDS):
        best = found(setup, target, limits)
        others = {o.differs_by: o.built for o in alternatives(setup, target, limits, best)}
        if best.bands:
            assert others["chain only"].bands == ()
        else:
            assert others["with bands"].bands


def test_each_other_sort_is_the_best_of_its_sort() -> None:
    setup = banded(band("a"), band("b"), band("c", 30), band("d", 30))
    limits = Limits(most_bands=2, alternatives_within_kg=60)
    best = found(setup, CURVED, limits)
    for other in alternatives(setup, CURVED, limits, best, most=9):
        assert other.built.cost_kg >= best.cost_kg - 1e-9
        if other.differs_by == "bands only":
            assert other.built.pieces == 0
        if other.differs_by == "with other bands":
            tags = {hung.band.tag for hung in best.bands}
            assert not tags & {hung.band.tag for hung in other.built.bands}


def test_the_trade_begins_with_bands_alone() -> None:
    first, *_ = trade(banded(band("a"), band("b")), CURVED, Limits(most_bands=1))
    assert first.pieces == 0
    assert len(first.bands) == 2


def test_bands_alone_need_no_chain_in_the_gym() -> None:
    setup = banded(band("a"), band("b"), chain=0)
    best = found(setup, CURVED, Limits(most_bands=1, most_pieces=0))
    assert (best.left, best.right) == ((), ())
    assert [hung.band.tag for hung in best.bands] == ["a", "b"]


def test_chain_only_is_named_where_bands_would_do() -> None:
    """Two bands of 30 kg/m add 27 kg over the lift, and no chain is there to do it."""
    setup = banded(band("a", 30.0), band("b", 30.0), chain=2)
    target = Target(heights_m=(0.75, 1.2), loads_kg=(65.0, 92.0))
    obstacles = explain(setup, target, Limits(), tolerance_kg=2.0)
    assert "chain only" in [blocker.limit for blocker in obstacles.blockers]


def test_what_can_not_be_hung_is_left_out_with_its_reason() -> None:
    setup = banded(band("a"), band("b"), band("c", 30.0), band("worn", retired="a nick"))
    refused = [why.say() for why in pose(setup, ENDS, Limits(most_bands=1)).bands.refused]
    assert any(
        why.startswith("Bands a, b, c doubled on peg low: stretched to 220.9 cm") for why in refused
    )
    assert "Band c single on peg low: no partner left that pulls alike within 0.5 kg" in " ".join(
        refused
    )
    assert not any("worn" in why for why in refused)


def test_slack_bands_are_left_out() -> None:
    high = replace(LOW, peg=Peg(height_m=0.5, offset_m=0.1))
    setup = replace(banded(band("a"), band("b")), pegs=(high,))
    refused = [why.say() for why in pose(setup, ENDS, Limits(most_bands=1)).bands.refused]
    assert "slack by 13.1 cm in this lift" in refused[0]


def test_a_station_without_pegs_says_so() -> None:
    setup = replace(banded(band("a"), band("b")), pegs=())
    assert "no band pegs" in pose(setup, ENDS, Limits(most_bands=1)).bands.refused[0].say()


@pytest.mark.parametrize(
    "wrong", [{"most_bands": 3}, {"most_bands": -1}, {"most_pieces": 0}, {"least_bands": 1}]
)
def test_limits_of_bands_that_make_no_sense_are_refused(wrong: dict[str, int]) -> None:
    with pytest.raises(BadInputError):
        Limits(**wrong)  # type: ignore[arg-type]
