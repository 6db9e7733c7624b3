"""A plan as everybody's work: the loads, plates and pieces are those of the plan."""

from __future__ import annotations

import uuid
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.room.rooms import STEPS, room, squat
from tests.room.test_hangs_and_bands import ASKED
from topheavy.room.giving import works_of
from topheavy.room.reading import on_the_bar
from topheavy.room.solve import plan_room

if TYPE_CHECKING:
    from topheavy.room.plan import Plan


def _planned() -> Plan:
    asked = room(squat("A", 80, 100), squat("B", 81, 101, kind="speed"), squat("C", 60, 72))
    lifters = tuple(booking.lifter for booking in asked.bookings)
    asked = replace(asked, gym=replace(asked.gym, lifters=lifters))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    return plan


def test_work_sets_are_those_of_the_plan() -> None:
    plan = _planned()
    works = works_of(plan, "2026-11-25", lambda: str(uuid.uuid4()))
    assert {work.source for work in works} == {"room"}
    assert len({work.id for work in works}) == len(works) == 3
    for work in works:
        number, booking = next(
            (n, b) for n, b in enumerate(plan.room.bookings) if b.lifter.name == work.lifter
        )
        group = plan.of(number)
        member = next(one for one in group.members if one.booking == number)
        loads = on_the_bar(plan.room, group, member)
        last = work.steps[-1]
        assert (work.station, work.kind) == (group.station, booking.kind)
        assert sum(step.kind == "work set" for step in work.steps) == booking.sets
        assert last.reps == booking.reps
        assert last.rest_s >= booking.rest_s
        assert last.straight_kg == pytest.approx(loads.straight_kg)
        assert (last.bottom_kg, last.top_kg) == pytest.approx((loads.bottom_kg, loads.top_kg))
        assert 2 * sum(last.bar.plates_kg) == pytest.approx(member.loading.total_kg)
        assert last.bar.hung is not None
        assert last.bar.hung.left == tuple(pair.left.tag for pair in group.pairs)
        assert last.bar.hung.setting == group.hung.setting[1]
        assert work.cautions


def test_bands_go_along() -> None:
    plan = plan_room(ASKED["bands alone"], STEPS).plan
    assert plan is not None
    (work,) = works_of(plan, "2026-11-25", lambda: str(uuid.uuid4()))
    (group,) = plan.groups
    loads = on_the_bar(plan.room, group, group.members[0])
    last = work.steps[-1]
    assert last.bar.hung is not None
    assert [(one.left, one.right) for one in last.bar.hung.bands] == [
        (pair.left, pair.right) for pair in group.hung.bands
    ]
    assert (last.bottom_kg, last.top_kg) == pytest.approx((loads.bottom_kg, loads.top_kg), abs=0.02)
