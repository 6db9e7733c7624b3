"""Matched pairs: neighbours by weight, and they stay together when another piece breaks."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tests.rigging.builders import piece
from topheavy.gym.care import Inspection, retired_by
from topheavy.room.hung import pair_kinds

TAGS = [f"P{n}" for n in range(9)]
PIECES = [piece(tag, density=5.0 + 0.01 * n) for n, tag in enumerate(TAGS)]


def pairs(broken: set[str]) -> set[frozenset[str]]:
    return {frozenset(pair.tags) for kind in pair_kinds(PIECES, broken) for pair in kind.pairs}


@given(st.sets(st.sampled_from(TAGS)))
def test_whole_pairs_stay_and_as_many_hang_as_can(broken: set[str]) -> None:
    usual, today = pairs(set()), pairs(broken)
    assert {pair for pair in usual if not pair & broken} <= today
    assert all(not pair & broken for pair in today)
    tags = [tag for pair in today for tag in pair]
    assert len(tags) == len(set(tags))
    assert len(today) == (len(TAGS) - len(broken)) // 2


def test_a_piece_that_an_inspection_retires_is_in_no_pair() -> None:
    crack = Inspection(day="2026-09-01", found=("crack",))
    stock = [replace(one, retired=retired_by([crack] if one.tag == "P3" else [])) for one in PIECES]
    fit = [one for one in stock if not one.retired]
    assert all("P3" not in pair.tags for kind in pair_kinds(fit) for pair in kind.pairs)
