"""The coach's page of people: who may come in, links for them, and signing them out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, TopheavyError
from topheavy.store.accounts import (
    NewAccount,
    add_account,
    deeds,
    find_account,
    list_accounts,
    remove_account,
    set_passphrase,
)
from topheavy.store.sign_ins import count_sign_ins, end_everywhere, invite
from topheavy.web.access.forms import told_again
from topheavy.web.access.keys import hashed, new_token
from topheavy.web.access.refusals import forbidden
from topheavy.web.access.said import back_to
from topheavy.web.access.visit import Coach, Visitor, a_visit
from topheavy.web.desk import now
from topheavy.web.templates import render

if TYPE_CHECKING:
    from typing import Any

    from topheavy.store.accounts import Account
    from topheavy.web.desk import Shelf

ALL_GYMS = "all"


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """An account as the page shows it."""

    name: str
    what: str
    where: str
    own: bool


def people_routes(shelf: Shelf) -> APIRouter:
    """Make the routes of the page of people."""
    people, store = APIRouter(include_in_schema=False), shelf.store

    @people.get("/people")
    def page(visitor: Coach) -> Response:
        return render("access/people.html", _values(shelf, visitor))

    @people.post("/people")
    def add(
        request: Request,
        visitor: Coach,
        name: Annotated[str, Form(max_length=200)] = "",
        lifter: Annotated[str, Form(max_length=200)] = "",
        over: Annotated[str, Form(max_length=10)] = "",
    ) -> Response:
        try:
            if visitor.account is None:
                raise BadInputError(
                    "Your own account comes first: once somebody has one, everybody signs in",
                    field="name",
                    wanted="topheavy account add NAME on this machine, or topheavy serve --host",
                )
            new = _new(visitor, name, lifter, over)
            account = add_account(store, new, by=visitor.name, at=now())
        except TopheavyError as error:
            values = {**_values(shelf, visitor), "error": error, "name": name, "lifter": lifter}
            return told_again("access/people.html", values, error)
        return _link(shelf, visitor, account, request)

    @people.post("/people/link")
    def link(request: Request, visitor: Coach, name: Annotated[str, Form()]) -> Response:
        return _link(shelf, visitor, _theirs(shelf, visitor, name), request)

    @people.post("/people/reset")
    def reset(request: Request, visitor: Coach, name: Annotated[str, Form()]) -> Response:
        account = _theirs(shelf, visitor, name, other=True)
        set_passphrase(store, account, "", what="passphrase taken away", by=visitor.name, at=now())
        return _link(shelf, visitor, account, request)

    @people.post("/people/sign-out")
    def sign_out(visitor: Coach, name: Annotated[str, Form()]) -> Response:
        account = _theirs(shelf, visitor, name)
        count = end_everywhere(store, account, by=visitor.name, at=now())
        browsers = "1 browser" if count == 1 else f"{count} browsers"
        return back_to("/people", f"{account.name} is signed out of {browsers}.")

    @people.post("/people/remove")
    def remove(visitor: Coach, name: Annotated[str, Form()]) -> Response:
        account = _theirs(shelf, visitor, name, other=True)
        remove_account(store, account, by=visitor.name, at=now())
        said = f"{account.name}'s account is gone; what was logged stays."
        if not _can_be_made_again(account):
            return back_to("/people", said)
        over = ALL_GYMS if account.gym_id is None else ""
        again = {"name": account.name, "lifter": account.lifter, "over": over}
        return back_to("/people", f"{said} Undo makes a new link.", undo="/people", fields=again)

    return people


def _new(visitor: Visitor, name: str, lifter: str, over: str) -> NewAccount:
    """What a coach may make: lifters of the gym that is open, coaches of no more than theirs."""
    desk = a_visit().desk
    if lifter:
        if desk is None:
            raise BadInputError("A lifter is of a gym", field="lifter", wanted="a gym chosen first")
        known = desk.source.read()[0].lifter(lifter).name
        return NewAccount(name=name or known, role="lifter", gym_id=desk.gym_id, lifter=known)
    everywhere = over == ALL_GYMS and visitor.gym_id is None
    if not everywhere and desk is None:
        raise BadInputError("Which gym?", field="over", wanted="a gym chosen first, or all")
    gym_id = None if everywhere or desk is None else desk.gym_id
    return NewAccount(name=name, role="coach", gym_id=gym_id)


def _can_be_made_again(account: Account) -> bool:
    """Whether the form of this page would make the account that was removed: of the open gym."""
    desk = a_visit().desk
    return account.gym_id is None or (desk is not None and desk.gym_id == account.gym_id)


def _theirs(shelf: Shelf, visitor: Visitor, name: str, *, other: bool = False) -> Account:
    """An account that this coach may deal with."""
    account = find_account(shelf.store, name)
    if visitor.gym_id not in {None, account.gym_id}:
        raise forbidden(f"{account.name} is not of your gym", wanted="a coach of that gym")
    if other and account.id == visitor.account:
        raise forbidden("Not your own account", wanted="another coach, or topheavy account")
    return account


def _link(shelf: Shelf, visitor: Visitor, account: Account, request: Request) -> Response:
    token = new_token()
    ends_at = invite(shelf.store, account, hashed(token), by=visitor.name, at=now())
    values = {
        "account": account,
        "link": str(request.url_for("welcome", token=token)),
        "here_only": request.url.hostname in {"127.0.0.1", "localhost", "::1"},
        "ends": f"{ends_at:%Y-%m-%d %H:%M} UTC",
    }
    return render("access/link.html", values)


def _values(shelf: Shelf, visitor: Visitor) -> dict[str, Any]:
    gyms = {one.id: one.name for one in shelf.gyms()}
    signed_in = count_sign_ins(shelf.store, now())
    accounts = list_accounts(shelf.store, visitor.gym_id)
    desk = a_visit().desk
    have = {one.lifter for one in accounts if desk and one.gym_id == desk.gym_id}
    lifters = [one.name for one in desk.source.read()[0].lifters] if desk else []
    return {
        "people": [_person(one, visitor, gyms, signed_in.get(one.id, 0)) for one in accounts],
        "lifters": [one for one in lifters if one not in have],
        "everywhere": visitor.gym_id is None,
        "deeds": deeds(shelf.store, 20) if visitor.gym_id is None else [],
        "error": None,
        "name": "",
        "lifter": "",
    }


def _person(account: Account, visitor: Visitor, gyms: dict[int, str], count: int) -> Person:
    gym = "all gyms" if account.gym_id is None else gyms.get(account.gym_id, "another gym")
    what = f"lifter, {account.lifter}" if account.role == "lifter" else "coach"
    browsers = "1 browser" if count == 1 else f"{count} browsers"
    state = f"signed in on {browsers}" if count else "not signed in"
    return Person(
        name=account.name,
        what=f"{what}, {gym}",
        where=state if account.passphrase else "no passphrase yet",
        own=account.id == visitor.account,
    )
