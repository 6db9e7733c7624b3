"""Where the chain lies: pile heights by way, and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End

CHAIN = Chain(links=20, pitch_m=0.05, density_kg_per_m=5.0)


def test_pile_scales_with_the_pitch_and_differs_by_way() -> None:
    ground = Ground(raising_pitches=0.4, lowering_pitches=1.6)
    assert ground.pile_m(CHAIN, "raising") == pytest.approx(0.02)
    assert ground.pile_m(CHAIN, "lowering") == pytest.approx(0.08)
    assert ground.pile_m(CHAIN, "still") == 0.0


def test_uncertainty_of_the_pile_follows_the_way() -> None:
    ground = Ground(raising_rule_u_pitches=0.2, lowering_rule_u_pitches=0.6, strand_u_pitches=0.0)
    for u_m in (ground.pile_u_m, ground.rule_u_m):
        assert u_m(CHAIN, "raising") == pytest.approx(0.01)
        assert u_m(CHAIN, "lowering") == pytest.approx(0.03)
        assert u_m(CHAIN, "still") == 0.0


def test_a_single_strand_takes_both_parts_of_the_uncertainty() -> None:
    ground = Ground(raising_rule_u_pitches=0.3, lowering_rule_u_pitches=0.5, strand_u_pitches=0.4)
    assert ground.pile_u_m(CHAIN, "raising") == pytest.approx(0.5 * 0.05)
    assert ground.pile_u_m(CHAIN, "lowering") == pytest.approx(np.hypot(0.5, 0.4) * 0.05)
    assert ground.strand_u_m(CHAIN, "raising") == pytest.approx(0.4 * 0.05)
    assert ground.strand_u_m(CHAIN, "lowering") == pytest.approx(0.4 * 0.05)
    assert ground.strand_u_m(CHAIN, "still") == 0.0


def test_feeder_and_dragged_slack_make_no_pile() -> None:
    for ground, chain in ((Ground(), None), (Ground(lay="dragged"), CHAIN)):
        heights = (ground.pile_m, ground.pile_u_m, ground.rule_u_m, ground.strand_u_m)
        assert [height_m(chain, "lowering") for height_m in heights] == [0.0] * 4


def test_pile_raises_the_floor() -> None:
    ground = Ground(lowering_pitches=2.0)
    lowered = End((Straight(chain=CHAIN),)).curve(ground, "lowering")
    assert lowered.at([0.1, 0.6]).tolist() == pytest.approx([0.0, 2.5])


def test_a_mat_under_the_chain_raises_the_floor_and_a_platform_under_the_lifter_lowers_it() -> None:
    end = End((Straight(chain=CHAIN),))
    assert float(end.curve(Ground(surface_m=0.1), "still").at(0.6)) == pytest.approx(2.5)
    assert float(end.curve(Ground(surface_m=-0.1), "still").at(0.6)) == pytest.approx(3.5)


@pytest.mark.parametrize(
    "field",
    [
        "friction",
        "raising_pitches",
        "lowering_pitches",
        "raising_rule_u_pitches",
        "lowering_rule_u_pitches",
        "strand_u_pitches",
    ],
)
@pytest.mark.parametrize("value", [-0.1, math.nan, math.inf])
def test_negative_or_endless_values_are_refused(field: str, value: float) -> None:
    with pytest.raises(BadInputError) as caught:
        Ground(**{field: value})  # type: ignore[arg-type]  # wrong values are the point
    assert caught.value.field == field
    assert caught.value.got is value


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_surface_without_a_height_is_refused(value: float) -> None:
    with pytest.raises(BadInputError) as caught:
        Ground(surface_m=value)
    assert caught.value.field == "surface_m"
    assert caught.value.got is value


def test_an_unknown_lay_is_refused_rather_than_taken_as_piled() -> None:
    with pytest.raises(BadInputError) as caught:
        Ground(lay="draged")  # type: ignore[arg-type]  # a slip of the pen is the point
    assert caught.value.field == "lay"
    assert caught.value.got == "draged"
    assert "dragged" in str(caught.value.wanted)
