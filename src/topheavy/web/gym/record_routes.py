"""What was written down of a lift: sets, misses, efforts and speeds, added and struck out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import NotInStockError
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.gym.filled import table_from
from topheavy.web.gym.keep import PutLift, keep
from topheavy.web.gym.people import ADDED_HERE, KINDS, record_words
from topheavy.web.gym.people_routes import LiftPage, home_of, save_lift
from topheavy.web.gym.sheets import SHEETS
from topheavy.web.gym.stock_routes import said
from topheavy.web.gym.things import lift_of
from topheavy.web.gym.typed import Typed, over_in

if TYPE_CHECKING:
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.gym.fields import Words
    from topheavy.web.gym.sheets import Sheet
    from topheavy.web.house import House

Short = Annotated[str, Query(max_length=80)]


def record_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/lifters/record")
    def record_form(
        _: Coach, desk: OpenDesk, name: Short, lift: Short, kind: Short
    ) -> HTMLResponse:
        return LiftPage(house, desk.stored(), _record_sheet(kind), name, lift, {}).shown()

    @pages.post("/lifters/record")
    def put_record(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _put_record(house, desk, visitor, words)

    @pages.post("/lifters/record/out")
    def record_out(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _record_out(desk, visitor, words)

    return pages


def _record_sheet(kind: str) -> Sheet:
    if kind not in ADDED_HERE:
        raise NotInStockError(
            "No such thing is written down here", field="kind", got=repr(kind),
            wanted=f"one of {', '.join(ADDED_HERE)}",
        )  # fmt: skip
    return SHEETS[kind]


def _put_record(house: House, desk: Desk, visitor: Visitor, words: Words) -> Response:
    found, units = desk.stored(), house.units()
    name, lift, kind = (words.get(key, "") for key in ("name", "lift", "record"))
    sheet = _record_sheet(kind)
    own = lift_of(found.tables, name, lift)
    if own is None:
        raise NotInStockError("That lift was taken out meanwhile", field="lift", got=repr(lift))
    record = table_from(sheet, words, units, {})
    edit = PutLift(name, lift, {**own, kind: [*own.get(kind, []), record]})
    note = f"{name}, {lift}: {sheet.what} written down"
    page = LiftPage(house, found, sheet, name, lift, words)
    return save_lift(page, desk, edit, visitor, note, inner=(kind, len(own.get(kind, []))))


def _record_out(desk: Desk, visitor: Visitor, words: Words) -> Response:
    """Take a record out, found by what it says: its place may have moved."""
    name, lift, kind = (words.get(key, "") for key in ("name", "lift", "record"))
    own = lift_of(desk.stored().tables, name, lift) or {}
    left = list(own.get(kind, [])) if kind in KINDS else []
    gone = next((one for one in left if record_words(kind, one) == words.get("words")), None)
    if gone is None:
        raise NotInStockError("That is not written down here any more", field=kind)
    left.remove(gone)
    table = {key: value for key, value in own.items() if key != kind}
    edit = PutLift(name, lift, {**table, **({kind: left} if left else {})})
    note = f"{name}, {lift}: {record_words(kind, gone)} struck out"
    kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
    return said(home_of(name), note, kept)
