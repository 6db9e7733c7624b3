"""Large rooms that can't be planned: hours short, reckoned by hand, and ways out that do."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tests.room.rooms import room, squat
from topheavy.room.blocked import why_not
from topheavy.room.blocked_large import Short, short_hours, with_more
from topheavy.room.draft import COLLARS, HANDS, capacities
from topheavy.room.offers import offers_for
from topheavy.room.solve import Effort
from topheavy.room.trial import tried
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from topheavy.room.ask import Room

STEPS = Effort(steps=0.2, workers=1)


def _sixteen(**more: Any) -> Room:
    """Sixteen lifters on two racks, two sizes of load."""
    some = [squat(f"L{n}", *((80, 100) if n % 2 else (120, 132))) for n in range(16)]
    return room(*some, **{"length": 480, **more})


def test_hours_short_are_turns_and_one_rig_a_station_on_any_plan() -> None:
    asked = _sixteen(length=150)
    turn = asked.pace.turn_grains(3)
    wanted = 16 * 3 * turn + 2 * asked.pace.rig_grains
    (rack,) = [one for one in short_hours(asked, offers_for(asked)) if one.part[0] == "station"]
    assert rack == Short(part=("station", "rack"), wanted=wanted, there=2 * 150)
    assert short_hours(_sixteen(length=960), offers_for(_sixteen(length=960))) == ()


def test_one_pair_of_feeders_for_two_racks_has_half_the_hours() -> None:
    asked = _sixteen(feeders=2, length=260)
    named = {one.part: one for one in short_hours(asked, offers_for(asked))}
    strap = named["feeder", "strap"]
    assert (strap.wanted, strap.there) == (16 * 3 * asked.pace.turn_grains(3), 260)


def test_what_would_do_does() -> None:
    asked = _sixteen(length=150)
    offers = offers_for(asked)
    blocked = why_not(asked, STEPS, offers)
    assert blocked.longer is not None
    assert blocked.longer > 0
    longer = replace(asked, length=asked.length + blocked.longer)
    plan = tried(longer, offers, STEPS).plan
    assert plan is not None
    assert breaches(plan) == ()
    assert 0 < len(blocked.leave_out) < 16
    kept = tuple(b for n, b in enumerate(asked.bookings) if n not in blocked.leave_out)
    fewer = replace(asked, bookings=kept)
    assert tried(fewer, offers_for(fewer), STEPS).plan is not None


def test_more_feeders_are_named_where_they_are_what_is_short() -> None:
    plenty = tried(_sixteen(), offers_for(_sixteen()), STEPS, goal="better").plan
    assert plenty is not None
    asked = _sixteen(feeders=2, length=plenty.finish + 60)
    blocked = why_not(asked, Effort(steps=1.0, workers=1))
    assert ("feeder", "strap") in [one.part for one in blocked.short]
    assert (("feeder", "strap"), 1) in blocked.more


def test_a_room_with_more_of_a_part_has_more_of_it_and_nothing_else() -> None:
    asked = _sixteen()
    have = capacities(asked, offers_for(asked))
    for part in have:
        if part[0] in ("plates", "band"):
            continue
        more = with_more(asked, offers_for(asked), part, 2)
        now = capacities(more, offers_for(more))
        assert now == {**have, part: have[part] + 2}
    assert {COLLARS, HANDS} <= set(have)
