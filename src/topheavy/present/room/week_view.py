"""A planned week as one frozen view: each day as a room, and who is on no day and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.room.view import view_room

if TYPE_CHECKING:
    from topheavy.present.room.view import RoomView
    from topheavy.room.week import LeftOut, PlannedWeek
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekDayView:
    """One day: its name, how many lifts, and its plan; None where nobody lifts."""

    name: str
    lifts: int
    plan: RoomView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekView:
    """Everything a coach sees of a week."""

    title: str
    gym: str
    verdict: str
    wanted: int
    planned: int
    left_out: tuple[str, ...]
    in_a_row: tuple[str, ...]
    days: tuple[WeekDayView, ...]


def view_week(found: PlannedWeek, units: UnitSystem, *, today: str = "") -> WeekView:
    """Put a week into words and figures.

    Parameters
    ----------
    found : PlannedWeek
        What came of planning.
    units : UnitSystem
        What the user wants to see.
    today : str
        The day it is, for chain that is due for an inspection; empty when nobody said it.
    """
    week = found.week
    wanted = len(week.wishes)
    all_there = found.planned == wanted
    return WeekView(
        title=week.name,
        gym=week.gym.name,
        verdict=f"All {wanted} lifts have a day."
        if all_there
        else f"{found.planned} of {wanted} lifts have a day.",
        wanted=wanted,
        planned=found.planned,
        left_out=tuple(_left_out(found, one, units) for one in found.left_out),
        in_a_row=_rows(found),
        days=tuple(
            WeekDayView(
                name=week.days[one.day].name,
                lifts=len(one.wishes),
                plan=view_room(one.planned.plan.room, one.planned, units, today=today)
                if one.planned is not None and one.planned.plan is not None
                else None,
            )
            for one in found.days
        ),
    )


def _left_out(found: PlannedWeek, one: LeftOut, units: UnitSystem) -> str:
    """Say why a lift is on no day."""
    wish = found.week.wishes[one.wish]
    days = ", ".join(found.week.days[day].name for day in wish.on)
    name = wish.any.name
    if one.why == "unserved" and one.nearest_kg == float("inf"):
        return f"{name}: nothing that may hang here keeps the rules of this lift."
    if one.why == "unserved":
        near = units.mass(one.nearest_kg)
        return f"{name}: the nearest rig misses by {near}, more than will do."
    if one.why == "alone":
        return f"{name}: even alone it takes longer than there is time ({days})."
    if one.why == "taken":
        return f"{name}: already as many lifts as may be on one day ({days})."
    return f"{name}: no place was found ({days})."


def _rows(found: PlannedWeek) -> tuple[str, ...]:
    """Name who has two hard days in a row."""
    wishes = found.week.wishes
    at = {n: found.week.days[one.day].name for one in found.days for n in one.wishes}
    return tuple(
        f"{wishes[a].any.lifter.name}: {wishes[a].any.lift.name} on {at[a]}, "
        f"{wishes[b].any.lift.name} on {at[b]}"
        for a, b in found.in_a_row
    )
