"""A plan for a room as one frozen view, for terminal, JSON and paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, length, mass, share
from topheavy.present.rig.steps import loading_text, setting_text
from topheavy.present.room.words import (
    change_text,
    clock,
    clock_up,
    end_text,
    hang_text,
    minutes_text,
    part_text,
    short_text,
)
from topheavy.room.plan import turns
from topheavy.room.reading import on_the_bar, room_cautions

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.blocked import Blocked
    from topheavy.room.plan import Group, Member, Plan
    from topheavy.room.solve import Planned
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberView:
    """One lifter of a group: work, plates, loads, when each set is."""

    lifter: str
    lift: str
    work: str
    plates_a_side: str
    straight: Figure
    bottom: Figure
    top: Figure
    change_to_next: str
    turns: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupView:
    """One group: when, on what, who."""

    begins: str
    starts: str
    ends: str
    hang: str
    stays: bool
    left: str
    right: str
    feeder: str
    feeder_length: Figure | None
    connector: str
    members: tuple[MemberView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StationView:
    """One station with its groups in order."""

    name: str
    kind: str
    groups: tuple[GroupView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipLine:
    """One lift on a lifter's slip."""

    when: str
    station: str
    lift: str
    work: str
    plates_a_side: str
    bottom: Figure
    top: Figure
    turns: str
    with_whom: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """What one lifter does today."""

    lifter: str
    lines: tuple[SlipLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomView:
    """Everything a coach sees of a plan, or of why there is none."""

    title: str
    gym: str
    possible: bool | None
    verdict: str
    gap: Figure | None
    closes: str
    finish: str
    changes: int
    plates_moved: int
    by_hand: str
    moved: tuple[str, ...]
    stations: tuple[StationView, ...]
    slips: tuple[Slip, ...]
    blocked: tuple[str, ...]
    ways_out: tuple[str, ...]
    cautions: tuple[str, ...]


def view_room(
    room: Room,
    planned: Planned,
    units: UnitSystem,
    *,
    blocked: Blocked | None = None,
    moved: tuple[str, ...] = (),
    today: str = "",
) -> RoomView:
    """Put a plan into words and figures.

    Parameters
    ----------
    room : Room
        What was asked.
    planned : Planned
        What came of it.
    units : UnitSystem
        What the user wants to see.
    blocked : Blocked, optional
        Why there is no plan.
    moved : tuple of str
        What differs from a former plan.
    today : str
        The day it is, for chain that is due for an inspection; empty when nobody said it.
    """
    plan = planned.plan
    return RoomView(
        title=f"{room.name}: {clock(room, 0)} to {clock(room, room.length)}",
        gym=room.gym.name,
        possible=planned.possible,
        verdict=_verdict(room, planned),
        gap=share(planned.gap) if plan else None,
        closes=clock(room, room.length),
        finish=clock_up(room, plan.finish) if plan else "",
        changes=plan.changes if plan else 0,
        plates_moved=plan.plates_moved if plan else 0,
        by_hand=_by_hand(room, planned),
        moved=moved,
        stations=_stations(plan, units) if plan else (),
        slips=_slips(plan, units) if plan else (),
        blocked=_blocked(room, blocked, units) if blocked else (),
        ways_out=_ways_out(room, blocked) if blocked else (),
        cautions=tuple(caution.text for caution in room_cautions(plan, today)) if plan else (),
    )


def _verdict(room: Room, planned: Planned) -> str:
    plan = planned.plan
    if plan is None:
        return (
            "This can't be done as asked."
            if planned.possible is False
            else "No plan was found in the time given."
        )
    spare = room.length - plan.finish
    early = f", {minutes_text(spare)} before closing" if spare >= 4 else ", at closing time"
    best = (
        "Proven: no plan costs less."
        if planned.gap < 5e-4
        else f"A better plan could save {100 * planned.gap:.0f} % of its cost at most."
    )
    return f"All done by {clock_up(room, plan.finish)}{early}. {best}"


def _by_hand(room: Room, planned: Planned) -> str:
    first, plan = planned.first, planned.plan
    if first is None or plan is None:
        return ""
    return (
        f"Made by hand, group after group: done by {clock_up(room, first.finish)}, chain hung "
        f"{first.changes} times, {first.plates_moved} plates moved."
    )


def _stations(plan: Plan, units: UnitSystem) -> tuple[StationView, ...]:
    return tuple(
        StationView(
            name=station.name,
            kind=station.kind,
            groups=tuple(_group(plan, group, units) for group in plan.at(station.name)),
        )
        for station in plan.room.stations
        if plan.at(station.name)
    )


def _group(plan: Plan, group: Group, units: UnitSystem) -> GroupView:
    room, held = plan.room, group.hung.fixture
    feeder, setting, connector = group.hung.setting
    return GroupView(
        begins=clock(room, group.begins),
        starts=clock(room, group.starts),
        ends=clock_up(room, group.ends),
        hang=hang_text(group),
        stays=not group.fresh,
        left=end_text(group, "left"),
        right=end_text(group, "right"),
        feeder=f"{feeder}, {setting_text(setting)}" if feeder else "",
        feeder_length=length(units, held.setting.length_m) if feeder and held.setting else None,
        connector=connector,
        members=tuple(_member(plan, group, at, units) for at in range(len(group.members))),
    )


def _member(plan: Plan, group: Group, at: int, units: UnitSystem) -> MemberView:
    room, member = plan.room, group.members[at]
    booking = room.bookings[member.booking]
    loads = on_the_bar(room, group, member)
    after = group.members[(at + 1) % len(group.members)]
    return MemberView(
        lifter=booking.lifter.name,
        lift=booking.lift.name,
        work=f"{booking.sets} x {booking.reps}",
        plates_a_side=loading_text(member.loading),
        straight=mass(units, loads.straight_kg),
        bottom=mass(units, loads.bottom_kg),
        top=mass(units, loads.top_kg),
        change_to_next=change_text(member.loading, after.loading) if len(group.members) > 1 else "",
        turns=_times(plan, group, member),
    )


def _times(plan: Plan, group: Group, member: Member) -> tuple[str, ...]:
    return tuple(
        clock(plan.room, turn.at)
        for turn in turns(plan.room, group)
        if turn.booking == member.booking
    )


def _slips(plan: Plan, units: UnitSystem) -> tuple[Slip, ...]:
    room = plan.room
    lines: dict[str, list[tuple[int, SlipLine]]] = {}
    for group in plan.groups:
        for member in group.members:
            booking = room.bookings[member.booking]
            others = [
                room.bookings[one.booking].lifter.name for one in group.members if one != member
            ]
            loads = on_the_bar(room, group, member)
            line = SlipLine(
                when=f"{clock(room, group.starts)} to {clock_up(room, group.ends)}",
                station=group.station,
                lift=booking.lift.name,
                work=f"{booking.sets} x {booking.reps}",
                plates_a_side=loading_text(member.loading),
                bottom=mass(units, loads.bottom_kg),
                top=mass(units, loads.top_kg),
                turns=", ".join(_times(plan, group, member)),
                with_whom=", ".join(others),
            )
            lines.setdefault(booking.lifter.name, []).append((group.starts, line))
    return tuple(
        Slip(lifter=name, lines=tuple(line for _, line in sorted(own, key=lambda one: one[0])))
        for name, own in lines.items()
    )


def _blocked(room: Room, blocked: Blocked, units: UnitSystem) -> tuple[str, ...]:
    """Say what stands in the way."""
    lines = []
    for one in blocked.unserved:
        name = room.bookings[one.booking].name
        if one.nearest_kg == float("inf"):
            lines.append(
                f"{name}: nothing that may hang here keeps the rules of this lift: the fold on the "
                "floor at the bottom, a link on the floor at the top."
            )
        else:
            near, within = units.mass(one.nearest_kg), units.mass(one.tolerance_kg)
            lines.append(f"{name}: the nearest rig misses by {near}; {within} would do.")
    return (*lines, *map(short_text, blocked.short))


def _ways_out(room: Room, blocked: Blocked) -> tuple[str, ...]:
    """Say what would do, each by itself."""
    lines = []
    if blocked.longer is not None:
        longer = minutes_text(blocked.longer)
        closes = clock_up(room, room.length + blocked.longer)
        sure = "" if blocked.longer_is_least else ", perhaps less"
        lines.append(f"Stay open {longer} longer{sure}: until {closes}.")
    lines += [f"Have {part_text(part, count)}." for part, count in blocked.more if count]
    if blocked.leave_out:
        names = "; ".join(room.bookings[n].name for n in blocked.leave_out)
        lines.append(f"Leave out {names}.")
    if blocked.unserved:
        lines.append("Allow them a larger miss (within), other loads, or other chain.")
    return tuple(lines)
