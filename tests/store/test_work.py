"""The work of the day in the store: given, replaced, taken away, published; nothing is changed."""

from __future__ import annotations

import uuid
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from tests.store.samples import NAME, START, a_set, put
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.records import HungThen
from topheavy.store.gyms import Change, load_gym
from topheavy.store.problems import StaleError, StoreError
from topheavy.store.sets import add_each, count_sets
from topheavy.store.work import (
    day_stamp,
    find_work,
    give_work,
    publish_work,
    take_work,
    todays_work,
)
from topheavy.training.on_bar import OnBar
from topheavy.training.work import Source, Step, Work

if TYPE_CHECKING:
    from topheavy.store.opening import Store

DAY = "2026-11-25"
COACH = Change(author="Coach", at=START)


def work(lifter: str = "Osric", *, plate_kg: float = 20.0, source: Source = "coach") -> Work:
    """One set on a bar with chain, with an id of its own."""
    hung = HungThen(left=("A1",), right=("A2",), style="straight")
    bar = OnBar(plates_kg=(plate_kg,), hung=hung)
    step = Step(number=1, kind="work set", bar=bar, straight_kg=25 + 2 * plate_kg, reps=3)
    return Work(
        id=str(uuid.uuid4()),
        day=DAY,
        lifter=lifter,
        lift="bench press",
        station="bench 1",
        kind="heavy",
        steps=(step,),
        source=source,
    )


@pytest.fixture
def gym(store: Store) -> int:
    """Number of the demo gym in the store."""
    put(store)
    return load_gym(store, NAME).id


def test_work_is_there_as_it_was_given(store: Store, gym: int) -> None:
    one = work()
    assert give_work(store, gym, one, COACH)
    found = todays_work(store, gym, DAY)
    assert [given.work for given in found] == [one]
    assert (found[0].by, found[0].at, found[0].entry) == ("Coach", START, 1)
    assert todays_work(store, gym, DAY, "Pip") == []
    assert todays_work(store, gym, "2026-11-26") == []
    assert find_work(store, gym, one.id).work == one


def test_sending_it_again_changes_nothing(store: Store, gym: int) -> None:
    one = work()
    assert give_work(store, gym, one, COACH)
    assert not give_work(store, gym, one, COACH)
    with pytest.raises(BadInputError, match="stands for other work"):
        give_work(store, gym, replace(work(plate_kg=10.0), id=one.id), COACH)


def test_nobody_replaces_what_they_have_not_seen(store: Store, gym: int) -> None:
    first, second, third = work(), work(plate_kg=25.0), work(plate_kg=15.0)
    give_work(store, gym, first, COACH)
    with pytest.raises(StaleError, match="has work in the bench press"):
        give_work(store, gym, second, COACH)
    give_work(store, gym, second, COACH, replaces=first.id)
    with pytest.raises(StaleError):
        give_work(store, gym, third, COACH, replaces=first.id)
    assert [given.work for given in todays_work(store, gym, DAY)] == [second]
    # Whoever lifts with the old one at hand, a phone without network, still finds it.
    assert find_work(store, gym, first.id).work == first


def test_taken_away_and_given_back(store: Store, gym: int) -> None:
    one = work()
    give_work(store, gym, one, COACH)
    take_work(store, gym, one.id, COACH)
    assert todays_work(store, gym, DAY) == []
    with pytest.raises(StaleError):
        take_work(store, gym, one.id, COACH)
    with pytest.raises(NotInStockError):
        take_work(store, gym, str(uuid.uuid4()), COACH)
    again = replace(one, id=str(uuid.uuid4()))
    give_work(store, gym, again, COACH)
    assert [given.work for given in todays_work(store, gym, DAY)] == [again]


def test_a_plan_is_published_whole(store: Store, gym: int) -> None:
    by_hand = work("Runa")
    give_work(store, gym, by_hand, COACH)
    plan = [work(name, source="room") for name in ("Osric", "Pip")]
    first = publish_work(store, gym, plan, COACH, day=DAY, source="room")
    assert (first.given, first.same, first.gone) == (2, 0, 0)
    same = [replace(plan[0], id=str(uuid.uuid4())), work("Runa", source="room")]
    again = publish_work(store, gym, same, COACH, day=DAY, source="room")
    # Osric's says the same, Runa's takes the place of what was given by hand, Pip's is gone.
    assert (again.given, again.same, again.gone) == (1, 1, 1)
    stands = {given.work.lifter: given.work.id for given in todays_work(store, gym, DAY)}
    assert stands == {"Osric": plan[0].id, "Runa": same[1].id}


def test_a_plan_is_of_one_day_and_source(store: Store, gym: int) -> None:
    for wrong in ([work()], [work(source="room"), work(source="room")]):
        with pytest.raises(BadInputError, match="one work for each"):
            publish_work(store, gym, wrong, COACH, day=DAY, source="room")
    assert todays_work(store, gym, DAY) == []


def test_a_day_tells_when_it_has_changed(store: Store, gym: int) -> None:
    seen = [day_stamp(store, gym, DAY)]
    give_work(store, gym, work(), COACH)
    seen.append(day_stamp(store, gym, DAY))
    add_each(store, gym, [lambda _: a_set(day=DAY)], at=START)
    seen.append(day_stamp(store, gym, DAY))
    # A correction may bring a set to another day, so a set of any day counts; work does not.
    add_each(store, gym, [lambda _: a_set(day="2026-11-24")], at=START)
    seen.append(day_stamp(store, gym, DAY))
    assert len(set(seen)) == 4
    give_work(store, gym, replace(work(), day="2026-11-24"), COACH)
    assert day_stamp(store, gym, DAY) == seen[-1]


def test_the_database_refuses_changes(store: Store, gym: int) -> None:
    give_work(store, gym, work(), COACH)
    with pytest.raises((DBAPIError, StoreError)), store.writing() as connection:
        connection.execute(text("UPDATE work SET lifter = 'Pip'"))


def test_each_set_is_answered_for_itself(store: Store, gym: int) -> None:
    one, two = a_set(), a_set(reps=5)

    def wrong(_: object) -> None:
        raise BadInputError("Nobody lifts that")

    makes = [
        lambda _: one,
        wrong,
        lambda _: two,
        lambda _: one,
        lambda find: replace(find(one.id), id=str(uuid.uuid4()), corrects=one.id, struck=True),
        lambda find: replace(find(one.id), id=str(uuid.uuid4()), corrects=one.id, struck=True),
    ]
    found = add_each(store, gym, makes, at=START + timedelta(hours=1))
    assert [outcome.new for outcome in found] == [True, False, True, False, True, False]
    errors = [type(outcome.error) for outcome in found]
    none = type(None)
    assert errors == [none, BadInputError, none, none, none, StaleError]
    assert count_sets(store, gym) == 3
