"""Accounts in the store: who may come in, as what, and what was done to them."""

from __future__ import annotations

import secrets
import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from sqlalchemy import delete, func, select, text, update

from topheavy.errors import BadInputError, NotInStockError
from topheavy.store.account_tables import (
    ACCOUNT,
    ACCOUNT_CHANGE,
    ACCOUNT_INVITE,
    SERVER_SECRET,
    SIGN_IN,
)
from topheavy.store.gyms import insert_new

if TYPE_CHECKING:
    from datetime import datetime

    from sqlalchemy import Connection, Row

    from topheavy.store.opening import Store

MOST_NAME: Final = 60
_LOCK: Final = 0x646F6F72  # any number, the same for all who change accounts on one server

Role = Literal["coach", "lifter"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """Who may sign in.

    Parameters
    ----------
    id : int
        Its number.
    name : str
        What is typed to sign in, upper and lower case alike.
    role : str
        ``"coach"`` or ``"lifter"``.
    gym_id : int or None
        The gym it is of; None for a coach of every gym in the store.
    lifter : str
        Name of the lifter it is, as the gym has it; empty for a coach.
    units : str
        ``"kg"`` or ``"lb"``; empty: the gym's own.
    passphrase : str
        Its argon2id hash; empty while none was chosen.
    made_at : datetime
        When it was made.
    """

    id: int
    name: str
    role: Role
    gym_id: int | None
    lifter: str
    units: str
    passphrase: str
    made_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class NewAccount:
    """An account to be made; fields as in `Account`."""

    name: str
    role: Role = "coach"
    gym_id: int | None = None
    lifter: str = ""
    units: str = ""
    passphrase: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """What was done to an account: when, by whom, to which, and what, in words."""

    at: datetime
    by: str
    name: str
    what: str


def key_of(name: str) -> str:
    """Write a name as it is compared.

    >>> key_of("  Runa  B."), key_of("RUNA b.")
    ('runa b.', 'runa b.')
    """
    return " ".join(unicodedata.normalize("NFKC", name).split()).casefold()


def server_secret(store: Store) -> str:
    """Fetch what cookies are signed with; drawn when it is first asked for."""
    asked = select(SERVER_SECRET.c.value)
    with store.reading() as connection:
        found = connection.execute(asked).scalar()
    if found is None:
        with store.writing() as connection:
            row = {"id": 1, "value": secrets.token_urlsafe(32)}
            connection.execute(insert_new(connection, SERVER_SECRET), row)
            found = connection.execute(asked).scalar_one()
    return str(found)


def add_account(store: Store, new: NewAccount, *, by: str, at: datetime) -> Account:
    """Make an account.

    Parameters
    ----------
    store : Store
        Where.
    new : NewAccount
        Who; a lifter's account names its lifter and its gym.
    by : str
        Who makes it.
    at : datetime
        When, with its zone.

    Raises
    ------
    BadInputError
        No name, one that is taken, or a lifter's account without lifter or gym.
    """
    name = " ".join(new.name.split())
    if not name or len(name) > MOST_NAME or not name.isprintable():
        raise BadInputError(
            "Not a name",
            field="name",
            got=repr(new.name[:MOST_NAME]),
            wanted=f"1 to {MOST_NAME} characters",
        )
    if (new.role == "lifter") != bool(new.lifter) or (new.role == "lifter" and new.gym_id is None):
        raise BadInputError(
            "A lifter's account is of one lifter in one gym; a coach's of no lifter",
            field="lifter",
            got=repr(new.lifter),
            wanted="lifter and gym for a lifter, neither lifter for a coach",
        )
    with store.writing() as connection:
        alone(connection, _LOCK)
        if _by_key(connection, name) is not None:
            raise BadInputError(
                "There is an account of that name already",
                field="name",
                got=repr(name),
                wanted="another name",
            )
        values = {
            "name": name, "key": key_of(name), "role": new.role, "gym_id": new.gym_id,
            "lifter": new.lifter, "units": new.units, "passphrase": new.passphrase, "made_at": at,
        }  # fmt: skip
        connection.execute(ACCOUNT.insert(), values)
        made = _found(connection, name)
        note(connection, made, f"made, {made.role}", by=by, at=at)
        return made


def list_accounts(store: Store, gym_id: int | None = None) -> list[Account]:
    """List accounts by name; those of one gym when it is given."""
    asked = select(ACCOUNT).order_by(ACCOUNT.c.key)
    if gym_id is not None:
        asked = asked.where(ACCOUNT.c.gym_id == gym_id)
    with store.reading() as connection:
        return [account_of(row) for row in connection.execute(asked)]


def any_account(store: Store) -> bool:
    """Say whether there is an account at all."""
    with store.reading() as connection:
        return connection.execute(select(ACCOUNT.c.id).limit(1)).first() is not None


def find_account(store: Store, name: str) -> Account:
    """Find an account by its name.

    Raises
    ------
    NotInStockError
        There is none of that name.
    """
    with store.reading() as connection:
        return _found(connection, name)


def set_passphrase(
    store: Store, account: Account, hashed: str, *, what: str, by: str, at: datetime
) -> None:
    """Give an account another passphrase; its sign-ins and links end with the old one.

    Parameters
    ----------
    store : Store
        Where.
    account : Account
        Whose.
    hashed : str
        The argon2id hash of the new one; empty: none, until a link is used.
    what : str
        What was done, in words.
    by, at : str, datetime
        Who and when.
    """
    with store.writing() as connection:
        alone(connection, _LOCK)
        put_passphrase(connection, account, hashed)
        note(connection, account, what, by=by, at=at)


def put_passphrase(connection: Connection, account: Account, hashed: str) -> None:
    """Change a passphrase within a transaction; raises as `set_passphrase`."""
    done = connection.execute(
        update(ACCOUNT).where(ACCOUNT.c.id == account.id).values(passphrase=hashed)
    )
    if done.rowcount != 1:
        raise _unknown(account.name)
    forget(connection, account.id)


def rehash(store: Store, account: Account, hashed: str) -> None:
    """Keep a stronger hash of the same passphrase, if it still is the one that was checked."""
    same = (ACCOUNT.c.id == account.id) & (ACCOUNT.c.passphrase == account.passphrase)
    with store.writing() as connection:
        connection.execute(update(ACCOUNT).where(same).values(passphrase=hashed))


def set_units(store: Store, account_id: int, units: str) -> None:
    """Remember what an account wants to see: kg, lb, or empty for the gym's own."""
    with store.writing() as connection:
        connection.execute(update(ACCOUNT).where(ACCOUNT.c.id == account_id).values(units=units))


def remove_account(store: Store, account: Account, *, by: str, at: datetime) -> None:
    """Remove an account, with its sign-ins and links.

    Raises
    ------
    BadInputError
        It is the last coach's while there are others: nobody could let anyone in again.
    NotInStockError
        It is gone already.
    """
    with store.writing() as connection:
        alone(connection, _LOCK)
        others = ACCOUNT.c.id != account.id
        left = connection.execute(select(func.count()).where(others).select_from(ACCOUNT)).scalar()
        lead = others & (ACCOUNT.c.role == "coach") & ACCOUNT.c.gym_id.is_(None)
        leads = connection.execute(select(func.count()).where(lead).select_from(ACCOUNT)).scalar()
        if left and not leads:
            raise BadInputError(
                "The last coach of all gyms stays while there are other accounts",
                field="name",
                got=repr(account.name),
                wanted="another coach of all gyms first",
            )
        forget(connection, account.id)
        gone = connection.execute(delete(ACCOUNT).where(ACCOUNT.c.id == account.id))
        if gone.rowcount != 1:
            raise _unknown(account.name)
        note(connection, account, "removed", by=by, at=at)


def deeds(store: Store, most: int = 200) -> list[Deed]:
    """List what was last done to accounts, the newest first."""
    asked = select(ACCOUNT_CHANGE).order_by(ACCOUNT_CHANGE.c.id.desc()).limit(most)
    with store.reading() as connection:
        return [
            Deed(at=row.at, by=row.by, name=row.name, what=row.what)
            for row in connection.execute(asked)
        ]


def forget(connection: Connection, account_id: int) -> None:
    """End every sign-in and every link of an account."""
    connection.execute(delete(SIGN_IN).where(SIGN_IN.c.account_id == account_id))
    connection.execute(delete(ACCOUNT_INVITE).where(ACCOUNT_INVITE.c.account_id == account_id))


def note(connection: Connection, account: Account, what: str, *, by: str, at: datetime) -> None:
    """Write down what was done to an account."""
    row = {"at": at, "by": by, "account_id": account.id, "name": account.name, "what": what}
    connection.execute(ACCOUNT_CHANGE.insert(), row)


def alone(connection: Connection, key: int) -> None:
    """Let one at a time go on, until the transaction ends; SQLite's writers queue anyway."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": key})


def account_of(row: Row[Any]) -> Account:
    """Make an account of its row."""
    values = row._asdict()
    return Account(**{name: values[name] for name in Account.__dataclass_fields__})


def _by_key(connection: Connection, name: str) -> Account | None:
    row = connection.execute(select(ACCOUNT).where(ACCOUNT.c.key == key_of(name))).first()
    return None if row is None else account_of(row)


def _found(connection: Connection, name: str) -> Account:
    account = _by_key(connection, name)
    if account is None:
        raise _unknown(name)
    return account


def _unknown(name: str) -> NotInStockError:
    return NotInStockError(
        "There is no account of that name", field="name", got=repr(name), wanted="one that is there"
    )
