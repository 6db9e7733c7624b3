"""What goes on at a moment: as the turns of the plan say, or as the log does."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.room.rooms import STEPS, room, squat
from topheavy.room.now import stations_at
from topheavy.room.plan import turns
from topheavy.room.solve import plan_room

if TYPE_CHECKING:
    from topheavy.room.plan import Plan


def _planned() -> Plan:
    asked = room(squat("A", 80, 100), squat("B", 81, 101, sets=2), squat("C", 60, 72))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    return plan


PLAN = _planned()


@given(now=st.integers(-10, 500))
def test_by_the_clock_it_is_whoever_has_the_bar(now: int) -> None:
    works = [PLAN.room.work(booking) for booking in PLAN.room.bookings]
    for one in stations_at(PLAN, now):
        groups = PLAN.at(one.station)
        there = [group for group in groups if group.starts <= now < group.ends]
        assert (one.doing == "lifting") == bool(there)
        if one.doing == "done":
            assert all(group.ends <= now for group in groups)
        if one.doing == "hanging":
            assert one.group is not None
            assert one.group.begins <= now < one.group.starts
        if there and one.turn is not None:
            having = [
                turn
                for turn in turns(PLAN.room, there[0])
                if turn.at <= now < turn.at + works[turn.booking].turn
            ]
            assert having in ([one.turn], [])
            assert having or one.turn.at > now


def test_once_sets_are_logged_those_count_and_not_the_clock() -> None:
    group = PLAN.groups[0]
    order = turns(PLAN.room, group)
    first = order[0].booking
    late = group.ends + 100
    (one,) = (s for s in stations_at(PLAN, late, {first: 1}) if s.station == group.station)
    assert one.doing == "lifting"
    assert one.turn == order[1]
    everything = {m.booking: PLAN.room.bookings[m.booking].sets for m in group.members}
    (after,) = (
        s for s in stations_at(PLAN, group.starts, everything) if s.station == group.station
    )
    assert after.group != group


def test_the_next_turn_is_the_one_after() -> None:
    group = max(PLAN.groups, key=lambda g: len(g.members))
    order = turns(PLAN.room, group)
    (one,) = (s for s in stations_at(PLAN, group.starts) if s.station == group.station)
    assert (one.turn, one.after) == (order[0], order[1])


@pytest.mark.parametrize("now", [-100, 10_000])
def test_before_and_after(now: int) -> None:
    doing = {one.doing for one in stations_at(PLAN, now)}
    assert doing == ({"before"} if now < 0 else {"done"})
