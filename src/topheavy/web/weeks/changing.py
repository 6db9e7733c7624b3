"""Routes that change a block: by hand in one week, put away, and taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Form
from fastapi.responses import Response  # noqa: TC002 - read by the routes

from topheavy.errors import BadInputError, TopheavyError
from topheavy.store.blocks import find_block, save_block
from topheavy.store.gyms import Change
from topheavy.web.access import Coach, Visitor, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.forms import told_again
from topheavy.web.desk import Desk, now
from topheavy.web.weeks.forms import ChangeForm  # noqa: TC001
from topheavy.web.weeks.kept import keep, needed, newest
from topheavy.web.weeks.planning import done, mistakes
from topheavy.web.weeks.routes import WeekWords, shown_page

if TYPE_CHECKING:
    from topheavy.web.house import House

Number = Annotated[int, Form(ge=0)]


def changing_routes(house: House) -> APIRouter:
    """Make the routes that change a block."""
    routes = APIRouter(include_in_schema=False)

    @routes.post("/weeks/change")
    def change(visitor: Coach, desk: OpenDesk, form: Annotated[ChangeForm, Form()]) -> Response:
        old = needed(desk)
        try:
            table = form.table()
            if len(table) == 1:
                raise BadInputError("Nothing is changed", field="change", wanted="such as a load")
            changes = [*old.written.get("change", []), table]
            tables = {**old.written, "change": changes}
            stored = keep(desk, visitor, tables, f"week {form.week} changed", form.over)
        except TopheavyError as error:
            words = WeekWords(lifter=form.lifter)
            values = shown_page(house, desk, visitor, words, old)
            filled = {"filled": form.model_dump()}
            return told_again("weeks/page.html", values | filled | mistakes(error), error)
        return done(f"Week {form.week} is changed.", stored.number, form.lifter)

    @routes.post("/weeks/unchange")
    def unchange(visitor: Coach, desk: OpenDesk, place: Number, over: Number) -> Response:
        old = needed(desk)
        changes = old.written.get("change", [])
        kept = [one for number, one in enumerate(changes) if number != place]
        if len(kept) == len(changes):
            raise BadInputError("There is no such change", field="place", got=place)
        tables = {**old.written, "change": kept}
        stored = keep(desk, visitor, tables, "a change taken out", over)
        return done("The change is taken out.", stored.number)

    @routes.post("/weeks/away")
    def away(visitor: Coach, desk: OpenDesk, over: Number) -> Response:
        old = needed(desk)
        change = Change(author=visitor.name, at=now(), note="put away", over=over)
        stored = save_block(desk.store, desk.gym_id, old.written, change, gone=True)
        return done("The weeks are put away; they are kept.", stored.number)

    @routes.post("/weeks/undo")
    def undo(visitor: Coach, desk: OpenDesk, number: Number) -> Response:
        return _undone(desk, visitor, number)

    return routes


def _undone(desk: Desk, visitor: Visitor, number: int) -> Response:
    """Let the block before one hold again, as a new version; before the first there was none."""
    if number != newest(desk):
        raise BadInputError(
            "The weeks were changed since", field="number", got=number, wanted="the last change"
        )
    note = f"version {number} taken back"
    change = Change(author=visitor.name, at=now(), note=note, over=number)
    if number > 1:
        before = find_block(desk.store, desk.gym_id, number - 1)
        save_block(desk.store, desk.gym_id, before.written, change, gone=before.gone)
    else:
        first = find_block(desk.store, desk.gym_id, number)
        save_block(desk.store, desk.gym_id, first.written, change, gone=True)
    return back_to("/weeks", "As it was before.")
