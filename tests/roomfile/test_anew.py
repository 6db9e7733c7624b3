"""What was asked, changed while the day goes on: who is late, what broke, what stays."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gymfile import demo_gym
from topheavy.room.by_hand import first_plan
from topheavy.room.draft import made_whole
from topheavy.room.offers import offers_for
from topheavy.room.solve import Effort, plan_room
from topheavy.room.validate import breaches
from topheavy.roomfile import demo_room_text
from topheavy.roomfile.anew import clock_s, come_late, locked, under_way, without
from topheavy.roomfile.read import room_of_tables

if TYPE_CHECKING:
    from topheavy.room.plan import Plan


def _tables() -> dict[str, Any]:
    tables = tomllib.loads(demo_room_text())
    tables["room"]["closes"] = "21:30"
    tables["session"] = [one for one in tables["session"] if one["lift"] != "squat"]
    return tables


TABLES = _tables()


@pytest.fixture(scope="module")
def plan() -> Plan:
    room = room_of_tables(TABLES, demo_gym())
    offers = offers_for(room)
    drafts = first_plan(room, offers)
    assert drafts is not None
    found = made_whole(room, offers, drafts)
    assert breaches(found) == ()
    return found


def _room(tables: dict[str, Any]) -> Any:
    return room_of_tables(tables, demo_gym())


def test_late_is_late_for_every_lift_and_the_rest_is_as_it_was() -> None:
    changed = _room(come_late(TABLES, "pip", "18:40"))
    for one, before in zip(changed.bookings, _room(TABLES).bookings, strict=True):
        want = 160 if one.lifter.name == "Pip" else before.arrives
        assert one.arrives == want
    with pytest.raises(NotInStockError):
        come_late(TABLES, "Nobody", "18:40")


def test_broken_is_broken_once() -> None:
    changed = without(without(TABLES, "A3"), "a3")
    assert changed["room"]["broken"] == ["a3"]
    assert "broken" not in TABLES["room"]


def test_locked_lifts_stay_just_where_they_are(plan: Plan) -> None:
    group = plan.groups[-1]
    booking = plan.room.bookings[group.members[0].booking]
    key = (booking.lifter.name.upper(), booking.lift.name)
    changed = _room(locked(TABLES, plan, {key}))
    again = next(one for one in changed.bookings if one.name == booking.name)
    assert (again.station, again.starts) == (group.station, group.starts)
    assert sum(one.starts is not None for one in changed.bookings) == 1


def test_done_is_left_out_begun_goes_on_and_the_rest_begins_later(plan: Plan) -> None:
    now = plan.groups[1].starts + 4
    tables, done = under_way(TABLES, plan, now)
    changed = _room(tables)
    for number, booking in enumerate(plan.room.bookings):
        group, key = plan.of(number), (booking.lifter.name, booking.lift.name)
        again = [one for one in changed.bookings if one.name == booking.name]
        assert (key in done) == (group.ends <= now) == (not again)
        if again and group.begins < now:
            assert (again[0].station, again[0].starts) == (group.station, group.starts)
        elif again:
            assert again[0].arrives > now
    former = {
        (one.lifter.name, one.lift.name): (plan.of(n).station, plan.of(n).starts)
        for n, one in enumerate(plan.room.bookings)
    }
    found = plan_room(changed, Effort(steps=1.0, workers=1), former=former).plan
    assert found is not None
    assert breaches(found) == ()


def test_a_group_whose_chain_broke_begins_anew(plan: Plan) -> None:
    group = plan.groups[1]
    now = group.starts + 4
    tables, _ = under_way(without(TABLES, group.tags[0]), plan, now)
    names = {plan.room.bookings[one.booking].name for one in group.members}
    again = [one for one in _room(tables).bookings if one.name in names]
    assert [one.starts for one in again] == [None] * len(again)
    assert all(one.arrives > now for one in again)


def test_when_all_have_done_there_is_nothing_to_plan(plan: Plan) -> None:
    with pytest.raises(BadInputError, match="Everyone has done"):
        under_way(TABLES, plan, plan.finish)


def test_times_are_told_to_the_quarter_minute(plan: Plan) -> None:
    for grain in (0, 1, 7, 480):
        text = clock_s(plan.room, grain)
        tables = {**TABLES, "session": [{**TABLES["session"][0], "arrive": text}]}
        assert _room(tables).bookings[0].arrives == grain
    late = replace(plan.room, opens_s=23 * 3600 + 59 * 60)
    assert clock_s(late, 6) == "00:00:30"
