"""Asking for a plan: a form of who lifts what, filled from a file, the day's work, or a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final, Literal

from fastapi import APIRouter, Depends, Query, Request, UploadFile
from fastapi.responses import HTMLResponse, Response  # noqa: TC002 - read by the routes

from topheavy.errors import FileError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.gymfile.read import LARGEST_BYTES, utf8_text
from topheavy.roomfile.read import room_of_tables, room_tables
from topheavy.store.rooms import plan_of_day
from topheavy.store.work import todays_work
from topheavy.training.days import DAY_NAMES
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.refusals import too_large
from topheavy.web.desk import today
from topheavy.web.room.fields import ROOM, SESSION, filled, rows_in, tables_from, troubles_of
from topheavy.web.room.jobs import Asked
from topheavy.web.templates import render

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.store.work import GivenWork
    from topheavy.web.desk import Desk
    from topheavy.web.house import House
    from topheavy.web.room.jobs import Jobs

_SPARE_ROWS: Final = 3
_START: Final = {"name": "Session", "opens": "18:00", "closes": "20:00"}
_SECONDS: Final = {"5": 5.0, "20": 20.0, "60": 60.0, "300": 300.0}


async def sent_form(request: Request) -> dict[str, list[str]]:
    """Everything that a form sent, under each name."""
    form = await request.form()
    found: dict[str, list[str]] = {}
    for name, value in form.multi_items():
        if isinstance(value, str):
            found.setdefault(name, []).append(value)
    return found


Sent = Annotated[dict[str, list[str]], Depends(sent_form)]
"""For routes: a form as it was sent."""

From = Annotated[Literal["blank", "everyone", "work", "plan"], Query(alias="from")]


def asking_routes(house: House, jobs: Jobs) -> APIRouter:
    """Make the routes of the form."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/room/ask")
    def ask(_: Coach, desk: OpenDesk, begin: From = "everyone") -> HTMLResponse:
        tables, left_out = _begin(desk, begin)
        return _form(house.gym, tables, left_out=left_out)

    @pages.post("/room/ask")
    def asked(_: Coach, desk: OpenDesk, sent: Sent) -> Response:
        tables = tables_from(sent, house.units())
        if "more" in sent:
            return _form(house.gym, tables, rows=rows_in(sent) + 4)
        stored = desk.stored()
        try:
            room = room_of_tables(tables, stored.gym)
        except TopheavyError as error:
            return _form(house.gym, tables, error=error, rows=rows_in(sent))
        up = plan_of_day(desk.store, desk.gym_id, today())
        job = jobs.begin(
            Asked(
                gym_id=desk.gym_id,
                tables=tables,
                room=room,
                day=today(),
                version=stored.version.number,
                over=up.number if up else None,
                seconds_s=_SECONDS.get(sent.get("seconds", [""])[0], 20.0),
            )
        )
        return back_to(f"/room/planning/{job.id}")

    @pages.get("/room/planning/{job_id}/ask")
    def ask_again(_: Coach, desk: OpenDesk, job_id: str) -> HTMLResponse:
        return _form(house.gym, jobs.find(desk.gym_id, job_id).asked.tables)

    @pages.post("/room/file")
    def file(_: Coach, desk: OpenDesk, file: UploadFile | None = None) -> Response:
        gym = house.gym
        try:
            text = text_in(file, "room file")
            tables = room_tables(text, "the file")
            room_of_tables(tables, desk.stored().gym, "the file", text)
        except TopheavyError as error:
            return _form(gym, {"room": _START, "session": []}, error=error)
        return _form(gym, tables)

    return pages


def text_in(file: UploadFile | None, what: str) -> str:
    """Read a text file that was sent: bounded, and nothing in it is run or followed.

    Raises
    ------
    FileError
        There is none, or it is no text.
    """
    content = file.file.read(LARGEST_BYTES + 1) if file else b""
    if len(content) > LARGEST_BYTES:
        raise too_large(LARGEST_BYTES)
    if not content:
        raise FileError("There is no file", field="file", wanted=f"a {what} (.toml)")
    return utf8_text(content, "the file", "plain text saved as UTF-8")


def _begin(desk: Desk, begin: str) -> tuple[dict[str, Any], tuple[str, ...]]:
    """What the form begins with, and what could not be taken over."""
    if begin == "plan":
        up = plan_of_day(desk.store, desk.gym_id, today())
        if up is not None:
            return up.asked, ()
    if begin == "work":
        given = todays_work(desk.store, desk.gym_id, today())
        sessions = [_session_of(one) for one in given if one.work.steps[-1].rig is not None]
        plain = [one for one in given if one.work.steps[-1].rig is None]
        return {"room": dict(_START), "session": sessions}, tuple(
            f"{one.work.lifter}, {one.work.lift}: straight weight, so no chain is planned for it."
            for one in plain
        )
    lifters = desk.stored().gym.lifters if begin == "everyone" else ()
    sessions = [{"lifter": one.name, "lift": next(iter(one.lifts), "")} for one in lifters]
    return {"room": dict(_START), "session": sessions}, ()


def _session_of(given: GivenWork) -> dict[str, Any]:
    """Ask for what somebody was given to do today."""
    work = given.work
    last = work.steps[-1]
    sets = [one for one in work.steps if one.kind == last.kind]
    found: dict[str, Any] = {
        "lifter": work.lifter,
        "lift": work.lift,
        "bottom": f"{last.bottom_kg:.6g} kg",
        "top": f"{last.top_kg:.6g} kg",
        "sets": len(sets),
        "reps": last.reps,
    }
    if last.rest_s:
        found["rest"] = f"{last.rest_s:.0f} s"
    if work.kind in DAY_NAMES and work.kind != DAY_NAMES[0]:
        found["kind"] = work.kind
    return found


def _form(
    gym: Gym,
    tables: Mapping[str, Any],
    *,
    error: TopheavyError | None = None,
    rows: int = 0,
    left_out: Sequence[str] = (),
) -> HTMLResponse:
    troubles = troubles_of(error) if error else ()
    sessions = len(tables.get("session", []))
    values = {
        "gym": gym.name,
        "room_fields": ROOM,
        "session_fields": SESSION,
        "filled": filled(tables),
        "rows": range(max(rows, sessions + (0 if error else _SPARE_ROWS))),
        "several": {
            "stations": [one.name for one in gym.stations],
            "hang": ["doubled", "draped", "straight"],
        },
        "choices": {
            "lifter": [one.name for one in gym.lifters],
            "lift": list(LIFTS),
            "station": [one.name for one in gym.stations],
            "kind": list(DAY_NAMES),
        },
        "seconds": list(_SECONDS),
        "troubles": troubles,
        "wrong": {one.field: one for one in troubles if one.field},
        "left_out": left_out,
    }
    return render("room/ask.html", values, 422 if error else 200)
