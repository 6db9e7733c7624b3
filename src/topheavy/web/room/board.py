"""The plan that is up today: the board, what changed meanwhile, taking it down."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Form
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, NotInStockError
from topheavy.present.room.view import view_room
from topheavy.room.plan import key_of
from topheavy.roomfile.anew import come_late, locked, under_way, without
from topheavy.roomfile.read import room_of_tables
from topheavy.store.rooms import list_plans
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.desk import today
from topheavy.web.room.asking import Sent  # noqa: TC001 - read by the routes
from topheavy.web.room.jobs import Asked
from topheavy.web.room.planning import as_planned, sheets_pdf
from topheavy.web.room.publish import grain_now, plan_up, put_back, take_it_down
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.room.plan import Plan
    from topheavy.store.rooms import PutUp
    from topheavy.web.desk import Desk
    from topheavy.web.house import House
    from topheavy.web.room.jobs import Jobs

Number = Annotated[int, Form(ge=1)]
_SECONDS = 20.0


def board_routes(house: House, jobs: Jobs) -> APIRouter:
    """Make the routes of the plan that is up."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/room")
    def board(_: Coach) -> HTMLResponse:
        desk = house.desk
        up = plan_up(desk, today()) if desk else None
        values: dict[str, Any] = {"gym": house.gym.name, "up": None, "day": today()}
        if desk and up:
            values |= _board(house, desk, *up)
        return render("room/board.html", values)

    @pages.get("/room/sheets.pdf")
    def sheets(_: Coach, desk: OpenDesk) -> Response:
        return sheets_pdf(_up(desk)[1], house.units())

    @pages.post("/room/anew")
    def anew(_: Coach, desk: OpenDesk, sent: Sent) -> Response:
        up, plan = _up(desk)
        if str(up.number) not in sent.get("over", []):
            raise NotInStockError(
                "Another plan is up by now", field="plan", wanted="the room page, to look at it"
            )
        job = jobs.begin(_asked(desk, up, plan, sent))
        return back_to(f"/room/planning/{job.id}")

    @pages.post("/room/take-down")
    def down(visitor: Coach, desk: OpenDesk, over: Number) -> Response:
        take_it_down(desk, over, today(), visitor.name)
        fields = {"number": str(over)}
        return back_to("/room", "Taken down.", undo="/room/put-back", fields=fields)

    @pages.post("/room/put-back")
    def back(
        visitor: Coach, desk: OpenDesk, number: Number, over: Annotated[str, Form()] = ""
    ) -> Response:
        standing = int(over) if over.isdecimal() else None
        put_back(desk, number, standing, today(), visitor.name)
        return back_to("/room", f"Plan {number} is up again.")

    return pages


def _board(house: House, desk: Desk, up: PutUp, plan: Plan) -> dict[str, Any]:
    view = view_room(plan.room, as_planned(plan), house.units(), today=today())
    return {
        "up": up,
        "view": view,
        "bookings": [
            {
                "number": number,
                "name": booking.name,
                "where": plan.of(number).station,
                "locked": booking.starts is not None,
            }
            for number, booking in enumerate(plan.room.bookings)
        ],
        "lifters": list(dict.fromkeys(one.lifter.name for one in plan.room.bookings)),
        "tags": sorted({tag for g in plan.groups for tag in (*g.tags, *g.hung.band_tags)}),
        "broken": plan.room.broken,
        "older": [one for one in list_plans(desk.store, desk.gym_id, up.day) if one != up],
    }


def _up(desk: Desk) -> tuple[PutUp, Plan]:
    found = plan_up(desk, today())
    if found is None:
        raise NotInStockError("No plan is up today", field="plan", wanted="a plan, put up")
    return found


def _asked(desk: Desk, up: PutUp, plan: Plan, sent: dict[str, list[str]]) -> Asked:
    """Ask anew with what has changed; what is done or under way stays as it is."""
    tables = up.asked
    late, at, tag = (sent.get(name, [""])[0].strip() for name in ("lifter", "at", "tag"))
    keys = {key_of(one) for one in plan.room.bookings}
    kept = [text for text in sent.get("keep", []) if text.isdecimal()]
    kept_keys = {
        key_of(plan.room.bookings[int(text)])
        for text in kept
        if int(text) < len(plan.room.bookings)
    }
    if kept_keys:
        tables = locked(tables, plan, kept_keys & keys)
    if late:
        tables = come_late(tables, late, at)
    if tag:
        tables = without(tables, tag)
    tables, done = under_way(tables, plan, grain_now(plan.room))
    stored = desk.stored()
    try:
        room = room_of_tables(tables, stored.gym)
    except BadInputError as error:
        if "arrive" in (error.field or ""):
            error.field = "at"
        raise
    former = {
        key_of(one): (plan.of(number).station, plan.of(number).starts)
        for number, one in enumerate(plan.room.bookings)
    }
    return Asked(
        gym_id=desk.gym_id,
        tables=tables,
        room=room,
        day=up.day,
        version=stored.version.number,
        over=up.number,
        former=former,
        done=done,
        seconds_s=_SECONDS,
    )
