"""Pairs of bands that pull alike."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from tests.mechanics.bands import read
from topheavy.errors import BadInputError
from topheavy.mechanics.band import fit_band
from topheavy.mechanics.band_pairs import MOST_BANDS, match_pairs
from topheavy.mechanics.banded import Banded, Peg

if TYPE_CHECKING:
    from collections.abc import Sequence

TRAVEL = (0.5, 1.1)
PEG = Peg(height_m=0.1, offset_m=0.05)


def hung(stiffs: Sequence[float], rests: Sequence[float] | None = None) -> list[Banded]:
    rests = rests or [0.45] * len(stiffs)
    return [
        Banded(
            band=fit_band(read(f"red-{number}", stiff=stiff, rest_m=rest)),
            peg=PEG,
            travel_m=TRAVEL,
        )
        for number, (stiff, rest) in enumerate(zip(stiffs, rests, strict=True), 1)
    ]


def tags(hangs: Sequence[Banded], pairs: int | None = None) -> set[tuple[str, str]]:
    return {(p.left.band.tag, p.right.band.tag) for p in match_pairs(hangs, pairs)}


def test_nearest_in_stiffness_go_together() -> None:
    assert tags(hung([1.0, 1.2, 1.01, 1.21])) == {("red-1", "red-3"), ("red-2", "red-4")}


def test_an_odd_one_stays_out() -> None:
    assert tags(hung([1.0, 1.5, 1.02])) == {("red-1", "red-3")}
    assert tags(hung([1.0, 1.3, 1.02, 1.31, 1.6, 1.301]), 2) == {
        ("red-1", "red-3"),
        ("red-2", "red-6"),
    }


def test_the_worst_pair_counts_before_the_sum() -> None:
    """The nearest two, 1.00 and 1.01, are parted so that nobody is left with 1.00 to 1.09."""
    assert tags(hung([0.96, 1.0, 1.01, 1.05])) == {("red-1", "red-2"), ("red-3", "red-4")}


def test_best_pair_first_and_the_difference_is_the_largest_over_the_travel() -> None:
    pairs = match_pairs(hung([1.0, 1.05, 1.2, 1.21], [0.45, 0.46, 0.45, 0.45]))
    assert [pair.worst_kg for pair in pairs] == sorted(pair.worst_kg for pair in pairs)
    heights = np.linspace(*TRAVEL, 2001)
    for pair in pairs:
        found = np.abs(pair.imbalance_kg(heights)).max()
        assert pair.worst_kg == pytest.approx(found, abs=0.01)
        assert np.all(pair.imbalance_u_kg(heights[-5:]) > 0)


def test_imbalance_has_the_sign_of_the_left() -> None:
    (pair,) = match_pairs(hung([1.1, 1.0]))
    heights = np.array([0.8, 1.1])
    assert pair.imbalance_kg(heights) == pytest.approx(0.1 * pair.right.load_kg(heights))


def cheapest(gaps: dict[tuple[int, int], float], count: int, pairs: int) -> float:
    """Smallest sum of a matching of so many edges, by a general solver (HiGHS, in scipy)."""
    edges = list(gaps)
    touches = np.array([[band in edge for edge in edges] for band in range(count)], dtype=float)
    solved = milp(
        [gaps[edge] for edge in edges],
        integrality=np.ones(len(edges), dtype=np.int64),
        bounds=Bounds(0, 1),
        constraints=[
            LinearConstraint(touches, 0, 1),
            LinearConstraint(np.ones((1, len(edges))), pairs, pairs),
        ],
    )
    return float(solved.fun) if solved.success else np.inf


@pytest.mark.parametrize(("count", "pairs"), [(4, 2), (7, 3), (9, 2), (12, 6)])
def test_exact_against_a_general_solver(count: int, pairs: int) -> None:
    dice = np.random.default_rng(count)
    hangs = hung(
        list(1 + 0.05 * dice.standard_normal(count)), list(0.45 + 0.01 * dice.random(count))
    )
    curves = [hang.curve() for hang in hangs]
    gaps = {
        (i, j): curves[i].worst_gap(curves[j], *TRAVEL) for i, j in combinations(range(count), 2)
    }
    found = [pair.worst_kg for pair in match_pairs(hangs, pairs)]
    worst = max(found)
    smaller = {edge: gap for edge, gap in gaps.items() if gap < worst - 1e-9}
    assert not smaller or cheapest(smaller, count, pairs) == np.inf
    near = {edge: gap for edge, gap in gaps.items() if gap <= worst + 1e-9}
    assert sum(found) == pytest.approx(cheapest(near, count, pairs), abs=1e-9)


def test_refusals() -> None:
    two = hung([1.0, 1.1])
    for hangs, pairs, message in (
        (two[:1], None, "takes two bands"),
        (two, 2, "takes two bands"),
        (two, 0, "takes two bands"),
        ([two[0], two[0]], None, "stands twice"),
        ([two[0], replace(two[1], travel_m=(0.6, 1.1))], None, "hang alike"),
        ([two[0]] * (MOST_BANDS + 1), None, "Too many bands"),
    ):
        with pytest.raises(BadInputError, match=message):
            match_pairs(hangs, pairs)
