"""Signing in: counted, checked in a time that tells nothing, and begun with a fresh cookie."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, NotInStockError
from topheavy.store.accounts import find_account, key_of, rehash
from topheavy.store.sign_ins import (
    LASTS,
    Limit,
    begin_sign_in,
    begin_try,
    end_sign_in,
    forget_tries,
)
from topheavy.web.access.keys import hashed, new_token
from topheavy.web.access.passphrases import verify
from topheavy.web.access.refusals import too_often
from topheavy.web.desk import now

if TYPE_CHECKING:
    from topheavy.store.accounts import Account
    from topheavy.store.opening import Store
    from topheavy.web.access.visit import Visit

QUARTER: Final = timedelta(minutes=15)


def limits_for(name: str, address: str) -> tuple[Limit, ...]:
    """How often may be tried: for this account from here, from here, and for this account at all.

    NIST SP 800-63B-4, section 3.2.2, allows 100 tries in a row at most; these are own judgement
    below that; figure and section from memory. The last is wide, so that nobody locks a lifter out
    by trying the name elsewhere.
    """
    who = key_of(name)[:80]
    return (
        Limit(key=f"{address} {who}", most=5, within=QUARTER),
        Limit(key=f"from {address}", most=30, within=QUARTER),
        Limit(key=f"for {who}", most=50, within=timedelta(hours=1)),
    )


def sign_in(store: Store, visit: Visit, name: str, passphrase: str, address: str) -> Account:
    """Sign in, or raise.

    Raises
    ------
    RefusedError
        Tried too often (429).
    BadInputError
        No such account or another passphrase; which of them is not said.
    """
    limits = limits_for(name, address)
    wait_s = begin_try(store, limits, now())
    if wait_s:
        raise too_often(wait_s)
    try:
        account = find_account(store, name[:200])
    except NotInStockError:
        account = None
    checked = verify(account.passphrase if account else "", passphrase)
    if account is None or not checked.right:
        raise BadInputError(
            "Name and passphrase do not go together",
            field="passphrase",
            wanted="both as they were chosen; a coach can make a new link",
        )
    forget_tries(store, [limits[0].key])
    if checked.better:
        rehash(store, account, checked.better)
    enter(store, visit, account)
    return account


def prove(store: Store, account: Account, passphrase: str, address: str) -> None:
    """Make sure that whoever changes a passphrase knows the one that holds; raises as `sign_in`."""
    limits = limits_for(account.name, address)
    wait_s = begin_try(store, limits, now())
    if wait_s:
        raise too_often(wait_s)
    if not verify(account.passphrase, passphrase).right:
        raise BadInputError(
            "That is not the passphrase you have now", field="now_used", wanted="the one you use"
        )
    forget_tries(store, [limits[0].key])


def enter(store: Store, visit: Visit, account: Account) -> None:
    """Begin a sign-in with a fresh token, so that nobody can have known the cookie before."""
    leave(store, visit)
    visit.token, visit.begun = new_token(), False
    begin_sign_in(store, account, hashed(visit.token), now())
    value = visit.keys.sign(visit.token)
    visit.out.append(visit.keys.cookie("visit", value, int(LASTS.total_seconds())))


def leave(store: Store, visit: Visit) -> None:
    """Sign out of this browser."""
    if visit.token:
        end_sign_in(store, hashed(visit.token))
    visit.token = ""
