"""A gym on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.gym.view import GymView

_TAGS = 12


def render_gym(view: GymView) -> RenderableType:
    """Lay a gym out: what there is, what can't be used, what to mend."""
    parts: list[RenderableType] = [
        Text(view.name, style=ACCENT),
        Text(f"{view.source} is in order.", style=QUIET),
    ]
    if view.chain:
        parts.append(headed("Chain", _chain(view)))
    if view.feeders:
        parts.append(headed("Feeders", _feeders(view)))
    if view.connectors:
        parts.append(headed("Connectors", _connectors(view)))
    parts.append(headed("Also", facts(_others(view))))
    if view.left_out:
        parts.append(headed("Can't be used, and why", listed(view.left_out)))
    if view.remarks:
        parts.append(headed("Worth mending", listed(view.remarks)))
    return Group(*parts)


def _chain(view: GymView) -> Table:
    table = ruled("chain", "links", "fit", "a piece", "pieces", "known by")
    for name in ("chain", "pieces", "known by"):
        column = next(one for one in table.columns if one.header == name)
        column.justify, column.overflow = "left", "fold"
    table.columns[3].no_wrap = True
    for row in view.chain:
        shown = " ".join(row.tags[:_TAGS])
        more = len(row.tags) - _TAGS
        tags = f"{shown} and {more} more" if more > 0 else shown
        table.add_row(row.size, str(row.links), str(row.fit), row.mass.text, tags, row.known_by)
    return table


def _feeders(view: GymView) -> Table:
    table = ruled("feeder", "count", "settings", "from", "to", "rated")
    for row in view.feeders:
        rated = row.rating.text if row.rating else "not rated"
        table.add_row(
            row.name, str(row.count), str(row.settings), row.shortest.text, row.longest.text, rated
        )
    return table


def _connectors(view: GymView) -> Table:
    table = ruled("connector", "count", "mass", "length", "rated")
    for row in view.connectors:
        rated = row.rating.text if row.rating else "not rated"
        table.add_row(row.name, str(row.count), row.mass.text, row.length.text, rated)
    return table


def _others(view: GymView) -> list[tuple[str, str]]:
    plates = f"{view.plates}; {view.plates_total} in all" if view.plates else "none"
    return [
        ("bars, collars", "; ".join(view.bars) or "none"),
        ("plates", plates),
        ("bands", "; ".join(view.bands)),
        ("stations", "; ".join(view.stations) or "none"),
        *(("lifters" if place == 0 else "", who) for place, who in enumerate(view.lifters)),
    ]
