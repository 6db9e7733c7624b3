"""Routes by which a block is planned: begun with a form, or sent as a file."""

from __future__ import annotations

from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Form, UploadFile
from fastapi.responses import Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gymfile.read import LARGEST_BYTES, utf8_text
from topheavy.planfile.read import plan_tables
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.forms import told_again
from topheavy.web.weeks.forms import BeginForm  # noqa: TC001
from topheavy.web.weeks.kept import keep
from topheavy.web.weeks.routes import empty_page

Number = Annotated[int, Form(ge=0)]


def planning_routes() -> APIRouter:
    """Make the routes by which a block is planned."""
    routes = APIRouter(include_in_schema=False)

    @routes.post("/weeks/begin")
    def begin(visitor: Coach, desk: OpenDesk, form: Annotated[BeginForm, Form()]) -> Response:
        try:
            stored = keep(desk, visitor, form.tables(), "begun on the page", form.over or None)
        except TopheavyError as error:
            filled = {"start": form.start, "name": form.name, "days": form.days()}
            values = empty_page(desk, visitor) | {"filled": filled} | mistakes(error)
            return told_again("weeks/none.html", values, error)
        return done(f"Planned: {stored.written['plan'].get('name', 'Weeks')}.", stored.number)

    @routes.post("/weeks/file")
    def send(
        visitor: Coach, desk: OpenDesk, over: Number, file: UploadFile | None = None
    ) -> Response:
        try:
            tables = _tables_in(file)
            stored = keep(desk, visitor, tables, "sent as a file", over or None)
        except TopheavyError as error:
            values = empty_page(desk, visitor) | mistakes(error)
            return told_again("weeks/none.html", values, error)
        return done("The weeks are planned as the file says.", stored.number)

    return routes


def done(said: str, number: int, lifter: str = "") -> Response:
    """Go on to the weeks, with a way back."""
    fields = {"number": str(number)}
    path = f"/weeks?{urlencode({'lifter': lifter})}" if lifter else "/weeks"
    return back_to(path, said, undo="/weeks/undo", fields=fields)


def mistakes(error: TopheavyError) -> dict[str, Any]:
    """Tell a mistake, or all of a plan, above the form."""
    return {"error": error, "mistakes": "\n".join(error.lines())}


def _tables_in(file: UploadFile | None) -> dict[str, Any]:
    if file is None or not file.filename:
        raise BadInputError("No file was chosen", field="file", wanted="a plan file (TOML)")
    content = file.file.read(LARGEST_BYTES + 1)
    if len(content) > LARGEST_BYTES:
        raise BadInputError("The file is too large for a plan file", field="file")
    name = ascii(file.filename[-60:])[1:-1]
    return plan_tables(utf8_text(content, name, "TOML saved as UTF-8"), name)
