"""Pages of the lifters: heights, bests, what was written down, how strong where."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated, Any, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.present.strength.curve import strength_svg
from topheavy.present.strength.view import view_strength
from topheavy.services.rig import Place
from topheavy.services.strength import answer_strength
from topheavy.web.access import Coach, SignedIn  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.gym.filled import table_from, words_from
from topheavy.web.gym.keep import MeanwhileError, PutLift, keep
from topheavy.web.gym.people import ADDED_HERE, KINDS, lifter_line
from topheavy.web.gym.sheets import SHEETS
from topheavy.web.gym.shown import show_form
from topheavy.web.gym.stock_routes import said, theirs_in
from topheavy.web.gym.things import lift_of, thing
from topheavy.web.gym.troubles import troubles_of
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.store.gyms import StoredGym
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.gym.fields import Words
    from topheavy.web.gym.people import LifterLine
    from topheavy.web.gym.sheets import Sheet
    from topheavy.web.gym.troubles import Trouble
    from topheavy.web.house import House

Short = Annotated[str, Query(max_length=80)]

LIFT: Final = SHEETS["lift"]


def people_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/lifters")
    def lifters(visitor: SignedIn, desk: OpenDesk) -> HTMLResponse:
        found = desk.stored()
        lines = [
            _line(house, found, one.name) for one in found.gym.lifters if visitor.may_see(one.name)
        ]
        return render("gym/lifters.html", {"lines": lines, "found": found})

    @pages.get("/lifters/one")
    def one(visitor: SignedIn, desk: OpenDesk, name: Short) -> HTMLResponse:
        visitor.must_see(name)
        found = desk.stored()
        line = _line(house, found, found.gym.lifter(name).name)
        values = {"line": line, "found": found, "kinds": KINDS, "added": ADDED_HERE}
        return render("gym/lifter.html", values)

    @pages.get("/lifters/strength")
    def strength(visitor: SignedIn, name: Short, lift: Short) -> HTMLResponse:
        visitor.must_see(name)
        return _strength(house, name, lift)

    @pages.get("/lifters/lift")
    def lift_form(_: Coach, desk: OpenDesk, name: Short, lift: Short) -> HTMLResponse:
        found = desk.stored()
        table = lift_of(found.tables, name, lift)
        if table is None:
            raise NotInStockError(
                f"{name} was not measured in the {lift}", field="lift", got=repr(lift),
                wanted="a lift on the lifter's page",
            )  # fmt: skip
        return LiftPage(house, found, LIFT, name, lift, words_from(LIFT, table)).shown()

    @pages.post("/lifters/lift")
    def put_lift(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _put_lift(house, desk, visitor, words)

    @pages.post("/lifters/lift/out")
    def lift_out(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        name, lift = words.get("name", ""), words.get("lift", "")
        note = f"{name}, {lift} taken out"
        edit = PutLift(name, lift, None)
        kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
        return said(home_of(name), note, kept)

    return pages


def home_of(name: str) -> str:
    """The page of a lifter."""
    return f"/lifters/one?{urlencode({'name': name})}"


def _line(house: House, found: StoredGym, name: str) -> LifterLine:
    """A lifter in words; the log may lag behind a change by a moment, and then tells nothing."""
    units = house.units()
    known = {one.name: one for one in house.gym.lifters}
    lifter = known.get(name) or found.gym.lifter(name)
    return lifter_line(lifter, thing(found.tables, "lifter", name) or {}, units)


def _strength(house: House, name: str, lift: str) -> HTMLResponse:
    gym, stamp = house.read()
    units, what = house.units(), lift_named(lift)
    lifter = gym.lifter(name)
    station = gym.station(lifter.measured(what).station or gym.station_for(what).name)
    place = Place(gym=gym, lifter=lifter, lift=what, station=station)
    key = ("strength", stamp, lifter.name, what.name)
    values: dict[str, Any] = {"name": lifter.name, "lift": what.name, "error": None}
    try:
        answer = house.answers.get(key, lambda: answer_strength(place))
    except (NotInStockError, BadInputError) as error:
        return render("gym/strength.html", {**values, "error": error}, 422)
    values |= {"view": view_strength(answer, units), "picture": strength_svg(answer, units)}
    return render("gym/strength.html", values)


def _put_lift(house: House, desk: Desk, visitor: Visitor, words: Words) -> Response:
    found, units = desk.stored(), house.units()
    name, lift = words.get("name", ""), words.get("lift", "")
    table = table_from(LIFT, words, units, lift_of(found.tables, name, lift) or {})
    note = f"{name}, {lift}: heights and best changed"
    edit = PutLift(name, lift, table)
    return save_lift(LiftPage(house, found, LIFT, name, lift, words), desk, edit, visitor, note)


def save_lift(
    page: LiftPage,
    desk: Desk,
    edit: PutLift,
    visitor: Visitor,
    note: str,
    inner: tuple[str | int, ...] = (),
) -> Response:
    """Save a form of a lift, or show what is wrong with it; `inner` leads to its own table."""
    try:
        kept = keep(desk, edit, over=over_in(page.words), by=visitor.name, note=note)
    except MeanwhileError as error:
        return replace(page, meanwhile=error).shown()
    except TopheavyError as error:
        troubles = troubles_of(error, page.sheet, (*edit.path, *inner))
        return replace(page, troubles=troubles).shown()
    return said(home_of(page.name), note, kept)


@dataclass(frozen=True, slots=True)
class LiftPage:
    """A form of a lift, or of one thing written down of it."""

    house: House
    found: StoredGym
    sheet: Sheet
    name: str
    lift: str
    words: Words
    troubles: tuple[Trouble, ...] = ()
    meanwhile: MeanwhileError | None = None

    def shown(self) -> HTMLResponse:
        """Fill the template."""
        sheet, found = self.sheet, self.found
        form = show_form(sheet, self.words, self.house.units(), found.tables, self.troubles)
        own = self.meanwhile if sheet is LIFT else None
        values = {
            "sheet": sheet,
            "form": form,
            "name": self.name,
            "lift": self.lift,
            "record": "" if sheet is LIFT else sheet.section,
            "over": self.words.get("over", "") if self.troubles else found.version.number,
            "meanwhile": self.meanwhile,
            "theirs": theirs_in(sheet, own),
            "home": home_of(self.name),
        }
        wrong = 409 if self.meanwhile else 422 if self.troubles else 200
        return render("gym/lift.html", values, wrong)
