"""Routes that bring a file of sets in: sent, looked at, then all of it or nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi import APIRouter, Request, UploadFile
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from starlette.concurrency import run_in_threadpool

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.logfile.mapping import Said
from topheavy.logfile.meanings import IGNORE, MEANINGS, meaning_of, split_header
from topheavy.logfile.table import LogFileError
from topheavy.present.store.log_view import how_it_went, set_row
from topheavy.store.sets import add_sets, count_known
from topheavy.web.access import Coach, Visitor, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.forms import told_again
from topheavy.web.desk import Desk, now
from topheavy.web.log.held import Held, HeldFile
from topheavy.web.templates import render

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.web.house import House

_SHOWN: Final = 5
_LONGEST_CELL: Final = 24
_ALWAYS: Final = ("lifter", "lift", "station")
_UNITS: Final = ("kg", "lb", "m/s", "cm/s")


def import_routes(house: House) -> APIRouter:
    """Make the routes of bringing a file in."""
    routes = APIRouter(include_in_schema=False)
    held = Held()

    @routes.get("/log/import")
    def empty(_: Coach, desk: OpenDesk) -> HTMLResponse:  # noqa: ARG001 - only with a store
        return render("log/send.html", {"error": None})

    @routes.post("/log/import")
    def send(visitor: Coach, desk: OpenDesk, file: UploadFile | None = None) -> Response:
        try:
            if file is None or not file.filename:
                raise BadInputError("No file was chosen", field="file", wanted="a CSV file")
            name = ascii(file.filename[-60:])[1:-1]
            found = held.take(file.file.read(), name, _owner(visitor, desk))
        except TopheavyError as error:
            return told_again("log/send.html", {"error": error}, error)
        return RedirectResponse(f"/log/import/{found.key}", 303)

    @routes.get("/log/import/{key}")
    def look(visitor: Coach, desk: OpenDesk, key: str, request: Request) -> HTMLResponse:
        found = held.get(key, _owner(visitor, desk))
        chosen = list(request.query_params.multi_items())
        return render("log/look.html", _looked(house, visitor, desk, found, chosen))

    @routes.post("/log/import/{key}")
    async def bring(visitor: Coach, desk: OpenDesk, key: str, request: Request) -> Response:
        form = await request.form(max_fields=1000)
        chosen = [(name, str(value)) for name, value in form.multi_items()]
        return await run_in_threadpool(_brought, house, visitor, desk, (held, key, chosen))

    return routes


def _brought(
    house: House, visitor: Visitor, desk: Desk, what: tuple[Held, str, list[tuple[str, str]]]
) -> Response:
    held, key, chosen = what
    found = held.get(key, _owner(visitor, desk))
    try:
        _, sets = found.read(_said(found, chosen), house.gym, visitor.name)
        added = add_sets(desk.store, desk.gym_id, sets, at=now())
    except TopheavyError as error:
        return told_again("log/look.html", _looked(house, visitor, desk, found, chosen), error)
    held.drop(key)
    desk.source.forget()
    known = f"; {added.known:,} were there already" if added.known else ""
    new = "1 new set is" if added.new == 1 else f"{added.new:,} new sets are"
    return back_to("/log", f"{found.name}: {new} in the log{known}.")


def _owner(visitor: Visitor, desk: Desk) -> tuple[int | None, int]:
    return visitor.account, desk.gym_id


def _said(found: HeldFile, chosen: Sequence[tuple[str, str]]) -> Said:
    """What was chosen, column by column; what was not is left to the file."""
    values = dict(chosen)
    header = found.table.header
    columns, units = {}, {}
    for index, name in enumerate(header):
        word = values.get(f"column{index}", "")
        if word and header.count(name) == 1:
            columns[name] = word
        unit = values.get(f"unit{index}", "")
        meaning = word or getattr(meaning_of(name), "word", "")
        if unit and meaning:
            units[meaning] = unit
    return Said(
        columns=columns,
        units=units,
        decimal=values.get("decimal", ""),
        day_order=values.get("day_order", ""),
        always={word: values.get(word, "").strip() for word in _ALWAYS},
    )


def _looked(
    house: House,
    visitor: Visitor,
    desk: Desk,
    found: HeldFile,
    chosen: Sequence[tuple[str, str]],
) -> dict[str, Any]:
    """Everything the page shows: how the file is read, its first sets, or what is in the way."""
    values = dict(chosen)
    said = _said(found, chosen)
    gym, units = house.gym, house.units()
    seen: dict[str, Any] = {"error": None, "mistakes": "", "sets": [], "ready": False}
    mapping = None
    try:
        mapping, sets = found.read(said, gym, visitor.name)
        known = count_known(desk.store, desk.gym_id, sets)
        days = [min(one.day for one in sets), max(one.day for one in sets)]
        rows = [set_row(one, units) for one in sets[:_SHOWN]]
        seen |= {"ready": True, "count": len(sets), "known": known, "days": days}
        seen["sets"] = [(row, how_it_went(row)) for row in rows]
    except LogFileError as error:
        seen["mistakes"] = "\n".join(error.lines())
    except TopheavyError as error:
        seen["error"] = error
    return seen | {
        "key": found.key,
        "file": found.name,
        "rows": len(found.table.rows),
        "columns": [_column(found, index, values, mapping) for index in _indices(found)],
        "meanings": [(word, meaning.says) for word, meaning in MEANINGS.items()],
        "ignore": IGNORE,
        "units": _UNITS,
        "decimal": values.get("decimal") or (mapping.decimal if mapping else ""),
        "day_order": values.get("day_order") or (mapping.day_order if mapping else ""),
        "always": {word: values.get(word, "") for word in _ALWAYS},
        "lifters": [one.name for one in gym.lifters],
        "lifts": list(LIFTS),
        "stations": [one.name for one in gym.stations],
    }


def _indices(found: HeldFile) -> range:
    return range(len(found.table.header))


def _column(
    found: HeldFile, index: int, values: dict[str, str], mapping: Any
) -> dict[str, str | int]:
    """A column of the file: its header, its first cell, and what it is taken for."""
    header = found.table.header[index]
    guessed = meaning_of(header)
    cells = found.table.distinct(index)
    unit = split_header(header)[1]
    return {
        "index": index,
        "header": header or f"column {index + 1}",
        "first": cells[0][1][:_LONGEST_CELL] if cells else "",
        "word": values.get(f"column{index}") or (guessed.word if guessed else IGNORE),
        "unit": values.get(f"unit{index}")
        or (mapping.columns[index].unit if mapping else unit if unit in _UNITS else ""),
    }
