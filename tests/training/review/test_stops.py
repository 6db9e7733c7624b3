"""Where lifts fail: misses by thirds, with what was on the bar there."""

from __future__ import annotations

import pytest

from tests.training.review.samples import TRAVEL, seen
from topheavy.training.review.seen import LiftLog
from topheavy.training.review.stops import stops_of, unplaced_misses


def test_first_repetitions_stand_apart_from_tired_ones_and_plates_from_chain() -> None:
    sets = [
        seen(0, 110.0, 0, missed=True, third="lower"),
        seen(1, 100.0, 0, missed=True, third="lower", rig="chain"),
        seen(2, 90.0, 4, missed=True, third="lower"),
        seen(3, 90.0, 2, missed=True, third="top", rig="chain"),
        seen(4, 90.0, 5),
    ]
    lower, middle, top = stops_of(LiftLog.of(sets, TRAVEL))
    assert (lower.third, lower.straight, lower.hung, lower.tired, lower.first) == (
        "lower", 1, 1, 1, 2,
    )  # fmt: skip
    assert (middle.first, middle.tired, middle.load_kg) == (0, 0, None)
    assert (top.first, top.tired) == (0, 1)


def test_the_load_is_that_at_the_middle_of_the_third() -> None:
    """A sixth of the way up, a chain that adds 30 kg over the way has put 5 kg on."""
    sets = [seen(0, 100.0, 0, missed=True, third="lower", rig="chain")]
    lower = stops_of(LiftLog.of(sets, TRAVEL))[0]
    assert lower.height_m == pytest.approx(0.6 + 0.4 / 6)
    assert lower.load_kg == pytest.approx(105.0)
    assert (lower.hung_there_kg, lower.hung_top_kg) == pytest.approx((5.0, 30.0))


def test_a_tired_miss_gives_the_load_only_where_there_is_no_other() -> None:
    tired = seen(0, 80.0, 3, missed=True, third="middle")
    fresh = seen(1, 120.0, 0, missed=True, third="middle")
    assert stops_of(LiftLog.of([tired], TRAVEL))[1].load_kg == pytest.approx(80.0)
    assert stops_of(LiftLog.of([tired, fresh], TRAVEL))[1].load_kg == pytest.approx(120.0)


def test_without_heights_only_straight_weight_is_told() -> None:
    sets = [
        seen(0, 100.0, 0, missed=True, third="top"),
        seen(1, 90.0, 0, missed=True, third="top", rig="chain", hung=None),
    ]
    top = stops_of(LiftLog.of(sets))[2]
    assert (top.straight, top.hung, top.load_kg, top.height_m) == (1, 1, 100.0, None)


def test_nothing_missed_or_nobody_looked() -> None:
    blind = seen(0, 100.0, 0, missed=True)
    assert stops_of(LiftLog.of([seen(1), blind], TRAVEL)) == ()
    assert unplaced_misses(LiftLog.of([seen(1), blind], TRAVEL)) == 1
