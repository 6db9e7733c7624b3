"""Large rooms: bounds hold, every plan found by small changes is sound, and what was kept stays."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest

from tests.room.exhaustive import least_cost
from tests.room.rooms import room, squat
from tests.room.test_exhaustive import ROOMS
from topheavy.room.bound import Relaxed, teams_at
from topheavy.room.by_hand import first_plan
from topheavy.room.draft import capacities, made_whole, short_of
from topheavy.room.facts import Facts
from topheavy.room.layout import Pricing, layout_of
from topheavy.room.offers import offers_for
from topheavy.room.plan import key_of, sure_cost
from topheavy.room.search import STRIDE, Search
from topheavy.room.solve import Effort, Planned, Progress, plan_room
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from topheavy.room.ask import Room

STEPS = Effort(steps=0.2, workers=1)


def _sixteen(**more: Any) -> Room:
    """Sixteen lifters of many sizes of load on two racks."""
    bookings = [
        squat(
            f"L{n}",
            60 + 5 * (7 * n % 16),
            80 + 5 * (7 * n % 16) + 4 * (n % 3),
            arrives=40 * (n % 5 == 0),
            spotters=n % 2,
            sets=3 + n % 3,
        )
        for n in range(16)
    ]
    return room(*bookings, **{"pairs": 5, "length": 1600, "spotters": 1, **more})


@cache
def _plan() -> Planned:
    return plan_room(_sixteen(), STEPS)


@pytest.mark.parametrize("name", ROOMS)
def test_no_plan_of_a_small_room_costs_less_than_the_bounds(name: str) -> None:
    asked = ROOMS[name]
    offers = offers_for(asked)
    least = least_cost(asked, offers)
    assert least is not None
    facts = Facts(asked, offers)
    loose, close = (Relaxed(facts, sharing=sharing) for sharing in (False, True))
    far, near = loose.bound(least + 500), close.bound(least + 500)
    assert sure_cost(asked) <= far <= near <= close.whole_bound(least + 500, near, 5.0) <= least


def test_a_bound_by_lifters_is_no_higher_than_by_groups(monkeypatch: pytest.MonkeyPatch) -> None:
    facts = Facts(_sixteen(), offers_for(_sixteen()))
    by_group = Relaxed(facts, sharing=True).bound(_plan().cost)
    monkeypatch.setattr("topheavy.room.bound._MOST_TEAMS", 10)
    assert teams_at(facts, 0, 10) is None
    assert 0 < Relaxed(facts, sharing=True).bound(_plan().cost) <= by_group <= _plan().cost


def test_a_large_room_is_planned_better_than_by_hand_and_the_same_twice() -> None:
    asked, found = _sixteen(), _plan()
    assert found.plan is not None
    assert found.first is not None
    assert breaches(found.plan) == ()
    assert found.bound <= found.cost < found.first.cost
    again = plan_room(asked, STEPS)
    assert again.plan is not None
    assert (again.plan.groups, again.bound) == (found.plan.groups, found.bound)


def test_layouts_without_trouble_are_sound_plans_that_cost_what_was_said() -> None:
    asked = _sixteen(pairs=4, length=360)
    offers = offers_for(asked)
    facts = Facts(asked, offers)
    pricing = Pricing(facts, {})
    known = first_plan(asked, offers)
    assert known is not None
    search = Search(pricing, layout_of(pricing.stations, known), 7)
    have, sound, short = capacities(asked, offers), 0, 0
    for number in range(3000):
        if not search.step(400.0) or number % 20:
            continue
        drafts = pricing.drafts(tuple(search.rows))
        if search.trouble:
            late = max(draft.ends for draft in drafts) > asked.length
            short += late or bool(short_of(asked, offers, drafts, have))
        elif sound < 6:
            plan = made_whole(asked, offers, drafts)
            assert breaches(plan) == ()
            assert plan.cost == search.true_cost
            sound += 1
    assert sound
    assert short


def test_each_plan_told_of_is_sound_and_cheaper_and_halting_keeps_it() -> None:
    told: list[Progress] = []
    found = plan_room(_sixteen(), STEPS, progress=told.append, halt=lambda: len(told) >= 3)
    assert [one.cost for one in told] == sorted({one.cost for one in told}, reverse=True)
    assert all(breaches(one.plan) == () and one.bound <= one.cost for one in told)
    assert found.plan is not None
    assert found.cost == told[-1].cost
    assert len(told) < STRIDE


def test_ctrl_c_keeps_the_best_so_far() -> None:
    told: list[Progress] = []

    def progress(now: Progress) -> None:
        told.append(now)
        if len(told) == 2:
            raise KeyboardInterrupt

    found = plan_room(_sixteen(), STEPS, progress=progress)
    assert found.plan is not None
    assert found.cost == told[-1].cost


def test_planning_a_large_room_anew_keeps_what_can_stay() -> None:
    asked, plan = _sixteen(), _plan().plan
    assert plan is not None
    former = {
        key_of(booking): (plan.of(n).station, plan.of(n).starts)
        for n, booking in enumerate(asked.bookings)
    }
    same = plan_room(asked, STEPS, former=former)
    assert same.plan is not None
    assert same.cost <= 1.05 * plan.cost
    anew = plan_room(replace(asked, broken=("P1",)), STEPS, former=former)
    assert anew.plan is not None
    assert breaches(anew.plan) == ()
    fresh = plan_room(replace(asked, broken=("P1",)), STEPS)
    assert fresh.plan is not None
    assert anew.plan.disturbance(former) <= fresh.plan.disturbance(former)


def test_a_lifter_with_two_lifts_is_in_one_place_at_a_time() -> None:
    asked = _sixteen()
    twice = [
        replace(one, lifter=asked.bookings[n % 8].lifter) for n, one in enumerate(asked.bookings)
    ]
    found = plan_room(replace(asked, bookings=tuple(twice), length=2400), STEPS)
    assert found.plan is not None
    assert breaches(found.plan) == ()


def test_hours_too_short_for_anybody_are_told_at_once() -> None:
    assert plan_room(_sixteen(length=40), STEPS).possible is False
