"""Small rooms: the plan costs what the cheapest of all plans costs, and is proven to."""

from __future__ import annotations

import pytest

from tests.room.exhaustive import least_cost
from tests.room.rooms import RACK, STEPS, room, squat
from topheavy.room.offers import offers_for
from topheavy.room.plan import sure_cost
from topheavy.room.solve import plan_room
from topheavy.room.validate import breaches

ROOMS = {
    "one bar for all": room(squat("A", 80, 100), squat("B", 81, 101), squat("C", 79, 99)),
    "two sizes": room(squat("A", 80, 100), squat("B", 60, 72), squat("C", 80, 100)),
    "one feeder": room(squat("A", 80, 100), squat("B", 60, 72), feeders=2),
    "little chain": room(squat("A", 80, 104), squat("B", 60, 84), pairs=2),
    "late": room(squat("A", 80, 100), squat("B", 80, 100, arrives=100)),
    "one rack": room(squat("A", 80, 100), squat("B", 60, 72), stations=(RACK,)),
    "a spotter": room(squat("A", 80, 100, spotters=1), squat("B", 80, 100, spotters=1), spotters=0),
    "far apart": room(squat("A", 120, 140), squat("B", 60, 80), squat("C", 60, 80)),
}


@pytest.mark.parametrize("name", ROOMS)
def test_equals_an_exhaustive_search(name: str) -> None:
    asked = ROOMS[name]
    offers = offers_for(asked)
    planned = plan_room(asked, STEPS, offers=offers)
    assert planned.plan is not None
    assert breaches(planned.plan) == ()
    assert planned.cost == planned.bound == least_cost(asked, offers)
    assert 0 < sure_cost(asked) <= planned.cost


def test_lone_lifters_without_a_spotter_can_not_be_planned() -> None:
    asked = room(squat("A", 80, 100, spotters=1), squat("B", 60, 72, spotters=1), spotters=0)
    offers = offers_for(asked)
    planned = plan_room(asked, STEPS, offers=offers)
    assert planned.possible is False
    assert least_cost(asked, offers) is None
