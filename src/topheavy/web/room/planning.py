"""A plan in the making: shown while it gets better, stopped, printed, put up."""

from __future__ import annotations

from http import HTTPStatus
from typing import TYPE_CHECKING, Any

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, Response

from topheavy.present.room.sheets import room_pdf
from topheavy.present.room.view import view_room
from topheavy.present.room.words import moved_lines
from topheavy.room.solve import Planned
from topheavy.web.access import Coach, back_to
from topheavy.web.access.desks import OpenDesk  # noqa: TC001 - read by the routes
from topheavy.web.access.refusals import RefusedError
from topheavy.web.desk import today
from topheavy.web.room.publish import put_up_job
from topheavy.web.templates import render

if TYPE_CHECKING:
    from topheavy.room.plan import Plan
    from topheavy.units import UnitSystem
    from topheavy.web.house import House
    from topheavy.web.room.jobs import Job, Jobs


def planning_routes(house: House, jobs: Jobs) -> APIRouter:
    """Make the routes of a plan in the making."""
    pages = APIRouter(include_in_schema=False)

    @pages.get("/room/planning/{job_id}")
    def planning(_: Coach, desk: OpenDesk, job_id: str) -> HTMLResponse:
        job = jobs.find(desk.gym_id, job_id)
        return render("room/planning.html", planning_values(job, house.units()))

    @pages.get("/part/room/planning/{job_id}")
    def part(_: Coach, desk: OpenDesk, job_id: str) -> HTMLResponse:
        job = jobs.find(desk.gym_id, job_id)
        return render("room/planning_part.html", planning_values(job, house.units()))

    @pages.post("/room/planning/{job_id}/stop")
    def stop(_: Coach, desk: OpenDesk, job_id: str) -> Response:
        jobs.find(desk.gym_id, job_id).halt.set()
        return back_to(f"/room/planning/{job_id}", "Stopping; the best plan so far is kept.")

    @pages.post("/room/planning/{job_id}/put-up")
    def up(visitor: Coach, desk: OpenDesk, job_id: str) -> Response:
        job = jobs.find(desk.gym_id, job_id)
        plan = _plan_of(job)
        job.halt.set()
        new = put_up_job(desk, job, plan, visitor.name)
        fields = {"over": str(new.number), "number": str(job.asked.over or "")}
        undo = "/room/put-back" if job.asked.over else "/room/take-down"
        said = "Put up: it is everybody's work of today, and on the phones."
        return back_to("/room", said, undo=undo, fields=fields)

    @pages.get("/room/planning/{job_id}/sheets.pdf")
    def sheets(_: Coach, desk: OpenDesk, job_id: str) -> Response:
        job = jobs.find(desk.gym_id, job_id)
        return sheets_pdf(_plan_of(job), house.units())

    return pages


def planning_values(job: Job, units: UnitSystem) -> dict[str, Any]:
    """Everything that the page of a plan in the making shows."""
    asked, planned = job.asked, job.planned
    plan = planned.plan if planned else None
    moved = moved_lines(plan, asked.former) if plan and asked.former else ()
    shown = planned or Planned(
        plan=None,
        bound=0,
        cost=0,
        possible=False if job.blocked and job.blocked.unserved else None,
        first=None,
    )
    view = view_room(asked.room, shown, units, blocked=job.blocked, moved=moved, today=today())
    return {
        "job": job,
        "view": view,
        "seconds": f"{job.seconds_s:.0f}",
        "most": f"{asked.seconds_s:.0f}",
        "stopping": job.halt.is_set() and job.state == "planning",
        "error": job.trouble,
    }


def sheets_pdf(plan: Plan, units: UnitSystem) -> Response:
    """Print board, station sheets and slips of a plan."""
    content = room_pdf(view_room(plan.room, as_planned(plan), units, today=today()), units)
    headers = {"Content-Disposition": 'inline; filename="room.pdf"'}
    return Response(content, media_type="application/pdf", headers=headers)


def as_planned(plan: Plan) -> Planned:
    """Take a plan as it was decided on."""
    return Planned(plan=plan, bound=plan.cost, cost=plan.cost, possible=True, first=None)


def _plan_of(job: Job) -> Plan:
    if job.planned is None or job.planned.plan is None:
        raise RefusedError(
            "There is no plan yet",
            HTTPStatus.CONFLICT,
            field="planning",
            wanted="a plan that was found",
        )
    return job.planned.plan
