"""The log in the store: never doubled, corrected by new rows, safe against crashes."""

from __future__ import annotations

import subprocess
import sys
import uuid
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.store.samples import NAME, RIG, START, a_set, put
from topheavy.errors import BadInputError, NotInStockError
from topheavy.store.gyms import load_gym
from topheavy.store.opening import opened
from topheavy.store.problems import StaleError
from topheavy.store.sets import (
    Added,
    Wanted,
    add_sets,
    count_known,
    count_sets,
    find_set,
    list_sets,
    telling_sets,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.gym.log import LoggedSet
    from topheavy.store.opening import Store


@pytest.fixture
def gym_id(store: Store) -> int:
    put(store)
    return load_gym(store).id


def add(store: Store, gym_id: int, *sets: LoggedSet) -> Added:
    return add_sets(store, gym_id, sets, at=START)


def standing(store: Store, gym_id: int, wanted: Wanted | None = None) -> list[LoggedSet]:
    return [entry.logged for entry in list_sets(store, gym_id, wanted)]


FULL = a_set(
    station="bench 1", time="18:05", session="Tuesday", number=2, rig=RIG, straight_kg=85.0,
    reps=2, reps_left=0.5, speed_m_per_s=0.31, note="Grüße,\n\"quoted\"; 50 % = ½", by="Runa",
)  # fmt: skip


def test_a_set_comes_back_as_it_was(store: Store, gym_id: int) -> None:
    miss = a_set(reps=0, missed=True, third="middle", straight_kg=150.0)
    add(store, gym_id, FULL, miss)
    assert standing(store, gym_id) == [miss, FULL]  # one without a time stands first
    (entry,) = [one for one in list_sets(store, gym_id) if one.logged.id == FULL.id]
    assert (entry.entry, entry.at, entry.corrected) == (1, START, False)


def test_sending_again_never_doubles(store: Store, gym_id: int) -> None:
    assert add(store, gym_id, FULL) == Added(new=1, known=0)
    again = [FULL, replace(FULL, by="somebody else"), a_set()]
    assert count_known(store, gym_id, again) == 2
    assert add(store, gym_id, *again) == Added(new=1, known=2)
    assert count_sets(store, gym_id) == 2


def test_an_id_that_stands_for_another_set_is_refused_whole(store: Store, gym_id: int) -> None:
    add(store, gym_id, FULL)
    with pytest.raises(BadInputError, match="another set"):
        add(store, gym_id, a_set(), replace(FULL, reps=5))
    one = a_set()
    with pytest.raises(BadInputError, match="another set"):
        add(store, gym_id, one, replace(one, reps=5))
    assert standing(store, gym_id) == [FULL]


def test_a_correction_stands_for_the_old_set_which_stays(store: Store, gym_id: int) -> None:
    old = a_set()
    new = replace(old, id=str(uuid.uuid4()), reps=4, corrects=old.id)
    add(store, gym_id, old, new)
    assert standing(store, gym_id) == [new]
    everything = list(list_sets(store, gym_id, Wanted(everything=True)))
    assert [(one.logged, one.corrected) for one in everything] == [(old, True), (new, False)]
    assert find_set(store, gym_id, old.id[:13]).corrected
    gone = replace(new, id=str(uuid.uuid4()), corrects=new.id, struck=True)
    add(store, gym_id, gone)
    assert standing(store, gym_id) == []
    assert count_sets(store, gym_id) == 3


def test_two_corrections_of_one_set_the_second_is_told(store: Store, gym_id: int) -> None:
    old = a_set()
    first, second = (
        replace(old, id=str(uuid.uuid4()), corrects=old.id, reps=reps, by=who)
        for reps, who in ((4, "Runa"), (5, "Pip"))
    )
    add(store, gym_id, old, first)
    with pytest.raises(StaleError, match="corrected this set already") as told:
        add(store, gym_id, second)
    assert first.id in str(told.value.wanted)
    assert "Runa" in str(told.value.wanted)
    with pytest.raises(StaleError, match="twice"):
        add(
            store, gym_id, *(replace(second, id=str(uuid.uuid4()), corrects=first.id) for _ in "ab")
        )
    with pytest.raises(NotInStockError, match="no such set"):
        add(store, gym_id, replace(second, corrects=str(uuid.uuid4())))
    assert standing(store, gym_id) == [first]


def test_many_phones_at_once_lose_nothing(store: Store, gym_id: int) -> None:
    def send(sets: list[LoggedSet]) -> None:
        for one in sets:
            add(store, gym_id, one)
            add(store, gym_id, one)

    phones = [[a_set(number=number + 1) for number in range(10)] for _ in range(8)]
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(send, phones))
    sent = {one.id for phone in phones for one in phone}
    assert {one.id for one in standing(store, gym_id)} == sent
    entries = sorted(one.entry for one in list_sets(store, gym_id))
    assert entries == list(range(1, 81))


def test_sets_are_listed_by_what_is_wanted(store: Store, gym_id: int) -> None:
    sets = [
        a_set(day="2026-11-20", lift="squat"),
        a_set(day="2026-11-22", session="A"),
        a_set(day="2026-11-21", lifter="Pip"),
        a_set(day="2026-11-25"),
    ]
    add(store, gym_id, *sets)

    def days(**wanted: str | int) -> list[str]:
        return [one.day[-2:] for one in standing(store, gym_id, Wanted(**wanted))]  # type: ignore[arg-type]  # each call's own

    assert days() == ["20", "21", "22", "25"]
    assert days(lifter="Osric", lift="bench press") == ["22", "25"]
    assert days(since="2026-11-21", until="2026-11-22") == ["21", "22"]
    assert days(session="A") == ["22"]
    assert days(most=2) == ["22", "25"]


def test_what_tells_of_strength_is_recent_and_hard(store: Store, gym_id: int) -> None:
    hard = a_set(reps_left=1.0, day="2026-11-01")
    missed = a_set(reps=0, missed=True, third="top", day="2026-11-02")
    others = [a_set(reps_left=5.0), a_set(reps_left=0.0, day="2026-07-01"), a_set()]
    slip = a_set(reps_left=0.0)
    mended = replace(slip, id=str(uuid.uuid4()), reps_left=6.0, corrects=slip.id)
    add(store, gym_id, hard, missed, *others, slip, mended)
    assert telling_sets(store, gym_id, "2026-11-25") == [hard, missed]


def test_sets_of_one_gym_are_not_those_of_another(store: Store, gym_id: int) -> None:
    put(store, {"gym": {"name": "Another"}})
    other = load_gym(store, "Another").id
    add(store, gym_id, FULL)
    add(store, other, FULL)
    assert len(standing(store, other)) == len(standing(store, gym_id)) == 1


def test_a_set_that_can_not_be_stops_all_of_them(store: Store, gym_id: int) -> None:
    def broken() -> Iterable[LoggedSet]:
        yield from (a_set() for _ in range(5_001))
        raise ValueError

    with pytest.raises(ValueError):  # noqa: PT011 - our own, three lines up
        add_sets(store, gym_id, broken(), at=START)
    assert count_sets(store, gym_id) == 0


_WRITER = """
import sys, uuid
from tests.store.samples import START, a_set
from topheavy.store.gyms import load_gym
from topheavy.store.opening import opened
from topheavy.store.sets import add_sets
with opened(sys.argv[1]) as store:
    gym = load_gym(store).id
    while True:
        one = a_set(id=str(uuid.uuid4()))
        add_sets(store, gym, [one], at=START)
        print(one.id, flush=True)
"""


def test_a_kill_loses_no_set_that_was_acknowledged(address: str) -> None:
    """The writer says an id only when the set is in; it is killed in the middle of its work."""
    with opened(address) as store:
        put(store)
    writer = subprocess.Popen(
        [sys.executable, "-c", _WRITER, address],
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    assert writer.stdout is not None
    said = [writer.stdout.readline().strip() for _ in range(25)]
    writer.kill()
    said += [line for line in writer.stdout.read().splitlines() if len(line) == 36]
    writer.wait()
    writer.stdout.close()
    with opened(address) as store:
        there = {one.logged.id for one in list_sets(store, load_gym(store, NAME).id)}
    assert set(said) <= there
