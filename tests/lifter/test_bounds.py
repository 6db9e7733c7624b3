"""Boxes of allowed curves against curves drawn at random: the closed form, found by trying."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from topheavy.lifter.bounds import boxes_of, united
from topheavy.lifter.known import Bound, Least, LeastAt, MostAt, Under
from topheavy.lifter.typical import Span, TypicalShape

if TYPE_CHECKING:
    from numpy.typing import NDArray

SHARES = np.linspace(0.0, 1.0, 11)
LOOSE = TypicalShape(
    weakest=Span(0.0, 0.4, 1.0),
    bottom_surplus=Span(0.0, 0.5, 2.0),
    lockout_surplus=Span(0.0, 0.5, 2.0),
    rise=Span(0.001, 0.3, 2.0),
    basis="Nearly anything.",
)


def keeps(curve: NDArray[np.float64], bounds: list[Bound], weakest: int) -> bool:
    """Whether a curve keeps every bound, straight from what each bound says."""
    for bound in bounds:
        if isinstance(bound, Least):
            good = np.all(curve[bound.start - 1e-9 <= SHARES] >= bound.load_kg - 1e-9)
        elif isinstance(bound, Under):
            good = np.all(curve >= bound.least_kg - 1e-9)
            good &= not bound.maximal or bool(np.any(curve <= bound.most_kg + 1e-9))
        else:
            inside = (bound.start - 1e-9 <= SHARES) & (bound.end + 1e-9 >= SHARES)
            if isinstance(bound, LeastAt):
                good = np.any(curve[inside] >= bound.load_kg - 1e-9)
            else:
                good = np.any(curve[inside] <= bound.load_kg + 1e-9)
        if not good:
            return False
    return bool(np.argmin(curve) == weakest or curve[weakest] <= np.min(curve) + 1e-9)


def random_curve(random: np.random.Generator, weakest: int) -> NDArray[np.float64]:
    best = random.uniform(80, 120)
    left = best + np.sort(random.exponential(15, weakest))[::-1]
    right = best + np.sort(random.exponential(15, SHARES.size - weakest - 1))
    curve = np.concatenate([left, [best], right])
    b = LOOSE.greatest(SHARES, float(SHARES[weakest])) * best
    return np.asarray(np.minimum(curve, b), dtype=np.float64)


CASES: list[list[Bound]] = [
    [Least(-np.inf, 90.0), MostAt(-np.inf, np.inf, 100.0)],
    [Least(-np.inf, 90.0), MostAt(-np.inf, np.inf, 110.0), MostAt(0.6, np.inf, 115.0)],
    [MostAt(-np.inf, np.inf, 110.0), LeastAt(0.2, 0.2, 105.0), MostAt(0.7, 0.7, 112.0)],
    [
        MostAt(-np.inf, np.inf, 115.0),
        Under(60 + 50 * SHARES, 72 + 50 * SHARES, np.ones(11, dtype=bool), maximal=True),
    ],
    [
        MostAt(-np.inf, np.inf, 118.0),
        Under(50 + 60 * SHARES, 64 + 60 * SHARES, np.ones(11, dtype=bool), maximal=True),
        Under(70 + 20 * SHARES, 90 + 20 * SHARES, np.ones(11, dtype=bool), maximal=True),
        MostAt(0.8, np.inf, 140.0),
    ],
]


@pytest.mark.parametrize("bounds", CASES)
@pytest.mark.parametrize("weakest", [0, 2, 5, 10])
def test_every_curve_that_keeps_the_bounds_lies_in_its_box(
    bounds: list[Bound], weakest: int
) -> None:
    random = np.random.default_rng(7)
    curves = [random_curve(random, weakest) for _ in range(4000)]
    kept = [curve for curve in curves if keeps(curve, bounds, weakest)]
    boxes = boxes_of(bounds, SHARES, [weakest], LOOSE)
    if not boxes:
        assert not kept
        return
    for curve in kept:
        assert np.all(curve >= boxes[0].low_kg - 1e-6)
        assert np.all(curve <= boxes[0].high_kg + 1e-6)


@pytest.mark.parametrize("bounds", CASES)
@pytest.mark.parametrize("weakest", [0, 2, 5, 10])
def test_both_edges_of_a_box_fall_to_the_weakest_and_rise(
    bounds: list[Bound], weakest: int
) -> None:
    for box in boxes_of(bounds, SHARES, [weakest], LOOSE):
        for edge in (box.low_kg, box.high_kg):
            assert np.all(np.diff(edge[: weakest + 1]) <= 1e-9)
            assert np.all(np.diff(edge[weakest:]) >= -1e-9)


def test_least_edge_keeps_every_bound_itself() -> None:
    """The lowest curve of a box is allowed, so the low edge can't be raised."""
    for bounds in CASES:
        for box in boxes_of(bounds, SHARES, range(11), LOOSE):
            assert keeps(box.low_kg, bounds, box.weakest)


def test_bounds_no_curve_keeps_leave_no_box() -> None:
    bounds: list[Bound] = [Least(-np.inf, 110.0), MostAt(-np.inf, np.inf, 100.0)]
    assert boxes_of(bounds, SHARES, range(11), LOOSE) == []


def test_a_hung_best_that_can_be_met_nowhere_leaves_no_box() -> None:
    under = Under(50 + 10 * SHARES, 60 + 10 * SHARES, np.ones(11, dtype=bool), maximal=True)
    assert boxes_of([Least(-np.inf, 90.0), under], SHARES, range(11), LOOSE) == []


def test_union_takes_least_and_greatest_of_all_boxes() -> None:
    boxes = boxes_of(CASES[1], SHARES, [2, 5], LOOSE)
    low, high = united(boxes)
    assert np.array_equal(low, np.minimum(boxes[0].low_kg, boxes[1].low_kg))
    assert np.array_equal(high, np.maximum(boxes[0].high_kg, boxes[1].high_kg))
