"""One's own passphrase: chosen with a one-time link, and changed later."""

from __future__ import annotations

from http import HTTPStatus
from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Form, Path, Request
from fastapi.responses import Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, TopheavyError
from topheavy.store.accounts import find_account, set_passphrase
from topheavy.store.gyms import list_gyms
from topheavy.store.sign_ins import accept, invited
from topheavy.web.access.forms import address_of, told_again
from topheavy.web.access.keys import hashed
from topheavy.web.access.passphrases import check_passphrase, hash_passphrase
from topheavy.web.access.refusals import RefusedError
from topheavy.web.access.said import back_to
from topheavy.web.access.signing import enter, prove
from topheavy.web.access.visit import SignedIn, Visitor, a_visit
from topheavy.web.desk import now
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.store.accounts import Account
    from topheavy.store.opening import Store
    from topheavy.web.desk import Shelf


def own_routes(shelf: Shelf) -> APIRouter:
    """Make the routes of one's own account."""
    own, store = APIRouter(include_in_schema=False), shelf.store

    @own.get("/welcome/{token}")
    def welcome(token: Annotated[str, Path(max_length=100)]) -> Response:
        return _welcome(_invited(store, token), token)

    @own.post("/welcome/{token}")
    def choose(
        token: Annotated[str, Path(max_length=100)],
        passphrase: Annotated[str, Form(max_length=2000)] = "",
        again: Annotated[str, Form(max_length=2000)] = "",
    ) -> Response:
        account = _invited(store, token)
        try:
            chosen = _twice(passphrase, again, known_to(store, account))
            accept(store, account, hashed(token), hash_passphrase(chosen), now())
        except TopheavyError as error:
            return _welcome(account, token, error)
        enter(store, a_visit(), account)
        return back_to("/", f"Welcome, {account.name}.")

    @own.get("/account")
    def ask(visitor: SignedIn) -> Response:
        _account_of(store, visitor)
        return render("access/own.html", {"error": None})

    @own.post("/account")
    def change(
        request: Request,
        visitor: SignedIn,
        now_used: Annotated[str, Form(max_length=2000)] = "",
        passphrase: Annotated[str, Form(max_length=2000)] = "",
        again: Annotated[str, Form(max_length=2000)] = "",
    ) -> Response:
        account = _account_of(store, visitor)
        try:
            chosen = _twice(passphrase, again, known_to(store, account))
            prove(store, account, now_used, address_of(request))
        except TopheavyError as error:
            return told_again("access/own.html", {"error": error}, error)
        set_passphrase(
            store, account, hash_passphrase(chosen), what="passphrase changed", by=account.name,
            at=now(),
        )  # fmt: skip
        enter(store, a_visit(), account)
        return back_to("/account", "Your passphrase is changed; every other browser is signed out.")

    return own


def known_to(store: Store, account: Account) -> list[str]:
    """Words that no passphrase of an account may consist of."""
    gyms = [one.name for one in list_gyms(store)]
    words = [word for name in (account.name, account.lifter, *gyms) for word in name.split()]
    return [account.name, account.lifter, *gyms, *words]


def _twice(passphrase: str, again: str, known: list[str]) -> str:
    chosen = check_passphrase(passphrase, known)
    if again != passphrase:
        raise BadInputError(
            "The two are not alike", field="again", wanted="the same passphrase twice"
        )
    return chosen


def _welcome(account: Account, token: str, error: TopheavyError | None = None) -> Response:
    values = {"account": account, "token": token, "error": error}
    if error is None:
        return render("access/welcome.html", values)
    return told_again("access/welcome.html", values, error)


def _invited(store: Store, token: str) -> Account:
    account = invited(store, hashed(token), now())
    if account is None:
        raise RefusedError(
            "This link was used already, or is too old",
            HTTPStatus.NOT_FOUND,
            wanted="a new one from the coach",
        )
    return account


def _account_of(store: Store, visitor: Visitor) -> Account:
    if visitor.account is None:
        raise RefusedError(
            "You have no account here",
            HTTPStatus.CONFLICT,
            wanted="topheavy account add; until then this machine needs none",
        )
    return find_account(store, visitor.name)
