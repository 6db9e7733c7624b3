"""Stores to test with: SQLite, and PostgreSQL where a server is there; fresh for every test."""

from __future__ import annotations

import itertools
import os
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import create_engine, make_url, text

from topheavy.store.opening import Store, open_store, opened

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

POSTGRES = "TOPHEAVY_TEST_POSTGRES"
LEFT_OUT = f"no PostgreSQL server: {POSTGRES} says where one is; bash .ci/postgres starts one"

_NUMBERS = itertools.count()


def server() -> str:
    """Address of the PostgreSQL server for tests; without one they are left out, but not in CI."""
    address = os.environ.get(POSTGRES, "")
    if not address:
        if os.environ.get("CI"):
            pytest.fail(LEFT_OUT)
        pytest.skip(LEFT_OUT)
    return address


def _admin(address: str, *statements: str) -> None:
    engine = create_engine(
        make_url(address).set(drivername="postgresql+psycopg"), isolation_level="AUTOCOMMIT"
    )
    with engine.connect() as connection:
        for statement in statements:
            connection.execute(text(statement))
    engine.dispose()


@pytest.fixture(scope="session")
def template() -> Iterator[tuple[str, str]]:
    """Server and name of a database that was migrated once; fresh ones are copies of it."""
    address = server()
    name = f"topheavy_{os.getpid()}"
    _admin(address, f"CREATE DATABASE {name}")
    with opened(_of(address, name)):
        pass
    yield address, name
    _admin(address, f"DROP DATABASE {name} WITH (FORCE)")


def _of(address: str, database: str) -> str:
    return make_url(address).set(database=database).render_as_string(hide_password=False)


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Address of an empty store, in turn of each kind."""
    if request.param == "sqlite":
        yield str(tmp_path / "store.sqlite")
        return
    where, source = request.getfixturevalue("template")
    name = f"{source}_{next(_NUMBERS)}"
    _admin(where, f"CREATE DATABASE {name} TEMPLATE {source}")
    yield _of(where, name)
    _admin(where, f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def store(address: str) -> Iterator[Store]:
    """An empty store."""
    with closing(open_store(address)) as found:
        yield found
