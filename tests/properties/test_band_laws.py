"""Laws of bands on a rig: they add, mirror, never push, and never make the best rig worse."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rigging.random_problems import random_bands_problem
from topheavy.errors import NotInStockError
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg, Travel
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.mechanics.ground import BARE_FLOOR
from topheavy.rigging.hung_band import HungBand
from topheavy.rigging.limits import MOST_BANDS
from topheavy.rigging.problem import pose
from topheavy.rigging.search import find
from topheavy.services.bands import read_bands
from topheavy.services.described import DescribedRig

TRAVEL = Travel(bottom_m=0.6, top_m=1.1)

shares = st.floats(0.0, 1.0)


@st.composite
def bands(draw: st.DrawFn, tag: str) -> HungBand:
    """A band of some stiffness and rest length, read further than the lift goes."""
    rest_m = 0.25 + 0.5 * draw(shares)
    rises = [0.5 + draw(shares) for _ in range(4)]
    lengths_m = tuple(rest_m + 0.5 * step for step in range(1, 5))
    pulls_kg = tuple(8.0 * sum(rises[: step + 1]) for step in range(4))
    readings = BandReadings(tag=tag, rest_m=rest_m, length_m=lengths_m, tension_kg=pulls_kg)
    peg = Peg(height_m=0.05 + 0.2 * draw(shares), offset_m=0.02 + 0.1 * draw(shares))
    return HungBand(
        band=Band(readings=readings),
        peg=StationPeg(name="low", peg=peg),
        doubled=draw(st.booleans()),
        beyond=True,
    )


def loads_kg(left: tuple[HungBand, ...], right: tuple[HungBand, ...]) -> list[float]:
    described = DescribedRig(bar_kg=20.0, plates_kg=40.0, left_bands=left, right_bands=right)
    rig = described.over(TRAVEL.bottom_m, TRAVEL.top_m).rig
    return [float(kg) for kg in rig.curve(BARE_FLOOR).at([0.6, 0.7, 0.85, 1.0, 1.1])]


@given(bands("a"), bands("b"))
@settings(max_examples=15, deadline=None)
def test_bands_add_and_mirror(a: HungBand, b: HungBand) -> None:
    both = loads_kg((a,), (b,))
    assert both == pytest.approx(loads_kg((b,), (a,)), abs=1e-9)
    alone = [one + other - 60.0 for one, other in zip(loads_kg((a,), ()), loads_kg((b,), ()),
                                                       strict=True)]  # fmt: skip
    assert both == pytest.approx(alone, abs=1e-9)


@given(bands("a"))
@settings(max_examples=15, deadline=None)
def test_a_band_below_the_bar_pulls_down_and_the_more_the_higher(a: HungBand) -> None:
    loads = loads_kg((a,), ())
    assert loads[0] >= 60.0
    assert all(more >= less - 1e-9 for less, more in itertools.pairwise(loads))


@given(bands("a"))
@settings(max_examples=15, deadline=None)
def test_more_length_at_rest_never_pulls_more(a: HungBand) -> None:
    (one,) = read_bands([a], [], TRAVEL).each
    assert one.bottom.longer_rest_kg <= 1e-9
    assert one.top.longer_rest_kg <= 1e-9


@pytest.mark.parametrize("seed", range(2000, 2012))
def test_more_bands_allowed_never_make_the_best_rig_worse(seed: int) -> None:
    setup, target, limits = random_bands_problem(seed)
    before_kg = float("inf")
    for most_bands in range(MOST_BANDS + 1):
        allowed = replace(limits, most_pieces=4, most_bands=most_bands, least_bands=0)
        try:
            best = find(pose(setup, target, allowed)).best
        except NotInStockError:
            continue
        cost_kg = best.cost_kg if best else float("inf")
        assert cost_kg <= before_kg + 1e-9
        before_kg = cost_kg
