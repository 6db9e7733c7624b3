"""Weeks: every lift on one of its days or left out with the reason, and the whole week checked."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING, Any

import pytest

from tests.room.rooms import RACK, room, squat
from topheavy.errors import BadInputError
from topheavy.room.solve import Effort
from topheavy.room.validate import BrokenPlanError
from topheavy.room.week import Day, Week, Wish, require_sound_week, week_breaches
from topheavy.room.week_days import NO_DAY, DayChoice, Serving, choose_days, fewest
from topheavy.room.week_solve import WeekProgress, plan_week

if TYPE_CHECKING:
    from topheavy.room.ask import Booking

EFFORT = Effort(steps=3.0, workers=1, seconds_s=1.0)
HOUR = 240


def _week(*wishes: tuple[Booking, tuple[int, ...]], days: int = 3, **more: Any) -> Week:
    """Make a week of days of one rack, so that hours are reckoned by hand."""
    asked = room(*(booking for booking, _ in wishes), stations=(RACK,))
    length = more.pop("length", HOUR)
    return Week(
        gym=asked.gym,
        days=tuple(
            Day(name=f"day {n}", opens_s=64800, length=length, stations=(RACK,), spotters=3)
            for n in range(days)
        ),
        wishes=tuple(Wish(on=dict.fromkeys(on, booking)) for booking, on in wishes),
        **more,
    )


def _light(name: str) -> Booking:
    return squat(name, 80, 100)


def _heavy(name: str) -> Booking:
    return squat(name, 120, 132)


def _drawn(seed: int) -> Week:
    draw = random.Random(seed)  # noqa: S311 - nothing secret
    wishes = []
    for n in range(6):
        booking = (_light if draw.random() < 0.5 else _heavy)(f"L{n % 4}")
        on = tuple(sorted(draw.sample(range(3), draw.randint(1, 3))))
        wishes.append((replace(booking, sets=draw.randint(2, 6)), on))
    return _week(*wishes, length=160)


@pytest.mark.parametrize("seed", range(6))
def test_the_days_of_a_tiny_week_are_the_cheapest_of_all(seed: int) -> None:
    serving = Serving(_drawn(seed))
    least = float("inf")
    for days in product(*([*may, NO_DAY] for may in serving.may)):
        choice = DayChoice(serving)
        choice.day = [NO_DAY] * len(days)
        for n, day in enumerate(days):
            if day != NO_DAY and not choice.legal(n, day):
                break
            choice.day[n] = day
        else:
            least = min(least, choice.cost())
    chosen = DayChoice(serving)
    chosen.day = list(choose_days(serving, 1))
    assert chosen.cost() == pytest.approx(least)


def test_as_many_are_planned_as_the_hours_hold() -> None:
    """One rack, three quarters of an hour: hang 16 grains, then 5 x 16 grains for each alone."""
    alone = [replace(_light(f"L{n}"), sets=5, rest_s=180.0) for n in range(7)]
    week = _week(*((one, (0, 1)) for one in alone), days=2, length=16 + 2 * 80, most_in_group=1)
    found = plan_week(week, EFFORT)
    assert week_breaches(found) == ()
    assert [len(day.wishes) for day in found.days] == [2, 2]
    assert {one.why for one in found.left_out} == {"full"}
    assert found.planned + len(found.left_out) == 7


def test_a_lifter_comes_once_a_day_and_not_hard_twice_in_a_row() -> None:
    week = _week((_light("A"), (0, 1, 2)), (_light("A"), (0, 1, 2)), (_heavy("B"), (1,)))
    found = plan_week(week, EFFORT)
    assert week_breaches(found) == ()
    assert found.left_out == ()
    assert [day for day in (0, 1, 2) if {0, 1} & set(found.days[day].wishes)] == [0, 2]
    assert found.in_a_row == ()
    near = plan_week(_week((_light("A"), (0,)), (_light("A"), (1,))), EFFORT)
    assert near.in_a_row == ((0, 1),)


def test_more_lifts_than_days_are_left_out_or_allowed() -> None:
    press = replace(_heavy("A"), lift=replace(_heavy("A").lift, name="front squat"))
    measured = {**press.lifter.lifts, "front squat": press.lifter.lifts["squat"]}
    press = replace(press, lifter=replace(press.lifter, lifts=measured))
    wishes = ((_light("A"), (0,)), (press, (0,)))
    (left,) = plan_week(_week(*wishes, days=1), EFFORT).left_out
    assert left.why == "taken"
    both = plan_week(_week(*wishes, days=1, a_day=2), EFFORT)
    assert (both.left_out, week_breaches(both)) == ((), ())


def test_what_nothing_serves_and_what_takes_too_long_is_told() -> None:
    week = _week(
        (squat("A", 80, 81, tolerance_kg=0.5), (0, 1)),
        (replace(_light("B"), sets=20), (0,)),
        (_light("C"), (0,)),
    )
    found = plan_week(week, EFFORT)
    assert [(one.wish, one.why) for one in found.left_out] == [(0, "unserved"), (1, "alone")]
    assert found.left_out[0].nearest_kg > 0.5
    assert found.days[0].wishes == (2,)


def test_those_whom_one_chain_serves_come_on_one_day() -> None:
    wishes = [(make(f"{make.__name__}{n}"), (0, 2)) for n in range(3) for make in (_light, _heavy)]
    found = plan_week(_week(*wishes, length=2 * HOUR), EFFORT)
    assert week_breaches(found) == ()
    for day in (0, 2):
        tops = {found.week.wishes[n].any.ask.top_kg for n in found.days[day].wishes}
        assert len(tops) == 1


def test_the_check_of_a_week_finds_what_is_wrong_with_it() -> None:
    week = _week((_light("A"), (0, 1, 2)), (_heavy("B"), (1,)))
    found = plan_week(week, EFFORT)
    require_sound_week(found)
    gone = replace(found, days=(replace(found.days[0], wishes=(), planned=None), *found.days[1:]))
    at = next(day.day for day in found.days if 0 in day.wishes)
    moved = list(found.days)
    moved[at] = replace(moved[at], wishes=(0, 0))
    for broken in (gone, replace(found, days=tuple(moved)), replace(found, days=found.days[:2])):
        if broken.days == found.days:
            continue
        with pytest.raises(BrokenPlanError):
            require_sound_week(broken)
    other = replace(week, days=(replace(week.days[0], spotters=0), *week.days[1:]))
    wrong = replace(found, week=replace(other, a_day=2))
    rules = {one.rule for one in week_breaches(wrong)}
    assert rules <= {"days"}


def test_planning_ends_when_told_to_and_says_how_far_it_is() -> None:
    told: list[WeekProgress] = []
    week = _week((_light("A"), (0, 1)), (_heavy("B"), (1,)))
    plan_week(week, EFFORT, progress=told.append)
    assert [one.what for one in told][:2] == ["Choosing days", "Planning each day"]
    assert all(0 <= one.done < max(1, one.of) for one in told)
    stopped = plan_week(week, EFFORT, halt=lambda: True)
    assert week_breaches(stopped) == ()


def test_a_greedy_cover_counts_those_that_nothing_serves_alone() -> None:
    assert fewest([0b011], 0b111) == 2
    assert fewest([], 0b11) == 2


def test_a_week_without_days_or_lifts_is_refused() -> None:
    week = _week((_light("A"), (0,)))
    for wrong in ({"days": ()}, {"wishes": ()}, {"a_day": 0}, {"wishes": (Wish(on={}),)}):
        with pytest.raises(BadInputError):
            replace(week, **wrong)
