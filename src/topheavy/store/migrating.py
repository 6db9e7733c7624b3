"""Bringing the tables of a store up to this release, each time in one transaction."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

from sqlalchemy import inspect, text

from topheavy.store.problems import StoreError

if TYPE_CHECKING:
    from alembic.config import Config
    from sqlalchemy import Connection

    from topheavy.store.opening import Store

NEWEST: Final = "0005"
"""The revision that this release works with; a test holds it to the migrations."""

_VERSIONS: Final = "alembic_version"
_LOCK: Final = 0x746F70  # any number, the same for all who upgrade one server


def upgrade(store: Store) -> None:
    """Make the tables, or bring them up to date; one at a time when several start at once.

    Raises
    ------
    StoreError
        A store of a later release, or a database of something else.
    """
    with store.reading() as connection:
        if _revision(connection, store.where) == NEWEST:
            return
    with store.writing() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _LOCK})
        if _revision(connection, store.where) != NEWEST:
            _run(connection)


def _revision(connection: Connection, where: str) -> str | None:
    """What the store is at; None for an empty one."""
    tables = inspect(connection).get_table_names()
    if _VERSIONS not in tables:
        if tables:
            raise StoreError(
                "The database is of something else",
                field=where,
                got=f"tables {', '.join(sorted(tables)[:3])}, ...",
                wanted="an empty database, or a store of this program",
            )
        return None
    found = connection.execute(text(f"SELECT version_num FROM {_VERSIONS}")).scalar()  # noqa: S608
    if found is not None and str(found) not in _known():
        raise StoreError(
            "The store is of a later release",
            field=where,
            got=f"tables {found}",
            wanted=f"tables {NEWEST} or earlier; or a newer topheavy",
        )
    return None if found is None else str(found)


@cache
def _known() -> frozenset[str]:
    folder = Path(__file__).parent / "migrations" / "versions"
    return frozenset(path.name[:4] for path in folder.glob("[0-9]*.py"))


def config(connection: Connection) -> Config:
    """Alembic's settings, for one connection."""
    from alembic.config import Config  # noqa: PLC0415 - slow to load, and seldom needed

    found = Config()
    found.set_main_option("script_location", "topheavy:store/migrations")
    found.attributes["connection"] = connection
    return found


def _run(connection: Connection) -> None:
    from alembic import command  # noqa: PLC0415 - slow to load, and seldom needed

    command.upgrade(config(connection), NEWEST)
