"""The heap: as many links as lie, on the floor, growing with their number; and dragged slack."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.present.picture.scenes import chain
from topheavy.mechanics.links import count_doubled, count_straight
from topheavy.mechanics.slack import dragged_length_m
from topheavy.present.picture.drag import Sag, dragged_links
from topheavy.present.picture.links import Link, Piece
from topheavy.present.picture.pile import Fallen, heap, heap_half_m, heap_width_m


def piece(links: int, pitch_m: float = 0.056, *strand_x_m: float) -> Piece:
    return Piece(
        hang=0,
        index=0,
        chain=chain(links, pitch_m),
        wire_m=0.28 * pitch_m,
        head_x_m=0.5,
        strand_x_m=strand_x_m or (0.5,),
        near_m=0.01,
    )


def heaped(*counts: int, pitch_m: float = 0.056) -> list[Link]:
    fallen = [Fallen(piece(90, pitch_m), count) for count in counts]
    return heap(fallen, 0.5, heap_width_m(fallen), 0.1)


@pytest.mark.parametrize("count", [0, 1, 2, 3, 7, 16, 31, 64, 90])
@pytest.mark.parametrize("pitch_m", [0.02, 0.056, 0.12])
def test_every_lying_link_is_there_on_the_floor_and_within_the_heap(
    count: int, pitch_m: float
) -> None:
    links = heaped(count, pitch_m=pitch_m)
    half_m = heap_half_m([Fallen(piece(90, pitch_m), count)])
    assert len(links) == count
    assert all(not link.off for link in links)
    for link in links:
        assert link.low_m >= 0.1 - 1e-9
        for cap in link.caps():
            assert abs(cap[0] - 0.5) + 0.5 * link.width_m <= half_m + 0.5 * link.wire_m + 1e-9


def test_several_pieces_share_one_heap() -> None:
    assert len(heaped(12, 0, 5)) == 17


def test_no_link_floats() -> None:
    """Each link lies on the floor or overlaps in height with one in the row below it."""
    links = heaped(64)
    lows = sorted({round(link.low_m, 6) for link in links})
    assert lows[0] == pytest.approx(0.1, abs=0.005)
    assert max(b - a for a, b in pairwise(lows)) < 0.02


def test_the_heap_grows_with_the_links_in_it() -> None:
    def high_m(links: list[Link]) -> float:
        return max(max(cap[1] for cap in link.caps()) for link in links)

    few, some, many = heaped(6), heaped(24), heaped(90)
    assert high_m(few) < high_m(some) < high_m(many)
    widths = [heap_width_m([Fallen(piece(90), count)]) for count in (6, 24, 90)]
    assert widths == sorted(widths)
    assert widths[0] < widths[-1]


def test_a_heap_is_the_same_every_time() -> None:
    assert heaped(33) == heaped(33)


def sag(above_m: float, free_m: float, reach_m: float = 2.0) -> Sag:
    return Sag(above_m=above_m, free_m=free_m, reach_m=reach_m, lie_m=0.0, row_m=0.02)


def test_a_sagging_strand_is_a_catenary() -> None:
    """Irvine, Cable Structures (1981), chapter 1 (from memory): s2 = y2 + 2 a y, from the floor."""
    free_m = float(dragged_length_m(0.6, 2.0, 0.7))
    course = sag(0.6, free_m)
    assert course.place(0.0) == pytest.approx((0.0, 0.6))
    pull_m = 0.7 * (2.0 - free_m)
    assert course.pull_m == pytest.approx(pull_m)
    for along_m in (0.1, 0.4, 0.8):
        rest_m, height_m = free_m - along_m, course.place(along_m)[1]
        assert rest_m**2 == pytest.approx(height_m**2 + 2 * pull_m * height_m)


def test_a_sagging_strand_is_as_long_as_it_is() -> None:
    course = sag(0.6, float(dragged_length_m(0.6, 2.0, 0.7)), reach_m=5.0)
    points = [course.place(0.002 * step) for step in range(1001)]
    length_m = sum(
        ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 for (ax, ay), (bx, by) in pairwise(points)
    )
    assert length_m == pytest.approx(2.0, rel=1e-3)


def test_long_slack_doubles_back_within_its_room() -> None:
    course = sag(0.3, float(dragged_length_m(0.3, 6.0, 0.7)), reach_m=0.8)
    across = [course.place(0.05 * step)[0] for step in range(121)]
    assert min(across) >= 0.0
    assert max(across) <= 0.8 + 1e-9


@pytest.mark.parametrize("links", [1, 20, 41])
@pytest.mark.parametrize("above_m", [-0.1, 0.0, 0.02, 0.3, 3.0])
def test_dragged_links_are_all_there(links: int, above_m: float) -> None:
    dragged = piece(links, 0.056, 0.48, 0.52)
    free_m = max(above_m, float(dragged_length_m(max(above_m, 0.0), links * 0.028, 0.7)))
    count = count_doubled(dragged.chain, free_m)
    drawn = dragged_links(dragged, (above_m, free_m, 0.6), count, 0.0)
    assert sum(link.off for link in drawn) == count.off
    assert sum(not link.off for link in drawn) == count.down
    assert all(link.low_m >= -1e-9 for link in drawn)


def test_a_straight_strand_dragged_is_one_run() -> None:
    dragged = piece(30)
    count = count_straight(dragged.chain, 0.9)
    drawn = dragged_links(dragged, (0.6, 0.9, 3.0), count, 0.0)
    assert len(drawn) == 30
    assert [link.off for link in drawn] == sorted((link.off for link in drawn), reverse=True)
