"""The gym's versions: who, when, why; look at one, put it back; the gym as a file, out and in."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING, Annotated, Any, Final

from fastapi import APIRouter, Form, Query, UploadFile
from fastapi.responses import HTMLResponse, Response

from topheavy.errors import BadInputError, FileError, TopheavyError
from topheavy.gymfile import gym_text
from topheavy.gymfile.problems import GymFileError
from topheavy.gymfile.read import parse_gym, toml_of, utf8_text
from topheavy.store.gyms import history, load_gym
from topheavy.web.access import Coach  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.gym.keep import PutAll, keep
from topheavy.web.gym.stock_routes import said
from topheavy.web.gym.typed import Typed, over_in
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.web.house import House

MOST_BYTES: Final = 5_000_000
"""Largest gym file that is read, as on the terminal [bytes]."""

_Number = Annotated[int, Query(ge=1, le=10**9)]


def history_routes(_: House) -> APIRouter:
    """Make the routes."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/gym/history")
    def versions(_: Coach, desk: OpenDesk) -> HTMLResponse:
        found = history(desk.store, desk.name)[::-1]
        values = {"versions": found, "gym": desk.name, "room": "history"}
        return render("gym/history.html", values)

    @pages.get("/gym/version")
    def version(_: Coach, desk: OpenDesk, number: _Number) -> HTMLResponse:
        found, now = load_gym(desk.store, desk.name, number), desk.stored()
        text = gym_text(found.tables)
        before = gym_text(load_gym(desk.store, desk.name, number - 1).tables) if number > 1 else ""
        values = {
            "found": found,
            "now": now,
            "text": text,
            "changes": _changes(before, text) if before else [],
            "room": "history",
        }
        return render("gym/version.html", values)

    @pages.post("/gym/put-back")
    def put_back(visitor: Coach, desk: OpenDesk, words: Typed) -> Response:
        number = words.get("number", "")
        if not (number.isascii() and number.isdigit() and len(number) < 10):
            raise BadInputError("No such version", field="number", got=repr(number))
        found = load_gym(desk.store, desk.name, int(number))
        note = f"version {number} put back"
        edit = PutAll(found.tables)
        kept = keep(desk, edit, over=over_in(words), by=visitor.name, note=note)
        return said("/gym/history", note, kept)

    @pages.get("/gym/file.toml")
    def download(_: Coach, desk: OpenDesk) -> Response:
        found = desk.stored()
        at = found.version
        note = f"Version {at.number} in the store, by {at.author}, {at.at:%Y-%m-%d %H:%M} UTC."
        headers = {"Content-Disposition": f'attachment; filename="gym-{at.number}.toml"'}
        text = gym_text(found.tables, (note,))
        return Response(text, media_type="application/toml", headers=headers)

    @pages.get("/gym/bring")
    def bring(_: Coach, desk: OpenDesk) -> HTMLResponse:
        return _bring(desk.stored().version.number)

    @pages.post("/gym/bring")
    def brought(
        visitor: Coach,
        desk: OpenDesk,
        file: UploadFile,
        over: Annotated[int, Form(ge=1, le=10**9)],
    ) -> Response:
        name = _short(file.filename or "the file")
        try:
            tables = _tables(file, name)
            if tables["gym"]["name"] != desk.name:
                raise BadInputError(
                    "That is another gym's file", field="gym.name",
                    got=repr(tables["gym"]["name"]), wanted=repr(desk.name),
                )  # fmt: skip
            note = f"gym file {name} brought in"
            kept = keep(desk, PutAll(tables), over=over, by=visitor.name, note=note)
        except TopheavyError as error:
            return _bring(over, error)
        return said("/gym", note, kept)

    return pages


def _bring(over: int, error: TopheavyError | None = None) -> HTMLResponse:
    problems = error.problems if isinstance(error, GymFileError) else (error,) if error else ()
    values = {"over": over, "problems": problems, "room": "gym"}
    return render("gym/bring.html", values, 422 if error else 200)


def _tables(file: UploadFile, name: str) -> dict[str, Any]:
    """The tables of a gym file that was sent; every mistake in it is told, with its line."""
    content = file.file.read(MOST_BYTES + 1)
    if len(content) > MOST_BYTES:
        raise FileError(
            "The file is too large for a gym file", field=name, got="more than 5 MB",
            wanted="at most 5 MB",
        )  # fmt: skip
    if not content.strip():
        raise FileError("There is nothing in the file", field=name, wanted="a gym file (TOML)")
    text = utf8_text(content, name, "plain text saved as UTF-8")
    _ = parse_gym(text, name)
    return toml_of(text, name)


def _short(name: str) -> str:
    plain = "".join(sign for sign in name if sign.isprintable())
    return plain[-60:].strip() or "the file"


def _changes(before: str, after: str) -> list[tuple[str, str]]:
    """Lines that went and came: "-" or "+", and the line; a header before each group."""
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=2, lineterm="")
    return [(line[0], line[1:]) for line in lines if line[:3] not in {"---", "+++"}]
