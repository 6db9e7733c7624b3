"""Work of a day: load times height, over finished repetitions."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.training.review.samples import CHAIN, TRAVEL, seen
from topheavy.training.review.seen import LiftLog
from topheavy.training.review.work import days_work, rep_work_j

G = 9.80665


def test_straight_weight_is_weight_times_travel() -> None:
    (one,) = days_work(LiftLog.of([seen(straight_kg=100.0, reps=5)], TRAVEL))
    assert one.raising_j == pytest.approx(5 * 100.0 * G * 0.4)
    assert one.lowering_j == one.raising_j
    assert (one.sets, one.reps, one.bases, one.unknown) == (1, 5, ("straight",), 0)


def test_chain_adds_its_mean_load_times_travel() -> None:
    one = seen(straight_kg=80.0, reps=1, rig="chain")
    assert rep_work_j(one, TRAVEL) == pytest.approx((80.0 + 15.0) * G * 0.4)


def test_days_stand_apart_and_sets_of_a_day_add_up() -> None:
    sets = [seen(0, 100.0, 5), seen(0, 90.0, 3, rig="chain"), seen(7, 100.0, 5)]
    first, second = days_work(LiftLog.of(sets, TRAVEL))
    assert (first.sets, first.reps, second.sets) == (2, 8, 1)
    assert first.raising_j == pytest.approx((5 * 100.0 + 3 * 105.0) * G * 0.4)
    assert set(first.bases) == {"straight", "curve"}


def test_a_missed_repetition_is_no_work() -> None:
    missed = seen(0, 140.0, 0, missed=True, third="lower")
    assert days_work(LiftLog.of([missed], TRAVEL))[0].raising_j == 0.0


def test_three_loads_are_said_to_be_all_that_is_known() -> None:
    sets = [seen(0, 80.0, 1, rig="two a side", exact=False)]
    assert days_work(LiftLog.of(sets, TRAVEL))[0].bases == ("loads",)


def test_without_heights_no_work_is_claimed() -> None:
    assert days_work(LiftLog.of([seen(reps=5)]))[0].raising_j is None


def test_a_rig_that_cannot_be_placed_is_counted_as_unknown() -> None:
    sets = [seen(0, 100.0, 5), seen(0, 80.0, 5, rig="something", hung=None)]
    (one,) = days_work(LiftLog.of(sets, TRAVEL))
    assert one.unknown == 1
    assert one.raising_j == pytest.approx(5 * 100.0 * G * 0.4)


@settings(max_examples=30)
@given(shift_m=st.floats(-0.3, 0.3), straight_kg=st.floats(20.0, 300.0))
def test_another_bench_changes_no_work(shift_m: float, straight_kg: float) -> None:
    """Heights and what hangs move together."""
    one = seen(straight_kg=straight_kg, rig="chain")
    there = replace(TRAVEL, bottom_m=TRAVEL.bottom_m + shift_m, top_m=TRAVEL.top_m + shift_m)
    moved = seen(straight_kg=straight_kg, rig="chain", hung=CHAIN.raised(shift_m))
    assert rep_work_j(moved, there) == pytest.approx(rep_work_j(one, TRAVEL))
