"""Counting links: off, clear and down, odd and even, and the load in steps."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.links import LinkCount, count_doubled, count_straight
from topheavy.mechanics.rig import End

P = 0.05


def chain(links: int) -> Chain:
    return Chain(links=links, pitch_m=P, density_kg_per_m=5.0)


def by_hand(tops_m: list[float], above_m: float) -> tuple[int, int]:
    """Count links link by link from the depth of each one's top below the upper end."""
    off = sum(above_m > top + 1e-12 for top in tops_m)
    clear = sum(above_m >= top + P - 1e-12 for top in tops_m)
    return off, clear


ABOVE_M = [-0.2, 0.0, 0.01, 0.05, 0.051, 0.074, 0.1, 0.149, 0.15, 0.26, 0.5, 3.0]


@pytest.mark.parametrize("above_m", ABOVE_M)
@pytest.mark.parametrize("links", [1, 2, 5, 6])
def test_straight_against_a_count_link_by_link(links: int, above_m: float) -> None:
    off, clear = by_hand([i * P for i in range(links)], above_m)
    assert count_straight(chain(links), above_m) == LinkCount(off, clear, links - off, 1)


@pytest.mark.parametrize("above_m", ABOVE_M)
def test_doubled_even_puts_two_links_on_the_connector(above_m: float) -> None:
    off, clear = by_hand([0, 0, P, P, 2 * P, 2 * P], above_m)
    assert count_doubled(chain(6), above_m) == LinkCount(off, clear, 6 - off, 2)


@pytest.mark.parametrize("above_m", ABOVE_M)
def test_doubled_odd_puts_the_middle_link_on_the_connector(above_m: float) -> None:
    off, clear = by_hand([0, P, P, 2 * P, 2 * P], above_m)
    assert count_doubled(chain(5), above_m) == LinkCount(off, clear, 5 - off, 2)


def test_a_single_link_doubled_is_the_middle_link() -> None:
    assert count_doubled(chain(1), 0.02) == LinkCount(1, 0, 0, 2)


def test_rounding_does_not_add_a_link() -> None:
    """Three pitches of 0.1 are 0.30000000000000004 m: still three links."""
    tenth = Chain(links=9, pitch_m=0.1, density_kg_per_m=5.0)
    assert count_straight(tenth, 0.1 + 0.2) == LinkCount(3, 3, 6, 1)
    assert count_straight(tenth, 0.3) == LinkCount(3, 3, 6, 1)


def test_mass_counts_a_standing_link_half() -> None:
    assert LinkCount(3, 2, 4, 1).mass_kg(chain(7)) == pytest.approx(2.5 * 0.25)


def test_all_links_clear_weigh_the_whole_piece() -> None:
    for links in (5, 6):
        assert count_doubled(chain(links), 1.0).mass_kg(chain(links)) == pytest.approx(links * 0.25)


@pytest.mark.parametrize("links", [6, 7])
def test_steps_of_a_straight_strand_average_to_the_curve(links: int) -> None:
    piece = chain(links)
    above_m = (np.arange(5000) + 0.5) / 5000 * P + 2 * P
    steps = [count_straight(piece, float(z)).mass_kg(piece) for z in above_m]
    curve = End((Straight(chain=piece),)).curve(way="still")
    assert np.mean(steps) == pytest.approx(curve.mean(2 * P, 3 * P), rel=1e-6)
    assert np.max(np.abs(steps - curve.at(above_m))) <= 0.5 * piece.link_mass_kg + 1e-9


@pytest.mark.parametrize("links", [12, 13])
@pytest.mark.parametrize("pitches", [0, 1, 2, 5, 6])
def test_steps_of_a_doubled_piece_average_to_the_curve(links: int, pitches: int) -> None:
    """Over every pitch, also the first of an odd piece, where its middle link hangs alone."""
    piece, feeder_m = chain(links), 0.4
    end = End((Doubled(chains=(piece,), suspension=Suspension(feeder_m=feeder_m)),))
    curve = end.curve(way="still")
    above_m = (np.arange(5000) + 0.5) / 5000 * P + pitches * P
    steps = [count_doubled(piece, float(z)).mass_kg(piece) for z in above_m]
    mean_kg = curve.mean(feeder_m + pitches * P, feeder_m + (pitches + 1) * P)
    assert np.mean(steps) == pytest.approx(mean_kg, rel=1e-6)
    strands = 1 if links % 2 and pitches == 0 else 2
    gap_kg = np.max(np.abs(steps - curve.at(feeder_m + above_m)))
    assert gap_kg <= strands * 0.5 * piece.link_mass_kg + 1e-9
