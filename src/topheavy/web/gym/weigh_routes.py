"""What hangs on the scale: readings typed in, what they say, and what of it the gym takes over."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.asked.described import RigDescribed, read_rig
from topheavy.asked.weighing import WAYS, doubt_of, reading_of, weigh_told
from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.present.weigh.picture import weighing_svg
from topheavy.present.weigh.view import view_weighing
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.desk import today
from topheavy.web.gym.calibrate import TakeOver, offers_of
from topheavy.web.gym.fields import Field, rows_in, value_of
from topheavy.web.gym.keep import keep
from topheavy.web.gym.sheets import Sheet
from topheavy.web.gym.shown import SPARE_ROWS, show_form
from topheavy.web.gym.stock_routes import rows_asked, said
from topheavy.web.gym.troubles import Trouble
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.asked.described import Told
    from topheavy.asked.weighing import Weighed
    from topheavy.services.weighing.case import ScaleReading
    from topheavy.store.gyms import StoredGym
    from topheavy.units import UnitSystem
    from topheavy.web.desk import Desk
    from topheavy.web.gym.fields import Words
    from topheavy.web.house import House

_CARRIES: Final = (
    ("bar", "the whole bar"),
    ("left", "the left end"),
    ("right", "the right end"),
    ("floor", "the slack on the floor, both ends"),
    ("floor left", "the slack on the left"),
    ("floor right", "the slack on the right"),
)
_READINGS: Final = Field(
    key="readings",
    label="Readings",
    kind="rows",
    must=True,
    columns=(
        Field(key="height", label="Bar at", kind="quantity", of="length", must=True),
        Field(key="mass", label="Scale", kind="quantity", of="mass", must=True),
        Field(key="way", label="up or down"),
    ),
    help="height of the bar centre, what the scale showed, and which way the bar came there when "
    "you know; six or more over the whole travel can show what is off",
)
WEIGH: Final = Sheet(
    section="weigh",
    what="weighing",
    fields=(
        Field(key="left", label="On the left", kind="tags", must=True,
              help="tags of the pieces, such as A1 A2"),
        Field(key="right", label="On the right", kind="tags", must=True),
        Field(key="hang", label="Hung", kind="choice", must=True,
              choices=(("doubled", "folded on a feeder"), ("draped", "draped over the sleeve"),
                       ("straight", "straight down"))),
        Field(key="feeder", label="Feeder", kind="choice", names="feeder"),
        Field(key="setting", label="Its setting", help="ring, link or length, as it is labelled"),
        Field(key="connector", label="Connector", kind="choice", names="connector"),
        Field(key="straight", label="Bar, collars, plates", kind="quantity", of="mass", must=True),
        Field(key="station", label="Station", kind="choice", names="station",
              help="for the floor and what lies on it"),
        _READINGS,
        Field(key="lifter", label="Lifter", kind="choice", names="lifter", more=True),
        Field(key="lift", label="Lift", kind="choice", more=True,
              choices=tuple((name, name) for name in LIFTS)),
        Field(key="carries", label="The scale carries", kind="choice", must=True, more=True,
              choices=_CARRIES),
        Field(key="bare", label="It shows with all chain on the floor", kind="quantity", of="mass",
              more=True, help="0 when it was zeroed so"),
        Field(key="scale_within", label="Scale sure within", kind="quantity", of="mass", more=True,
              help="0.1 kg when left empty"),
        Field(key="height_within", label="Heights sure within", kind="quantity", of="fine",
              more=True, help="3 mm when left empty"),
    ),
)  # fmt: skip

_FIELDS: Final = {"reading": "readings"}
_ROOM: Final = 6


def weigh_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/gym/weigh")
    def form(_: Coach, desk: OpenDesk, request: Request) -> HTMLResponse:
        asked = request.query_params
        words = {one.key: asked[one.key][:200] for one in WEIGH.fields if one.key in asked}
        return _Page(house, desk.stored(), words, rows=_ROOM).shown()

    @pages.post("/gym/weigh")
    def weighed(_: Coach, desk: OpenDesk, words: Typed) -> HTMLResponse:
        page = _Page(house, desk.stored(), words)
        if words.get("rows"):
            return replace(page, rows=rows_asked(words)).shown()
        return _weighed(page)[0].shown()

    @pages.post("/gym/weigh/take")
    def take(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _take(house, desk, visitor.name, words)

    return pages


def _weighed(page: _Page) -> tuple[_Page, Told | None]:
    """The page with what the scale says, or with what is wrong."""
    try:
        told = read_rig(page.found.gym, _described(page.words, page.units))
        taken = _taken(page.words, page.units)
        doubt = doubt_of(
            _worded("scale_within", page) or "0.1 kg", _worded("height_within", page) or "3 mm"
        )
        taken = [
            replace(one, height_u_m=doubt.height_u_m, mass_u_kg=doubt.mass_u_kg) for one in taken
        ]
        carries = page.words.get("carries") or "bar"
        answer = weigh_told(told, taken, carries, _worded("bare", page), doubt)
    except TopheavyError as error:
        return replace(page, troubles=(_trouble(error),)), None
    return replace(page, answer=answer, told=told), told


def _take(house: House, desk: Desk, by: str, words: Words) -> Response:
    """Weigh once more, and write what was offered and chosen into the gym."""
    page, told = _weighed(_Page(house, desk.stored(), words))
    if page.answer is None or told is None:
        return page.shown()
    offers = offers_of(page.answer.answer, told, page.found.tables, page.units)
    chosen = [one for one in offers if words.get(f"take.{one.key}")]
    if not chosen:
        trouble = Trouble(field="", message="Nothing was ticked, so nothing was taken over.")
        return replace(page, troubles=(trouble,)).shown()
    note = "by the scale: " + "; ".join(one.note for one in chosen)
    edit = TakeOver(tuple(chosen))
    try:
        kept = keep(desk, edit, over=over_in(words), by=by, note=note)
    except TopheavyError as error:
        return replace(page, troubles=(_trouble(error),)).shown()
    return said("/gym/stock", note, kept)


def _worded(key: str, page: _Page) -> str | None:
    field = WEIGH.field(key)
    value = value_of(field, page.words, page.units) if field else None
    return None if value is None else str(value)


def _described(words: Words, units: UnitSystem) -> RigDescribed:
    """The rig in the words of the terminal."""
    left, right = (_end(words, side) for side in ("left", "right"))
    doubled = (words.get("hang") or "doubled") == "doubled"
    feeder, setting = words.get("feeder", "").strip(), words.get("setting", "").strip()
    if doubled and not feeder:
        raise BadInputError(
            "Doubled chain hangs from a feeder",
            field="feeder",
            wanted="a feeder and its setting; or chain hung straight, or draped",
        )
    field = WEIGH.field("straight")
    straight = value_of(field, words, units) if field else None
    if straight is None:
        raise BadInputError(
            "Nothing says what is on the bar", field="straight",
            wanted="bar, collars and plates together, such as 80 kg",
        )  # fmt: skip
    return RigDescribed(
        left=left,
        right=right,
        hang=words.get("hang") or "doubled",
        feeder=f"{feeder}:{setting}" if feeder and doubled else None,
        connector=words.get("connector") or None if doubled else None,
        straight=straight,
        lifter=words.get("lifter") or None,
        lift=words.get("lift") or None,
        station=words.get("station") or None,
        today=today(),
    )


def _end(words: Words, side: str) -> tuple[str]:
    """What hangs on an end, as the terminal says it."""
    tags = words.get(side, "").replace(",", " ").split()
    if not tags:
        raise BadInputError(
            f"Nothing says what hangs on the {side} end",
            field=side,
            wanted="tags of pieces, such as A1 A2; none for a bare end",
        )
    return ("+".join(tags),)


def _taken(words: Words, units: UnitSystem) -> list[ScaleReading]:
    """Readings of the scale, row by row."""
    rows = value_of(_READINGS, words, units) or []
    if not rows:
        raise BadInputError(
            "No readings of the scale", field="readings",
            wanted="a height and a mass in a row; three at least, six or more to find what is off",
        )  # fmt: skip
    return [_reading(row) for row in rows]


def _reading(row: dict[str, str]) -> ScaleReading:
    way = row.get("way", "")
    if way.lower() not in WAYS:
        raise BadInputError(
            "Not a way", field="readings", got=repr(way), wanted="up, down, or nothing"
        )
    return reading_of(row.get("height", ""), row.get("mass", ""), way, "readings", doubt_of())


def _trouble(error: TopheavyError) -> Trouble:
    name = str(error.field or "").removeprefix("--").replace("-", "_")
    field = WEIGH.field(_FIELDS.get(name, name)) if name else None
    return Trouble(
        field=field.key if field else "",
        message=error.lines()[0],
        got="" if error.got is None else str(error.got),
        wanted=error.wanted or "",
    )


@dataclass(frozen=True, slots=True)
class _Page:
    """The form, and what the scale says."""

    house: House
    found: StoredGym
    words: Words
    troubles: tuple[Trouble, ...] = ()
    rows: int = SPARE_ROWS
    answer: Weighed | None = None
    told: Told | None = None

    @property
    def units(self) -> UnitSystem:
        """What is shown."""
        return self.house.units()

    def shown(self) -> HTMLResponse:
        """Fill the template."""
        found, units = self.found, self.units
        values: dict[str, Any] = {
            "found": found,
            "form": show_form(WEIGH, self.words, units, found.tables, self.troubles, self.rows),
            "rows": self.rows,
            "over": found.version.number,
            "room": "weigh",
            "view": None,
            "kept": self._kept(),
        }
        if self.answer is not None and self.told is not None:
            one, told = self.answer, self.told
            values |= {
                "view": view_weighing(
                    one.answer, one.described, one.dangers, units, told.title, one.again
                ),
                "picture": weighing_svg(one.answer, units),
                "offers": offers_of(one.answer, told, found.tables, units),
            }
        return render("gym/weigh.html", values, 422 if self.troubles else 200)

    def _kept(self) -> list[tuple[str, str]]:
        """What was typed, for the form that takes results over."""
        names = [one.key for one in WEIGH.fields if one.kind != "rows"]
        names += [
            f"readings.{number}.{column.key}"
            for number in range(rows_in(_READINGS, self.words))
            for column in _READINGS.columns
        ]
        return [(name, self.words[name]) for name in names if self.words.get(name)]
