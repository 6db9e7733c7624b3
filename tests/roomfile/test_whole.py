"""A plan written down, as JSON, is the same plan when it is read again."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from tests.room.rooms import STEPS, room, squat
from tests.room.test_hangs_and_bands import ASKED
from topheavy.errors import NotInStockError
from topheavy.room.solve import plan_room
from topheavy.room.validate import breaches
from topheavy.roomfile.whole import plan_read, plan_written

ROOMS = {"usual": room(squat("A", 80, 100), squat("B", 81, 101), squat("C", 60, 72)), **ASKED}


@pytest.mark.parametrize("name", ROOMS)
def test_it_comes_back_as_it_was(name: str) -> None:
    plan = plan_room(ROOMS[name], STEPS).plan
    assert plan is not None
    again = plan_read(json.loads(json.dumps(plan_written(plan))), plan.room)
    assert breaches(again) == ()
    assert again.cost == plan.cost
    for one, other in zip(plan.groups, again.groups, strict=True):
        assert (one.pairs, one.members, one.hung.fixture) == (
            other.pairs,
            other.members,
            other.hung.fixture,
        )
        assert (one.hung.bands, one.hung.style) == (other.hung.bands, other.hung.style)
        assert (one.begins, one.starts, one.ends) == (other.begins, other.starts, other.ends)


def test_what_is_no_longer_there_is_told() -> None:
    asked = ROOMS["usual"]
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    written = plan_written(plan)
    stock = asked.gym.stock
    for less in ({"chains": stock.chains[:1]}, {"feeders": ()}, {"plates": ()}):
        gym = replace(asked.gym, stock=replace(stock, **less))
        with pytest.raises(NotInStockError):
            plan_read(written, replace(asked, gym=gym))
    fewer = replace(asked, bookings=asked.bookings[:1])
    with pytest.raises(NotInStockError, match="Nobody lifts that"):
        plan_read(written, fewer)
