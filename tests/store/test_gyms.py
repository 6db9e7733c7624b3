"""Gyms in the store: back unchanged, every version kept, nobody's change lost."""

from __future__ import annotations

import copy
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import func, select, text

from tests.store.samples import DEMO, NAME, START, put
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gymfile import demo_gym, gym_text, parse_gym
from topheavy.store.account_tables import ACCOUNTS
from topheavy.store.gyms import history, load_gym
from topheavy.store.problems import StaleError, StoreError
from topheavy.store.tables import TABLES, THINGS

if TYPE_CHECKING:
    from topheavy.store.opening import Store


def changed(**head: str) -> dict[str, Any]:
    tables = copy.deepcopy(DEMO)
    tables["gym"] |= head
    return tables


def test_the_demo_gym_comes_back_unchanged(store: Store) -> None:
    put(store)
    found = load_gym(store, NAME.upper())
    assert found.gym == demo_gym()
    assert found.tables == DEMO
    assert parse_gym(gym_text(found.tables)) == demo_gym()


def test_rows_can_be_asked_for(store: Store) -> None:
    put(store)
    piece, lift = THINGS["piece"], THINGS["lift"]
    with store.reading() as connection:
        a1 = connection.execute(select(piece).where(piece.c.key == "a1")).one()
        runa = connection.execute(select(lift).where(lift.c.key == "runa/squat")).one()
        counts = {
            kind: connection.execute(select(func.count()).select_from(table)).scalar()
            for kind, table in THINGS.items()
        }
    assert (a1.tag, a1.links, a1.mass_kg, a1.weighed, a1.batch) == ("A1", 32, 9.52, True, "a1")
    assert (runa.bottom_m, runa.top_m, runa.best_kg) == (0.92, 1.57, 175.0)
    assert counts == {
        "chain": 5, "piece": 19, "feeder": 3, "connector": 3, "bar": 2, "collar": 1, "plate": 8,
        "band": 7, "station": 4, "lifter": 4, "lift": 15, "record": 2, "inspection": 1,
        "weighing": 0,
    }  # fmt: skip


def test_the_same_again_is_no_new_version(store: Store) -> None:
    put(store)
    assert not put(store).changed
    assert not put(store, over=1).changed
    assert [one.number for one in history(store, NAME)] == [1]


def test_only_what_changes_gets_new_rows(store: Store) -> None:
    put(store)
    tables = copy.deepcopy(DEMO)
    tables["connector"][0]["count"] = 6
    del tables["bar"][1]
    saved = put(store, tables, over=1, author="Pip", minutes=5)
    assert (saved.version.number, saved.version.author, saved.rows) == (2, "Pip", 2)
    now, then = load_gym(store), load_gym(store, version=1)
    assert now.tables == tables
    assert then.tables == DEMO
    assert now.version.at > then.version.at == START


def test_what_went_may_come_back(store: Store) -> None:
    put(store)
    fewer = copy.deepcopy(DEMO)
    del fewer["lifter"][1]
    put(store, fewer, over=1)
    put(store, DEMO, over=2)
    assert load_gym(store).tables == DEMO
    assert load_gym(store, version=2).tables == fewer


def test_a_stale_change_is_refused_and_nothing_is_changed(store: Store) -> None:
    put(store)
    put(store, changed(units="lb"), over=1, author="Pip")
    with pytest.raises(StaleError, match="changed since version 1") as told:
        put(store, changed(scale_reading="50 g"), over=1)
    assert "Pip" in str(told.value.wanted)
    assert load_gym(store).tables == changed(units="lb")


def test_a_gym_that_is_there_wants_the_version_it_changes(store: Store) -> None:
    put(store)
    with pytest.raises(StaleError, match="in the store already"):
        put(store, changed(units="lb"))
    with pytest.raises(BadInputError, match="not in the store yet"):
        put(store, {"gym": {"name": "Another"}}, over=1)
    assert [one.gym for one in history(store)] == [NAME]


def test_of_many_who_write_at_once_one_wins_and_the_others_are_told(store: Store) -> None:
    put(store)

    def write(number: int) -> str:
        try:
            put(store, changed(scale_reading=f"{number + 1} g"), over=1, author=f"w{number}")
        except StaleError:
            return "stale"
        return f"w{number}"

    with ThreadPoolExecutor(8) as pool:
        ends = list(pool.map(write, range(8)))
    assert ends.count("stale") == 7
    assert [one.author for one in history(store)] == [
        "Coach",
        next(e for e in ends if e != "stale"),
    ]


def test_gyms_are_found_by_name(store: Store) -> None:
    with pytest.raises(NotInStockError, match="no gym in the store"):
        load_gym(store)
    put(store, {"gym": {"name": "One"}})
    assert load_gym(store).gym.name == "One"
    put(store, {"gym": {"name": "Two"}})
    with pytest.raises(NotInStockError, match="several"):
        load_gym(store)
    with pytest.raises(NotInStockError, match="No such gym") as told:
        load_gym(store, "Three")
    assert "'One', 'Two'" in str(told.value.wanted)
    with pytest.raises(NotInStockError, match="No such version"):
        load_gym(store, "two", 2)


def test_the_database_itself_refuses_to_change_a_row(store: Store) -> None:
    put(store)
    for table in [one for one in TABLES if one not in ACCOUNTS]:
        for words in (f"UPDATE {table.name} SET gym_id = 0", f"DELETE FROM {table.name}"):  # noqa: S608
            statement = words.replace("gym_id", "id") if table.name == "gym" else words
            if store.engine.dialect.name == "sqlite":
                with store.reading() as connection:
                    if not connection.execute(select(func.count()).select_from(table)).scalar():
                        continue  # its triggers go by row
            with pytest.raises(StoreError, match="never changed"), store.writing() as connection:
                connection.execute(text(statement))
    assert load_gym(store).tables == DEMO
