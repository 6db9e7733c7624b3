"""Signing in and out, and the units that a visitor likes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from fastapi import APIRouter, Form, Query, Request
from fastapi.responses import RedirectResponse, Response
from pydantic import BaseModel, Field

from topheavy.errors import TopheavyError
from topheavy.store.accounts import set_units
from topheavy.web.access.forms import address_of, told_again
from topheavy.web.access.said import safe_path
from topheavy.web.access.signing import leave, sign_in
from topheavy.web.access.visit import SignedIn, a_visit, liked, visit_now
from topheavy.web.problems import PROBLEM
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.web.desk import Shelf

_YEAR_S = 365 * 86_400


class Me(BaseModel):
    """Who asks, for programs and for pages that send what was logged without a network."""

    name: str = Field(description="Of the account; coach while there are none.")
    role: Literal["coach", "lifter"]
    lifter: str = Field(description="The lifter it is; empty for a coach.")
    units: Literal["", "kg", "lb"] = Field(description="What is shown; empty: the gym's own.")
    gym: str = Field(description="The gym in the store that is served; empty for a gym file.")
    csrf: str = Field(description="Goes with every write, in the header X-Csrf-Token.")


def access_routes(shelf: Shelf | None) -> APIRouter:
    """Make the routes of the door."""
    door = APIRouter()

    @door.get(
        "/api/me",
        include_in_schema=True,
        responses=PROBLEM,
        summary="Who is signed in, and what a write must send as X-Csrf-Token",
    )
    def me(visitor: SignedIn) -> Me:
        visit = visit_now()
        return Me(
            name=visitor.name,
            role=visitor.role,
            lifter=visitor.lifter,
            units=visitor.units,
            gym=visit.desk.name if visit and visit.desk else "",
            csrf=visit.csrf() if visit else "",
        )

    @door.post("/units", include_in_schema=False)
    def units(
        visitor: SignedIn,
        units: Annotated[str, Form(max_length=2)],
        then: Annotated[str, Form(max_length=2000)] = "/",
    ) -> Response:
        chosen, visit = liked(units), visit_now()
        if visitor.account is not None and shelf is not None:
            set_units(shelf.store, visitor.account, chosen)
        elif visit is not None:
            visit.out.append(visit.keys.cookie("units", chosen, _YEAR_S))
        return RedirectResponse(safe_path(then), 303)

    if shelf is not None:
        _doors(door, shelf)
    return door


def _doors(door: APIRouter, shelf: Shelf) -> None:
    """Add what needs accounts: signing in and out."""
    store = shelf.store

    @door.get("/sign-in", include_in_schema=False)
    def ask(then: Annotated[str, Query(alias="next", max_length=2000)] = "/") -> Response:
        visit = a_visit()
        if visit.visitor is not None:
            return RedirectResponse(safe_path(then), 303)
        return render("access/sign_in.html", {"then": safe_path(then), "name": "", "error": None})

    @door.post("/sign-in", include_in_schema=False)
    def enter_here(
        request: Request,
        name: Annotated[str, Form(max_length=200)] = "",
        passphrase: Annotated[str, Form(max_length=2000)] = "",
        then: Annotated[str, Form(max_length=2000)] = "/",
    ) -> Response:
        try:
            sign_in(store, a_visit(), name, passphrase, address_of(request))
        except TopheavyError as error:
            values = {"then": safe_path(then), "name": name, "error": error}
            return told_again("access/sign_in.html", values, error)
        return RedirectResponse(safe_path(then), 303)

    @door.post("/sign-out", include_in_schema=False)
    def leave_here(_: SignedIn) -> Response:
        leave(store, a_visit())
        return RedirectResponse("/sign-in", 303)
