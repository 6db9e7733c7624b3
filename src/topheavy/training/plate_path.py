"""Plates from set to set: near the wanted weights, with the least taken off and put on.

Plates are stacked on the sleeve, the heaviest inside, and only the outermost comes off. So the
ways to load a bar are the nodes of a tree whose root is the bare bar: one plate more is a child,
taking the outermost off leads back to the parent. Handling between two sets is the way between
their nodes, and a whole ramp is a shortest path through the tree that stops once in each window of
weights. It is found exactly, layer by layer: all ways down the tree first, then all ways up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError, NotInStockError
from topheavy.mechanics.chain import require_not_negative
from topheavy.training.plate_tree import PlateTree, grow_tree

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.stock import Plate

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

PLATE_PRICE_KG: Final = 0.5
"""How much nearer to the wanted weight one more plate handled must bring a set [kg]; own judgement.
Plates move in pairs, so a pair must be worth a kilogram."""

_HAIR_KG: Final = 5e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Straight weights that would do for one set, bar and collars counted.

    Parameters
    ----------
    low_kg, wanted_kg, high_kg : float
        Least, wanted and greatest [kg].
    """

    low_kg: float
    wanted_kg: float
    high_kg: float

    def __post_init__(self) -> None:
        for name in ("low_kg", "wanted_kg", "high_kg"):
            require_not_negative(name, getattr(self, name))
        if not self.low_kg <= self.wanted_kg <= self.high_kg:
            raise BadInputError(
                "The wanted weight must lie in its window",
                field="window",
                got=f"{self.low_kg:g}, {self.wanted_kg:g}, {self.high_kg:g} kg",
                wanted="low <= wanted <= high",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateStop:
    """Plates of one set, and what to change for it since the last.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    stack : tuple of Plate
        Plates of one end, innermost first.
    off, on : tuple of Plate
        What comes off an end and then goes on, in the order of doing it.
    miss_kg : float
        How far from the wanted weight [kg], as a size.
    """

    straight_kg: float
    stack: tuple[Plate, ...]
    off: tuple[Plate, ...]
    on: tuple[Plate, ...]
    miss_kg: float

    @property
    def handled(self) -> int:
        """Plates taken off and put on, both ends together."""
        return 2 * (len(self.off) + len(self.on))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatePath:
    """Plates of every set.

    Parameters
    ----------
    stops : tuple of PlateStop
        In the order of the windows.
    cost_kg : float
        What was made least [kg]: misses, and the price of every plate handled.
    exact : bool
        Whether no stack at all does better. False only when the stock allows more stacks than are
        looked at, and taller ones might do.
    """

    stops: tuple[PlateStop, ...]
    cost_kg: float
    exact: bool

    @property
    def handled(self) -> int:
        """Plates taken off and put on from the bare bar to the last set, both ends together."""
        return sum(stop.handled for stop in self.stops)


def plate_path(
    plates: Iterable[Plate],
    room_m: float,
    bar_kg: float,
    windows: Sequence[Window],
    *,
    price_kg: float = PLATE_PRICE_KG,
) -> PlatePath:
    """Choose plates for a run of sets, from the bare bar on.

    Parameters
    ----------
    plates : iterable of Plate
        Owned plates; a size counts in pairs, an odd one stays on the rack.
    room_m : float
        Sleeve room of one end for plates [m], collar and loop taken off.
    bar_kg : float
        Bar and collars [kg].
    windows : sequence of Window
        What would do for each set.
    price_kg : float
        How much nearer one more plate handled must bring a set [kg], >= 0.

    Returns
    -------
    PlatePath
        The cheapest of all: sum of misses plus price times plates handled. Both ends are alike, no
        plate is heavier than the one inside of it. Stripping the bar afterwards is not counted.

    Raises
    ------
    NotInStockError
        The plates make no weight in a window; the error names the nearest they make.
    BadInputError
        No window, or a number out of range.

    Examples
    --------
    From 40 to 60 to 100 kg, twenties first would serve 100 best; the ten has to come off:

    >>> from topheavy.gym.stock import Plate
    >>> def plate(mass_kg, count):
    ...     return Plate(mass_kg=mass_kg, width_m=0.03, diameter_m=0.45, count=count)
    >>> owned = (plate(20, 4), plate(10, 2))
    >>> sets = [Window(low_kg=kg, wanted_kg=kg, high_kg=kg) for kg in (40.0, 60.0, 100.0)]
    >>> path = plate_path(owned, 0.4, 20.0, sets)
    >>> for stop in path.stops:
    ...     print([p.mass_kg for p in stop.off], [p.mass_kg for p in stop.on], stop.straight_kg)
    [] [10] 40.0
    [10] [20] 60.0
    [] [20] 100.0
    """
    if not windows:
        raise BadInputError("No set to load for", field="windows", got="none", wanted="one or more")
    for name, value in (("room_m", room_m), ("bar_kg", bar_kg), ("price_kg", price_kg)):
        require_not_negative(name, value)
    most_kg = (max(window.high_kg for window in windows) - bar_kg) / 2 + _HAIR_KG
    spans_kg = [
        ((window.low_kg - bar_kg) / 2 - _HAIR_KG, (window.high_kg - bar_kg) / 2 + _HAIR_KG)
        for window in windows
    ]
    tree = grow_tree(plates, room_m, most_kg, spans_kg)
    straight_kg = bar_kg + 2 * tree.total_kg
    misses = [_misses(window, straight_kg) for window in windows]
    nodes, cost_kg = _cheapest(tree, misses, 2 * price_kg)
    stops = []
    here = 0
    for node, window in zip(nodes, windows, strict=True):
        stops.append(_stop(tree, here, node, bar_kg, window))
        here = node
    deeper_kg = 2 * price_kg * (tree.full_depth + 1)
    return PlatePath(
        stops=tuple(stops),
        cost_kg=cost_kg,
        exact=tree.whole or deeper_kg >= cost_kg,
    )


def _misses(window: Window, straight_kg: Floats) -> Floats:
    """How far each stack is from the wanted weight [kg]; infinite outside of the window."""
    inside = (straight_kg >= window.low_kg - _HAIR_KG) & (straight_kg <= window.high_kg + _HAIR_KG)
    if not np.any(inside):
        order = np.argsort(np.abs(straight_kg - window.wanted_kg))
        near = sorted({round(float(straight_kg[i]), 3) for i in order[:1]})
        raise NotInStockError(
            "The plates make no weight that would do for a set",
            field="plates",
            got=f"wanted {window.wanted_kg:g} kg, from {window.low_kg:g} to {window.high_kg:g} kg",
            wanted=f"{' or '.join(f'{kg:g} kg' for kg in near)}, the nearest they make",
        )
    return np.where(inside, np.abs(straight_kg - window.wanted_kg), np.inf)


def _cheapest(
    tree: PlateTree, misses: Sequence[Floats], pair_price_kg: float
) -> tuple[list[int], float]:
    """Find the node to stop at in each layer, and what the whole path costs [kg]."""
    cost = np.full(tree.size, np.inf)
    cost[0] = 0.0
    came_from: list[Ints] = []
    for miss in misses:
        cost, source = tree.spread(cost, pair_price_kg)
        cost = cost + miss
        came_from.append(source)
    node = int(np.argmin(cost))
    least_kg = float(cost[node])
    nodes = [node]
    for source in reversed(came_from[1:]):
        node = int(source[node])
        nodes.append(node)
    return nodes[::-1], least_kg


def _stop(tree: PlateTree, here: int, there: int, bar_kg: float, window: Window) -> PlateStop:
    before, after = tree.stack(here), tree.stack(there)
    kept = 0
    while kept < min(len(before), len(after)) and before[kept] is after[kept]:
        kept += 1
    straight_kg = bar_kg + 2 * sum(plate.mass_kg for plate in after)
    return PlateStop(
        straight_kg=straight_kg,
        stack=after,
        off=before[kept:][::-1],
        on=after[kept:],
        miss_kg=abs(straight_kg - window.wanted_kg),
    )
