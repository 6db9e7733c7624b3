"""Sway of hung chain."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Straight, Strand, Suspension
from topheavy.mechanics.sway import hung_length_m, strand_sway, sway_frequencies_hz

CHAIN = Chain(links=20, pitch_m=0.05, density_kg_per_m=5.0)


def test_four_times_the_length_swings_half_as_fast() -> None:
    assert sway_frequencies_hz(4.0)[0] == pytest.approx(sway_frequencies_hz(1.0)[0] / 2)


def test_modes_rise_and_their_count_is_as_asked() -> None:
    modes = sway_frequencies_hz(0.7, 6)
    assert len(modes) == 6
    assert list(modes) == sorted(modes)


@pytest.mark.parametrize(("length_m", "modes"), [(0.0, 3), (-1.0, 3), (1.0, 0)])
def test_no_length_and_no_mode_are_refused(length_m: float, modes: int) -> None:
    with pytest.raises(BadInputError):
        sway_frequencies_hz(length_m, modes)


@pytest.mark.parametrize(
    ("height_m", "hung_m"), [(0.1, 0.0), (0.2, 0.0), (0.7, 0.5), (1.2, 1.0), (5.0, 1.0)]
)
def test_hung_length_is_what_is_off_the_floor(height_m: float, hung_m: float) -> None:
    assert hung_length_m(Strand(5.0, 1.0, 0.2), height_m) == pytest.approx(hung_m, abs=1e-12)


def test_a_mat_raises_the_floor() -> None:
    assert hung_length_m(Strand(5.0, 1.0, 0.0), 0.5, Ground(surface_m=0.02)) == pytest.approx(0.48)


def test_links_on_the_floor_calm_and_clear_chain_swings() -> None:
    (strand,) = Straight(chain=CHAIN).strands()
    clear, touching, calm = (strand_sway(strand, height) for height in (1.2, 0.98, 0.95))
    assert clear.frequencies_hz == sway_frequencies_hz(1.0)
    assert not clear.calmed
    assert "swings freely" in clear.words
    assert not touching.calmed
    assert touching.frequencies_hz == ()
    assert "in part" in touching.words
    assert calm.calmed
    assert calm.words == "links on the floor calm the swing"


def test_chain_that_lies_can_not_swing() -> None:
    tail = Doubled(chains=(CHAIN,), suspension=Suspension(feeder_m=0.4)).strands()[-1]
    down = strand_sway(tail, 0.4)
    assert down.hung_m == 0.0
    assert not down.calmed
    assert "can't swing" in down.words
