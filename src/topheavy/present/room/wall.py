"""The whole room on a big screen: at each station who lifts, who is next, what changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.rig.steps import loading_text, setting_text
from topheavy.present.room.words import change_text, clock, clock_up, end_text, hang_text
from topheavy.room.now import stations_at
from topheavy.room.reading import on_the_bar

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.room.now import StationNow
    from topheavy.room.plan import Group, Member, Plan, Turn
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class WallTurn:
    """Whose set it is: who, what, which of how many, plates a side, loads at bottom and top."""

    lifter: str
    lift: str
    count: str
    plates: str
    loads: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallStation:
    """A station on the wall.

    `doing` is ``before``, ``hanging``, ``lifting`` or ``done``; `says` is that in words. `change`
    is what comes off and goes on a side for whoever is next. `hang` tells what to hang where, a
    line each, while chain is hung; `later` who comes after.
    """

    name: str
    doing: str
    says: str
    now: WallTurn | None
    next: WallTurn | None
    change: str
    hang: tuple[str, ...]
    later: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallView:
    """Everything on the wall."""

    title: str
    gym: str
    clock: str
    finish: str
    stations: tuple[WallStation, ...]
    over: bool


def view_wall(
    plan: Plan, now: int, units: UnitSystem, logged: Mapping[int, int] | None = None
) -> WallView:
    """Put a moment of a plan on the wall.

    Parameters
    ----------
    plan : Plan
        What was put up.
    now : int
        Grains since the room opened; below 0 before.
    units : UnitSystem
        What to show.
    logged : mapping of int to int, optional
        Sets logged today, by position of the booking.
    """
    room = plan.room
    stations = tuple(_station(plan, one, units) for one in stations_at(plan, now, logged))
    return WallView(
        title=room.name,
        gym=room.gym.name,
        clock=clock(room, now),
        finish=clock_up(room, plan.finish),
        stations=stations,
        over=all(one.doing == "done" for one in stations),
    )


def _station(plan: Plan, at: StationNow, units: UnitSystem) -> WallStation:
    room, group = plan.room, at.group
    if group is None:
        return WallStation(
            name=at.station,
            doing="done",
            says="Done for today",
            now=None,
            next=None,
            change="",
            hang=(),
            later="",
        )
    waits = at.doing != "lifting"
    now = _turn(plan, group, at.turn, units)
    after = _turn(plan, group, at.after, units)
    if waits:
        first = group.members[0]
        after = _who(plan, group, first, f"set 1 of {room.bookings[first.booking].sets}", units)
    said = {
        "before": f"Free until {clock(room, group.begins)}",
        "hanging": f"Hang the chain; first set at {clock(room, group.starts)}",
        "lifting": f"Until {clock_up(room, group.ends)}",
    }
    return WallStation(
        name=at.station,
        doing=at.doing,
        says=said[at.doing],
        now=now,
        next=after,
        change=_change(group, at) if not waits else "",
        hang=_hang(group) if waits else (),
        later=_later(plan, at.later),
    )


def _turn(plan: Plan, group: Group, turn: Turn | None, units: UnitSystem) -> WallTurn | None:
    if turn is None:
        return None
    member = next(one for one in group.members if one.booking == turn.booking)
    sets = plan.room.bookings[turn.booking].sets
    return _who(plan, group, member, f"set {turn.number} of {sets}", units)


def _who(plan: Plan, group: Group, member: Member, count: str, units: UnitSystem) -> WallTurn:
    booking = plan.room.bookings[member.booking]
    loads = on_the_bar(plan.room, group, member)
    bottom, top = units.mass(loads.bottom_kg), units.mass(loads.top_kg)
    return WallTurn(
        lifter=booking.lifter.name,
        lift=booking.lift.name,
        count=f"{count}, {booking.reps} rep{'' if booking.reps == 1 else 's'}",
        plates=loading_text(member.loading),
        loads=f"{bottom} to {top}",
    )


def _change(group: Group, at: StationNow) -> str:
    if at.turn is None or at.after is None:
        return ""
    loading = {one.booking: one.loading for one in group.members}
    return change_text(loading[at.turn.booking], loading[at.after.booking])


def _hang(group: Group) -> tuple[str, ...]:
    if not group.fresh:
        return ("The same chain stays on.",)
    feeder, setting, connector = group.hung.setting
    lines = [f"Left {end_text(group, 'left')}, right {end_text(group, 'right')}", hang_text(group)]
    if feeder:
        lines.append(f"{feeder}, {setting_text(setting)}; {connector}")
    return tuple(lines)


def _later(plan: Plan, group: Group | None) -> str:
    if group is None:
        return ""
    names = ", ".join(plan.room.bookings[one.booking].lifter.name for one in group.members)
    return f"{clock(plan.room, group.starts)} {names}"
