"""The log of sets in the store: rows are added, sent again without doubling, and never changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING, Any, Final

from sqlalchemy import and_, func, or_, select

from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.gym.log import LoggedSet, same_set
from topheavy.services.logged import HARD_LEFT, WINDOW_DAYS
from topheavy.store.gyms import lock_gym
from topheavy.store.problems import StaleError
from topheavy.store.set_rows import COLUMNS, inserting, row_of_set, set_of_row, values_of_set
from topheavy.store.tables import LOG_SET

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import datetime

    from sqlalchemy import ColumnElement, Connection, Select

    from topheavy.store.opening import Store

AT_ONCE: Final = 5_000
"""How many sets go to the database in one piece."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """What adding sets did: how many are new, and how many were there already, word for word."""

    new: int
    known: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A set in the log, in which order it came in, when, and whether a later one stands for it."""

    logged: LoggedSet
    entry: int
    at: datetime
    corrected: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which sets to list; what is left out does not matter.

    Parameters
    ----------
    lifter, lift, session : str
        By their names as the log has them.
    since, until : str
        First and last day.
    most : int or None
        No more than the last so many.
    everything : bool
        True: those that were corrected or struck out as well.
    after : int
        Only those that came in after this entry.
    """

    lifter: str = ""
    lift: str = ""
    session: str = ""
    since: str = ""
    until: str = ""
    most: int | None = None
    everything: bool = False
    after: int = 0


def add_sets(
    store: Store,
    gym_id: int,
    sets: Iterable[LoggedSet],
    *,
    at: datetime,
    done: Callable[[int], object] | None = None,
) -> Added:
    """Add sets to the log of a gym: all of them or, when one is refused, none.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    sets : iterable of LoggedSet
        Checked, with the names that the gym knows.
    at : datetime
        When they came in, with its zone.
    done : callable, optional
        Told how many were dealt with, now and then.

    Raises
    ------
    StaleError
        A correction of a set that somebody else has corrected already.
    BadInputError
        An id that stands for another set already.
    NotInStockError
        A correction of a set that is not there.
    """
    new = known = 0
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        entry = _last_entry(connection, gym_id)
        own = {"gym_id": gym_id, "at": at}
        statement, row = inserting(LOG_SET, connection.dialect, own)
        source = iter(sets)
        while batch := list(islice(source, AT_ONCE)):
            fresh = _fresh(connection, gym_id, batch)
            _check_corrections(connection, gym_id, fresh)
            if fresh:
                rows = [row(number, one) for number, one in enumerate(fresh, entry + 1)]
                connection.exec_driver_sql(statement, rows)
                entry += len(fresh)
            new, known = new + len(fresh), known + len(batch) - len(fresh)
            if done is not None:
                done(new + known)
    return Added(new=new, known=known)


def list_sets(store: Store, gym_id: int, wanted: Wanted | None = None) -> Iterator[Entry]:
    """List sets of a gym, by day, time and order of arrival; everything as it came in.

    Parameters
    ----------
    store : Store
        Where from.
    gym_id : int
        Of which gym.
    wanted : Wanted, optional
        Which; all that hold when left out.
    """
    wanted = wanted or Wanted()
    later = LOG_SET.alias("later")
    corrected = (
        select(later.c.id)
        .where(later.c.gym_id == LOG_SET.c.gym_id, later.c.corrects == LOG_SET.c.id)
        .exists()
    )
    asked = select(LOG_SET, corrected.label("corrected")).where(*_conditions(gym_id, wanted))
    if not wanted.everything:
        asked = asked.where(~corrected, LOG_SET.c.struck.is_(False))
    with store.reading() as connection:
        part_by_part = connection.execution_options(yield_per=2_000)
        # Closed also when whoever listens has heard enough: a server keeps a cursor till then.
        with part_by_part.execute(_in_order(asked, wanted)) as rows:
            for row in rows:
                values = row._asdict()
                yield Entry(
                    logged=set_of_row(values),
                    entry=values["entry"],
                    at=values["at"],
                    corrected=bool(values["corrected"]),
                )


def telling_sets(store: Store, gym_id: int, today: str) -> list[LoggedSet]:
    """Fetch the sets that may tell of strength today: recent, and hard, single or missed."""
    first = _days_before(today, WINDOW_DAYS)
    hard = or_(LOG_SET.c.missed, LOG_SET.c.reps_left <= HARD_LEFT, LOG_SET.c.reps == 1)
    later = LOG_SET.alias("later")
    asked = select(LOG_SET).where(
        LOG_SET.c.gym_id == gym_id,
        LOG_SET.c.day >= first,
        LOG_SET.c.day <= today,
        LOG_SET.c.struck.is_(False),
        hard,
        ~select(later.c.id)
        .where(later.c.gym_id == LOG_SET.c.gym_id, later.c.corrects == LOG_SET.c.id)
        .exists(),
    )
    with store.reading() as connection:
        found = connection.execute(asked.order_by(LOG_SET.c.entry))
        return [set_of_row(row._asdict()) for row in found]


def find_set(store: Store, gym_id: int, beginning: str) -> Entry:
    """Find a set by its id, or by the beginning of it when that is enough.

    Raises
    ------
    NotInStockError
        No such set, or several.
    """
    start = beginning.strip().lower()
    with store.reading() as connection:
        same = and_(LOG_SET.c.gym_id == gym_id, LOG_SET.c.id.startswith(start, autoescape=True))
        rows = connection.execute(select(LOG_SET).where(same).limit(2)).all()
        if len(rows) != 1 or not start:
            raise NotInStockError(
                "Several sets begin like that" if rows and start else "No such set in the log",
                field="set",
                got=repr(beginning),
                wanted="the id of one set, or its beginning: topheavy log list shows them",
            )
        values = rows[0]._asdict()
        mine = and_(LOG_SET.c.gym_id == gym_id, LOG_SET.c.corrects == values["id"])
        later = connection.execute(select(LOG_SET.c.id).where(mine)).first()
    return Entry(
        logged=set_of_row(values),
        entry=values["entry"],
        at=values["at"],
        corrected=later is not None,
    )


def _conditions(gym_id: int, wanted: Wanted) -> list[ColumnElement[bool]]:
    found = [LOG_SET.c.gym_id == gym_id]
    named = [(name, getattr(wanted, name)) for name in ("lifter", "lift", "session")]
    found += [LOG_SET.c[name] == value for name, value in named if value]
    if wanted.since:
        found.append(LOG_SET.c.day >= wanted.since)
    if wanted.until:
        found.append(LOG_SET.c.day <= wanted.until)
    if wanted.after:
        found.append(LOG_SET.c.entry > wanted.after)
    return found


def _in_order(asked: Select[Any], wanted: Wanted) -> Select[Any]:
    by_day = [] if wanted.everything else [LOG_SET.c.day, LOG_SET.c.time]
    order = [*by_day, LOG_SET.c.entry]  # everything: a set stands before its correction
    if wanted.most is None:
        return asked.order_by(*order)
    last = asked.order_by(*(one.desc() for one in order)).limit(wanted.most).subquery()
    return select(last).order_by(*(last.c[one.name] for one in order))


def _fresh(connection: Connection, gym_id: int, batch: Sequence[LoggedSet]) -> list[LoggedSet]:
    """Those of a batch that are not in the log yet; one sent twice in it counts once."""
    by_id: dict[str, LoggedSet] = {}
    for one in batch:
        _check_same(by_id.setdefault(one.id, one), one)
    mine = and_(LOG_SET.c.gym_id == gym_id, LOG_SET.c.id.in_(by_id))
    there = select(*(LOG_SET.c[name] for name in COLUMNS)).where(mine)
    for row in connection.execute(there):
        sent = by_id.pop(row[0])
        if row[_SAID] != values_of_set(sent)[_SAID]:
            raise _taken(sent)
    return list(by_id.values())


def _check_same(there: LoggedSet, sent: LoggedSet) -> None:
    if not same_set(there, sent):
        raise _taken(sent)


def _taken(sent: LoggedSet) -> BadInputError:
    return BadInputError(
        "This id stands for another set already",
        field="id",
        got=sent.id,
        wanted="an id of its own for each set; to change a set, correct it",
    )


_SAID: Final = slice(2, None)
"""All columns of a set's values but its id and who logged it."""


def _check_corrections(connection: Connection, gym_id: int, fresh: Sequence[LoggedSet]) -> None:
    corrects = {one.corrects: one for one in fresh if one.corrects}
    if not corrects:
        return
    mine = LOG_SET.c.gym_id == gym_id
    there = set(
        connection.execute(select(LOG_SET.c.id).where(mine, LOG_SET.c.id.in_(corrects))).scalars()
    ) | {one.id for one in fresh}
    for old in corrects:
        if old not in there:
            raise NotInStockError(
                "There is no such set to correct", field="corrects", got=old, wanted="its id"
            )
    if len(corrects) < sum(bool(one.corrects) for one in fresh):
        raise StaleError(
            "The same set is corrected twice", field="corrects", wanted="one correction of each"
        )
    taken = connection.execute(select(LOG_SET).where(mine, LOG_SET.c.corrects.in_(corrects)))
    for row in taken:
        raise StaleError(
            "Somebody has corrected this set already",
            field="corrects",
            got=row.corrects,
            wanted=f"the set that stands now, {row.id}, by {row.by or 'somebody'}, "
            f"{row.at:%Y-%m-%d %H:%M} UTC",
        )


def _days_before(day: str, days: int) -> str:
    return (date.fromisoformat(day) - timedelta(days=days)).isoformat()


def count_sets(store: Store, gym_id: int) -> int:
    """Count the sets of a gym, corrected and struck out ones too."""
    with store.reading() as connection:
        asked = select(func.count()).select_from(LOG_SET).where(LOG_SET.c.gym_id == gym_id)
        return int(connection.execute(asked).scalar_one())


def count_known(store: Store, gym_id: int, sets: Iterable[LoggedSet]) -> int:
    """Count those of some sets that are in the log already; raises as `add_sets` for ids."""
    known, source = 0, iter(sets)
    with store.reading() as connection:
        while batch := list(islice(source, AT_ONCE)):
            known += len(batch) - len(_fresh(connection, gym_id, batch))
    return known


FindSet = Callable[[str], LoggedSet]
"""Finds a set of the gym by its whole id; raises when there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one set: new, known already, or refused and why."""

    new: bool = False
    error: TopheavyError | None = None


def add_each(
    store: Store, gym_id: int, makes: Sequence[Callable[[FindSet], LoggedSet]], *, at: datetime
) -> list[Outcome]:
    """Add sets to the log one by one in one transaction: what is refused leaves the others in.

    Parameters
    ----------
    store : Store
        Where.
    gym_id : int
        Of which gym.
    makes : sequence of callable
        Each makes a set, with a finder for those that are in the log by then; what it raises is
        a refusal of this set alone.
    at : datetime
        When they came in, with its zone.

    Returns
    -------
    list of Outcome
        One for each, in the same order.
    """
    found: list[Outcome] = []
    with store.writing() as connection:
        lock_gym(connection, gym_id)
        entry = _last_entry(connection, gym_id)
        finder = partial(_set_there, connection, gym_id)
        for make in makes:
            try:
                one = make(finder)
                fresh = _fresh(connection, gym_id, [one])
                _check_corrections(connection, gym_id, fresh)
            except TopheavyError as error:
                found.append(Outcome(error=error))
                continue
            if fresh:
                entry += 1
                row = {**row_of_set(one), "gym_id": gym_id, "entry": entry, "at": at}
                connection.execute(LOG_SET.insert(), row)
            found.append(Outcome(new=bool(fresh)))
    return found


def _last_entry(connection: Connection, gym_id: int) -> int:
    last = select(func.max(LOG_SET.c.entry)).where(LOG_SET.c.gym_id == gym_id)
    return int(connection.execute(last).scalar() or 0)


def _set_there(connection: Connection, gym_id: int, set_id: str) -> LoggedSet:
    asked = select(LOG_SET).where(LOG_SET.c.gym_id == gym_id, LOG_SET.c.id == set_id)
    row = connection.execute(asked).first()
    if row is None:
        raise NotInStockError(
            "There is no such set to correct", field="corrects", got=set_id[:60], wanted="its id"
        )
    return set_of_row(row._asdict())
