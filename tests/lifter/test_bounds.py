"""Boxes of allowed curves against curves drawn at random: the closed form, found by trying."""

from __future__ import annotations

from dataclasses import replace
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
    curves = [random_curve(random, weakest) for _ in range(800)]
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


@pytest.mark.parametrize("weakest", [0, 3, 7])
def test_a_hung_best_alone_bounds_the_full_best_by_where_it_can_be_met(weakest: int) -> None:
    """Met at t, strength there is at most the load, so the least is at most load / least shape."""
    tight = replace(LOOSE, lockout_surplus=Span(0.5, 0.6, 2.0), rise=Span(0.1, 0.2, 0.3))
    most = 60 + 50 * SHARES
    under = Under(most - 5, most, np.ones(11, dtype=bool), maximal=True)
    (box,) = boxes_of([under], SHARES, [weakest], tight)
    shape = tight.least(SHARES, float(SHARES[weakest]))
    met = [t for t in range(weakest, 11) if box.low_kg[t] <= most[t]]
    wanted = max(min(most[t], most[t] / shape[t]) for t in met)
    assert box.high_kg[weakest] == pytest.approx(wanted)


def test_only_heights_that_may_touch_are_taken_for_the_meeting() -> None:
    most = 60 + 50 * SHARES
    touch = np.zeros(11, dtype=bool)
    touch[[4, 6]] = True
    bounds: list[Bound] = [Least(-np.inf, 50.0), Under(most - 30, most, touch, maximal=True)]
    (box,) = boxes_of(bounds, SHARES, [2], LOOSE)
    assert box.high_kg[2] == pytest.approx(most[6])
    assert box.high_kg[4] == pytest.approx(most[6])
    assert box.high_kg[5] > most[6]


def test_a_least_strength_high_up_lifts_the_least_below_by_the_steepest_shape() -> None:
    bounds: list[Bound] = [Least(0.8, 120.0), MostAt(0.8, np.inf, 130.0)]
    (box,) = boxes_of(bounds, SHARES, [3], LOOSE)
    assert box.low_kg[3] == pytest.approx(120.0 / float(LOOSE.greatest(SHARES, 0.3)[8]))
    assert box.low_kg[3] == pytest.approx(40.0, rel=1e-3)


def test_a_greatest_strength_high_up_lowers_the_greatest_below_by_the_flattest_shape() -> None:
    steep = replace(LOOSE, lockout_surplus=Span(0.5, 0.6, 2.0), rise=Span(0.1, 0.2, 0.3))
    bounds: list[Bound] = [Least(-np.inf, 50.0), MostAt(0.8, np.inf, 130.0)]
    (box,) = boxes_of(bounds, SHARES, [3], steep)
    assert box.high_kg[3] == pytest.approx(130.0 / float(steep.least(SHARES, 0.3)[8]))


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
