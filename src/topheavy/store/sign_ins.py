"""Who is signed in, one-time links, and tries to sign in, as the store keeps them.

Cookies and links hold random tokens; the store keeps only what they hash to.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Final

from sqlalchemy import delete, func, select, update

from topheavy.errors import BadInputError
from topheavy.store.account_tables import ACCOUNT, ACCOUNT_INVITE, SIGN_IN, SIGN_IN_TRY
from topheavy.store.accounts import account_of, alone, note, put_passphrase

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from topheavy.store.accounts import Account
    from topheavy.store.opening import Store

LASTS: Final = timedelta(days=30)
"""How long a sign-in lasts at most: NIST SP 800-63B-4, section 2.1.3, asks for no more than 30 days
at the first level of assurance; figure and section from memory."""

IDLE: Final = timedelta(days=7)
"""After how long unused it ends: own judgement; a lifter trains at least once a week."""

INVITED: Final = timedelta(days=7)
"""How long a one-time link is good: own judgement."""

_SEEN_EVERY: Final = timedelta(minutes=10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """At most so many tries in so long, counted for a key."""

    key: str
    most: int
    within: timedelta


def begin_sign_in(store: Store, account: Account, hashed: str, at: datetime) -> None:
    """Sign in; `hashed` is what the new cookie's token hashes to."""
    row = {"token": hashed, "account_id": account.id, "made_at": at, "seen_at": at}
    with store.writing() as connection:
        connection.execute(delete(SIGN_IN).where(SIGN_IN.c.made_at < at - LASTS))
        connection.execute(SIGN_IN.insert(), row)


def signed_in(store: Store, hashed: str, at: datetime) -> Account | None:
    """Find who is signed in with a cookie; None when nobody is, or no longer."""
    asked = (
        select(ACCOUNT, SIGN_IN.c.seen_at)
        .join(SIGN_IN, SIGN_IN.c.account_id == ACCOUNT.c.id)
        .where(SIGN_IN.c.token == hashed)
        .where(SIGN_IN.c.made_at > at - LASTS, SIGN_IN.c.seen_at > at - IDLE)
    )
    with store.reading() as connection:
        row = connection.execute(asked).first()
    if row is None:
        return None
    if at - row.seen_at > _SEEN_EVERY:
        with store.writing() as connection:
            connection.execute(update(SIGN_IN).where(SIGN_IN.c.token == hashed).values(seen_at=at))
    return account_of(row)


def end_sign_in(store: Store, hashed: str) -> None:
    """Sign out of one browser."""
    with store.writing() as connection:
        connection.execute(delete(SIGN_IN).where(SIGN_IN.c.token == hashed))


def end_everywhere(store: Store, account: Account, *, by: str, at: datetime) -> int:
    """Sign an account out of every browser; return of how many."""
    with store.writing() as connection:
        gone = connection.execute(delete(SIGN_IN).where(SIGN_IN.c.account_id == account.id))
        note(connection, account, "signed out everywhere", by=by, at=at)
        return int(gone.rowcount)


def count_sign_ins(store: Store, at: datetime) -> dict[int, int]:
    """Count the browsers on which each account is signed in."""
    asked = (
        select(SIGN_IN.c.account_id, func.count())
        .where(SIGN_IN.c.made_at > at - LASTS, SIGN_IN.c.seen_at > at - IDLE)
        .group_by(SIGN_IN.c.account_id)
    )
    with store.reading() as connection:
        return {int(account): int(count) for account, count in connection.execute(asked)}


def invite(store: Store, account: Account, hashed: str, *, by: str, at: datetime) -> datetime:
    """Make a one-time link in place of those before; return until when it is good."""
    ends_at = at + INVITED
    with store.writing() as connection:
        mine = ACCOUNT_INVITE.c.account_id == account.id
        connection.execute(delete(ACCOUNT_INVITE).where(mine))
        row = {"token": hashed, "account_id": account.id, "ends_at": ends_at}
        connection.execute(ACCOUNT_INVITE.insert(), row)
        note(connection, account, "link made to choose a passphrase", by=by, at=at)
    return ends_at


def invited(store: Store, hashed: str, at: datetime) -> Account | None:
    """Find whom a link is for; None when it was used, replaced, or is too old."""
    asked = (
        select(ACCOUNT)
        .join(ACCOUNT_INVITE, ACCOUNT_INVITE.c.account_id == ACCOUNT.c.id)
        .where(ACCOUNT_INVITE.c.token == hashed, ACCOUNT_INVITE.c.ends_at > at)
    )
    with store.reading() as connection:
        row = connection.execute(asked).first()
    return None if row is None else account_of(row)


def accept(store: Store, account: Account, hashed: str, passphrase: str, at: datetime) -> None:
    """Use a link up and keep the passphrase that was chosen with it; once, whoever is first.

    Raises
    ------
    BadInputError
        Somebody has used it already, or it is too old.
    """
    with store.writing() as connection:
        good = (ACCOUNT_INVITE.c.token == hashed) & (ACCOUNT_INVITE.c.ends_at > at)
        if connection.execute(delete(ACCOUNT_INVITE).where(good)).rowcount != 1:
            raise BadInputError(
                "This link was used already, or is too old",
                field="link",
                wanted="a new one from the coach",
            )
        put_passphrase(connection, account, passphrase)
        note(connection, account, "passphrase chosen", by=account.name, at=at)


def begin_try(store: Store, limits: Sequence[Limit], at: datetime) -> int:
    """Count a try to sign in before it is made, so that many at once don't slip through.

    Parameters
    ----------
    store : Store
        Where tries are counted, for every process that serves it.
    limits : sequence of Limit
        All of them hold.
    at : datetime
        When.

    Returns
    -------
    int
        Nothing when it may be tried; else after how many seconds to come again [s].
    """
    longest = max(limit.within for limit in limits)
    with store.writing() as connection:
        for number in sorted(zlib.crc32(limit.key.encode()) for limit in limits):
            alone(connection, number)
        connection.execute(delete(SIGN_IN_TRY).where(SIGN_IN_TRY.c.at < at - longest))
        for limit in limits:
            counted = select(SIGN_IN_TRY.c.at).where(
                SIGN_IN_TRY.c.key == limit.key, SIGN_IN_TRY.c.at > at - limit.within
            )
            tries = sorted(connection.execute(counted).scalars())
            if len(tries) >= limit.most:
                free = tries[-limit.most] + limit.within - at
                return max(1, int(free.total_seconds()) + 1)
        rows = [{"key": limit.key, "at": at} for limit in limits]
        connection.execute(SIGN_IN_TRY.insert(), rows)
    return 0


def forget_tries(store: Store, keys: Sequence[str]) -> None:
    """Count from nothing again for these keys: the passphrase was right."""
    with store.writing() as connection:
        connection.execute(delete(SIGN_IN_TRY).where(SIGN_IN_TRY.c.key.in_(keys)))
