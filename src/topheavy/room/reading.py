"""What each lifter of a plan gets on the bar, and what to mind in the whole room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.built import BuiltRig
from topheavy.room.tied import hung_on
from topheavy.services.cautions import NO_COLLARS, Caution, cautions_for
from topheavy.services.chain_care import inspections_due

if TYPE_CHECKING:
    from topheavy.gym.people import Station
    from topheavy.room.ask import Room
    from topheavy.room.plan import Group, Member, Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTheBar:
    """Loads of one lifter in a group.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    bottom_kg, top_kg : float
        On the way up [kg].
    """

    straight_kg: float
    bottom_kg: float
    top_kg: float


def station_of(room: Room, group: Group) -> Station:
    """Find the station of a group."""
    return next(station for station in room.stations if station.name == group.station)


def rig_of(room: Room, group: Group, member: Member) -> Rig:
    """Build the rig of one lifter in a group, as the mechanics know it."""
    setup = room.question(room.bookings[member.booking], station_of(room, group)).place.setup
    span_m = (setup.travel.bottom_m, setup.travel.top_m)
    fixture, bands = group.hung.fixture, hung_on(group.hung.bands, setup)
    left, right = (
        End(
            fixture.hangs([getattr(pair, side).chain for pair in group.pairs]),
            bands=tuple(hung.over(span_m) for hung in own),
        )
        for side, own in zip(("left", "right"), bands, strict=True)
    )
    return Rig(bar_kg=setup.bar_kg, plates_kg=member.loading.total_kg, left=left, right=right)


def built_of(room: Room, group: Group, member: Member) -> BuiltRig:
    """Give the rig of one lifter in a group with the names of its parts, as the search does.

    What it misses and costs is not worked out again: those are 0.
    """
    setup = room.question(room.bookings[member.booking], station_of(room, group)).place.setup
    left_bands, right_bands = hung_on(group.hung.bands, setup)
    return BuiltRig(
        fixture=group.hung.fixture,
        left=tuple(pair.left for pair in group.pairs),
        right=tuple(pair.right for pair in group.pairs),
        loading=member.loading,
        rig=rig_of(room, group, member),
        miss_kg=0.0,
        imbalance_kg=sum(pair.lean_kg for pair in group.pairs),
        cost_kg=0.0,
        left_bands=left_bands,
        right_bands=right_bands,
    )


def on_the_bar(room: Room, group: Group, member: Member) -> OnTheBar:
    """Read the loads of one lifter in a group."""
    place = room.question(room.bookings[member.booking], station_of(room, group)).place
    rig = rig_of(room, group, member)
    curve = rig.curve(place.ground)
    return OnTheBar(
        straight_kg=rig.straight_weight_kg,
        bottom_kg=float(curve.at(place.travel.bottom_m)),
        top_kg=float(curve.at(place.travel.top_m)),
    )


def room_cautions(plan: Plan, today: str = "") -> tuple[Caution, ...]:
    """Gather what to mind over all groups, each caution once; chain and bands that are due first.

    Parameters
    ----------
    plan : Plan
        The plan.
    today : str
        The day it is, as ``"2026-11-25"``; empty: nothing is said of what is due.
    """
    found: dict[str, Caution] = {one.text: one for one in _due(plan, today)} if today else {}
    for group in plan.groups:
        for member in group.members:
            booking = plan.room.bookings[member.booking]
            place = plan.room.question(booking, station_of(plan.room, group)).place
            if place.setup.collar is None:
                found.setdefault(NO_COLLARS.code, NO_COLLARS)
            rig = rig_of(plan.room, group, member)
            for caution in cautions_for(booking.lift, rig, place.travel, place.ground):
                found.setdefault(caution.text, caution)
    return tuple(found.values())


def _due(plan: Plan, today: str) -> tuple[Caution, ...]:
    gym = plan.room.gym
    tags = dict.fromkeys(tag for group in plan.groups for tag in group.tags)
    bands = dict.fromkeys(tag for group in plan.groups for tag in group.hung.band_tags)
    pieces = [gym.stock.piece(tag) for tag in tags]
    said = [one.say() for one in inspections_due(pieces, today, gym.inspect_days)]
    said += [gym.stock.band(tag).remeasure(today) for tag in bands]
    return tuple(Caution("due", text) for text in said if text)
