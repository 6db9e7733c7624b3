"""Measuring a lifter, guided: what to measure, a drawing, readings, and heights made of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated, Any, Final

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import TopheavyError
from topheavy.gym.lifts import LIFTS, lift_named
from topheavy.present.figure import length
from topheavy.present.measuring import End, guide_to, measuring_svg
from topheavy.services.measuring import measure
from topheavy.units import M_PER_IN, parse_quantity
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.gym.keep import MeanwhileError, PutLift, keep
from topheavy.web.gym.people_routes import home_of
from topheavy.web.gym.sheets import SHEETS
from topheavy.web.gym.stock_routes import said, theirs_in
from topheavy.web.gym.things import keys_in, lift_of, thing
from topheavy.web.gym.troubles import Trouble, troubles_of
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render
from topheavy.web.typed import with_unit

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.services.measuring import Measuring
    from topheavy.store.gyms import StoredGym
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.gym.fields import Words
    from topheavy.web.house import House

Short = Annotated[str, Query(max_length=80)]

READINGS: Final = 3
"""Readings of each height that the form has room for."""

_WORDS: Final = ("bottom", "top")
_ENDS: Final[tuple[tuple[str, End], ...]] = (("Bottom", "bottom"), ("Top", "top"))


def measure_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/lifters/measure")
    def guide(_: Coach, desk: OpenDesk, name: Short = "", lift: Short = "") -> HTMLResponse:
        return _Page(house, desk.stored(), name, lift_named(lift or "bench press"), {}).shown()

    @pages.post("/lifters/measure")
    def measured(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _measured(house, desk, visitor, words)

    return pages


def _measured(house: House, desk: Desk, visitor: Visitor, words: Words) -> Response:
    """Check readings; save them when nothing is odd, or when the coach has seen what is."""
    found, units = desk.stored(), house.units()
    lift, name = lift_named(words.get("lift", "")), words.get("name", "")
    page = _Page(house, found, name, lift, words)
    readings, troubles = _readings(words, units)
    if troubles:
        return replace(page, troubles=troubles).shown()
    try:
        heights = measure(lift, readings["bottom"], readings["top"])
    except TopheavyError as error:
        return replace(page, troubles=(_trouble(error),)).shown()
    if words.get("do") != "save" or (
        heights.remarks and words.get("sure") != _said(heights, units)
    ):
        return replace(page, heights=heights).shown()
    return _save(page, desk, visitor, heights)


def _said(heights: Measuring, units: UnitSystem) -> str:
    """What is odd, in one line: to be sure of these remarks is not to be sure of others."""
    return " ".join(remark.say(units) for remark in heights.remarks)


def _save(page: _Page, desk: Desk, visitor: Visitor, heights: Measuring) -> Response:
    name, lift, words = page.name, page.key, page.words
    old = lift_of(page.found.tables, name, lift) or {}
    edit = PutLift(name, lift, {**old, **_table(heights, page.units, words.get("station", ""))})
    note = f"{name}, {lift} measured: {heights.bottom.readings} and {heights.top.readings} readings"
    try:
        kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
    except MeanwhileError as error:
        return replace(page, meanwhile=error, heights=heights).shown()
    except TopheavyError as error:
        troubles = troubles_of(error, SHEETS["lift"], edit.path)
        return replace(page, troubles=troubles, heights=heights).shown()
    return said(home_of(name), note, kept)


def _readings(
    words: Words, units: UnitSystem
) -> tuple[dict[str, list[float]], tuple[Trouble, ...]]:
    """Readings of each height [m], and what can't be read."""
    found: dict[str, list[float]] = {word: [] for word in _WORDS}
    troubles = []
    for word in _WORDS:
        for number in range(READINGS):
            text = words.get(f"{word}.{number}", "").strip()
            if not text:
                continue
            try:
                full = with_unit(text, units.length_unit)
                found[word].append(parse_quantity(full, "length", field=word))
            except TopheavyError as error:
                troubles.append(_trouble(error))
    return found, tuple(troubles)


def _trouble(error: TopheavyError) -> Trouble:
    field = str(error.field or "").rpartition(".")[2]
    return Trouble(
        field=field if field in _WORDS else "",
        message=error.lines()[0],
        got="" if error.got is None else str(error.got),
        wanted=error.wanted or "",
    )


def _table(heights: Measuring, units: UnitSystem, station: str) -> dict[str, Any]:
    """Heights as the gym file has them, to a millimetre or the twentieth of an inch."""
    travel = heights.travel
    table = {"bottom": _written(travel.bottom_m, units), "top": _written(travel.top_m, units)}
    if units.name == "lb":
        table["within"] = f"{travel.height_u_m / M_PER_IN:.2f} in"
    else:
        table["within"] = f"{1000 * travel.height_u_m:.0f} mm"
    return {**table, **({"station": station} if station else {})}


def _written(height_m: float, units: UnitSystem) -> str:
    if units.name == "lb":
        return f"{height_m / M_PER_IN:.2f} in"
    return f"{100 * height_m:.1f} cm"


@dataclass(frozen=True, slots=True)
class _Page:
    """The guide, what was typed into it, and what came of it."""

    house: House
    found: StoredGym
    name: str
    lift: Lift
    words: Words
    heights: Measuring | None = None
    troubles: tuple[Trouble, ...] = ()
    meanwhile: MeanwhileError | None = None

    @property
    def units(self) -> UnitSystem:
        """What is shown."""
        return self.house.units()

    @property
    def key(self) -> str:
        """The lift's name as the gym file has it for this lifter; else its full name."""
        table = thing(self.found.tables, "lifter", self.name) or {}
        lifts: dict[str, Any] = table.get("lifts", {})
        same = (key for key in lifts if lift_named(key).name == self.lift.name)
        return next(same, self.lift.name)

    def shown(self) -> HTMLResponse:
        """Fill the template."""
        found, units, lift = self.found, self.units, self.lift
        fitting = [one.name for one in found.gym.stations if one.kind == lift.station]
        standing = lift_of(found.tables, self.name, self.key) or {}
        station = self.words.get("station", standing.get("station", ""))
        values = {
            "name": self.name,
            "lifters": keys_in(found.tables, "lifter"),
            "lift": lift,
            "lifts": list(LIFTS),
            "guide": guide_to(lift, units),
            "drawings": [(word, measuring_svg(lift, end)) for word, end in _ENDS],
            "readings": [
                (word, [(f"{word}.{number}", self.words.get(f"{word}.{number}", ""))
                        for number in range(READINGS)],
                 [one for one in self.troubles if one.field == word])
                for word in _WORDS
            ],
            "troubles": [one for one in self.troubles if one.field not in _WORDS],
            "stations": [(one, one == station) for one in fitting],
            "units": units,
            "result": self._result(),
            "standing": standing,
            "over": found.version.number if self.meanwhile else self.words.get("over")
            or found.version.number,
            "meanwhile": self.meanwhile,
            "theirs": theirs_in(SHEETS["lift"], self.meanwhile),
        }  # fmt: skip
        wrong = 409 if self.meanwhile else 422 if self.troubles else 200
        return render("gym/measure.html", values, wrong)

    def _result(self) -> dict[str, Any] | None:
        heights, units = self.heights, self.units
        if heights is None:
            return None
        return {
            "rows": [
                (word, length(units, one.mean_m, one.u_m).text, one.readings)
                for word, one in (("Bottom", heights.bottom), ("Top", heights.top))
            ],
            "travel": length(units, heights.travel.travel_m).text,
            "remarks": [remark.say(units) for remark in heights.remarks],
            "sure": _said(heights, units),
        }
