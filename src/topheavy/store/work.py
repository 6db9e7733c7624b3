"""Work of the day in the store: given out, replaced, taken away; nothing is ever changed."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from topheavy.errors import BadInputError, NotInStockError
from topheavy.store.gyms import lock_gym
from topheavy.store.problems import StaleError
from topheavy.store.tables import LOG_SET
from topheavy.store.work_rows import decode_work, encode_work
from topheavy.store.work_tables import WORK

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import datetime

    from sqlalchemy import ColumnElement, Connection

    from topheavy.store.gyms import Change
    from topheavy.store.opening import Store
    from topheavy.training.work import Source, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenWork:
    """Work that was given out.

    Parameters
    ----------
    work : Work
        What.
    entry : int
        In which order it came in.
    at : datetime
        When.
    by : str
        Who gave it.
    replaces : str
        Id of the work that it stands for; empty when there was none.
    """

    work: Work
    entry: int
    at: datetime
    by: str
    replaces: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Publishing:
    """What publishing did: works that are new or changed, that are as they were, that are gone."""

    given: int
    same: int
    gone: int


def give_work(store: Store, gym_id: int, work: Work, change: Change, *, replaces: str = "") -> bool:
    """Give a lifter work for a day.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    work : Work
        What, with an id of its own.
    change : Change
        Who gives it, and when.
    replaces : str
        Id of the work that this one stands for from now on.

    Returns
    -------
    bool
        False when the same was given already.

    Raises
    ------
    StaleError
        The lifter has work in this lift on this day already and none was named, or somebody else
        has replaced it or taken it away meanwhile.
    BadInputError
        The id stands for other work, or what it replaces is another day's.
    """
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        there = _row(connection, gym_id, work.id)
        if there is not None:
            if there["gone"] or decode_work(there["written"]) != work:
                raise BadInputError(
                    "This id stands for other work already",
                    field="id",
                    got=work.id,
                    wanted="an id of its own",
                )
            return False
        standing = [one for one in _standing(connection, gym_id, work.day) if _same(one, work)]
        if [one.work.id for one in standing] != ([replaces] if replaces else []):
            raise _stale(work, standing, replaces)
        _insert(connection, gym_id, [(work, replaces, False)], change)
    return True


def take_work(store: Store, gym_id: int, work_id: str, change: Change) -> None:
    """Take work away; what was logged of it stays.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    work_id : str
        Which.
    change : Change
        Who takes it away, and when.

    Raises
    ------
    NotInStockError
        No such work.
    StaleError
        It was replaced or taken away already.
    """
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        row = _row(connection, gym_id, work_id)
        if row is None or row["gone"]:
            raise _unknown(work_id)
        work = decode_work(row["written"])
        if work_id not in {one.work.id for one in _standing(connection, gym_id, work.day)}:
            raise _stale(work, [], work_id)
        _insert(connection, gym_id, [(work, work_id, True)], change)


def publish_work(
    store: Store,
    gym_id: int,
    works: Sequence[Work],
    change: Change,
    *,
    day: str,
    source: Source,
) -> Publishing:
    """Make a plan the work of a day: everybody's at once, or nobody's.

    Work of the same lifter and lift is replaced, wherever it came from; work of the same source
    that is no longer in the plan is taken away; work that says the same is left as it is.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    works : sequence of Work
        The plan, one for each lifter and lift.
    change : Change
        Who publishes it, and when.
    day : str
        Which day.
    source : {'coach', 'weeks', 'room'}
        Whose plan.

    Raises
    ------
    BadInputError
        Work of another day or source, or two of one lifter in one lift.
    """
    keys = {(one.lifter, one.lift) for one in works}
    if len(keys) < len(works) or any((one.day, one.source) != (day, source) for one in works):
        raise BadInputError(
            "A plan has one work for each lifter and lift, all of its day and source",
            field="works",
            wanted=f"work of {day}, made from {source}",
        )
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        standing = {(g.work.lifter, g.work.lift): g for g in _standing(connection, gym_id, day)}
        new: list[tuple[Work, str, bool]] = []
        for work in works:
            old = standing.get((work.lifter, work.lift))
            if old is None or not _says_same(old.work, work):
                new.append((work, old.work.id if old else "", False))
        gone = [
            (one.work, one.work.id, True)
            for key, one in standing.items()
            if key not in keys and one.work.source == source
        ]
        _insert(connection, gym_id, [*new, *gone], change)
    return Publishing(given=len(new), same=len(works) - len(new), gone=len(gone))


def todays_work(
    store: Store, gym_id: int, day: str, lifter: str = "", station: str = ""
) -> list[GivenWork]:
    """List the work that stands for a day, in the order it was first given.

    Parameters
    ----------
    store : Store
        Where from.
    gym_id : int
        Of which gym.
    day : str
        Which day.
    lifter, station : str
        Only of this one; of all when empty.
    """
    with store.reading() as connection:
        found = _standing(connection, gym_id, day, lifter)
    return [one for one in found if not station or one.work.station == station]


def work_to_come(store: Store, gym_id: int, day: str) -> list[GivenWork]:
    """List the work that stands for the days after a day, by day."""
    with store.reading() as connection:
        found = _standing(connection, gym_id, day, after=True)
    return sorted(found, key=lambda one: one.work.day)


def find_work(store: Store, gym_id: int, work_id: str) -> GivenWork:
    """Find work by its id, also when it was replaced since; raises when there is none."""
    with store.reading() as connection:
        row = _row(connection, gym_id, work_id)
    if row is None or row["gone"]:
        raise _unknown(work_id)
    return _given(row)


def day_stamp(store: Store, gym_id: int, day: str) -> tuple[int, int]:
    """Tell a day from how it stood before: newest work of the day, newest set of the log.

    Of any day, for a correction may bring a set to another one.

    Parameters
    ----------
    store : Store
        Where from.
    gym_id : int
        Of which gym.
    day : str
        Which day.
    """
    work = select(func.max(WORK.c.entry)).where(WORK.c.gym_id == gym_id, WORK.c.day == day)
    sets = select(func.max(LOG_SET.c.entry)).where(LOG_SET.c.gym_id == gym_id)
    with store.reading() as connection:
        found = [connection.execute(one).scalar() for one in (work, sets)]
    return int(found[0] or 0), int(found[1] or 0)


def _insert(
    connection: Connection,
    gym_id: int,
    rows: Iterable[tuple[Work, str, bool]],
    change: Change,
) -> None:
    last = connection.execute(
        select(func.max(WORK.c.entry)).where(WORK.c.gym_id == gym_id)
    ).scalar()
    values = [
        {
            "gym_id": gym_id,
            "id": str(uuid.uuid4()) if gone else work.id,
            "entry": entry,
            "at": change.at,
            "by": change.author,
            "day": work.day,
            "lifter": work.lifter,
            "lift": work.lift,
            "source": work.source,
            "replaces": replaces or None,
            "gone": gone,
            "written": {} if gone else encode_work(work),
        }
        for entry, (work, replaces, gone) in enumerate(rows, int(last or 0) + 1)
    ]
    if values:
        connection.execute(WORK.insert(), values)


def _standing(
    connection: Connection, gym_id: int, day: str, lifter: str = "", *, after: bool = False
) -> list[GivenWork]:
    later = WORK.alias("later")
    replaced = (
        select(later.c.id)
        .where(later.c.gym_id == WORK.c.gym_id, later.c.replaces == WORK.c.id)
        .exists()
    )
    days = WORK.c.day > day if after else WORK.c.day == day
    wanted: list[ColumnElement[bool]] = [WORK.c.gym_id == gym_id, days]
    if lifter:
        wanted.append(WORK.c.lifter == lifter)
    asked = select(WORK).where(*wanted, WORK.c.gone.is_(False), ~replaced).order_by(WORK.c.entry)
    return [_given(row._asdict()) for row in connection.execute(asked)]


def _row(connection: Connection, gym_id: int, work_id: str) -> dict[str, Any] | None:
    asked = select(WORK).where(WORK.c.gym_id == gym_id, WORK.c.id == work_id)
    row = connection.execute(asked).first()
    return None if row is None else dict(row._asdict())


def _given(row: Mapping[str, Any]) -> GivenWork:
    return GivenWork(
        work=decode_work(row["written"]),
        entry=row["entry"],
        at=row["at"],
        by=row["by"],
        replaces=row["replaces"] or "",
    )


def _same(one: GivenWork, work: Work) -> bool:
    return (one.work.lifter, one.work.lift) == (work.lifter, work.lift)


def _says_same(one: Work, other: Work) -> bool:
    return {**encode_work(one), "id": ""} == {**encode_work(other), "id": ""}


def _stale(work: Work, standing: Sequence[GivenWork], replaces: str) -> StaleError:
    if not standing:
        return StaleError(
            "Somebody has changed this work or taken it away meanwhile",
            field="work",
            got=replaces,
            wanted="the work that stands now",
        )
    one = standing[0]
    return StaleError(
        f"{work.lifter} has work in the {work.lift} on {work.day} already",
        field="work",
        got=f"to replace {replaces}" if replaces else "nothing to replace",
        wanted=f"to replace {one.work.id}, by {one.by or 'somebody'}, {one.at:%Y-%m-%d %H:%M} UTC",
    )


def _unknown(work_id: str) -> NotInStockError:
    return NotInStockError(
        "There is no such work of the day", field="work", got=repr(work_id[:60]), wanted="its id"
    )
