"""A plan of the room as the day's work of each lifter, for the phones at the rack."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from topheavy.room.pace import GRAIN_S
from topheavy.room.plan import turns
from topheavy.room.reading import built_of, station_of
from topheavy.services.rig import what_to_mind
from topheavy.services.work import WorkAsk, work_with
from topheavy.training.days import DAYS
from topheavy.training.session import Plan as Sets

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.plan import Group, Member, Plan
    from topheavy.training.work import Work

_DAY_S = 24 * 3600


def works_of(plan: Plan, day: str, new_id: Callable[[], str]) -> tuple[Work, ...]:
    """Make work of every lift of a plan: warm-ups and sets, with this plan's chain and plates.

    Parameters
    ----------
    plan : Plan
        Checked by the validator.
    day : str
        Which day, ``"2026-11-25"``.
    new_id : callable
        Makes an id for each, a UUID.

    Raises
    ------
    BadInputError
        A lift from which no ramp can be made.
    """
    return tuple(
        _work(plan, group, member, day, new_id())
        for group in plan.groups
        for member in group.members
    )


def _work(plan: Plan, group: Group, member: Member, day: str, work_id: str) -> Work:
    room = plan.room
    booking = room.bookings[member.booking]
    place = room.question(booking, station_of(room, group)).place
    built = built_of(room, group, member)
    ask = WorkAsk(
        id=work_id,
        day=day,
        plan=Sets.of(DAYS[booking.kind], booking.sets, booking.reps),
        source="room",
        at=_clock(plan, group, member),
    )
    cautions = what_to_mind(place, built)
    work = work_with(place, built, built.rig.straight_weight_kg, ask, cautions)
    stack = tuple(p.mass_kg for p, count in member.loading.per_side for _ in range(count))
    steps = tuple(
        replace(
            step,
            bar=replace(step.bar, plates_kg=stack),
            rest_s=step.rest_s if step.kind != "work set" else max(step.rest_s, booking.rest_s),
        )
        if step.kind in ("top set", "work set")
        else step
        for step in work.steps
    )
    return replace(work, steps=steps)


def _clock(plan: Plan, group: Group, member: Member) -> str:
    """Time of day of the first set, to the minute that has begun."""
    first = next(turn.at for turn in turns(plan.room, group) if turn.booking == member.booking)
    minutes = (plan.room.opens_s + first * GRAIN_S) // 60 % (_DAY_S // 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
