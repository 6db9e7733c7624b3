"""A whole plan written down and read again: groups with pieces, bands, plates and times."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from topheavy.errors import NotInStockError
from topheavy.rigging.fixtures import Fixture, fixtures_of
from topheavy.rigging.plates import Loading
from topheavy.room.hung import BARE, Hung, Pair, TiedBands
from topheavy.room.plan import Group, Member, Plan

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.room.ask import Room

_HAIR_KG = 1e-9


def plan_written(plan: Plan) -> dict[str, Any]:
    """Write a plan down as plain values, for JSON; of the room only who lifts what.

    Examples
    --------
    >>> from topheavy.roomfile import demo_room
    >>> plan_written(Plan(room=demo_room(), groups=()))
    {'groups': []}
    """
    return {"groups": [_written(plan.room, group) for group in plan.groups]}


def _written(room: Room, group: Group) -> dict[str, Any]:
    held = group.hung
    feeder, setting, connector = held.setting
    return {
        "station": group.station,
        "begins": group.begins,
        "starts": group.starts,
        "ends": group.ends,
        "fresh": group.fresh,
        "style": held.style,
        "feeder": feeder,
        "setting": setting,
        "connector": connector,
        "pairs": [list(pair.tags) for pair in group.pairs],
        "bands": [
            {"left": one.left, "right": one.right, "peg": one.peg, "doubled": one.doubled}
            for one in held.bands
        ],
        "members": [
            {
                "lifter": room.bookings[one.booking].lifter.name,
                "lift": room.bookings[one.booking].lift.name,
                "plates": [[plate.mass_kg, count] for plate, count in one.loading.per_side],
            }
            for one in group.members
        ],
    }


def plan_read(written: Mapping[str, Any], room: Room) -> Plan:
    """Read a plan that was written down.

    Parameters
    ----------
    written : mapping
        From `plan_written`.
    room : Room
        The same room, of the same gym.

    Raises
    ------
    NotInStockError
        The room has no such lift, piece, setting or plate.
    """
    return Plan(room=room, groups=tuple(_group(one, room) for one in written["groups"]))


def _group(one: Mapping[str, Any], room: Room) -> Group:
    stock = room.gym.stock
    pairs = tuple(
        Pair(left=stock.piece(left), right=stock.piece(right)) for left, right in one["pairs"]
    )
    return Group(
        station=one["station"],
        hung=Hung(
            fixture=_fixture(one, room),
            counts=(len(pairs),),
            bands=tuple(TiedBands(**band) for band in one["bands"]),
        ),
        pairs=pairs,
        members=tuple(_member(member, room) for member in one["members"]),
        begins=one["begins"],
        starts=one["starts"],
        ends=one["ends"],
        fresh=one["fresh"],
    )


def _fixture(one: Mapping[str, Any], room: Room) -> Fixture:
    if one["style"] == "bands":
        return BARE
    wanted = (one["feeder"], one["setting"], one["connector"])
    for fixture in fixtures_of(room.gym.stock, room.limits):
        held = Hung(fixture=fixture, counts=(1,))
        if (held.style, held.setting) == (one["style"], wanted):
            return fixture
    raise NotInStockError(
        "The gym has no longer what chain hung from",
        field="feeder",
        got=", ".join(name for name in wanted if name) or one["style"],
    )


def _member(one: Mapping[str, Any], room: Room) -> Member:
    names = (one["lifter"], one["lift"])
    for number, booking in enumerate(room.bookings):
        if (booking.lifter.name, booking.lift.name) == names:
            return Member(booking=number, loading=_loading(one["plates"], room))
    raise NotInStockError("Nobody lifts that in this room", field="session", got=", ".join(names))


def _loading(plates: list[list[Any]], room: Room) -> Loading:
    found = []
    for mass_kg, count in plates:
        same = [p for p in room.gym.stock.plates if abs(p.mass_kg - mass_kg) < _HAIR_KG]
        if not same:
            raise NotInStockError("The gym has no such plate", field="plate", got=f"{mass_kg:g} kg")
        found.append((same[0], int(count)))
    return Loading(per_side=tuple(found))
