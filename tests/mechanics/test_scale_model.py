"""What a scale should read, against the rig's own load curve."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.services.weighing.weighed_rigs import CHAIN, STATIONS
from topheavy.mechanics.ground import LOWERING_PILE_PITCHES, RAISING_PILE_PITCHES, Ground
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.links import count_straight
from topheavy.mechanics.rig import End
from topheavy.mechanics.scale_model import seen_by_scale

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.mechanics.hang import Way

HEIGHTS = np.linspace(0.0, 2.6, 131)
WAYS: tuple[tuple[Way, float], ...] = (
    ("raising", RAISING_PILE_PITCHES),
    ("lowering", LOWERING_PILE_PITCHES),
)


def numbers(ground: Ground, straight_kg: float = 0.0) -> NDArray[np.float64]:
    return np.array([1.0, 0.0, straight_kg, ground.friction, 0.0])


def piles(pitches: float) -> NDArray[np.float64]:
    return np.full(HEIGHTS.size, pitches)


@pytest.mark.parametrize("name", STATIONS)
@pytest.mark.parametrize(("way", "pitches"), WAYS)
def test_reads_the_load_curve_away_from_its_corners(name: str, way: Way, pitches: float) -> None:
    """Within a gram where no knot of the curve is within five spreads of a single heap."""
    rig, ground = STATIONS[name].rig, Ground(surface_m=0.02)
    seen = seen_by_scale((rig.left, rig.right), ground, on_floor=False)
    found = seen.reading_kg(HEIGHTS, piles(pitches), numbers(ground, rig.straight_weight_kg))
    curve = rig.curve(ground, way)
    far = np.min(np.abs(HEIGHTS[:, None] - curve.height_m), axis=1) > 5 * seen.spread_m.max()
    assert np.count_nonzero(far) > 40
    assert found[far] == pytest.approx(curve.at(HEIGHTS)[far], abs=1e-3)
    assert np.all(np.diff(found) >= -1e-9)


def test_goes_round_a_corner_as_many_heaps_do() -> None:
    """Against the mean and the scatter of one strand over 20 000 heaps drawn at random."""
    rng = np.random.default_rng(3)
    ground = Ground()
    strand = Straight(chain=CHAIN, drop_m=0.1)
    seen = seen_by_scale((End((strand,)),), ground, on_floor=False)
    low = np.linspace(0.04, 0.24, 9)
    spread_m = ground.strand_u_pitches * CHAIN.pitch_m
    heap_m = spread_m * rng.standard_normal((20_000, 1))
    step_m = CHAIN.pitch_m * rng.uniform(-0.5, 0.5, (20_000, low.size))
    hung = CHAIN.density_kg_per_m * np.maximum(low - 0.1 - heap_m + step_m, 0.0)
    found = seen.reading_kg(low, np.zeros(9), numbers(ground))
    assert found == pytest.approx(hung.mean(axis=0), abs=0.004)
    stray = seen.stray_kg(low, np.zeros(9), numbers(ground)) * seen.spread_m[0] / seen.stray_m[0]
    assert stray == pytest.approx(hung.std(axis=0), abs=0.006)


@pytest.mark.parametrize("name", STATIONS)
def test_reads_the_load_curve_of_a_dragged_rig(name: str) -> None:
    """The curve is drawn through points, within 0.05 % of the strand's weight."""
    rig, ground = STATIONS[name].rig, Ground(lay="dragged", friction=0.5)
    seen = seen_by_scale((rig.left, rig.right), ground, on_floor=False)
    found = seen.reading_kg(HEIGHTS, piles(0.0), numbers(ground))
    hung = rig.hung_curve(ground).at(HEIGHTS)
    assert found == pytest.approx(hung, abs=0.0005 * (rig.left.mass_kg + rig.right.mass_kg))


@pytest.mark.parametrize("name", STATIONS)
def test_bar_and_floor_share_what_hangs(name: str) -> None:
    rig, ground = STATIONS[name].rig, Ground()
    bar, floor = (
        seen_by_scale((rig.left,), ground, on_floor=on_floor).reading_kg(
            HEIGHTS, piles(0.25), numbers(ground)
        )
        for on_floor in (False, True)
    )
    assert bar + floor == pytest.approx(np.full(HEIGHTS.size, rig.left.mass_kg))


def test_a_connector_without_length_comes_off_the_floor_within_a_millimetre() -> None:
    held = Suspension(feeder_m=0.5, connector_kg=0.3)
    light = replace(CHAIN, density_kg_per_m=1e-9)
    end = End((Doubled(chains=(light,), suspension=held),))
    seen = seen_by_scale((end,), Ground(), on_floor=False)
    low = np.array([0.4, 0.4995, 0.5015, 0.6])
    found = seen.reading_kg(low, np.zeros(4), numbers(Ground()))
    assert found == pytest.approx([0.0, 0.0, 0.3, 0.3], abs=1e-6)


def test_links_in_steps_scatter_as_counted_links_do() -> None:
    """A step of one link is uniform within it: m / sqrt(12) about the line."""
    rng = np.random.default_rng(5)
    level = Ground(strand_u_pitches=0.0)
    seen = seen_by_scale((End((Straight(chain=CHAIN),)),), level, on_floor=False)
    above = rng.uniform(0.1, 1.2, 4000)
    steps = [count_straight(CHAIN, h).mass_kg(CHAIN) for h in above]
    line = seen.reading_kg(above, np.zeros(4000), numbers(level))
    stray = seen.stray_kg(above, np.zeros(4000), numbers(level))
    assert np.std(np.array(steps) - line) == pytest.approx(stray[0], rel=0.03)


def test_heaps_of_many_strands_average_out() -> None:
    ends = [
        End((Doubled(chains=(CHAIN,) * pieces, suspension=Suspension(feeder_m=0.5)),))
        for pieces in (1, 4)
    ]
    one, four = (seen_by_scale((end,), Ground(), on_floor=False) for end in ends)
    stray = [s.stray_kg(np.array([0.8]), np.zeros(1), numbers(Ground()))[0] for s in (one, four)]
    assert stray[0] == pytest.approx(math.sqrt(2) * 5.6 * one.stray_m.max(), rel=1e-3)
    assert stray[1] == pytest.approx(2 * stray[0])


def test_a_rig_without_chain_is_its_straight_weight() -> None:
    seen = seen_by_scale((End(), End()), Ground(), on_floor=False)
    assert seen.reading_kg(HEIGHTS, piles(0.25), numbers(Ground(), 60.0)) == pytest.approx(60.0)
    assert not seen.stray_kg(HEIGHTS, piles(0.25), numbers(Ground())).any()
