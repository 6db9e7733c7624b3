"""Plans of the room that were put up: the last one of a day holds, none is ever changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from topheavy.errors import NotInStockError
from topheavy.store.gyms import lock_gym
from topheavy.store.problems import StaleError
from topheavy.store.room_tables import ROOM_PLAN

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from sqlalchemy import Connection

    from topheavy.store.gyms import Change
    from topheavy.store.opening import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class PutUp:
    """A plan that was put up for a day, or taken down.

    Parameters
    ----------
    number : int
        From 1 in a gym.
    day : str
        Such as ``"2026-11-25"``.
    at, by, note : datetime, str, str
        When, who, and why.
    version : int
        Of the gym that it was made from.
    gone : bool
        Whether it was taken down: then there is no plan for the day.
    asked, plan : dict
        The tables of a room file, and the plan as it was written down.
    """

    number: int
    day: str
    at: datetime
    by: str
    note: str
    version: int
    gone: bool
    asked: dict[str, Any]
    plan: dict[str, Any]


def put_up(
    store: Store,
    gym_id: int,
    day: str,
    written: tuple[Mapping[str, Any], Mapping[str, Any]],
    change: Change,
    *,
    version: int,
) -> PutUp:
    """Put a plan up for a day.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    day : str
        Which day.
    written : (mapping, mapping)
        What was asked, as tables of a room file, and the plan.
    change : Change
        Who, when and why; `over` is the number of the plan that stood for the day when this one
        was made, None for none.
    version : int
        Of the gym that it was made from.

    Raises
    ------
    StaleError
        Somebody else has put up another plan for that day, or taken it down, meanwhile.
    """
    asked, plan = written
    return _added(store, gym_id, day, change, version, asked=dict(asked), plan=dict(plan))


def take_down(store: Store, gym_id: int, day: str, change: Change) -> PutUp:
    """Take the plan of a day down; it is kept.

    Raises
    ------
    NotInStockError
        No plan is up for that day.
    StaleError
        Another one is up than the one that was meant.
    """
    up = plan_of_day(store, gym_id, day)
    if up is None:
        raise NotInStockError("No plan is up for this day", field="day", got=day)
    return _added(store, gym_id, day, change, up.version, asked=up.asked, plan=up.plan, gone=True)


def plan_of_day(store: Store, gym_id: int, day: str) -> PutUp | None:
    """Fetch the plan that is up for a day; None when there is none, or it was taken down."""
    with store.reading() as connection:
        last = _last(connection, gym_id, day)
    return None if last is None or last.gone else last


def find_plan(store: Store, gym_id: int, number: int) -> PutUp:
    """Fetch any plan by its number.

    Raises
    ------
    NotInStockError
        No such plan.
    """
    asked = select(ROOM_PLAN).where(ROOM_PLAN.c.gym_id == gym_id, ROOM_PLAN.c.number == number)
    with store.reading() as connection:
        row = connection.execute(asked).first()
    if row is None:
        raise NotInStockError("There is no such plan", field="plan", got=number)
    return _put_up(row)


def plan_stamp(store: Store, gym_id: int, day: str) -> int:
    """Tell the plan of a day from how it stood before: the number of its newest row, or 0."""
    with store.reading() as connection:
        found = connection.execute(
            select(func.max(ROOM_PLAN.c.number)).where(
                ROOM_PLAN.c.gym_id == gym_id, ROOM_PLAN.c.day == day
            )
        ).scalar()
    return int(found or 0)


def list_plans(store: Store, gym_id: int, day: str) -> list[PutUp]:
    """List everything that was put up or taken down for a day, the first one first."""
    with store.reading() as connection:
        rows = connection.execute(
            select(ROOM_PLAN)
            .where(ROOM_PLAN.c.gym_id == gym_id, ROOM_PLAN.c.day == day)
            .order_by(ROOM_PLAN.c.number)
        )
        return [_put_up(row) for row in rows]


def _added(
    store: Store,
    gym_id: int,
    day: str,
    change: Change,
    version: int,
    **written: Any,
) -> PutUp:
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        last = _last(connection, gym_id, day)
        standing = None if last is None or last.gone else last.number
        if standing != change.over:
            raise _stale(day, last, change.over)
        newest = connection.execute(
            select(func.max(ROOM_PLAN.c.number)).where(ROOM_PLAN.c.gym_id == gym_id)
        ).scalar()
        values = {
            "gym_id": gym_id,
            "number": int(newest or 0) + 1,
            "at": change.at,
            "by": change.author,
            "note": change.note,
            "day": day,
            "version": version,
            "gone": False,
            **written,
        }
        connection.execute(ROOM_PLAN.insert(), values)
    return PutUp(**{name: values[name] for name in PutUp.__slots__})


def _last(connection: Connection, gym_id: int, day: str) -> PutUp | None:
    row = connection.execute(
        select(ROOM_PLAN)
        .where(ROOM_PLAN.c.gym_id == gym_id, ROOM_PLAN.c.day == day)
        .order_by(ROOM_PLAN.c.number.desc())
        .limit(1)
    ).first()
    return None if row is None else _put_up(row)


def _put_up(row: Any) -> PutUp:
    values = row._asdict()
    return PutUp(**{name: values[name] for name in PutUp.__slots__})


def _stale(day: str, last: PutUp | None, over: int | None) -> StaleError:
    stands = "no plan" if last is None or last.gone else f"plan {last.number}, by {last.by}"
    return StaleError(
        f"The plan of {day} was changed meanwhile",
        field="plan",
        got="no plan" if over is None else f"plan {over}",
        wanted=f"{stands}, which is up now; look at it, and plan anew",
    )
