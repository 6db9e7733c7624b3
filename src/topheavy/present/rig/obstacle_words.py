"""When nothing fits, in words: what blocks and what would do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.gym.stock import ChainPiece, Connector, Feeder
from topheavy.present.figure import plate_mark

if TYPE_CHECKING:
    from topheavy.rigging.obstacles import Addition, Obstacles
    from topheavy.units import UnitSystem


def obstacle_lines(obstacles: Obstacles, units: UnitSystem) -> tuple[str, ...]:
    """Say what blocks and what would do, a line each."""
    lines = [
        f"In the way: {blocker.limit}. Without it the target can be met."
        for blocker in obstacles.blockers
    ]
    lines += [f"Would do: {addition_words(a, units)}." for a in obstacles.additions]
    if not lines:
        return ("No single limit is to blame, and no single addition would do.",)
    return tuple(lines)


def addition_words(addition: Addition, units: UnitSystem) -> str:
    """Name an addition to the stock."""
    thing = addition.offer.thing
    if isinstance(thing, ChainPiece):
        more = f"{addition.offer.count} more pieces of {thing.size} chain"
        handle = f"{addition.built.pieces} pieces to handle"
        return f"{more}, {thing.chain.links} links each ({handle})"
    if isinstance(thing, Feeder):
        return f"two feeders with a setting of {units.length(thing.settings[0].length_m)}"
    if isinstance(thing, Connector):
        return f"two connectors rated {units.mass(thing.rating_kg or 0.0, 0)}"
    mark = plate_mark(thing.mass_kg)
    if mark.endswith(units.mass_unit):
        return f"two {mark} plates"
    return f"two plates of {units.mass(thing.mass_kg)} ({mark})"
