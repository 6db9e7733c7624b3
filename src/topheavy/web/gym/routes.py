"""The gym as a whole: what there is and what comes next, its history, its file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from fastapi import APIRouter
from fastapi.responses import HTMLResponse  # noqa: TC002 - read by the routes

from topheavy.present.gym.view import view_gym
from topheavy.services.chain_care import inspections_due
from topheavy.services.stock_check import check_gym
from topheavy.services.strength_check import contradictions_in
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.desk import today
from topheavy.web.gym.care_routes import care_routes
from topheavy.web.gym.history_routes import history_routes
from topheavy.web.gym.measure_routes import measure_routes
from topheavy.web.gym.people_routes import people_routes
from topheavy.web.gym.record_routes import record_routes
from topheavy.web.gym.steps import steps_to_first_rig
from topheavy.web.gym.stock_routes import stock_routes
from topheavy.web.gym.weigh_routes import weigh_routes
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.web.house import House


_ROUTES: Final = (
    stock_routes,
    care_routes,
    history_routes,
    people_routes,
    record_routes,
    measure_routes,
    weigh_routes,
)


def gym_routes(house: House) -> APIRouter:
    """Make every route of the gym's pages."""
    pages = APIRouter(include_in_schema=False)
    for routes in _ROUTES:
        pages.routes.extend(routes(house).routes)

    @pages.get("/gym")
    def overview(_: Coach) -> HTMLResponse:
        (gym, stamp), units = house.read(), house.units()
        check = check_gym(gym)
        odd = house.answers.get(("contradictions", stamp), lambda: contradictions_in(gym))
        steps = steps_to_first_rig(gym)
        due = inspections_due(gym.stock.chains, today(), gym.inspect_days)
        values = {
            "gym": gym.name,
            "view": view_gym(check, units, ""),
            "steps": steps,
            "todo": [step for step in steps if not step.done],
            "due": [one.say(units) for one in (*due, *odd)],
            "units": units,
            "room": "gym",
        }
        return render("gym/overview.html", values)

    return pages
