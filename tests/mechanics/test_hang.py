"""Ways to hang chain: which strands they make, and what they refuse."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.rig import End

CHAIN = Chain(links=32, pitch_m=0.05, density_kg_per_m=5.0)


def load_kg(hang: Straight | Doubled | Draped, height_m: float) -> float:
    return float(End((hang,)).curve(way="still").at(height_m))


def test_straight_is_one_strand_from_the_drop() -> None:
    (strand,) = Straight(chain=CHAIN, drop_m=0.1).strands()
    assert (strand.density_kg_per_m, strand.length_m, strand.offset_m) == (5.0, CHAIN.length_m, 0.1)


def test_doubled_is_two_half_strands_below_feeder_and_connector() -> None:
    held = Suspension(feeder_m=0.6, connector_m=0.08, connector_kg=0.3)
    halves = [s for s in Doubled(chains=(CHAIN,), suspension=held).strands() if s.chain is CHAIN]
    assert [s.length_m for s in halves] == [0.8, 0.8]
    assert [s.offset_m for s in halves] == pytest.approx([0.68, 0.68])


def test_doubled_odd_hangs_its_middle_link_alone() -> None:
    """33 links: one from the fold, and sixteen in each strand below it; none is lost."""
    odd = Chain(links=33, pitch_m=0.05, density_kg_per_m=5.0)
    hang = Doubled(chains=(CHAIN, odd), suspension=Suspension(feeder_m=0.6))
    strands = [s for s in hang.strands() if s.chain is odd]
    assert strands == hang.strands_of(odd)
    assert [s.length_m for s in strands] == pytest.approx([0.05, 0.8, 0.8])
    assert [s.offset_m for s in strands] == pytest.approx([0.6, 0.65, 0.65])
    assert End((hang,)).mass_kg == pytest.approx(CHAIN.mass_kg + odd.mass_kg)


@pytest.mark.parametrize(
    ("above_m", "links"),
    [(0.0, 0), (0.025, 0.5), (0.05, 1), (0.1, 3), (0.125, 4), (0.15, 5), (0.9, 5)],
)
def test_doubled_odd_loads_link_by_link(above_m: float, links: float) -> None:
    """Five links of 5 cm by hand: one while the middle link rises, then two a pitch."""
    odd = Chain(links=5, pitch_m=0.05, density_kg_per_m=5.0)
    hang = Doubled(chains=(odd,), suspension=Suspension(feeder_m=0.6))
    assert load_kg(hang, 0.6 + above_m) == pytest.approx(links * odd.link_mass_kg, abs=1e-9)


def test_a_single_link_doubled_is_one_strand() -> None:
    one = Chain(links=1, pitch_m=0.05, density_kg_per_m=5.0)
    (strand,) = Doubled(chains=(one,), suspension=Suspension(feeder_m=0.6)).strands_of(one)
    assert (strand.length_m, strand.offset_m) == (0.05, 0.6)


def test_draped_odd_keeps_two_halves_over_the_thick_bar() -> None:
    odd = Chain(links=33, pitch_m=0.05, density_kg_per_m=5.0)
    strands = Draped(chains=(odd,), drop_m=0.1).strands()
    assert [(s.length_m, s.offset_m) for s in strands] == [(odd.length_m / 2, 0.1)] * 2


def test_several_pieces_on_one_connector_add() -> None:
    other = Chain(links=20, pitch_m=0.04, density_kg_per_m=3.0)
    held = Suspension(feeder_m=0.6)
    for height_m in (0.5, 0.7, 0.95, 1.1, 2.0):
        both = load_kg(Doubled(chains=(CHAIN, other), suspension=held), height_m)
        apart = [load_kg(Doubled(chains=(c,), suspension=held), height_m) for c in (CHAIN, other)]
        assert both == pytest.approx(sum(apart))


def test_connector_with_length_leaves_the_floor_over_its_own_length() -> None:
    held = Suspension(feeder_m=0.6, connector_m=0.08, connector_kg=0.32)
    chain = Chain(links=2, pitch_m=0.01, density_kg_per_m=1e-6)
    loads = [load_kg(Doubled(chains=(chain,), suspension=held), h) for h in (0.6, 0.62, 0.68, 0.9)]
    assert loads == pytest.approx([0.0, 0.08, 0.32, 0.32], abs=1e-5)


def test_connector_without_length_is_a_lump() -> None:
    hang = Doubled(chains=(CHAIN,), suspension=Suspension(feeder_m=0.6, connector_kg=0.3))
    assert hang.lump == (0.3, 0.6)
    assert load_kg(hang, 0.6) == pytest.approx(0.0)
    assert load_kg(hang, 0.6 + 1e-9) == pytest.approx(0.3, abs=1e-6)


def test_connector_with_length_is_no_lump_too() -> None:
    held = Suspension(feeder_m=0.6, connector_m=0.08, connector_kg=0.3)
    assert Doubled(chains=(CHAIN,), suspension=held).lump[0] == 0.0


def test_with_the_connector_on_the_floor_only_the_taut_feeder_hangs() -> None:
    held = Suspension(feeder_m=0.6, feeder_density_kg_per_m=0.4, connector_m=0.08, connector_kg=0.3)
    hang = Doubled(chains=(CHAIN,), suspension=held)
    assert load_kg(hang, 0.25) == pytest.approx(0.1)
    assert load_kg(hang, 0.6) == pytest.approx(0.24)


def test_a_feeder_tail_hangs_beside_the_chain() -> None:
    held = Suspension(feeder_m=0.6, feeder_density_kg_per_m=0.4, feeder_whole_m=1.0)
    chain = Chain(links=2, pitch_m=0.01, density_kg_per_m=1e-6)
    loads = [load_kg(Doubled(chains=(chain,), suspension=held), h) for h in (0.5, 0.8, 1.0, 1.5)]
    assert loads == pytest.approx([0.2, 0.32, 0.4, 0.4], abs=1e-5)


def test_draped_lays_both_tails_down_from_the_bar() -> None:
    """A deadlift from 0.225 m: both tails hang, two densities a metre, to half the length."""
    draped = Draped(chains=(CHAIN,))
    assert load_kg(draped, 0.225) == pytest.approx(2 * 5 * 0.225)
    assert load_kg(draped, 0.8) == pytest.approx(CHAIN.mass_kg)
    assert load_kg(draped, 1.4) == pytest.approx(CHAIN.mass_kg)


def test_draped_with_a_drop_begins_lower() -> None:
    assert load_kg(Draped(chains=(CHAIN,), drop_m=0.1), 0.3) == pytest.approx(2 * 5 * 0.2)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("feeder_m", 0.0),
        ("feeder_m", -0.3),
        ("feeder_density_kg_per_m", -0.1),
        ("connector_m", -0.01),
        ("connector_kg", float("nan")),
        ("feeder_u_m", -0.001),
    ],
)
def test_suspension_out_of_range_names_the_field(field: str, value: float) -> None:
    values = {"feeder_m": 0.6} | {field: value}
    with pytest.raises(BadInputError) as caught:
        Suspension(**values)
    assert caught.value.field == field
    assert caught.value.got is value


def test_a_feeder_can_not_work_longer_than_it_is() -> None:
    with pytest.raises(BadInputError, match="longer than it is") as caught:
        Suspension(feeder_m=0.6, feeder_whole_m=0.5)
    assert caught.value.field == "feeder_m"
    assert "0.6 m of 0.5 m" in str(caught.value.got)


@pytest.mark.parametrize("drop_m", [-0.1, float("inf")])
def test_a_drop_is_not_negative(drop_m: float) -> None:
    with pytest.raises(BadInputError, match="drop_m"):
        Straight(chain=CHAIN, drop_m=drop_m)
    with pytest.raises(BadInputError, match="drop_m"):
        Draped(chains=(CHAIN,), drop_m=drop_m)


def test_a_hang_needs_a_piece() -> None:
    with pytest.raises(BadInputError) as caught:
        Doubled(chains=(), suspension=Suspension(feeder_m=0.5))
    assert caught.value.field == "chains"
    with pytest.raises(BadInputError, match="at least one chain piece"):
        Draped(chains=())
