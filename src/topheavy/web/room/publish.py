"""The plan that is up: fetched, put up with everybody's work, taken down."""

from __future__ import annotations

import threading
import uuid
from collections import OrderedDict
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Final

from topheavy.room.giving import works_of
from topheavy.room.pace import GRAIN_S
from topheavy.roomfile.read import room_of_tables
from topheavy.roomfile.whole import plan_read, plan_written
from topheavy.store.gyms import Change, load_gym
from topheavy.store.rooms import find_plan, plan_of_day, put_up, take_down
from topheavy.store.work import publish_work, todays_work
from topheavy.web.desk import now

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.room.ask import Room
    from topheavy.room.plan import Plan
    from topheavy.store.rooms import PutUp
    from topheavy.training.work import Work
    from topheavy.web.desk import Desk
    from topheavy.web.room.jobs import Job

_DAY_S: Final = 24 * 3600
_LONG_AFTER_S: Final = 6 * 3600
_KEPT: Final = 16

_read: OrderedDict[tuple[str, int, int], Plan] = OrderedDict()
_lock = threading.Lock()


def new_id() -> str:
    """Make an id for a lifter's work."""
    return str(uuid.uuid4())


def plan_up(desk: Desk, day: str) -> tuple[PutUp, Plan] | None:
    """Fetch the plan that is up for a day; None when there is none."""
    up = plan_of_day(desk.store, desk.gym_id, day)
    return None if up is None else (up, plan_in(desk, up))


def plan_in(desk: Desk, up: PutUp) -> Plan:
    """Read a plan as it was put up, with the gym as it stood then.

    Raises
    ------
    RoomFileError, NotInStockError
        It can't be read any more.
    """
    key = (desk.store.where, desk.gym_id, up.number)
    with _lock:
        if key in _read:
            return _read[key]
    gym = load_gym(desk.store, desk.name, up.version).gym
    plan = plan_read(up.plan, room_of_tables(up.asked, gym, f"plan {up.number}"))
    with _lock:
        _read[key] = plan
        while len(_read) > _KEPT:
            _read.popitem(last=False)
    return plan


def put_up_job(desk: Desk, job: Job, plan: Plan, author: str) -> PutUp:
    """Put a plan up, and give everybody their work; lifts that are over keep theirs."""
    asked = job.asked
    note = "planned anew" if asked.former else "planned"
    change = Change(author=author, at=now(), note=note, over=asked.over)
    works = job.works if job.works_of is plan else works_of(plan, asked.day, new_id)
    works = (*_over(desk, asked.day, asked.done), *works)
    written = (asked.tables, plan_written(plan))
    up = put_up(desk.store, desk.gym_id, asked.day, written, change, version=asked.version)
    _give(desk, works, change, asked.day)
    return up


def put_back(desk: Desk, number: int, over: int | None, day: str, author: str) -> PutUp:
    """Put a plan up again that was up before.

    Raises
    ------
    StaleError
        Another plan is up than the one that was meant.
    """
    old = find_plan(desk.store, desk.gym_id, number)
    change = Change(author=author, at=now(), note=f"plan {number} again", over=over)
    works = works_of(plan_in(desk, old), day, new_id)
    written = (old.asked, old.plan)
    up = put_up(desk.store, desk.gym_id, day, written, change, version=old.version)
    _give(desk, works, change, day)
    return up


def take_it_down(desk: Desk, over: int, day: str, author: str) -> None:
    """Take the plan of a day down, and the work that came from it; what was logged stays."""
    change = Change(author=author, at=now(), note="taken down", over=over)
    take_down(desk.store, desk.gym_id, day, change)
    _give(desk, (), change, day)


def grain_now(room: Room, at: datetime | None = None) -> int:
    """Say how far a session is, in grains since it opened; below 0 before it opens.

    Parameters
    ----------
    room : Room
        The session; it may go on past midnight.
    at : datetime, optional
        The moment; now when left out.
    """
    here = (at or datetime.now(UTC)).astimezone()
    seconds = here.hour * 3600 + here.minute * 60 + here.second
    after_s = (seconds - room.opens_s) % _DAY_S
    if after_s > room.length * GRAIN_S + _LONG_AFTER_S:
        after_s -= _DAY_S
    return after_s // GRAIN_S


def _give(desk: Desk, works: Sequence[Work], change: Change, day: str) -> None:
    publish_work(desk.store, desk.gym_id, works, replace(change, over=None), day=day, source="room")


def _over(desk: Desk, day: str, done: frozenset[tuple[str, str]]) -> list[Work]:
    """The work of lifts that are over: it stays as it is."""
    keys = {(lifter.casefold(), lift.casefold()) for lifter, lift in done}
    return [
        one.work
        for one in todays_work(desk.store, desk.gym_id, day)
        if one.work.source == "room"
        and (one.work.lifter.casefold(), one.work.lift.casefold()) in keys
    ]
