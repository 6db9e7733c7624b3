"""Pages of the stock and the stations: look, add, change, take out, undo."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import NotInStockError, TopheavyError
from topheavy.present.gym.view import view_gym
from topheavy.services.stock_check import check_gym
from topheavy.store.gyms import load_gym
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.said import safe_path
from topheavy.web.gym.filled import table_from, words_from
from topheavy.web.gym.keep import MeanwhileError, Put, PutBack, PutHead, TakeOut, keep
from topheavy.web.gym.lines import Line, stock_sections
from topheavy.web.gym.sheets import FEEDERS, SHEETS, STOCK, sheet_for
from topheavy.web.gym.shown import SPARE_ROWS, show_form
from topheavy.web.gym.things import called, keys_in, of_sheet, tags_in, thing
from topheavy.web.gym.troubles import troubles_of
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.store.gyms import StoredGym
    from topheavy.units import UnitSystem
    from topheavy.web.desk import Desk
    from topheavy.web.gym.fields import Words
    from topheavy.web.gym.keep import Kept
    from topheavy.web.gym.sheets import Sheet
    from topheavy.web.gym.troubles import Trouble
    from topheavy.web.house import House

Short = Annotated[str, Query(max_length=80)]

_HOMES: Final = {"station": "/gym/stations", "gym": "/gym", "lifter": "/lifters"}
_MOST_ROWS: Final = 60
_EDITED: Final = (*STOCK, "station", "gym", "lifter")


def stock_routes(house: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/gym/stock")
    def stock(_: Coach, desk: OpenDesk) -> HTMLResponse:
        found, units = desk.stored(), house.units()
        sections = stock_sections(found.gym, found.tables, units)
        check = view_gym(check_gym(found.gym), units, "")
        values = {"found": found, "sections": sections, "check": check, "room": "stock"}
        return render("gym/stock.html", values)

    @pages.get("/gym/stations")
    def stations(_: Coach, desk: OpenDesk) -> HTMLResponse:
        found = desk.stored()
        lines = _stations(found, house.units())
        return render("gym/stations.html", {"found": found, "lines": lines, "room": "stations"})

    @pages.get("/gym/thing")
    def form(
        _: Coach, desk: OpenDesk, section: Short, key: Short = "", form: Short = ""
    ) -> HTMLResponse:
        found = desk.stored()
        sheet = _sheet(found, section, key, form)
        if key and thing(found.tables, section, key) is None:
            raise NotInStockError(
                f"There is no such {sheet.what} here", field=section, got=repr(key),
                wanted=f"one of {', '.join(keys_in(found.tables, section))}",
            )  # fmt: skip
        words = words_from(sheet, of_sheet(sheet, found.tables, key))
        return _Page(house, found, sheet, key, words).shown()

    @pages.post("/gym/thing")
    def put(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        return _put(house, desk, visitor.name, words)

    @pages.post("/gym/out")
    def out(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        section, key = words.get("section", ""), words.get("key", "")
        sheet = _sheet(desk.stored(), section, key, "")
        note = f"{sheet.what} {key} taken out"
        kept = keep(desk, TakeOut(section, key), over=over_in(words), by=visitor.name, note=note)
        return said(_HOMES.get(section, "/gym/stock"), note, kept)

    @pages.post("/gym/undo")
    def undo(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        number = over_in(words)
        after, before = (load_gym(desk.store, desk.name, at) for at in (number, number - 1))
        note = f"undone: {after.version.note}"
        edit = PutBack(before.tables, after.tables)
        kept = keep(desk, edit, over=number, by=visitor.name, note=note)
        return said(safe_path(words.get("back", ""), "/gym/stock"), note, kept, undo=False)

    return pages


def said(path: str, note: str, kept: Kept, *, undo: bool = True) -> Response:
    """Go on to a page that says what was done, with Undo."""
    words = f"{note[:1].upper()}{note[1:]}."
    if not kept.saved.changed:
        return back_to(path, "Nothing was changed.")
    if kept.between:
        words += f" Others changed other things meanwhile ({kept.between[0]}); both hold."
    fields = {"over": str(kept.saved.version.number), "back": path}
    return back_to(path, words, undo="/gym/undo" if undo else "", fields=fields)


def _sheet(found: StoredGym, section: str, key: str, form: str) -> Sheet:
    table = (thing(found.tables, section, key) or {}) if section == "feeder" and key else {}
    sheet = sheet_for(section, str(table.get("form", form))) if section in _EDITED else None
    if sheet is None:
        raise NotInStockError(
            "A gym has no such thing", field="section", got=repr(section),
            wanted="one of " + ", ".join(_EDITED),
        )  # fmt: skip
    return sheet


def _put(house: House, desk: Desk, by: str, words: Words) -> Response:
    """Save a form; mistakes and what others did meanwhile are shown in it."""
    found, units = desk.stored(), house.units()
    section, key = words.get("section", ""), words.get("key", "")
    sheet = _sheet(found, section, key, words.get("form", ""))
    page = _Page(house, found, sheet, key, words)
    if words.get("rows"):
        return replace(page, rows=rows_asked(words)).shown()
    table = table_from(sheet, words, units, of_sheet(sheet, found.tables, key))
    note = f"{sheet.what} {called(section, table)} {'changed' if key else 'added'}"
    edit = PutHead(table) if section == "gym" else Put(section, key, table)
    try:
        kept = keep(desk, edit, over=over_in(words), by=by, note=" ".join(note.split()))
    except MeanwhileError as error:
        return replace(page, meanwhile=error).shown()
    except TopheavyError as error:
        return replace(page, troubles=troubles_of(error, sheet, edit.path)).shown()
    home = _HOMES.get(section, "/gym/stock")
    if words.get("again"):
        query = {"section": section, "form": dict(sheet.fixed).get("form", "")}
        home = f"/gym/thing?{urlencode(query)}"
    return said(home, note, kept)


@dataclass(frozen=True, slots=True)
class _Page:
    """A form on its page, and what is wrong with it."""

    house: House
    found: StoredGym
    sheet: Sheet
    key: str
    words: Words
    troubles: tuple[Trouble, ...] = ()
    meanwhile: MeanwhileError | None = None
    rows: int = SPARE_ROWS

    def shown(self) -> HTMLResponse:
        """Fill the template."""
        sheet, found, units = self.sheet, self.found, self.house.units()
        form = show_form(sheet, self.words, units, found.tables, self.troubles, self.rows)
        values = {
            "found": found,
            "sheet": sheet,
            "form": form,
            "form_name": dict(sheet.fixed).get("form", ""),
            "key": self.key,
            "title": _titled(found, sheet.section, self.key),
            "rows": self.rows,
            "others": list(FEEDER_WORDS.values()) if sheet.section == "feeder" else [],
            "home": _HOMES.get(sheet.section, "/gym/stock"),
            "over": self.words.get("over", "") if self.troubles else found.version.number,
            "meanwhile": self.meanwhile,
            "theirs": theirs_in(sheet, self.meanwhile),
            "room": {"station": "stations", "gym": "gym"}.get(sheet.section, "stock"),
        }
        wrong = 409 if self.meanwhile else 422 if self.troubles else 200
        return render("gym/thing.html", values, wrong)


def _titled(found: StoredGym, section: str, key: str) -> str:
    """What a thing is called on its page: of a batch of chain, first and last piece."""
    table = thing(found.tables, section, key) if key else None
    tags = tags_in(table) if table and section == "chain" else []
    return f"{tags[0]} to {tags[-1]} ({len(tags)} pieces)" if len(tags) > 1 else key


def rows_asked(words: Words) -> int:
    """How many empty rows a form is to have."""
    text = words.get("rows", "")
    return min(int(text), _MOST_ROWS) if text.isascii() and text.isdigit() else SPARE_ROWS


def theirs_in(sheet: Sheet, meanwhile: MeanwhileError | None) -> list[tuple[str, str]]:
    """What somebody else wrote into the same form, by label."""
    if meanwhile is None or meanwhile.theirs is None:
        return []
    theirs = words_from(sheet, meanwhile.theirs)
    return [(one.label, theirs[one.key]) for one in sheet.fields if theirs.get(one.key)]


FEEDER_WORDS: Final = {name: (name, SHEETS[name].what) for name in FEEDERS}


def _stations(found: StoredGym, units: UnitSystem) -> list[Line]:
    lines = []
    keys = keys_in(found.tables, "station")
    for key, one in zip(keys, found.gym.stations, strict=True):
        facts: list[str] = [one.kind]
        if one.pad_m is not None:
            facts.append(f"pad at {units.length(one.pad_m)}")
        if one.surface_m:
            facts.append(f"chain lies at {units.length(one.surface_m)}")
        facts.append(f"bar: {one.bar}" if one.bar else "the gym's first bar")
        if one.pegs:
            facts.append("pegs: " + ", ".join(peg.name for peg in one.pegs))
        lines.append(Line(key=key, title=one.name, facts=(", ".join(facts),)))
    return lines
