"""Routes that change the log: a set added, corrected, struck out, or that taken back."""

from __future__ import annotations

import uuid
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, Final

from fastapi import APIRouter, Form
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.gym.records import THIRDS
from topheavy.present.store.log_view import how_it_went, set_row
from topheavy.services.logged import as_known
from topheavy.store.sets import add_sets, find_set
from topheavy.web.access import SignedIn, Visitor, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.forms import told_again
from topheavy.web.desk import Desk, happened_on, now, today
from topheavy.web.log.form import SetForm, shown
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet
    from topheavy.web.house import House

Filled = Annotated[SetForm, Form()]

_THIRD_WORDS: Final = {"lower": "bottom third", "middle": "middle", "top": "top third"}
"""As the page at the rack says them."""


def changing_routes(house: House) -> APIRouter:
    """Make the routes that change the log."""
    routes = APIRouter(include_in_schema=False)

    @routes.get("/log/add")
    def empty(visitor: SignedIn, desk: OpenDesk, lifter: str = "") -> HTMLResponse:
        own = visitor.lifter or lifter
        filled = SetForm(id=str(uuid.uuid4()), lifter=own, day=today()).model_dump()
        return render("log/set.html", _form(house, desk, filled))

    @routes.post("/log/add")
    def add(visitor: SignedIn, desk: OpenDesk, form: Filled) -> Response:
        try:
            one = form.as_set(house.units(), visitor.name)
            happened_on(one.day, "day")
            visitor.must_see(one.lifter)
            one = as_known(house.gym, one)
            return _sent(desk, one, f"Logged: {_said(house, one)}.")
        except TopheavyError as error:
            values = _form(house, desk, form.model_dump()) | {"error": error}
            return told_again("log/set.html", values, error)

    @routes.get("/log/set/{which}")
    def one_set(visitor: SignedIn, desk: OpenDesk, which: str) -> HTMLResponse:
        old = _own(visitor, desk, which)
        filled = SetForm().model_dump() | shown(old, house.units())
        return render("log/set.html", _form(house, desk, filled, old))

    @routes.post("/log/set/{which}")
    def correct(visitor: SignedIn, desk: OpenDesk, which: str, form: Filled) -> Response:
        old = _own(visitor, desk, which)
        try:
            one = form.as_correction(old, house.units(), visitor.name)
            happened_on(one.day, "day")
            one = as_known(house.gym, one)
            return _sent(desk, one, f"Corrected: {_said(house, one)}. The old one stays below.")
        except TopheavyError as error:
            values = _form(house, desk, form.model_dump(), old) | {"error": error}
            return told_again("log/set.html", values, error)

    @routes.post("/log/strike/{which}")
    def strike(visitor: SignedIn, desk: OpenDesk, which: str) -> Response:
        gone = _gone(_own(visitor, desk, which), visitor)
        return _sent(desk, gone, f"Struck out: {_said(house, gone)}.")

    @routes.post("/log/undo/{which}")
    def undo(visitor: SignedIn, desk: OpenDesk, which: str) -> Response:
        last = _own(visitor, desk, which)
        if not last.corrects:
            gone = _gone(last, visitor)
            return _sent(desk, gone, f"Taken back: {_said(house, gone)}.")
        old = find_set(desk.store, desk.gym_id, last.corrects).logged
        again = replace(old, id=str(uuid.uuid4()), corrects=last.id, struck=False, by=visitor.name)
        return _sent(desk, again, f"As it was: {_said(house, again)}.")

    return routes


def _form(
    house: House, desk: Desk, filled: dict[str, Any], old: LoggedSet | None = None
) -> dict[str, Any]:
    gym, units = house.gym, house.units()
    later = old is not None and find_set(desk.store, desk.gym_id, old.id).corrected
    return {
        "filled": filled,
        "old": set_row(old, units) if old else None,
        "done": how_it_went(set_row(old, units)) if old else "",
        "hung": bool(old and old.rig),
        "closed": later or bool(old and old.struck),
        "units": units,
        "lifters": [one.name for one in gym.lifters],
        "lifts": list(LIFTS),
        "stations": [one.name for one in gym.stations],
        "thirds": [(third, _THIRD_WORDS[third]) for third in reversed(THIRDS)],
        "error": None,
    }


def _own(visitor: Visitor, desk: Desk, which: str) -> LoggedSet:
    """A set of the log that the visitor may see."""
    found = find_set(desk.store, desk.gym_id, which[:60]).logged
    visitor.must_see(found.lifter)
    return found


def _gone(old: LoggedSet, visitor: Visitor) -> LoggedSet:
    return replace(old, id=str(uuid.uuid4()), corrects=old.id, struck=True, by=visitor.name)


def _sent(desk: Desk, one: LoggedSet, said: str) -> Response:
    """Write it down and go back to the list; what was logged tells of strength at once."""
    add_sets(desk.store, desk.gym_id, [one], at=now())
    desk.source.forget()
    return back_to("/log", said, undo=f"/log/undo/{one.id}")


def _said(house: House, one: LoggedSet) -> str:
    row = set_row(one, house.units())
    how = how_it_went(replace(row, struck=False))
    return f"{row.lifter}, {row.lift}, {row.day}, {row.straight} x {how}"
