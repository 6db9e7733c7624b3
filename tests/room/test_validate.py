"""The validator finds every rule that a plan breaks, whoever made the plan."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from tests.room.rooms import RACK, STEPS, room, squat
from topheavy.room.solve import plan_room
from topheavy.room.validate import BrokenPlanError, breaches, require_sound

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.plan import Group, Plan


@pytest.fixture(scope="module")
def sound() -> Plan:
    """Two groups on two racks: a heavy lifter alone, two light ones together."""
    asked = room(squat("A", 120, 140), squat("B", 60, 80), squat("C", 60, 80, arrives=20))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    assert len(plan.groups) == 2
    return plan


def _changed(plan: Plan, change: Callable[[Group], Group], which: int = 0) -> Plan:
    groups = list(plan.groups)
    groups[which] = change(groups[which])
    return replace(plan, groups=tuple(groups))


def _rules(plan: Plan) -> set[str]:
    return {breach.rule for breach in breaches(plan)}


def test_a_sound_plan_passes(sound: Plan) -> None:
    assert breaches(sound) == ()
    assert require_sound(sound) is sound


def _with_room(plan: Plan, **changes: Any) -> Plan:
    return replace(plan, room=replace(plan.room, **changes))


def test_breaking_one_thing_is_found(sound: Plan) -> None:
    other = sound.groups[1]
    found = {
        "once": replace(sound, groups=sound.groups[:1]),
        "piece": _changed(
            sound, lambda g: replace(g, pairs=other.pairs, hung=other.hung, begins=other.begins)
        ),
        "size": _with_room(sound, most_in_group=1),
        "time": _with_room(sound, length=10),
        "fresh": _changed(sound, lambda g: replace(g, fresh=False)),
        "fit": _with_room(sound, broken=(sound.groups[0].tags[0],)),
        "pair": _changed(
            sound, lambda g: replace(g, pairs=(replace(g.pairs[0], right=_longer(g)), *g.pairs[1:]))
        ),
        "sets": _changed(sound, lambda g: replace(g, members=g.members[:0] + other.members)),
        "turns": _changed(sound, lambda g: replace(g, ends=g.starts + 1)),
        "rest": _with_room(sound, pace=replace(sound.room.pace, rep_s=50.0)),
    }
    for rule in ("once", "piece", "size", "time", "fresh", "fit", "pair", "turns"):
        assert rule in _rules(found[rule]), rule


def _longer(group: Group) -> Any:
    right = group.pairs[0].right
    return replace(right, chain=replace(right.chain, links=right.chain.links + 1))


def test_wrong_plates_are_found(sound: Plan) -> None:
    (heavy,) = next(g for g in sound.groups if len(g.members) == 1).members
    light = next(at for at, g in enumerate(sound.groups) if len(g.members) == 2)
    wrong = _changed(
        sound,
        lambda g: replace(
            g, members=tuple(replace(one, loading=heavy.loading) for one in g.members)
        ),
        light,
    )
    assert "load" in _rules(wrong)


def test_what_stations_share_is_counted_at_every_moment(sound: Plan) -> None:
    gym = sound.room.gym
    both_at_once = max(g.begins for g in sound.groups) < min(g.ends for g in sound.groups)
    assert both_at_once
    stock = gym.stock
    fewer = {
        "feeder": replace(stock, feeders=tuple(replace(f, count=2) for f in stock.feeders)),
        "connector": replace(
            stock, connectors=tuple(replace(c, count=2) for c in stock.connectors)
        ),
        "collars": replace(stock, collars=tuple(replace(c, count=2) for c in stock.collars)),
        "plates": replace(stock, plates=tuple(replace(p, count=2) for p in stock.plates)),
    }
    for rule, less in fewer.items():
        assert rule in _rules(_with_room(sound, gym=replace(gym, stock=less))), rule


def test_people_are_counted(sound: Plan) -> None:
    bookings = tuple(replace(one, spotters=2) for one in sound.room.bookings)
    assert "spotters" in _rules(_with_room(sound, bookings=bookings))
    once = sound.room.bookings[0].lifter
    same = tuple(replace(one, lifter=once) for one in sound.room.bookings)
    assert "two lifts" in _rules(_with_room(sound, bookings=same))


def test_locks_and_absence_are_kept(sound: Plan) -> None:
    alone = next(g for g in sound.groups if len(g.members) == 1)
    number = alone.members[0].booking
    bookings = list(sound.room.bookings)
    elsewhere = "rack 2" if alone.station == RACK.name else RACK.name
    bookings[number] = replace(bookings[number], station=elsewhere)
    assert "locked" in _rules(_with_room(sound, bookings=tuple(bookings)))
    bookings[number] = replace(bookings[number], station="", arrives=alone.starts + 1)
    assert "there" in _rules(_with_room(sound, bookings=tuple(bookings)))


def test_a_broken_plan_is_never_shown(sound: Plan) -> None:
    with pytest.raises(BrokenPlanError, match="must not be hung"):
        require_sound(_with_room(sound, broken=(sound.groups[0].tags[0],)))
