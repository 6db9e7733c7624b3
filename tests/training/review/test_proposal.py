"""Next week: small steps that the plates make, held back where the log says so."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.training.review.samples import TRAVEL, read, seen, shapes
from topheavy.training.review.proposal import (
    LIGHT,
    Ground,
    Proposal,
    next_week,
    weeks_without_rest,
)
from topheavy.training.review.trend import Trend
from topheavy.training.weeks_checks import MOST_RISE, MOST_WEEKS_HARD
from topheavy.training.weeks_loads import DELOAD_LOAD

if TYPE_CHECKING:
    from topheavy.training.review.seen import SeenSet

FEW = Trend(verdict="few", days=0, first_day=0, last_day=0, noise=0.035)
DOWN = Trend(verdict="down", days=9, first_day=0, last_day=70, noise=0.035)
PLATES = tuple(20.0 + 2.5 * step for step in range(100))


def proposed(
    *sets: SeenSet, trend: Trend = FEW, makes: tuple[float, ...] = PLATES, idle: int = 0
) -> Proposal:
    readings = read(list(sets), shapes(1.2))
    ground = Ground(readings=readings, trend=trend, travel=TRAVEL, makes_kg=makes, idle_days=idle)
    found = next_week(ground)
    assert found is not None
    return found


def why(found: Proposal) -> str:
    return " ".join(reason.say() for reason in found.reasons)


def three(at: int, straight_kg: float, left: float | None, **values: Any) -> list[SeenSet]:
    return [seen(at, straight_kg, 3, reps_left=left, **values) for _ in range(3)]


@pytest.mark.parametrize(("left", "straight_kg"), [(3.0, 105.0), (2.0, 102.5), (1.0, 102.5)])
def test_reps_left_allow_a_small_step(left: float, straight_kg: float) -> None:
    found = proposed(*three(0, 100.0, left))
    assert (found.kind, found.sets, found.reps) == ("up", 3, 3)
    assert found.straight_kg == straight_kg
    assert f"{left:g} rep" in why(found)


@pytest.mark.parametrize("left", [0.0, 0.5, None])
def test_none_left_or_not_noted_is_the_same_again(left: float | None) -> None:
    found = proposed(*three(0, 100.0, left))
    assert (found.kind, found.straight_kg, found.change) == ("same", 100.0, 0.0)


def test_the_set_that_left_least_decides() -> None:
    sets = [seen(0, 100.0, 3, reps_left=left) for left in (3.0, 2.0, 0.0)]
    assert proposed(*sets).kind == "same"


def test_after_a_miss_there_is_less() -> None:
    found = proposed(*three(0, 100.0, 1.0), seen(0, 100.0, 2, missed=True))
    assert (found.kind, found.straight_kg) == ("down", 95.0)
    assert "missed" in why(found)


def test_the_chain_stays_on_and_the_step_is_of_the_mean_load() -> None:
    """5 % of 85 + 15 kg mean is 5 kg of plates."""
    found = proposed(*three(0, 85.0, 3.0, rig="two a side"))
    assert found.reading.seen.rig == "two a side"
    assert found.straight_kg == 90.0
    assert found.change == pytest.approx(0.05)
    assert found.loads is not None
    assert (found.loads.bottom_kg, found.loads.mean_kg, found.loads.top_kg) == pytest.approx(
        (90.0, 105.0, 120.0)
    )


def test_the_same_load_with_less_left_than_before_calls_for_a_light_week() -> None:
    found = proposed(*three(0, 100.0, 3.0), *three(7, 100.0, 1.0))
    assert found.kind == "deload"
    assert found.sets == 2
    assert found.straight_kg == pytest.approx(DELOAD_LOAD * 100.0)
    assert "harder than it was: 1 left now, 3 left on 2026-06-01" in why(found)


def test_half_a_rep_less_does_not() -> None:
    assert proposed(*three(0, 100.0, 1.5), *three(7, 100.0, 1.0)).kind == "up"


def test_misses_that_pile_up_call_for_a_light_week() -> None:
    sets = [seen(day, 100.0, 2, missed=True) for day in (0, 7)]
    assert "2 sets of the last two days" in why(proposed(*sets))


def test_so_does_a_trend_that_falls() -> None:
    assert proposed(*three(0, 100.0, 2.0), trend=DOWN).kind == "deload"


def test_and_so_does_a_long_break() -> None:
    assert proposed(*three(0, 100.0, 2.0), idle=20).kind == "up"
    found = proposed(*three(0, 100.0, 2.0), idle=60)
    assert found.kind == "deload"
    assert "60 days ago" in why(found)


def hard_weeks(count: int) -> list[SeenSet]:
    return [one for week in range(count) for one in three(7 * week, 100.0 + 2.5 * week, 2.0)]


def test_so_do_many_weeks_without_a_light_one() -> None:
    assert proposed(*hard_weeks(MOST_WEEKS_HARD - 1)).kind == "up"
    found = proposed(*hard_weeks(MOST_WEEKS_HARD))
    assert found.kind == "deload"
    assert "Rogerson" in why(found)


def test_a_week_off_or_a_light_one_begins_the_count_anew() -> None:
    weeks = hard_weeks(6)
    light = seen(42, LIGHT * 112.0, 3, reps_left=5.0)
    after = three(49, 112.5, 2.0)
    assert weeks_without_rest(read([*weeks, light, *after])) == 1
    assert weeks_without_rest(read([*weeks, *after])) == 1
    assert weeks_without_rest(read([*weeks, *three(42, 112.5, 2.0), *after])) == 8
    assert weeks_without_rest([]) == 0


def test_after_a_light_week_it_goes_on_from_the_work_before() -> None:
    found = proposed(*three(0, 100.0, 2.0), *three(7, 85.0, 6.0))
    assert (found.kind, found.straight_kg) == ("up", 102.5)


def test_a_max_is_no_work_to_repeat() -> None:
    found = proposed(*three(0, 100.0, 2.0), seen(0, 120.0, 1))
    assert (found.reps, found.straight_kg) == (3, 102.5)
    assert proposed(seen(0, 120.0, 1)).reps == 1


def test_coarse_plates_never_make_a_jump() -> None:
    coarse = proposed(*three(0, 100.0, 2.0), makes=(20.0, 60.0, 100.0, 140.0))
    assert (coarse.kind, coarse.straight_kg) == ("same", 100.0)
    assert "no smaller step than 40.0 kg" in why(coarse)


def test_the_smallest_step_up_is_taken_when_it_is_small_enough() -> None:
    assert proposed(*three(0, 100.0, 2.0), makes=(100.0, 105.0, 110.0)).straight_kg == 105.0


def test_nothing_lighter_than_the_bar_is_proposed() -> None:
    found = proposed(*three(0, 100.0, 3.0), *three(7, 100.0, 0.0), makes=(100.0, 110.0))
    assert found.straight_kg == 100.0
    assert "hang less" in why(found)


def test_plates_that_nobody_knows_are_left_to_the_coach() -> None:
    found = proposed(*three(0, 100.0, 2.0), makes=())
    assert found.straight_kg == pytest.approx(102.5)
    assert "round it yourself" in why(found)


def test_no_step_goes_beyond_what_the_log_stands_for() -> None:
    """Nine done and one left is near the log's own single; more at nine would be beyond it."""
    lone = [seen(0, 100.0, 3, reps_left=3.0)]
    assert proposed(*lone).kind == "up"
    claimed = [seen(0, 100.0, 12, reps_left=3.0)]
    found = proposed(*claimed)
    assert (found.kind, found.straight_kg) == ("same", 100.0)
    assert "more than anything in the log" in why(found)


def test_without_sets_nothing_is_proposed() -> None:
    ground = Ground(readings=(), trend=FEW, travel=TRAVEL, makes_kg=PLATES)
    assert next_week(ground) is None


SETS = st.builds(
    seen,
    at=st.integers(0, 60),
    straight_kg=st.sampled_from([60.0, 80.0, 97.5, 100.0, 102.5]),
    reps=st.integers(1, 10),
    reps_left=st.sampled_from([None, 0.0, 1.0, 2.0, 4.0]),
    rig=st.sampled_from(["", "two a side"]),
)


@settings(max_examples=30)
@given(sets=st.lists(SETS, min_size=1, max_size=10), data=st.data())
def test_any_log_gives_a_small_step_that_the_plates_make(
    sets: list[SeenSet], data: st.DataObject
) -> None:
    found = proposed(*sets)
    assert found.straight_kg in PLATES
    assert found.reasons
    assert -0.25 < found.change <= MOST_RISE / 2 + 1e-9
    assert proposed(*data.draw(st.permutations(sets))).straight_kg == found.straight_kg
