"""The pages at the rack: a coach's view of the day, and one lifter's next set on a phone."""

from __future__ import annotations

import uuid
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Form, Header, Query
from fastapi.responses import FileResponse, HTMLResponse, Response

from topheavy.errors import BadInputError
from topheavy.present.work.words import done_words, kind_words
from topheavy.services.at_the_rack import stand
from topheavy.store.work import work_to_come
from topheavy.web.access import SignedIn, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.said import safe_path
from topheavy.web.rack.form import LogForm  # noqa: TC001 - read by the routes
from topheavy.web.rack.live import live_values
from topheavy.web.rack.receive import receive_sets
from topheavy.web.rack.today import read_today, stamp_of
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet
    from topheavy.training.work import Work
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk
    from topheavy.web.house import House
    from topheavy.web.rack.receive import Works
    from topheavy.web.rack.words import SetAnswer

_WORKER: Final = Path(__file__).parents[1] / "static" / "js" / "rack" / "worker.js"

Name = Annotated[str, Query(max_length=60)]
Count = Annotated[int | None, Query(ge=1, le=500)]
Known = Annotated[str, Header(max_length=200)]


def rack_pages(house: House, works: Works) -> APIRouter:
    """Make the pages."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/rack")
    def rack(
        visitor: SignedIn, desk: OpenDesk, lifter: Name = "", lift: Name = "", step: Count = None
    ) -> HTMLResponse:
        if visitor.coach and not lifter:
            return _day(desk, visitor)
        values = live_values(desk, visitor, house.units(), lifter=lifter, lift=lift, step=step)
        return render("rack/rack.html", {**values, "ids": _ids(), "mass": house.units().mass_unit})

    @pages.get("/part/rack")
    def part(
        visitor: SignedIn,
        desk: OpenDesk,
        lifter: Name = "",
        lift: Name = "",
        if_none_match: Known = "",
    ) -> Response:
        units = house.units()
        stamp = stamp_of(desk, "", units)
        if if_none_match == stamp:
            return Response(status_code=304, headers={"ETag": stamp})
        values = live_values(desk, visitor, units, lifter=lifter, lift=lift, step=None)
        answer = render("rack/part.html", {**values, "ids": _ids()})
        answer.headers["ETag"] = stamp
        return answer

    @pages.post("/rack/log")
    def log(visitor: SignedIn, desk: OpenDesk, sent: Annotated[LogForm, Form()]) -> Response:
        one = sent.as_set(house.units())
        _told(receive_sets(desk, visitor, [one], works).answers[0])
        return back_to(safe_path(sent.back, "/rack"), "Logged.")

    @pages.post("/rack/undo")
    def undo(
        visitor: SignedIn,
        desk: OpenDesk,
        corrects: Annotated[str, Form(max_length=36)],
        id_: Annotated[str, Form(alias="id", max_length=36)],
        back: Annotated[str, Form(max_length=200)] = "/rack",
    ) -> Response:
        gone = {"id": id_, "corrects": corrects, "struck": True}
        _told(receive_sets(desk, visitor, [gone], works).answers[0])
        return back_to(safe_path(back, "/rack"), "Taken back. The log keeps it, struck out.")

    @pages.get("/rack-worker.js")
    def worker() -> Response:
        return FileResponse(_WORKER, media_type="text/javascript")

    return pages


def _ids() -> tuple[str, str]:
    """Ids for what a browser without scripts sends: the next set, and taking back the last."""
    return str(uuid.uuid4()), str(uuid.uuid4())


def _told(answer: SetAnswer) -> None:
    if answer.trouble is not None:
        told = answer.trouble
        raise BadInputError(
            told.detail.removesuffix("."), field=told.field, got=told.got, wanted=told.wanted
        )


def _day(desk: Desk, visitor: Visitor) -> HTMLResponse:
    """Everybody's work of today, and what is given for later, for a coach."""
    today = read_today(desk)
    rows = [_row(one, today.sets) for one in today.of(visitor)]
    coming = [
        {"work": one.work, "kind": kind_words(one.work)}
        for one in work_to_come(desk.store, desk.gym_id, today.day)
    ]
    values = {"day": today.day, "rows": rows, "coming": coming, "stored": desk.name}
    return render("rack/day.html", values)


def _row(work: Work, sets: tuple[LoggedSet, ...]) -> dict[str, object]:
    standing = stand(work, sets)
    last = standing.done[-1] if standing.done else None
    return {
        "work": work,
        "kind": kind_words(work),
        "done": len(standing.done),
        "of": len(work.steps),
        "finished": standing.next_number is None,
        "last": f"set {last.number}: {done_words(last)}" if last else "",
        "href": f"/rack?{urlencode({'lifter': work.lifter, 'lift': work.lift})}",
        "top": work.steps[-1],
    }
