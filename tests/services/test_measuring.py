"""Heights out of readings: mean, how sure, and what is odd; held against the standard library."""

from __future__ import annotations

import math
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.errors import BadInputError
from topheavy.gym.lifts import LIFTS
from topheavy.services.measuring import ONE_READING_U_M, TAPE_U_M, measure

BENCH = LIFTS["bench press"]
BOTTOMS = st.lists(st.floats(0.60, 0.70), min_size=1, max_size=5)
TOPS = st.lists(st.floats(1.00, 1.10), min_size=1, max_size=5)


@given(BOTTOMS, TOPS)
def test_the_mean_is_the_mean_and_lies_among_the_readings(
    bottom: list[float], top: list[float]
) -> None:
    found = measure(BENCH, bottom, top)
    assert found.bottom.mean_m == pytest.approx(statistics.fmean(bottom))
    assert min(top) - 1e-12 <= found.top.mean_m <= max(top) + 1e-12
    assert found.travel.height_u_m >= max(found.bottom.u_m, found.top.u_m) - 1e-9
    assert found.travel.height_u_m == pytest.approx(
        max(found.bottom.u_m, found.top.u_m), abs=0.001 + 1e-9
    )


@given(BOTTOMS.filter(lambda some: len(some) > 1))
def test_readings_of_one_height_scatter_as_their_standard_deviation_says(
    bottom: list[float],
) -> None:
    """One repeated height: s / sqrt(n) with s by `statistics.stdev`, tape put in by squares."""
    found = measure(BENCH, bottom, [1.05])
    expected = math.hypot(statistics.stdev(bottom) / math.sqrt(len(bottom)), TAPE_U_M)
    assert found.bottom.u_m == pytest.approx(expected, rel=1e-9)


def test_scatter_of_both_heights_is_pooled() -> None:
    """Variances weighted by degrees of freedom: two and three readings."""
    bottom, top = [0.650, 0.656], [1.050, 1.053, 1.054]
    found = measure(BENCH, bottom, top)
    pooled = (statistics.variance(bottom) + 2 * statistics.variance(top)) / 3
    assert found.top.u_m == pytest.approx(math.hypot(math.sqrt(pooled / 3), TAPE_U_M))
    assert found.bottom.u_m > found.top.u_m


def test_one_reading_is_no_better_than_a_guess_and_that_is_said() -> None:
    found = measure(BENCH, [0.66], [1.07])
    assert found.travel.height_u_m == ONE_READING_U_M
    assert [remark.say() for remark in found.remarks] == [
        "The bottom was read once: twice is better, nothing matters more.",
        "The top was read once: twice is better, nothing matters more.",
    ]


def test_readings_apart_ask_for_another() -> None:
    found = measure(BENCH, [0.65, 0.665], [1.07, 1.08])
    assert [remark.say()[:38] for remark in found.remarks] == [
        "Readings of the bottom lie 1.5 cm apar"
    ]


def test_a_travel_nobody_has_is_asked_for_again() -> None:
    found = measure(BENCH, [0.66, 0.66], [0.75, 0.75])
    assert "usually moves the bar by 20.0 cm to 65.0 cm" in found.remarks[0].say()
    assert measure(LIFTS["pin press"], [0.9, 0.9], [0.95, 0.95]).remarks == ()


@pytest.mark.parametrize(
    ("bottom", "top", "message", "field"),
    [
        ([], [1.0], "No reading", "bottom"),
        ([0.66] * 10, [1.0], "So many readings", "bottom"),
        ([0.66], [0.6], "below", "heights"),
        ([0.66], [1.6], "No human bench press has its top there", "heights.top"),
        ([-0.1], [1.0], "must be", "bottom"),
    ],
)
def test_what_can_not_be_is_refused(
    bottom: list[float], top: list[float], message: str, field: str
) -> None:
    with pytest.raises(BadInputError, match=message) as told:
        measure(BENCH, bottom, top)
    assert str(told.value.field).startswith(field)


def test_a_travel_that_is_usual_lies_within_what_the_lift_allows() -> None:
    for lift in LIFTS.values():
        middle = [sum(ends) / 2 for ends in (lift.bottom_m, lift.top_m)]
        found = measure(lift, [middle[0]] * 2, [max(middle[1], middle[0] + 0.05)] * 2)
        assert found.travel.bottom_m == pytest.approx(middle[0])
