"""The log and the day's work for programs: sets in, sets and work out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Header, Query
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from topheavy.gym.day import day_number
from topheavy.gym.lifts import lift_named
from topheavy.present.jsonable import plain
from topheavy.present.store.log_view import LogView, view_log
from topheavy.present.work.view import DayView
from topheavy.store.sets import Wanted, list_sets
from topheavy.web.access import SignedIn  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.api.schemas import answered
from topheavy.web.rack.receive import Works, receive_sets
from topheavy.web.rack.today import rack_view, read_today, stamp_of
from topheavy.web.rack.words import SentSets, SetAnswers

if TYPE_CHECKING:
    from topheavy.web.house import House

Name = Annotated[str, Field(max_length=60)]
Day = Annotated[str, Field(max_length=10, description="Year-month-day.")]


class WorkWords(BaseModel):
    """Which work to list."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    lifter: Name = Field(default="", description="Only this lifter's; a lifter sees their own.")
    day: Day = Field(default="", description="Year-month-day; else today.")


class SetsWords(BaseModel):
    """Which sets to list."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    lifter: Name = Field(default="", description="Only this lifter's; a lifter sees their own.")
    lift: Name = Field(default="", description="Only of this lift.")
    session: Name = Field(default="", description="Only of this session.")
    since: Day = Field(default="", description="From this day on, year-month-day.")
    until: Day = Field(default="", description="Up to this day, year-month-day.")
    most: int = Field(default=100, ge=1, le=1000, description="The last so many.")
    everything: bool = Field(
        default=False, description="Corrected and struck out ones too, as they came in."
    )


def rack_api(house: House, works: Works) -> APIRouter:
    """Make the routes under ``/api`` that log sets and give work."""
    api = APIRouter(prefix="/api")

    @api.post(
        "/sets",
        summary="Log sets; each is answered for itself, and sending again never doubles",
        response_model=SetAnswers,
    )
    def log(sent: SentSets, visitor: SignedIn, desk: OpenDesk) -> JSONResponse:
        return JSONResponse(receive_sets(desk, visitor, sent.sets, works).model_dump())

    @api.get(
        "/sets",
        summary="List sets of the log",
        responses=answered(LogView, "Sets, in the order in which they were lifted."),
    )
    def sets(words: Annotated[SetsWords, Query()], visitor: SignedIn, desk: OpenDesk) -> Response:
        lifter = words.lifter or ("" if visitor.coach else visitor.lifter)
        if lifter:
            visitor.must_see(lifter)
            lifter = desk.source.read()[0].lifter(lifter).name
        for name in ("since", "until"):
            if getattr(words, name):
                day_number(getattr(words, name), name)
        wanted = Wanted(
            lifter=lifter,
            lift=lift_named(words.lift).name if words.lift else "",
            session=words.session,
            since=words.since,
            until=words.until,
            most=words.most + 1,
            everything=words.everything,
        )
        found = list(list_sets(desk.store, desk.gym_id, wanted))
        rows = [(entry.logged, entry.corrected) for entry in found[-words.most :]]
        view = view_log(desk.name, rows, house.units(), more=len(found) > words.most)
        return JSONResponse(plain(view))

    @api.get(
        "/work",
        summary="The work of a day: sets with what to change on the bar, what was done, what next",
        responses=answered(DayView, "Everybody's, or a lifter's own.")
        | {304: {"description": "As the ETag that was sent knows it."}},
    )
    def work(
        words: Annotated[WorkWords, Query()],
        visitor: SignedIn,
        desk: OpenDesk,
        if_none_match: Annotated[
            str, Header(max_length=200, description="ETag of the answer that is known.")
        ] = "",
    ) -> Response:
        if words.day:
            day_number(words.day, "day")
        lifter = words.lifter or ("" if visitor.coach else visitor.lifter)
        if lifter:
            visitor.must_see(lifter)
        units = house.units()
        stamp = stamp_of(desk, words.day, units)
        headers = {"ETag": stamp}
        if if_none_match == stamp:
            return Response(status_code=304, headers=headers)
        today = read_today(desk, words.day)
        found = tuple(rack_view(desk, today, one, units) for one in today.of(visitor, lifter))
        return JSONResponse(plain(DayView(day=today.day, work=found)), headers=headers)

    return api
