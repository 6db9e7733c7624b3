"""Whatever gym can be read comes back out of the store the same, however it changed on the way."""

from __future__ import annotations

import copy
import tomllib
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.properties.test_gym_file_fuzz import RAW, as_toml, mutate, mutations
from tests.store.samples import put
from topheavy.errors import TopheavyError
from topheavy.gymfile import gym_of_tables, gym_text, parse_gym
from topheavy.store.gyms import load_gym
from topheavy.store.opening import open_store

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.store.opening import Store

Changes = list[tuple[tuple[str | int, ...], str, Any, str]]


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """One store for all: a gym goes through as many versions as there are examples."""
    found = open_store(str(tmp_path_factory.mktemp("laws") / "store.sqlite"))
    yield found
    found.close()


def readable(changes: Changes) -> dict[str, Any] | None:
    """The demo gym with changes, as its tables; None when no gym can be read from it."""
    raw = copy.deepcopy(RAW)
    for spot, how, value, key in changes:
        mutate(raw, spot, how, value, key)
    try:
        parse_gym(as_toml(raw))
    except TopheavyError:
        return None
    return tomllib.loads(as_toml(raw))


@given(mutations)
@settings(max_examples=100)
def test_a_gym_that_can_be_read_can_be_written(changes: Changes) -> None:
    tables = readable(changes)
    if tables is not None:
        assert tomllib.loads(gym_text(tables)) == tables


@given(mutations)
@settings(max_examples=60)
def test_a_gym_comes_back_the_same_over_any_other_version(store: Store, changes: Changes) -> None:
    tables = readable(changes)
    if tables is None:
        return
    name = str(tables["gym"]["name"])
    try:
        over = load_gym(store, name).version.number
    except TopheavyError:
        over = None
    put(store, tables, over=over)
    found = load_gym(store, name)
    gym = gym_of_tables(tables, "test")
    assert found.gym == gym
    assert parse_gym(gym_text(found.tables)) == gym


@given(st.text(max_size=30))
@settings(max_examples=50)
def test_any_text_that_toml_takes_is_written_so_that_it_reads_the_same(text: str) -> None:
    tables = {"gym": {"name": text}}
    assert tomllib.loads(gym_text(tables)) == tables
