"""Signing in and out, and the units that a visitor likes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from fastapi import APIRouter, Form
from fastapi.responses import RedirectResponse, Response
from pydantic import BaseModel, Field

from topheavy.store.accounts import set_units
from topheavy.web.access.said import safe_path
from topheavy.web.access.visit import SignedIn, liked, visit_now
from topheavy.web.problems import PROBLEM

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
        answer = RedirectResponse(safe_path(then), 303)
        chosen = liked(units)
        visit = visit_now()
        if visitor.account is not None and shelf is not None:
            set_units(shelf.store, visitor.account, chosen)
        elif visit is not None:
            visit.out.append(visit.keys.cookie("units", chosen, _YEAR_S))
        return answer

    return door
