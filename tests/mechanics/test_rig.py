"""A rig: ends add up, hangs that never lift or never touch, side pull, refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension
from topheavy.mechanics.rig import End, Rig

CHAIN = Chain(links=32, pitch_m=0.05, density_kg_per_m=5.0)
HEIGHTS = np.linspace(0.0, 2.5, 251)


def doubled(feeder_m: float, connector_kg: float = 0.0) -> Doubled:
    return Doubled(
        chains=(CHAIN,), suspension=Suspension(feeder_m=feeder_m, connector_kg=connector_kg)
    )


def test_rig_is_bar_plates_and_both_ends() -> None:
    end = End((doubled(0.5),))
    rig = Rig(20.0, 60.0, end, end)
    assert rig.straight_weight_kg == 80.0
    assert float(rig.curve(way="still").at(0.9)) == pytest.approx(80 + 2 * 2 * 5 * 0.4)
    assert float(rig.hung_curve(way="still").at(0.9)) == pytest.approx(2 * 2 * 5 * 0.4)


def test_a_bare_bar_weighs_the_same_everywhere() -> None:
    assert Rig(20.0, 5.0, End(), End()).curve().at(HEIGHTS).tolist() == [25.0] * HEIGHTS.size


def test_one_loaded_end_is_half_of_two() -> None:
    end = End((doubled(0.5),))
    one, two = (Rig(20.0, 0.0, end, other).hung_curve() for other in (End(), end))
    assert two.at(HEIGHTS) == pytest.approx(2 * one.at(HEIGHTS))


def test_two_different_feeders_on_one_end_start_at_their_own_heights() -> None:
    curve = End((doubled(0.5), doubled(0.8))).curve(way="still")
    assert curve.slope_at([0.4, 0.6, 0.9]).tolist() == pytest.approx([0, 10, 20])
    assert float(curve.at(1.0)) == pytest.approx(10 * 0.5 + 10 * 0.2)


def test_mass_of_an_end_counts_what_lies_on_the_floor() -> None:
    end = End((doubled(0.5, connector_kg=0.3), Straight(chain=CHAIN), Draped(chains=(CHAIN,))))
    assert end.mass_kg == pytest.approx(3 * CHAIN.mass_kg + 0.3)
    assert float(end.curve(way="still").at(5.0)) == pytest.approx(end.mass_kg)


def test_a_chain_too_short_to_reach_the_floor_never_unloads() -> None:
    short = Chain(links=8, pitch_m=0.05, density_kg_per_m=5.0)
    loads = End((Straight(chain=short, drop_m=0.1),)).curve(way="still").at([0.5, 0.7, 1.1])
    assert loads.tolist() == pytest.approx([short.mass_kg] * 3)


def test_a_feeder_so_long_that_nothing_lifts() -> None:
    end = End((doubled(1.3, connector_kg=0.3),))
    assert end.curve(way="still").at([0.4, 0.8, 1.3]).tolist() == [0.0, 0.0, 0.0]


def test_connector_on_the_floor_leaves_the_taut_feeder() -> None:
    """Link-level simulation: not the connector's mass, and nothing when the feeder is light."""
    for density, wanted in ((0.0, 0.0), (0.4, 0.2)):
        held = Suspension(
            feeder_m=0.6, feeder_density_kg_per_m=density, connector_m=0.08, connector_kg=0.3
        )
        end = End((Doubled(chains=(CHAIN,), suspension=held),))
        assert float(end.curve().at(0.5)) == pytest.approx(wanted)


def test_connector_rests_on_the_surface_not_on_the_floor_below_it() -> None:
    curve = End((doubled(0.5, connector_kg=0.3),)).curve(Ground(surface_m=0.1), "still")
    assert float(curve.at(0.6)) == pytest.approx(0.0)
    assert float(curve.at(0.6 + 1e-6)) == pytest.approx(0.3, abs=1e-4)


def test_pile_delays_the_chain_but_not_the_feeder_or_connector() -> None:
    held = Suspension(feeder_m=0.5, feeder_density_kg_per_m=0.4, connector_m=0.1, connector_kg=0.5)
    ground = Ground(raising_pitches=1.0)
    curve = End((Doubled(chains=(CHAIN,), suspension=held),)).curve(ground, "raising")
    assert float(curve.at(0.6 + 0.05)) == pytest.approx(0.2 + 0.5)
    assert float(curve.at(0.75)) == pytest.approx(0.2 + 0.5 + 10 * 0.1)


def test_dragged_slack_pulls_to_the_side_until_all_is_lifted() -> None:
    end, ground = End((Straight(chain=CHAIN),)), Ground(lay="dragged", friction=0.7)
    assert end.side_pull_n(0.5, ground) > 0
    assert end.side_pull_n(CHAIN.length_m, ground) == pytest.approx(0.0, abs=1e-9)
    assert end.side_pull_n(0.5, Ground(friction=0.7)) == 0.0


def test_side_pull_of_a_doubled_piece_is_that_of_its_two_strands() -> None:
    ground = Ground(lay="dragged", friction=0.7)
    half = Chain(links=16, pitch_m=0.05, density_kg_per_m=5.0)
    pair = End((Straight(chain=half, drop_m=0.4), Straight(chain=half, drop_m=0.4)))
    assert End((doubled(0.4),)).side_pull_n(0.7, ground) == pytest.approx(
        pair.side_pull_n(0.7, ground)
    )


def test_side_pull_is_read_below_the_drop_and_above_the_surface() -> None:
    """0.1 m of drop and 0.2 m of mat leave 0.5 m of a height of 0.8 m."""
    ground = Ground(lay="dragged", friction=0.7)
    plain = End((Straight(chain=CHAIN),)).side_pull_n(0.5, ground)
    dropped = End((Straight(chain=CHAIN, drop_m=0.1),))
    assert dropped.side_pull_n(0.8, replace(ground, surface_m=0.2)) == pytest.approx(plain)


def test_side_pull_is_never_more_than_friction_on_the_whole_chain() -> None:
    end, ground = End((Straight(chain=CHAIN),)), Ground(lay="dragged", friction=0.7)
    most = 0.7 * CHAIN.mass_kg * STANDARD_GRAVITY_M_PER_S2
    assert 0 < end.side_pull_n(1e-6, ground) <= most


@pytest.mark.parametrize("field", ["bar_kg", "plates_kg"])
@pytest.mark.parametrize("value", [-1.0, float("nan"), float("inf")])
def test_masses_out_of_range_name_the_field(field: str, value: float) -> None:
    masses = {"bar_kg": 20.0, "plates_kg": 0.0} | {field: value}
    with pytest.raises(BadInputError) as caught:
        Rig(left=End(), right=End(), **masses)
    assert caught.value.field == field
    assert caught.value.got is value
    assert caught.value.wanted == "0 or more"
