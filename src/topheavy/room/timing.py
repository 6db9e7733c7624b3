"""When and at which station each team lifts, the teams being settled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from topheavy.room.draft import Draft, capacities, lengths, needs
from topheavy.room.plan import PER_CHANGE, PER_GRAIN

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.draft import Part
    from topheavy.room.offers import Offers
    from topheavy.room.teams import Team


@dataclass(slots=True, eq=False)
class _Job:
    """A team and its variables."""

    team: Team
    long: int
    begins: Any
    ends: Any
    fresh: Any
    interval: Any
    at: dict[str, Any]


def timed(
    room: Room, offers: Offers, teams: list[Team], library: Any, solver: Any
) -> tuple[Draft, ...] | None:
    """Give each team its station and time; None when that was not found, or can't be.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    teams : list of Team
        Everyone in just one.
    library : module
        CP-SAT.
    solver : CpSolver
        With how much work it may spend.
    """
    if not teams:
        return None
    model = library.CpModel()
    jobs = [_job(room, model, team) for team in teams]
    _one_after_the_other(room, model, jobs)
    _carrying_on(model, jobs)
    _sharing(room, offers, model, jobs)
    _people(room, model, jobs)
    finish = model.new_int_var(0, room.length, "finish")
    for job in jobs:
        model.add(finish >= job.ends)
    model.minimize(PER_GRAIN * finish + PER_CHANGE * sum(job.fresh for job in jobs))
    if solver.solve(model) not in (library.OPTIMAL, library.FEASIBLE):
        return None
    return tuple(
        Draft(
            station=next(name for name, var in job.at.items() if solver.value(var)),
            hung=job.team.hung,
            bookings=job.team.bookings,
            ways=tuple(0 for _ in job.team.bookings),
            begins=solver.value(job.begins),
            ends=solver.value(job.ends),
            fresh=bool(solver.value(job.fresh)),
        )
        for job in jobs
    )


def _job(room: Room, model: Any, team: Team) -> _Job:
    some = [room.bookings[n] for n in team.bookings]
    long = lengths(room, team.bookings)
    begins, ends = (model.new_int_var(0, room.length, "") for _ in range(2))
    size = model.new_int_var(0, room.length, "")
    fresh = model.new_bool_var("")
    model.add(size >= long + room.pace.rig_grains * fresh)
    model.add(ends - long >= max(booking.arrives for booking in some))
    for booking in some:
        if booking.leaves is not None:
            model.add(ends <= booking.leaves)
        if booking.starts is not None:
            model.add(ends - long == booking.starts)
    allowed = [
        name
        for name in team.stations
        if all(booking.station.casefold() in ("", name.casefold()) for booking in some)
    ]
    at = {name: model.new_bool_var("") for name in allowed}
    model.add_exactly_one(at.values())
    return _Job(
        team=team,
        long=long,
        begins=begins,
        ends=ends,
        fresh=fresh,
        interval=model.new_interval_var(begins, size, ends, ""),
        at=at,
    )


def _one_after_the_other(room: Room, model: Any, jobs: list[_Job]) -> None:
    for station in room.stations:
        own = []
        for job in jobs:
            if station.name in job.at:
                size = model.new_int_var(0, room.length, "")
                own.append(
                    model.new_optional_interval_var(
                        job.begins, size, job.ends, job.at[station.name], ""
                    )
                )
        model.add_no_overlap(own)


def _carrying_on(model: Any, jobs: list[_Job]) -> None:
    """A team lifts right after another on the same chain, or has its chain hung."""
    before: dict[int, list[Any]] = {number: [] for number in range(len(jobs))}
    after: dict[int, list[Any]] = {number: [] for number in range(len(jobs))}
    for i, one in enumerate(jobs):
        for j, other in enumerate(jobs):
            shared = [name for name in one.at if name in other.at]
            if i == j or one.team.hung != other.team.hung or not shared:
                continue
            follows = model.new_bool_var("")
            model.add(other.begins == one.ends).only_enforce_if(follows)
            for name in {*one.at, *other.at}:
                here, there = one.at.get(name, 0), other.at.get(name, 0)
                model.add(here == there).only_enforce_if(follows)
            before[j].append(follows)
            after[i].append(follows)
    for number, job in enumerate(jobs):
        model.add(sum(before[number]) + job.fresh == 1)
        model.add(sum(after[number]) <= 1)


def _sharing(room: Room, offers: Offers, model: Any, jobs: list[_Job]) -> None:
    wants: dict[Part, list[tuple[Any, int]]] = {}
    for job in jobs:
        draft = Draft(
            station=job.team.stations[0],
            hung=job.team.hung,
            bookings=job.team.bookings,
            ways=tuple(0 for _ in job.team.bookings),
            begins=0,
            ends=1,
            fresh=True,
        )
        for part, count in needs(room, offers, draft).items():
            if count:
                wants.setdefault(part, []).append((job.interval, count))
    for part, have in capacities(room, offers).items():
        takers = wants.get(part, [])
        if takers:
            model.add_cumulative([t for t, _ in takers], [c for _, c in takers], have)


def _people(room: Room, model: Any, jobs: list[_Job]) -> None:
    """A lifter of several teams is in one at a time, with time between."""
    gap = room.pace.between_grains
    for name in {booking.lifter.name for booking in room.bookings}:
        own = [
            job
            for job in jobs
            if any(room.bookings[n].lifter.name == name for n in job.team.bookings)
        ]
        if len(own) > 1:
            model.add_no_overlap(
                [
                    model.new_interval_var(job.ends - job.long, job.long + gap, job.ends + gap, "")
                    for job in own
                ]
            )
