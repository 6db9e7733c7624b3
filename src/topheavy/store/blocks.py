"""Planned blocks of weeks: the last one holds, none is ever changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from topheavy.errors import NotInStockError
from topheavy.store.block_tables import BLOCK_PLAN
from topheavy.store.gyms import lock_gym
from topheavy.store.problems import StaleError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from sqlalchemy import Connection

    from topheavy.store.gyms import Change
    from topheavy.store.opening import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredBlock:
    """A block as it was written down.

    Parameters
    ----------
    number : int
        From 1 in a gym.
    at, by, note : datetime, str, str
        When, who, and what was changed.
    gone : bool
        Whether it was put away: then no block is planned.
    written : dict
        The tables of a plan file.
    """

    number: int
    at: datetime
    by: str
    note: str
    gone: bool
    written: dict[str, Any]


def save_block(
    store: Store, gym_id: int, written: Mapping[str, Any], change: Change, *, gone: bool = False
) -> StoredBlock:
    """Write a block down as the one that holds from now on.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    written : mapping
        The tables of a plan file, checked.
    change : Change
        Who, when and what; `over` is the number of the block that was changed, None for none.
    gone : bool
        Whether it is put away.

    Raises
    ------
    StaleError
        Somebody else has changed the block meanwhile; nothing is written then.
    """
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        last = _last(connection, gym_id)
        if (last.number if last else None) != change.over:
            raise _stale(last, change.over)
        values: dict[str, Any] = {
            "number": last.number + 1 if last else 1,
            "at": change.at,
            "by": change.author,
            "note": change.note,
            "gone": gone,
            "written": dict(written),
        }
        connection.execute(BLOCK_PLAN.insert(), {"gym_id": gym_id, **values})
    return StoredBlock(**values)


def last_block(store: Store, gym_id: int) -> StoredBlock | None:
    """Fetch the block that was written last, put away or not; None when there never was one."""
    with store.reading() as connection:
        return _last(connection, gym_id)


def find_block(store: Store, gym_id: int, number: int) -> StoredBlock:
    """Fetch any block by its number.

    Raises
    ------
    NotInStockError
        No such block.
    """
    asked = select(BLOCK_PLAN).where(BLOCK_PLAN.c.gym_id == gym_id, BLOCK_PLAN.c.number == number)
    with store.reading() as connection:
        row = connection.execute(asked).first()
    if row is None:
        raise NotInStockError("There is no such block", field="block", got=number)
    return _stored(row)


def _last(connection: Connection, gym_id: int) -> StoredBlock | None:
    row = connection.execute(
        select(BLOCK_PLAN)
        .where(BLOCK_PLAN.c.gym_id == gym_id)
        .order_by(BLOCK_PLAN.c.number.desc())
        .limit(1)
    ).first()
    return None if row is None else _stored(row)


def _stored(row: Any) -> StoredBlock:
    values = row._asdict()
    return StoredBlock(**{name: values[name] for name in StoredBlock.__slots__})


def _stale(last: StoredBlock | None, over: int | None) -> StaleError:
    stands = "no block" if last is None else f"version {last.number}, by {last.by}"
    return StaleError(
        "The weeks were changed meanwhile",
        field="block",
        got="no block" if over is None else f"version {over}",
        wanted=f"{stands}, which holds now; look at it, and change it anew",
    )
