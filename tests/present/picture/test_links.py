"""Where links of a hanging strand are drawn."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.present.picture.scenes import chain, held
from topheavy.mechanics.hang import Doubled, Straight
from topheavy.mechanics.links import count_doubled, count_straight
from topheavy.present.picture.links import (
    Link,
    Piece,
    fold_offset_m,
    hanging_links,
)

PITCH_M = 0.056
WIRE_M = 0.016


def piece(links: int, *strand_x_m: float) -> Piece:
    return Piece(
        hang=0,
        index=0,
        chain=chain(links, PITCH_M),
        wire_m=WIRE_M,
        head_x_m=sum(strand_x_m) / len(strand_x_m),
        strand_x_m=strand_x_m,
        near_m=0.012,
    )


def drawn(
    start: tuple[float, float], end: tuple[float, float], wire_m: float, width_m: float
) -> Link:
    return Link(start=start, end=end, wire_m=wire_m, width_m=width_m, hang=0, piece=0, off=True)


def test_each_link_hangs_one_pitch_below_the_one_before() -> None:
    hung = piece(20, 0.3)
    links = hanging_links(hung, 0.7, count_straight(hung.chain, 0.7), 0.0)
    tops = [link.start[1] for link in links[:-1]]
    assert tops == pytest.approx([0.7 - PITCH_M * place for place in range(len(tops))])
    for above, below in pairwise(links):
        assert above.end == pytest.approx(below.start)


def test_neighbours_in_a_strand_turn_by_a_quarter() -> None:
    hung = piece(20, 0.3)
    links = hanging_links(hung, 0.7, count_straight(hung.chain, 0.7), 0.0)
    assert all(a.edge_on != b.edge_on for a, b in pairwise(links))


def test_neighbouring_strands_nest() -> None:
    hung = piece(20, 0.28, 0.32)
    links = hanging_links(hung, 0.5, count_doubled(hung.chain, 0.5), 0.0)
    left, right = links[: len(links) // 2], links[len(links) // 2 :]
    assert all(a.edge_on != b.edge_on for a, b in zip(left, right, strict=True))


def test_an_odd_piece_hangs_by_its_middle_link() -> None:
    hung = piece(21, 0.28, 0.32)
    links = hanging_links(hung, 0.5, count_doubled(hung.chain, 0.5), 0.0)
    middle, heads = links[0], [link for link in links[1:] if link.start[1] > 0.44]
    assert middle.start == pytest.approx((0.3, 0.5))
    assert len(heads) == 2
    assert {round(head.start[1], 9) for head in heads} == {round(0.5 - PITCH_M, 9)}
    assert all(head.edge_on != middle.edge_on for head in heads)


@pytest.mark.parametrize("above_m", [0.001, 0.01, 0.03, 0.0559, 0.056, 0.057, 0.1, 0.112, 0.113])
@pytest.mark.parametrize("links", [1, 2, 8, 9])
def test_the_last_link_leans_rather_than_cutting_into_the_floor(above_m: float, links: int) -> None:
    hung = piece(links, 0.28, 0.32)
    drawn = hanging_links(hung, above_m, count_doubled(hung.chain, above_m), 0.2)
    assert len(drawn) == count_doubled(hung.chain, above_m).off
    assert all(link.low_m >= 0.2 - 1e-9 for link in drawn)


def test_outline_of_a_link_is_its_pitch_and_two_wires() -> None:
    link = drawn((0, 1), (0, 0.944), 0.016, 0.0536)
    (_, high), (_, low) = link.caps()
    outside_m = high - low + link.width_m
    assert outside_m == pytest.approx(0.056 + 2 * 0.016)
    assert link.low_m == pytest.approx(0.944 - 0.016)


def test_raising_a_link_clear_of_the_floor_keeps_its_shape() -> None:
    link = drawn((0, 0.05), (0.02, 0.0), 0.01, 0.01)
    clear = link.above(0.0)
    assert clear.low_m == pytest.approx(0.0)
    assert clear.start[1] - clear.end[1] == pytest.approx(0.05)
    assert clear.above(-0.1) is clear


def test_chain_begins_at_the_fold_or_the_drop() -> None:
    assert fold_offset_m(Doubled(chains=(chain(8),), suspension=held(0.5))) == pytest.approx(0.585)
    assert fold_offset_m(Straight(chain=chain(8), drop_m=0.04)) == 0.04
