"""Kinds of chain and their splits, against every way to deal the pieces."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rigging.builders import batch, piece
from topheavy.rigging.kinds import Kind, kinds_of

if TYPE_CHECKING:
    from topheavy.gym.stock import ChainPiece


def every_deal(pieces: list[ChainPiece], most: int) -> set[tuple[int, float, float]]:
    """(Pieces an end, density left, density right) of every deal of one kind."""
    deals = set()
    density = [p.chain.density_kg_per_m for p in pieces]
    for places in itertools.product("-LR", repeat=len(pieces)):
        left = [d for d, place in zip(density, places, strict=True) if place == "L"]
        right = [d for d, place in zip(density, places, strict=True) if place == "R"]
        if len(left) == len(right) <= most:
            deals.add((len(left), round(sum(left), 9), round(sum(right), 9)))
    return deals


def listed(kind: Kind) -> list[tuple[int, float, float]]:
    """The same as the kind lists them."""
    left = 0.5 * (kind.sum_kg_per_m + kind.difference_kg_per_m)
    right = 0.5 * (kind.sum_kg_per_m - kind.difference_kg_per_m)
    rows = zip(kind.each_end.tolist(), left.tolist(), right.tolist(), strict=True)
    return [(n, round(a, 9), round(b, 9)) for n, a, b in rows]


@settings(max_examples=60, deadline=None)
@given(
    density=st.lists(st.sampled_from([5.0, 5.1, 5.13, 5.2, 5.41]), min_size=2, max_size=7),
    most=st.integers(0, 4),
)
def test_splits_match_every_deal(density: list[float], most: int) -> None:
    pieces = [piece(str(i), density=d) for i, d in enumerate(density)]
    (kind,) = kinds_of(pieces, most)
    assert kind.exact
    assert set(listed(kind)) == every_deal(pieces, most)


@given(density=st.lists(st.floats(4.9, 5.5), min_size=2, max_size=9))
@settings(max_examples=40, deadline=None)
def test_a_split_hangs_the_pieces_it_counts(density: list[float]) -> None:
    pieces = [piece(str(i), density=d) for i, d in enumerate(density)]
    (kind,) = kinds_of(pieces, 3)
    for way in range(0, kind.each_end.size, 7):
        left, right = kind.split(way)
        assert len({p.tag for p in (*left, *right)}) == 2 * int(kind.each_end[way])
        sums = [sum(p.chain.density_kg_per_m for p in side) for side in (left, right)]
        assert sum(sums) == pytest.approx(kind.sum_kg_per_m[way])
        assert sums[0] - sums[1] == pytest.approx(kind.difference_kg_per_m[way], abs=1e-9)


def test_the_first_split_hangs_none() -> None:
    (kind,) = kinds_of(batch(4), 2)
    assert kind.split(0) == ((), ())
    assert kind.sum_kg_per_m[0] == kind.difference_kg_per_m[0] == 0.0


def test_a_batch_has_one_split_for_each_number() -> None:
    (kind,) = kinds_of(batch(9), 10)
    assert kind.each_end.tolist() == [0, 1, 2, 3, 4]
    assert kind.difference_kg_per_m.tolist() == [0.0] * 5


def test_kinds_differ_by_size_links_and_pitch_and_need_a_twin() -> None:
    pieces = [
        *batch(2, "5/8 in", 40),
        *batch(3, "5/8 in", 30),
        *batch(2, "1/2 in", 40),
        piece("alone", "3/4 in"),
    ]
    kinds = kinds_of(pieces, 4)
    assert sorted((k.size, k.pieces[0].chain.links, len(k.pieces)) for k in kinds) == [
        ("1/2 in", 40, 2),
        ("5/8 in", 30, 3),
        ("5/8 in", 40, 2),
    ]


def test_heaviest_pieces_first() -> None:
    kinds = kinds_of([*batch(2, "a", density=3), *batch(2, "b", density=6), *batch(2, "c")], 4)
    assert [kind.size for kind in kinds] == ["b", "c", "a"]


def test_two_batches_of_one_size_but_unlike_weight_stay_one_kind() -> None:
    """Two makes: both of one make, or one of each on either end, or crossed."""
    pieces = [*batch(2, density=5.0), piece("x", density=5.4), piece("y", density=5.4)]
    (kind,) = kinds_of(pieces, 2)
    assert set(listed(kind)) == every_deal(pieces, 2)


def weighed(count: int) -> list[ChainPiece]:
    """Pieces that scatter by 1 %."""
    off = np.random.default_rng(count).normal(size=count)
    return [piece(f"{i:03}", density=5.3 * (1 + 0.01 * x)) for i, x in enumerate(off.tolist())]


@pytest.mark.parametrize("count", [16, 24, 60])
def test_many_weighed_pieces_are_classed_until_the_splits_are_few(count: int) -> None:
    (kind,) = kinds_of(weighed(count), 4)
    assert not kind.exact
    assert kind.each_end.size <= 32_768
    assert set(kind.each_end.tolist()) == {0, 1, 2, 3, 4}


def test_classing_loses_grams(monkeypatch: pytest.MonkeyPatch) -> None:
    """For any weight of four a side, the classed splits are within 15 g/m of all 56 000."""
    (classed,) = kinds_of(weighed(12), 4)
    monkeypatch.setattr("topheavy.rigging.kinds._MOST_SPLITS", 1_000_000)
    (whole,) = kinds_of(weighed(12), 4)
    assert (classed.exact, whole.exact) == (False, True)

    def nearest(kind: Kind, wanted: float) -> float:
        off = np.abs(kind.sum_kg_per_m - wanted) + np.abs(kind.difference_kg_per_m)
        return float(off[kind.each_end == 4].min())

    four = whole.sum_kg_per_m[whole.each_end == 4]
    losses = [
        nearest(classed, wanted) - nearest(whole, wanted)
        for wanted in np.linspace(four.min(), four.max(), 60).tolist()
    ]
    assert min(losses) > -1e-9
    assert max(losses) < 0.015


def test_pieces_that_count_as_alike_are_dealt_to_opposite_ends() -> None:
    """As many left as right of a class of neighbours: the ends differ by little."""
    (kind,) = kinds_of(weighed(60), 4)
    level = np.all(kind.left == kind.right, axis=1) & (kind.each_end == 4)
    assert np.count_nonzero(level) > 20
    assert float(np.median(np.abs(kind.difference_kg_per_m[level]))) < 0.02


def test_fewer_splits_for_each_kind_when_there_are_many_kinds() -> None:
    """All kinds together stay within what one may have."""
    pieces = [replace(p, tag=size + p.tag, size=size) for size in "abcd" for p in weighed(12)]
    kinds = kinds_of(pieces, 4)
    assert sum(kind.each_end.size for kind in kinds) <= 32_768
