"""What each lifter of a plan gets on the bar, and what to mind in the whole room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.rig import End, Rig
from topheavy.room.tied import hung_on
from topheavy.services.cautions import NO_COLLARS, Caution, cautions_for

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


def room_cautions(plan: Plan) -> tuple[Caution, ...]:
    """Gather what to mind over all groups, each caution once."""
    found: dict[str, Caution] = {}
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
