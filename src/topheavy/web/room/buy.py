"""What to buy for a session: asked with a price file, answered on the same page."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Form, UploadFile
from fastapi.responses import HTMLResponse  # noqa: TC002 - read by the routes

from topheavy.asked.quantities import mass_kg
from topheavy.errors import BadInputError, TopheavyError
from topheavy.present.buying.view import view_buying
from topheavy.room.buying import buy
from topheavy.roomfile.prices import demo_prices_text, parse_prices
from topheavy.roomfile.read import room_of_tables, room_tables
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.desk import today
from topheavy.web.room.asking import text_in
from topheavy.web.room.fields import troubles_of
from topheavy.web.room.publish import plan_up
from topheavy.web.templates import render
from topheavy.web.typed import with_unit

if TYPE_CHECKING:
    from topheavy.present.buying.view import BuyView
    from topheavy.room.ask import Room
    from topheavy.web.house import House

Text = Annotated[str, Form(max_length=200_000)]


def buy_routes(house: House) -> APIRouter:
    """Make the routes of the page."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/buy")
    def page(_: Coach) -> HTMLResponse:
        return _page(house, demo_prices_text())

    @pages.post("/buy")
    def bought(
        _: Coach, prices: Text, within: Text = "", lifts: UploadFile | None = None
    ) -> HTMLResponse:
        try:
            return _page(house, prices, within, view=_answer(house, prices, within, lifts))
        except TopheavyError as error:
            return _page(house, prices, within, error=error)

    return pages


def _answer(house: House, prices: str, within: str, lifts: UploadFile | None) -> BuyView:
    units = house.units()
    room = _room(house, lifts)
    if within.strip():
        within_kg = mass_kg(with_unit(within, units.mass_unit), "within")
        if within_kg is None or within_kg <= 0:
            raise BadInputError(
                "Not a tolerance", field="within", got=repr(within), wanted="a mass above zero"
            )
        bookings = tuple(replace(one, tolerance_kg=within_kg) for one in room.bookings)
        room = replace(room, bookings=bookings)
    shelf = parse_prices(prices, "the prices")
    gym, stamp = house.read()
    key = ("buy", stamp, gym.name, prices, repr(room.bookings), repr(room.limits), room.broken)
    return view_buying(room, shelf, house.answers.get(key, lambda: buy(room, shelf)), units)


def _room(house: House, lifts: UploadFile | None) -> Room:
    """The lifts of a file that was sent, or of the plan that is up today."""
    if lifts is not None and lifts.filename:
        text = text_in(lifts, "room file")
        return room_of_tables(room_tables(text, "the file"), house.gym, "the file", text)
    up = plan_up(house.desk, today()) if house.desk else None
    if up is None:
        raise BadInputError(
            "No lifts were named",
            field="lifts",
            wanted="a room file (topheavy room example prints one), or a plan that is up today",
        )
    return room_of_tables(up[0].asked, house.gym)


def _page(
    house: House,
    prices: str,
    within: str = "",
    *,
    view: BuyView | None = None,
    error: TopheavyError | None = None,
) -> HTMLResponse:
    values: dict[str, Any] = {
        "gym": house.gym.name,
        "prices": prices,
        "within": within,
        "view": view,
        "troubles": troubles_of(error) if error else (),
        "up": bool(house.desk and plan_up(house.desk, today())),
    }
    return render("room/buy.html", values, 422 if error else 200)
