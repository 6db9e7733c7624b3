"""What can go wrong with the store, in a coach's words."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from topheavy.errors import BadInputError, TopheavyError

if TYPE_CHECKING:
    from collections.abc import Iterator


class StoreError(TopheavyError):
    """The store can't be reached, opened, read or written."""


class StaleError(BadInputError):
    """Somebody else changed it in the meantime."""


@contextmanager
def told(where: str) -> Iterator[None]:
    """Tell what a database refused in plain words; `where` is the store's address."""
    try:
        yield
    except DBAPIError as error:
        words = str(error.orig).strip().splitlines() or ["no reason given"]
        raise StoreError(
            _plain(words[0]), field=where, got=words[0], wanted=_wanted(words[0])
        ) from error
    except SQLAlchemyError as error:
        raise StoreError("The store can't be used", field=where, got=str(error)) from error


def _plain(words: str) -> str:
    if "not a database" in words:
        return "The file is not a store"
    if "locked" in words:
        return "Somebody else is writing and did not finish in time"
    if "unable to open" in words or "readonly" in words or "read-only" in words:
        return "The store's file can't be opened for writing"
    if "disk" in words or "full" in words:
        return "The store's disk can't take it"
    if "append-only" in words:
        return "What is in the store is never changed"
    return "The store can't be reached or refused the work"


def _wanted(words: str) -> str:
    if "locked" in words:
        return "try again; nothing was changed"
    return "a file of this program's own, or the address of a PostgreSQL server that is running"
