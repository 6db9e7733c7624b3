"""Labels side by side."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, minimize

from topheavy.present.curves.spread import spread

if TYPE_CHECKING:
    from numpy.typing import NDArray

PLACES = st.lists(st.floats(-20, 120), min_size=1, max_size=6)


@given(PLACES, st.floats(5, 15))
def test_no_two_overlap_none_leaves_the_room_and_the_order_stays(
    wanted: list[float], size: float
) -> None:
    placed = spread(wanted, [size] * len(wanted), (0.0, 100.0), 1.0)
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    middles = [placed[i] for i in order]
    assert all(b - a >= size + 1.0 - 1e-9 for a, b in itertools.pairwise(middles))
    assert middles[0] - size / 2 >= -1e-9
    assert middles[-1] + size / 2 <= 100 + 1e-9


@pytest.mark.parametrize(
    "wanted", [[10.0, 12.0, 15.0], [2.0, 50.0, 51.0, 97.0], [90.0, 95.0, 20.0], [40.0] * 5]
)
def test_as_near_as_a_general_purpose_optimiser_gets(wanted: list[float]) -> None:
    """Least squares under the same limits by scipy's SLSQP (Kraft 1988, as scipy says)."""
    size, gap, ranked = 12.0, 2.0, sorted(wanted)
    count = len(wanted)
    steps = np.eye(count, k=1)[: count - 1] - np.eye(count)[: count - 1]

    def off(middles: NDArray[np.float64]) -> float:
        return float(np.sum((middles - ranked) ** 2))

    found = minimize(
        off,
        np.linspace(size / 2, 100 - size / 2, count),
        bounds=[(size / 2, 100 - size / 2)] * count,
        constraints=LinearConstraint(steps, lb=size + gap),
        method="SLSQP",
        tol=1e-10,
    )
    placed = spread(wanted, [size] * len(wanted), (0.0, 100.0), gap)
    assert sorted(placed) == pytest.approx(found.x, abs=1e-3)


def test_too_much_for_the_room_is_shared_evenly() -> None:
    placed = spread([50.0, 50.0, 50.0], [40.0] * 3, (0.0, 100.0), 5.0)
    assert placed == pytest.approx([20.0, 50.0, 80.0])


def test_nothing_stays_nothing() -> None:
    assert spread([], [], (0.0, 1.0), 1.0) == []
