"""Routes of the review: a page, a sheet to print, and every number for programs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, JSONResponse, Response
from markupsafe import Markup

from topheavy.gym.lifts import LIFTS
from topheavy.present.charts.over_time import stops_chart, trend_chart, work_chart
from topheavy.present.charts.render import chart_svg
from topheavy.present.charts.sizes import PAGE, PHONE
from topheavy.present.jsonable import plain
from topheavy.present.review.rows import ReviewView
from topheavy.present.review.sheet import review_pdf
from topheavy.present.review.words import day_words, span_words
from topheavy.web.access import SignedIn, Visitor  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001
from topheavy.web.api.schemas import answered
from topheavy.web.review.asked import ReviewWords, reviewed
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.present.charts.chart import Chart
    from topheavy.present.review.rows import LiftReview
    from topheavy.units import UnitSystem
    from topheavy.web.house import House

_LAST_WORK = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A chart in the two sizes that a page has, and what it shows in words."""

    title: str
    words: str
    wide: Markup
    narrow: Markup


def review_routes(house: House) -> APIRouter:
    """Make the routes of the review."""
    routes = APIRouter()

    @routes.get("/review", include_in_schema=False)
    def review(
        visitor: SignedIn, desk: OpenDesk, words: Annotated[ReviewWords, Query()]
    ) -> HTMLResponse:
        view, units = reviewed(house, desk, visitor, words)
        return render("review/page.html", _page(house, visitor, words, view, units))

    @routes.get("/review/sheet.pdf", include_in_schema=False)
    def sheet(
        visitor: SignedIn, desk: OpenDesk, words: Annotated[ReviewWords, Query()]
    ) -> Response:
        view, units = reviewed(house, desk, visitor, words)
        return Response(
            review_pdf(view, units),
            media_type="application/pdf",
            headers={"Content-Disposition": 'inline; filename="review.pdf"'},
        )

    @routes.get(
        "/api/review",
        summary="What the log says, lifter by lifter",
        responses=answered(ReviewView, "Trend, bests, work, misses and next week of each."),
    )
    def numbers(
        visitor: SignedIn, desk: OpenDesk, words: Annotated[ReviewWords, Query()]
    ) -> JSONResponse:
        view, _ = reviewed(house, desk, visitor, words)
        return JSONResponse(plain(view))

    return routes


def _page(
    house: House, visitor: Visitor, words: ReviewWords, view: ReviewView, units: UnitSystem
) -> dict[str, Any]:
    """Everything that the template shows: of one lifter all, of several the news."""
    whole = len({lift.lifter for lift in view.lifts}) <= 1
    asked = words.model_dump(exclude_defaults=True)
    return {
        "view": view,
        "whole": whole,
        "lifts": [
            _lift(lift, number, units, asked, whole=whole) for number, lift in enumerate(view.lifts)
        ],
        "words": words,
        "lifters": [one.name for one in house.gym.lifters] if visitor.coach else [],
        "names": sorted(LIFTS),
        "sheet": f"/review/sheet.pdf?{urlencode(asked)}",
        "everybody": bool(words.lifter) and visitor.coach,
    }


def _lift(
    lift: LiftReview, number: int, units: UnitSystem, asked: dict[str, Any], *, whole: bool
) -> dict[str, Any]:
    charts = {}
    if whole:
        charts = {
            "trend": _drawn(trend_chart(lift, units, f"trend-{number}")),
            "work": _drawn(work_chart(lift, f"work-{number}")),
            "stops": _drawn(stops_chart(lift, f"stops-{number}")),
        }
    return {
        "view": lift,
        "span": span_words(lift.first_day, lift.last_day),
        "charts": charts,
        "bests": [(row, day_words(row.day)) for row in lift.bests],
        "work": [(row, day_words(row.day)) for row in lift.work[-_LAST_WORK:]],
        "stops": tuple(reversed(lift.stops)),
        "shares": [(row, span_words(row.first_day, row.last_day)) for row in lift.shares],
        "all": f"/review?{urlencode({**asked, 'lifter': lift.lifter})}",
    }


def _drawn(chart: Chart | None) -> Drawn | None:
    if chart is None:
        return None
    return Drawn(
        title=chart.title,
        words=chart.words,
        wide=Markup(chart_svg(chart, PAGE)),  # noqa: S704 - our own drawing, its words escaped
        narrow=Markup(chart_svg(chart, PHONE)),  # noqa: S704
    )
