"""Plans of the room in the store: put up, replaced, taken down; all of them kept."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from tests.store.samples import START, put
from topheavy.errors import NotInStockError
from topheavy.store.gyms import Change, load_gym
from topheavy.store.problems import StaleError
from topheavy.store.rooms import (
    find_plan,
    list_plans,
    plan_of_day,
    plan_stamp,
    put_up,
    take_down,
)

if TYPE_CHECKING:
    from topheavy.store.opening import Store

DAY = "2026-11-25"
ASKED = {"room": {"opens": "18:00"}, "session": [{"lifter": "Pip"}]}


def change(over: int | None = None, minutes: int = 0) -> Change:
    return Change(author="Coach", at=START + timedelta(minutes=minutes), note="why", over=over)


def hang(store: Store, text: str, over: int | None = None, day: str = DAY) -> int:
    gym = load_gym(store).id
    written = (ASKED, {"groups": [text]})
    return put_up(store, gym, day, written, change(over), version=1).number


def test_the_last_one_of_a_day_holds_and_all_are_kept(store: Store) -> None:
    put(store)
    gym = load_gym(store).id
    assert plan_of_day(store, gym, DAY) is None
    assert plan_stamp(store, gym, DAY) == 0
    assert hang(store, "first") == 1
    assert hang(store, "other day", day="2026-11-26") == 2
    assert hang(store, "second", over=1) == 3
    up = plan_of_day(store, gym, DAY)
    assert up is not None
    assert (up.number, up.plan, up.asked, up.by, up.at) == (
        3,
        {"groups": ["second"]},
        ASKED,
        "Coach",
        START,
    )
    assert [one.number for one in list_plans(store, gym, DAY)] == [1, 3]
    assert find_plan(store, gym, 1).plan == {"groups": ["first"]}
    assert plan_stamp(store, gym, DAY) == 3


def test_taken_down_it_is_kept_and_another_may_go_up(store: Store) -> None:
    put(store)
    gym = load_gym(store).id
    hang(store, "first")
    gone = take_down(store, gym, DAY, change(over=1))
    assert gone.gone
    assert plan_of_day(store, gym, DAY) is None
    with pytest.raises(NotInStockError, match="No plan is up"):
        take_down(store, gym, DAY, change(over=2))
    assert hang(store, "again") == 3


def test_nobodys_plan_is_put_over_unseen(store: Store) -> None:
    put(store)
    gym = load_gym(store).id
    hang(store, "first")
    for over in (None, 7):
        with pytest.raises(StaleError, match="changed meanwhile"):
            hang(store, "second", over=over)
    with pytest.raises(StaleError):
        take_down(store, gym, DAY, change(over=9))
    assert len(list_plans(store, gym, DAY)) == 1
    with pytest.raises(NotInStockError, match="no such plan"):
        find_plan(store, gym, 5)
