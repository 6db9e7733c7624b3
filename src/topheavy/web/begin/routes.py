"""Pages of the first visit, and of choosing a gym where there are several."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Form, UploadFile
from fastapi.responses import Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, FileError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.gymfile import GymFileError, demo_text, gym_of_tables, parse_gym
from topheavy.gymfile.read import LARGEST_BYTES, utf8_text
from topheavy.store.gyms import Change, find_gym, save_gym
from topheavy.web.access import back_to
from topheavy.web.access.forms import told_again
from topheavy.web.access.refusals import forbidden, too_large
from topheavy.web.access.visit import Coach, SignedIn, Visitor, a_visit
from topheavy.web.begin.starter import Starter, field_of, tables_of
from topheavy.web.desk import now
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.web.desk import Shelf

_MONTH_S = 30 * 86_400


def begin_routes(shelf: Shelf) -> APIRouter:
    """Make the routes of the first visit."""
    begin = APIRouter(include_in_schema=False)

    @begin.get("/first")
    def first(visitor: Coach) -> Response:
        _may_add(shelf, visitor)
        return render("begin/first.html", {"error": None})

    @begin.post("/first/demo")
    def demo(visitor: Coach) -> Response:
        tables = tomllib.loads(demo_text())
        return _added(shelf, visitor, tables, "the demo gym", then="/rig", again=True)

    @begin.post("/first/file")
    def bring(visitor: Coach, file: UploadFile | None = None) -> Response:
        try:
            tables = _tables_in(file)
            note = f"from {(file.filename if file else '') or 'a file'}"[:200]
            return _added(shelf, visitor, tables, note, then="/rig")
        except TopheavyError as error:
            return told_again("begin/first.html", {"error": error}, error)

    @begin.get("/first/own")
    def own(visitor: Coach) -> Response:
        _may_add(shelf, visitor)
        return render("begin/own.html", _filled(Starter()))

    @begin.post("/first/own")
    def start(visitor: Coach, form: Annotated[Starter, Form()]) -> Response:
        try:
            return _added(shelf, visitor, tables_of(form), "begun on the page", then="/rig?whole=1")
        except TopheavyError as error:
            return told_again("begin/own.html", _filled(form, error), error)

    @begin.post("/first/empty")
    def empty(
        visitor: Coach,
        gym: Annotated[str, Form(max_length=200)] = "",
        units: Annotated[str, Form(max_length=2)] = "kg",
    ) -> Response:
        tables = {"gym": {"name": " ".join(gym.split()), "units": units}}
        try:
            return _added(shelf, visitor, tables, "begun empty", then="/gym")
        except TopheavyError as error:
            return told_again("begin/first.html", {"error": error}, error)

    return begin


def gyms_routes(shelf: Shelf) -> APIRouter:
    """Make the routes of choosing among several gyms."""
    several = APIRouter(include_in_schema=False)

    @several.get("/gyms")
    def gyms(visitor: SignedIn) -> Response:
        found = [one for one in shelf.gyms() if visitor.gym_id in {None, one.id}]
        may = visitor.coach and visitor.gym_id is None and shelf.only is None
        return render("begin/gyms.html", {"found": found, "may_add": may})

    @several.post("/gyms")
    def choose(visitor: SignedIn, gym: Annotated[int, Form()]) -> Response:
        for one in shelf.gyms():
            if one.id == gym and visitor.gym_id in {None, one.id}:
                _remember(one.id)
                return back_to("/", f"{one.name} is open.")
        raise forbidden("No such gym for you", wanted="one of those on the page /gyms")

    return several


def _remember(gym_id: int) -> None:
    keys, out = a_visit().keys, a_visit().out
    out.append(keys.cookie("gym", keys.sign(str(gym_id), "gym"), _MONTH_S))


def _may_add(shelf: Shelf, visitor: Visitor) -> None:
    if visitor.gym_id is not None or shelf.only is not None:
        raise forbidden("Another gym can't be added here", wanted="a coach of all gyms")


def _added(
    shelf: Shelf,
    visitor: Visitor,
    tables: dict[str, Any],
    note: str,
    *,
    then: str,
    again: bool = False,
) -> Response:
    """Save a new gym, open it, and go on; `again`: one that is there already is opened as it is."""
    _may_add(shelf, visitor)
    gym = gym_of_tables(tables, "what was sent")
    there = {one.name.casefold(): one for one in shelf.gyms()}
    known = there.get(gym.name.casefold())
    if known is not None and not again:
        raise BadInputError(
            "There is a gym of that name already",
            field="gym.name",
            got=repr(gym.name),
            wanted="another name; to change that gym, go to its own pages",
        )
    if known is None:
        change = Change(author=visitor.name, at=now(), note=note)
        save_gym(shelf.store, tables, gym, change)
    with shelf.store.reading() as connection:
        _remember(find_gym(connection, gym.name)[0])
    return back_to(then, f"{gym.name} is open." if known else f"{gym.name} is in the store.")


def _tables_in(file: UploadFile | None) -> dict[str, Any]:
    """Read a gym file that was sent: bounded, as text, and nothing in it is run or followed."""
    content = file.file.read(LARGEST_BYTES + 1) if file else b""
    if len(content) > LARGEST_BYTES:
        raise too_large(LARGEST_BYTES)
    if not content:
        raise FileError("There is no file", field="file", wanted="a gym file (.toml)")
    text = utf8_text(content, "the file", "plain text saved as UTF-8")
    parse_gym(text, "the file")
    return tomllib.loads(text)


def _filled(form: Starter, error: TopheavyError | None = None) -> dict[str, Any]:
    problems = error.problems if isinstance(error, GymFileError) else []
    told = {field_of(one.field): one for one in problems}
    if error is not None and not problems:
        told[field_of(error.field)] = error
    return {
        "form": form,
        "error": error,
        "wrong": {name: one for name, one in told.items() if name},
        "others": [one for one in problems if not field_of(one.field)],
        "lifts": list(LIFTS),
    }
