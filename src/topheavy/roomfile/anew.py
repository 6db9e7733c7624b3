"""What is asked of a room, changed while the day goes on: late, broken, locked, under way."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

from topheavy.errors import BadInputError, NotInStockError
from topheavy.room.pace import GRAIN_S
from topheavy.room.plan import key_of

if TYPE_CHECKING:
    from collections.abc import Collection

    from topheavy.room.ask import Room
    from topheavy.room.plan import Group, Plan

Tables = dict[str, Any]
Key = tuple[str, str]
"""A lift of a lifter, by both names."""

_DAY_S = 24 * 3600


def clock_s(room: Room, grain: int) -> str:
    """Say a time of a plan as a room file has it, to the quarter minute.

    >>> from topheavy.roomfile import demo_room
    >>> clock_s(demo_room(), 21), clock_s(demo_room(), 20)
    ('18:05:15', '18:05')
    """
    seconds = (room.opens_s + grain * GRAIN_S) % _DAY_S
    hours, minutes, rest = seconds // 3600, seconds // 60 % 60, seconds % 60
    return f"{hours:02d}:{minutes:02d}" + (f":{rest:02d}" if rest else "")


def come_late(tables: Tables, lifter: str, at: str) -> Tables:
    """Let a lifter begin no lift before a time of day, `at`, such as ``"18:40"``.

    Raises
    ------
    NotInStockError
        Nobody of that name lifts.
    """
    found = _copied(tables)
    own = [one for one in found["session"] if _same(one.get("lifter"), lifter)]
    if not own:
        raise NotInStockError(
            "Nobody of that name lifts in this plan", field="lifter", got=repr(lifter)
        )
    for session in own:
        session["arrive"] = at
    return found


def without(tables: Tables, tag: str) -> Tables:
    """Take a chain piece or band out of use for the day."""
    found = _copied(tables)
    broken = [one for one in found["room"].get("broken", []) if not _same(one, tag)]
    found["room"]["broken"] = [*broken, tag]
    return found


def locked(tables: Tables, plan: Plan, keys: Collection[Key]) -> Tables:
    """Lock lifts to station and start as they are in a plan, and free all others.

    Parameters
    ----------
    tables : dict
        Of the room file.
    plan : Plan
        Where they are.
    keys : collection of (str, str)
        Lifter and lift.
    """
    found = _copied(tables)
    for session, group in _placed(found, plan):
        if _key(session) in {(a.casefold(), b.casefold()) for a, b in keys}:
            session["station"] = group.station
            session["start"] = clock_s(plan.room, group.starts)
    return found


def under_way(tables: Tables, plan: Plan, now: int) -> tuple[Tables, frozenset[Key]]:
    """Leave out what is done, keep what has begun, let the rest begin once chain can be hung.

    A group whose chain or band is broken now begins anew, if it has not done.

    Parameters
    ----------
    tables : dict
        Of the room file, as it shall be planned anew.
    plan : Plan
        The plan so far.
    now : int
        Grains since the room opened.

    Returns
    -------
    tables, done : dict, frozenset of (str, str)
        And the lifts that were left out, by lifter and lift.

    Raises
    ------
    BadInputError
        Everyone has done.
    """
    found = _copied(tables)
    broken = {str(tag).casefold() for tag in found["room"].get("broken", [])}
    kept, done = [], set()
    soonest = clock_s(plan.room, now + 1 + plan.room.pace.rig_grains)
    where = {id(session): group for session, group in _placed(found, plan)}
    for session in found["session"]:
        group = where.get(id(session))
        if group is not None and group.ends <= now:
            done.add(_key_of(session))
            continue
        kept.append(session)
        if group is not None and group.begins < now and not _hit(group, broken):
            session["station"] = group.station
            session["start"] = clock_s(plan.room, group.starts)
        elif now > 0:
            session.pop("start", None)
            session["arrive"] = _later(session.get("arrive"), soonest, plan.room)
    if not kept:
        raise BadInputError(
            "Everyone has done: there is nothing left to plan", field="session", wanted="a new plan"
        )
    found["session"] = kept
    return found, frozenset(done)


def _hit(group: Group, broken: Collection[str]) -> bool:
    return any(tag.casefold() in broken for tag in (*group.tags, *group.hung.band_tags))


def _later(one: object, other: str, room: Room) -> str:
    """The later of two times of day in a session that may go on past midnight."""

    def after(text: str) -> int:
        parts = [*map(int, text.split(":")), 0]
        return (parts[0] * 3600 + parts[1] * 60 + parts[2] - room.opens_s) % _DAY_S

    return other if not isinstance(one, str) or after(one) < after(other) else one


def _placed(tables: Tables, plan: Plan) -> list[tuple[dict[str, Any], Group]]:
    """Sessions that a plan has, with their groups."""
    groups = {
        tuple(name.casefold() for name in key_of(booking)): plan.of(number)
        for number, booking in enumerate(plan.room.bookings)
    }
    return [(one, groups[_key(one)]) for one in tables["session"] if _key(one) in groups]


def _key_of(session: dict[str, Any]) -> Key:
    return str(session.get("lifter", "")), str(session.get("lift", ""))


def _key(session: dict[str, Any]) -> Key:
    lifter, lift = _key_of(session)
    return lifter.casefold(), lift.casefold()


def _same(one: object, other: str) -> bool:
    return str(one).casefold() == other.strip().casefold()


def _copied(tables: Tables) -> Tables:
    return copy.deepcopy(tables)
