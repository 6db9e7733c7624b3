"""A plan for a room on paper: the board for the wall, a sheet a station, a slip a lifter."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.present.typeset import INKS, paper_for, typeset

if TYPE_CHECKING:
    from topheavy.present.room.view import GroupView, RoomView, Slip, StationView
    from topheavy.units import UnitSystem

_TEMPLATE: Final = Path(__file__).with_name("sheets.typ")


def room_pdf(view: RoomView, units: UnitSystem) -> bytes:
    """Set board, station sheets and slips: A4 in kg and US Letter in lb.

    Parameters
    ----------
    view : RoomView
        From `topheavy.present.room.view.view_room`, with a plan.
    units : UnitSystem
        What the user wants to see.

    Returns
    -------
    bytes
        A PDF as `topheavy.present.typeset.typeset` makes it.
    """
    refused = BadInputError("The sheets find no room", field="sheets", wanted="shorter names")
    return typeset(_TEMPLATE, page_data(view, paper_for(units)), {}, refused)


def page_data(view: RoomView, paper: str) -> dict[str, Any]:
    """Collect what the template shows: words of the view, nothing worked out anew."""
    return {
        "paper": paper,
        "inks": INKS,
        "title": view.title,
        "gym": view.gym,
        "finish": view.finish,
        "stations": [_station(station) for station in view.stations],
        "slips": [_slip(slip) for slip in view.slips],
        "cautions": list(view.cautions),
    }


def _station(station: StationView) -> dict[str, Any]:
    return {"name": station.name, "groups": [_group(group) for group in station.groups]}


def _group(group: GroupView) -> dict[str, Any]:
    long = group.feeder_length.text if group.feeder_length else ""
    known = group.feeder.endswith(long)
    return {
        "begins": group.begins,
        "starts": group.starts,
        "ends": group.ends,
        "stays": group.stays,
        "left": group.left,
        "right": group.right,
        "hang": group.hang,
        "feeder": group.feeder if known else f"{group.feeder} ({long})",
        "connector": group.connector,
        "members": [
            {
                "lifter": one.lifter,
                "lift": one.lift,
                "work": one.work,
                "plates": one.plates_a_side,
                "bottom": one.bottom.text,
                "top": one.top.text,
                "change": one.change_to_next,
                "turns": list(one.turns),
            }
            for one in group.members
        ],
    }


def _slip(slip: Slip) -> dict[str, Any]:
    return {
        "lifter": slip.lifter,
        "lines": [
            {
                "when": line.when,
                "station": line.station,
                "lift": line.lift,
                "work": line.work,
                "plates": line.plates_a_side,
                "bottom": line.bottom.text,
                "top": line.top.text,
                "turns": line.turns,
                "with": line.with_whom,
            }
            for line in slip.lines
        ],
    }
