"""A day that is kept and only added to is the day as the store has it."""

from __future__ import annotations

import random
import uuid
from typing import TYPE_CHECKING

from tests.store.samples import NAME
from tests.web.rack_store import stocked, work_for
from topheavy.gym.log import LoggedSet
from topheavy.store.gyms import Change, load_gym
from topheavy.store.opening import opened
from topheavy.store.sets import add_sets
from topheavy.store.work import give_work
from topheavy.web.desk import Shelf, now, today
from topheavy.web.rack.today import read_today

if TYPE_CHECKING:
    from pathlib import Path

YESTERDAY = "2026-01-01"


def a_set(rng: random.Random, old: LoggedSet | None) -> LoggedSet:
    """A new set, or one that stands for an old one: on another day, or struck out."""
    lifter = rng.choice(["Osric", "Pip"])
    return LoggedSet(
        id=str(uuid.uuid4()),
        lifter=old.lifter if old else lifter,
        lift="bench press",
        day=rng.choice([today(), today(), YESTERDAY]),
        time=rng.choice(["", "18:05", "09:30"]),
        straight_kg=60.0,
        reps=rng.randint(1, 9),
        corrects=old.id if old else "",
        struck=bool(old) and rng.random() < 0.3,
    )


def test_it_is_the_same_whatever_came_in(tmp_path: Path) -> None:
    rng = random.Random(7)  # noqa: S311  (not for secrets)
    with opened(str(tmp_path / "store.sqlite")) as store:
        gym_id = stocked(store, work_for("Osric"))
        name = next(one for one in Shelf(store).gyms() if one.id == gym_id)
        kept = Shelf(store).desk(name)
        standing: list[LoggedSet] = []
        for turn in range(40):
            old = standing.pop(rng.randrange(len(standing))) if standing and turn % 3 == 2 else None
            one = a_set(rng, old)
            add_sets(store, gym_id, [one], at=now())
            if not one.struck:
                standing.append(one)
            if turn == 20:
                give_work(store, gym_id, work_for("Pip"), Change(author="coach", at=now()))
            if rng.random() < 0.6:
                assert read_today(kept) == read_today(Shelf(store).desk(name))
        mine = {one.id for one in standing if one.day == today()}
        assert {one.id for one in read_today(kept).sets} == mine
        assert len(read_today(kept).works) == 2
        assert load_gym(store, NAME).id == gym_id
