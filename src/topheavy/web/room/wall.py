"""The whole room on a big screen, following the clock and the log by itself."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Header
from fastapi.responses import HTMLResponse, Response

from topheavy.present.room.wall import view_wall
from topheavy.room.reading import rig_of
from topheavy.store.rooms import plan_stamp
from topheavy.store.sets import Wanted, list_sets
from topheavy.store.work import day_stamp
from topheavy.web.access import SignedIn  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.desk import today
from topheavy.web.room.publish import grain_now, plan_up
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.room.ask import Booking
    from topheavy.room.plan import Plan
    from topheavy.units import UnitSystem
    from topheavy.web.desk import Desk
    from topheavy.web.house import House

_HAIR_KG = 0.05


def wall_routes(house: House) -> APIRouter:
    """Make the routes of the wall; like a board on paper, everybody in the gym may read it."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/room/wall")
    def wall(_: SignedIn, desk: OpenDesk) -> HTMLResponse:
        return render("room/wall.html", _values(desk, house.units()))

    @pages.get("/part/room/wall")
    def part(
        _: SignedIn,
        desk: OpenDesk,
        if_none_match: Annotated[str, Header(max_length=200)] = "",
    ) -> Response:
        units = house.units()
        values = _values(desk, units)
        wall = values["wall"]
        moment = wall.clock if wall else ""
        stamps = (plan_stamp(desk.store, desk.gym_id, today()), *day_stamp(
            desk.store, desk.gym_id, today()), values["grain"])  # fmt: skip
        stamp = '"' + "-".join(map(str, (desk.gym_id, *stamps, units.name, moment))) + '"'
        if if_none_match == stamp:
            return Response(status_code=304, headers={"ETag": stamp})
        answer = render("room/wall_part.html", values)
        answer.headers["ETag"] = stamp
        return answer

    return pages


def _values(desk: Desk, units: UnitSystem) -> dict[str, Any]:
    found = plan_up(desk, today())
    if found is None:
        return {"wall": None, "gym": desk.name, "grain": 0}
    _, plan = found
    grain = grain_now(plan.room)
    wall = view_wall(plan, grain, units, logged_in(desk, plan))
    return {"wall": wall, "gym": desk.name, "grain": grain}


def logged_in(desk: Desk, plan: Plan) -> dict[int, int]:
    """Count the sets of each lift of a plan that were logged today, warm-ups left out."""
    wanted = Wanted(since=today(), until=today())
    done: Counter[tuple[str, str]] = Counter()
    full = _full_kg(plan)
    for entry in list_sets(desk.store, desk.gym_id, wanted):
        one = entry.logged
        key = (one.lifter.casefold(), one.lift.casefold())
        if key in full and one.straight_kg >= full[key] - _HAIR_KG:
            done[key] += 1
    return {number: done[_key(booking)] for number, booking in enumerate(plan.room.bookings)}


def _key(booking: Booking) -> tuple[str, str]:
    return booking.lifter.name.casefold(), booking.lift.name.casefold()


def _full_kg(plan: Plan) -> dict[tuple[str, str], float]:
    """Bar, collars and plates of the work sets, by lifter and lift [kg]."""
    room = plan.room
    return {
        _key(room.bookings[member.booking]): rig_of(room, group, member).straight_weight_kg
        for group in plan.groups
        for member in group.members
    }
