"""A plan for a room on the terminal: the board, station by station."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group as Lines
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, FirstThatFits, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.room.view import GroupView, RoomView, StationView


def render_room(view: RoomView) -> RenderableType:
    """Lay the board out."""
    parts: list[RenderableType] = [
        Text(f"{view.gym}, {view.title}", style=ACCENT),
        Text(view.verdict),
    ]
    if view.stations:
        parts.append(
            Text(f"Chain hung {view.changes} times, {view.plates_moved} plates moved.", style=QUIET)
        )
    if view.by_hand:
        parts.append(Text(view.by_hand, style=QUIET))
    if view.blocked:
        parts.append(headed("In the way", listed(view.blocked)))
    if view.ways_out:
        parts.append(headed("Each of these would do", listed(view.ways_out)))
    if view.moved:
        parts.append(headed("Other than before", listed(view.moved)))
    parts += [headed(station.name, *_groups(station)) for station in view.stations]
    if view.cautions:
        parts.append(headed("Mind", listed(view.cautions)))
    return Lines(*parts)


def _groups(station: StationView) -> list[RenderableType]:
    found: list[RenderableType] = []
    for number, group in enumerate(station.groups):
        if number:
            found.append(Text(""))
        found += [Text(_head(group), style=ACCENT), facts(_hung(group)), _members(group)]
    return found


def _head(group: GroupView) -> str:
    hang = "same chain stays on" if group.stays else f"hang from {group.begins}"
    return f"{group.starts} to {group.ends}  ({hang})"


def _hung(group: GroupView) -> tuple[tuple[str, str], ...]:
    if group.stays:
        return ()
    feeders = (("feeders", f"{group.feeder}; {group.connector}"),) if group.feeder else ()
    return (
        ("left", group.left),
        ("right", group.right),
        ("each end", group.hang),
        *feeders,
    )


def _members(group: GroupView) -> RenderableType:
    """Who lifts, in order; the times of the sets only where there is room."""
    return FirstThatFits((_table(group, loads=True), _table(group, loads=False)))


def _table(group: GroupView, *, loads: bool) -> Table:
    more = ("bottom", "top") if loads else ()
    table = ruled("in this order", "do", *more, "plates a side")
    table.columns[0].overflow = "fold"
    table.columns[-1].justify = "left"
    for one in group.members:
        cells = (one.bottom.text, one.top.text) if loads else ()
        table.add_row(f"{one.lifter}, {one.lift}", one.work, *cells, one.plates_a_side)
    return table
