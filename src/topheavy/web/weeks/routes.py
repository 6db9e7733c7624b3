"""Routes that show the weeks: the page, sheets to print, a calendar, the plan file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response
from markupsafe import Markup
from pydantic import Field

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.lifts import LIFTS
from topheavy.planfile.write import plan_text
from topheavy.present.charts.render import chart_svg
from topheavy.present.charts.sizes import PAGE, PHONE
from topheavy.present.charts.weeks import weeks_charts
from topheavy.present.weeks.calendar import calendar_of
from topheavy.present.weeks.sheet import sheet_pdf
from topheavy.present.weeks.view import view_weeks
from topheavy.training.days import DAYS
from topheavy.training.weeks import WEEKDAYS
from topheavy.web.access import Coach, SignedIn, Visitor  # noqa: TC001 - read by the routes
from topheavy.web.access.desks import OpenDesk  # noqa: TC001
from topheavy.web.access.refusals import forbidden
from topheavy.web.desk import Desk, now, today
from topheavy.web.templates import render
from topheavy.web.weeks.kept import answered, block_in, needed, newest, standing
from topheavy.web.words import Name, UnitWords

if TYPE_CHECKING:
    from topheavy.present.weeks.view import SessionRow, WeeksView
    from topheavy.store.blocks import StoredBlock
    from topheavy.units import UnitSystem
    from topheavy.web.house import House

EVERYBODY = "everybody"


class WeekWords(UnitWords):
    """Whose weeks, and which."""

    lifter: Name = Field(default="", description="Whose; a coach may ask for everybody.")
    week: int = Field(default=0, ge=0, le=60, description="Only this week, from 1; 0: all.")


Words = Annotated[WeekWords, Query()]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A chart in the two sizes that a page has."""

    title: str
    wide: Markup
    narrow: Markup


def show_routes(house: House) -> APIRouter:
    """Make the routes that show the weeks."""
    routes = APIRouter(include_in_schema=False)

    @routes.get("/weeks")
    def weeks(visitor: SignedIn, desk: OpenDesk, words: Words) -> HTMLResponse:
        stored = standing(desk)
        if stored is None:
            return render("weeks/none.html", empty_page(desk, visitor))
        return render("weeks/page.html", shown_page(house, desk, visitor, words, stored))

    @routes.get("/weeks/sheet.pdf")
    def sheet(visitor: SignedIn, desk: OpenDesk, words: Words) -> Response:
        view, units = _viewed(house, desk, visitor, words, needed(desk))
        return _file(sheet_pdf(view, units), "application/pdf", "weeks.pdf", inline=True)

    @routes.get("/weeks/weeks.ics")
    def calendar(visitor: SignedIn, desk: OpenDesk, words: Words) -> Response:
        stored = needed(desk)
        whole = words.model_copy(update={"week": 0})
        view, _ = _viewed(house, desk, visitor, whole, stored)
        text = calendar_of(view, block_in(desk, stored).time_zone, now())
        return _file(text.encode(), "text/calendar; charset=utf-8", "weeks.ics")

    @routes.get("/weeks/plan.toml")
    def plan(_: Coach, desk: OpenDesk) -> Response:
        text = plan_text(needed(desk).written)
        return _file(text.encode(), "application/toml", "plan.toml")

    return routes


def _file(content: bytes, kind: str, name: str, *, inline: bool = False) -> Response:
    how = "inline" if inline else "attachment"
    headers = {"Content-Disposition": f'{how}; filename="{name}"'}
    return Response(content, media_type=kind, headers=headers)


def _viewed(
    house: House, desk: Desk, visitor: Visitor, words: WeekWords, stored: StoredBlock
) -> tuple[WeeksView, UnitSystem]:
    """What is asked for, in the visitor's units."""
    block, units = block_in(desk, stored), house.units()
    if words.week > block.weeks:
        raise BadInputError(
            "The block has no such week",
            field="week",
            got=words.week,
            wanted=f"1 to {block.weeks}",
        )
    who = _whose(house, visitor, words.lifter, block.lifters)
    answer = answered(house, desk, stored, who)
    return view_weeks(answer, units, who, words.week or None), units


def _whose(house: House, visitor: Visitor, lifter: str, planned: tuple[str, ...]) -> str:
    """Whose weeks: a lifter's own; a coach's choice, else the first of the plan."""
    if not visitor.coach:
        if lifter:
            visitor.must_see(lifter)
        if not house.gym.lifters:
            raise forbidden(f"The gym has no lifter {visitor.lifter} any more", wanted="a coach")
        return house.gym.lifters[0].name
    if lifter == EVERYBODY:
        return ""
    names = planned or tuple(one.name for one in house.gym.lifters)
    return house.gym.lifter(lifter).name if lifter else (names[0] if names else "")


def empty_page(desk: Desk, visitor: Visitor) -> dict[str, Any]:
    """What the page shows when nothing is planned."""
    return {
        "coach": visitor.coach,
        "over": newest(desk) or 0,
        "lifters": [one.name for one in desk.source.read()[0].lifters],
        "lifts": list(LIFTS),
        "kinds": list(DAYS),
        "weekdays": WEEKDAYS,
        "filled": {"start": today(), "name": "", "days": [("monday", "squat", "heavy")]},
        "error": None,
        "mistakes": "",
    }


def shown_page(
    house: House, desk: Desk, visitor: Visitor, words: WeekWords, stored: StoredBlock
) -> dict[str, Any]:
    """Everything the page shows of a block."""
    block = block_in(desk, stored)
    view, units = _viewed(house, desk, visitor, words, stored)
    who = _whose(house, visitor, words.lifter, block.lifters)
    charts = _charts(view, units) if who and not words.week else []
    names = block.lifters or tuple(one.name for one in desk.source.read()[0].lifters)
    asked = {"lifter": who or EVERYBODY}
    return {
        "view": view,
        "who": who,
        "words": words,
        "stored": stored,
        "coach": visitor.coach,
        "lifters": names if visitor.coach else (),
        "everybody": EVERYBODY,
        "weeks": [(week, _rows(view, week.number)) for week in view.weeks],
        "all_weeks": range(1, block.weeks + 1),
        "now": _running(view),
        "charts": charts,
        "sheet": f"/weeks/sheet.pdf?{urlencode(asked | _week(words))}",
        "calendar": f"/weeks/weeks.ics?{urlencode(asked)}",
        "today": today(),
        "changes": list(enumerate(stored.written.get("change", []))),
        "lifts": sorted({lift for day in block.days for lift in day.lifts}),
        "weekdays": WEEKDAYS,
        "filled": {},
        "error": None,
    }


def _running(view: WeeksView) -> int:
    """The week that today is in; 0 before and after the block."""
    day = today()
    return next((row.number for row in view.weeks if row.monday <= day <= row.sunday), 0)


def _week(words: WeekWords) -> dict[str, str]:
    return {"week": str(words.week)} if words.week else {}


def _rows(view: WeeksView, week: int) -> list[tuple[SessionRow, str]]:
    return [(row, _give(row)) for row in view.sessions if row.week == week]


def _give(row: SessionRow) -> str:
    """Where a session of the day becomes work at the rack."""
    if row.bottom is None or row.top is None:
        return ""
    kind = row.kind.partition(",")[0]
    asked = {
        "lifter": row.lifter,
        "lift": row.lift,
        "station": row.station,
        "bottom": f"{row.bottom.value:.2f}kg",
        "top": f"{row.top.value:.2f}kg",
        "kind": kind if kind in {*DAYS, "test"} else "heavy",
        "sets": str(row.sets),
        "reps": str(row.reps),
        "day": row.date,
    }
    return f"/rack/give?{urlencode(asked)}"


def _charts(view: WeeksView, units: UnitSystem) -> list[Drawn]:
    try:
        charts = weeks_charts(view, units)
        return [
            Drawn(
                title=chart.title,
                wide=Markup(chart_svg(chart, PAGE)),  # noqa: S704 - our own drawing, words escaped
                narrow=Markup(chart_svg(chart, PHONE)),  # noqa: S704
            )
            for chart in charts
        ]
    except TopheavyError:  # nothing known, or no library: the table says the same
        return []
