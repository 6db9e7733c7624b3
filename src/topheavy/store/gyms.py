"""Gyms in the store: every change a new version, with author and time; nothing overwritten."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import select
from sqlalchemy.dialects import postgresql, sqlite

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gymfile.read import gym_of_tables
from topheavy.store.gym_rows import Row, rows_of, tables_of
from topheavy.store.problems import StaleError
from topheavy.store.tables import GYM, GYM_VERSION, THINGS

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from sqlalchemy import Connection, Table

    from topheavy.gym.gym import Gym
    from topheavy.store.opening import Store

_SAME = ("place", "written", "columns")


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """A version of a gym: its number from 1, who made it, when, and why or where from."""

    gym: str
    number: int
    at: datetime
    author: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GymName:
    """A gym in the store: its number and its name."""

    id: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredGym:
    """A gym out of the store.

    Parameters
    ----------
    id : int
        Its number in the store.
    version : Version
        Which version it is.
    tables : dict
        As a gym file has them.
    gym : Gym
        Made of them.
    """

    id: int
    version: Version
    tables: dict[str, Any]
    gym: Gym


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """What saving did: the version that stands now, and how many rows it took."""

    version: Version
    rows: int

    @property
    def changed(self) -> bool:
        """Whether there was anything new."""
        return self.rows > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """Who changes a gym, when, why, and which version was the last they had seen.

    Parameters
    ----------
    author, note : str
        Who, and why or where from.
    at : datetime
        When, with its zone.
    over : int or None
        The version that the change was made from; None for a gym that is not there yet.
    """

    author: str
    at: datetime
    note: str = ""
    over: int | None = None


def save_gym(store: Store, tables: Mapping[str, Any], gym: Gym, change: Change) -> Saved:
    """Save a gym: as its first version, or as the next.

    Parameters
    ----------
    store : Store
        Where.
    tables : mapping
        As parsed from its file.
    gym : Gym
        Made of the same tables.
    change : Change
        Who, when and over which version.

    Raises
    ------
    StaleError
        The gym has moved on since that version; nothing is changed then.
    """
    with store.writing() as connection:
        gym_id = _made(connection, gym.name, change)
        last = _versions(connection, gym_id)[-1:]
        standing = _standing(connection, gym_id)
        rows = _changed(standing, rows_of(tables, gym))
        head_same = bool(last) and _head(connection, gym_id, last[0].number) == tables["gym"]
        if last and head_same and not rows and change.over in {None, last[0].number}:
            return Saved(version=last[0], rows=0)
        _check_over(gym.name, last[0] if last else None, change.over)
        number = last[0].number + 1 if last else 1
        version = Version(
            gym=gym.name, number=number, at=change.at, author=change.author, note=change.note
        )
        connection.execute(
            GYM_VERSION.insert(),
            {
                "gym_id": gym_id,
                "number": number,
                "at": change.at,
                "author": change.author,
                "note": change.note,
                "units": gym.units,
                "written": dict(tables["gym"]),
            },
        )
        for kind, values in _values(rows, gym_id, number).items():
            connection.execute(THINGS[kind].insert(), values)
        return Saved(version=version, rows=len(rows) + (not head_same))


def load_gym(store: Store, name: str = "", version: int | None = None) -> StoredGym:
    """Fetch a gym, as it stands or as it stood.

    Parameters
    ----------
    store : Store
        Where from.
    name : str
        Upper and lower case alike; empty for the only one there is.
    version : int, optional
        Which version; the last when left out.

    Raises
    ------
    NotInStockError
        No such gym or version, or several and none named.
    """
    with store.reading() as connection:
        gym_id, _ = find_gym(connection, name)
        versions = _versions(connection, gym_id)
        chosen = versions[-1] if version is None else None
        for one in versions:
            chosen = one if one.number == version else chosen
        if chosen is None:
            raise NotInStockError(
                "No such version of the gym",
                field="version",
                got=version,
                wanted=f"1 to {versions[-1].number}",
            )
        rows = list(_standing(connection, gym_id, chosen.number).values())
        head = _head(connection, gym_id, chosen.number)
    tables = tables_of(head, rows)
    gym = gym_of_tables(tables, f"version {chosen.number} in the store")
    return StoredGym(id=gym_id, version=chosen, tables=tables, gym=gym)


def history(store: Store, name: str = "") -> list[Version]:
    """List the versions of a gym, the first one first; of every gym when none is named."""
    with store.reading() as connection:
        if name:
            return _versions(connection, find_gym(connection, name)[0])
        ids = connection.execute(select(GYM.c.id).order_by(GYM.c.key)).scalars()
        return [version for one in list(ids) for version in _versions(connection, one)]


def newest_version(store: Store, gym_id: int) -> Version | None:
    """Say which version of a gym stands; None when there is none."""
    with store.reading() as connection:
        found = _versions(connection, gym_id, only_last=True)
    return found[-1] if found else None


def list_gyms(store: Store) -> list[GymName]:
    """List the gyms of a store by name."""
    with store.reading() as connection:
        found = connection.execute(select(GYM.c.id, GYM.c.name).order_by(GYM.c.key))
        return [GymName(id=int(row.id), name=str(row.name)) for row in found]


def find_gym(connection: Connection, name: str) -> tuple[int, str]:
    """Find a gym's number and name; raises as `load_gym`."""
    gyms = connection.execute(select(GYM.c.id, GYM.c.name, GYM.c.key).order_by(GYM.c.key)).all()
    found = [(int(row.id), str(row.name)) for row in gyms if not name or row.key == _key(name)]
    if len(found) == 1:
        return found[0]
    names = ", ".join(repr(row.name) for row in gyms)
    if not gyms:
        raise NotInStockError(
            "There is no gym in the store", field="gym", wanted="topheavy gym load FILE first"
        )
    raise NotInStockError(
        "No such gym in the store" if name else "There are several gyms in the store",
        field="gym",
        got=repr(name) if name else None,
        wanted=f"one of {names}",
    )


def insert_new(connection: Connection, table: Table) -> Any:
    """An insert that passes over rows which are there already."""
    dialect = postgresql if connection.dialect.name == "postgresql" else sqlite
    return dialect.insert(table).on_conflict_do_nothing()


def lock_gym(connection: Connection, gym_id: int) -> None:
    """Let one writer at a time work on a gym; SQLite's writers queue anyway."""
    connection.execute(select(GYM.c.id).where(GYM.c.id == gym_id).with_for_update())


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()


def _made(connection: Connection, name: str, change: Change) -> int:
    """The gym's number; a new gym is made."""
    values = {"name": name, "key": _key(name), "made_at": change.at}
    connection.execute(insert_new(connection, GYM), values)
    gym_id = connection.execute(select(GYM.c.id).where(GYM.c.key == _key(name))).scalar_one()
    lock_gym(connection, gym_id)
    return int(gym_id)


def _versions(connection: Connection, gym_id: int, *, only_last: bool = False) -> list[Version]:
    asked = (
        select(GYM_VERSION, GYM.c.name)
        .join(GYM, GYM.c.id == GYM_VERSION.c.gym_id)
        .where(GYM_VERSION.c.gym_id == gym_id)
    )
    number = GYM_VERSION.c.number
    ordered = asked.order_by(number.desc()).limit(1) if only_last else asked.order_by(number)
    found = connection.execute(ordered)
    return [
        Version(gym=row.name, number=row.number, at=row.at, author=row.author, note=row.note)
        for row in found
    ]


def _head(connection: Connection, gym_id: int, version: int) -> dict[str, Any]:
    at = (GYM_VERSION.c.gym_id == gym_id) & (GYM_VERSION.c.number == version)
    return dict(connection.execute(select(GYM_VERSION.c.written).where(at)).scalar_one())


def _standing(
    connection: Connection, gym_id: int, version: int | None = None
) -> dict[tuple[str, str], Row]:
    """The rows that hold at a version, by kind and key."""
    found: dict[tuple[str, str], Row] = {}
    for kind, table in THINGS.items():
        wanted = table.c.gym_id == gym_id
        if version is not None:
            wanted &= table.c.version <= version
        for row in connection.execute(select(table).where(wanted).order_by(table.c.version)):
            values = row._asdict()
            key, place = values.pop("key"), values.pop("place")
            written, gone = values.pop("written"), values.pop("gone")
            del values["gym_id"], values["version"]
            if gone:
                found.pop((kind, key), None)
            else:
                found[kind, key] = Row(kind, key, place, written, values)
    return found


def _changed(standing: Mapping[tuple[str, str], Row], rows: list[Row]) -> list[tuple[Row, bool]]:
    """Rows that are new or other than those that stand, and those that are gone."""
    wanted = {(row.kind, row.key): row for row in rows}
    found = [
        (row, False)
        for at, row in wanted.items()
        if at not in standing or _other(row, standing[at])
    ]
    return found + [(row, True) for at, row in standing.items() if at not in wanted]


def _other(row: Row, standing: Row) -> bool:
    return any(getattr(row, name) != getattr(standing, name) for name in _SAME)


def _values(
    rows: list[tuple[Row, bool]], gym_id: int, version: int
) -> dict[str, list[dict[str, Any]]]:
    found: dict[str, list[dict[str, Any]]] = {}
    for row, gone in rows:
        values = {
            "gym_id": gym_id,
            "key": row.key,
            "version": version,
            "gone": gone,
            "place": row.place,
            "written": row.written,
            **row.columns,
        }
        found.setdefault(row.kind, []).append(values)
    return found


def _check_over(name: str, last: Version | None, over: int | None) -> None:
    """Refuse a change made from another version than the one that stands."""
    if last is None and over is not None:
        raise BadInputError(
            "The gym is not in the store yet", field="over", got=over, wanted="no version"
        )
    if last is not None and over != last.number:
        what = f"version {over}" if over is not None else "a file, over no version"
        raise StaleError(
            f"{name} is in the store already"
            if over is None
            else f"{name} was changed since version {over}",
            field="over",
            got=what,
            wanted=f"{last.number}, the version by {last.author} of {last.at:%Y-%m-%d %H:%M} UTC, "
            "once you have looked at it (topheavy gym save)",
        )
