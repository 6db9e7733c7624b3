"""Every way to stack plates on a sleeve, as a tree: the bare bar is the root."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from topheavy.gym.stock import Plate

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

MOST_STACKS: Final = 150_000
"""How many stacks are looked at; no stock of a real gym and real ramp needs more."""

_HAIR: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlateTree:
    """Stacks of one end, numbered by height, so that a parent comes before its children.

    Parameters
    ----------
    kinds : tuple of Plate
        Plate sizes owned in pairs, heaviest first.
    parent, kind : array of int, shape (stacks,)
        The stack without its outermost plate, and which size that plate is; the root is its own
        parent.
    total_kg : array, shape (stacks,)
        Mass of the plates of one end [kg].
    floors : tuple of (int, int)
        First and last (exclusive) number of the stacks of each height, the bare bar left out.
    whole : bool
        False when taller stacks were left out because there are too many.
    """

    kinds: tuple[Plate, ...]
    parent: Ints
    kind: Ints
    total_kg: Floats
    floors: tuple[tuple[int, int], ...]
    whole: bool

    @property
    def size(self) -> int:
        """How many stacks there are, the bare bar counted."""
        return self.parent.size

    @property
    def depth(self) -> int:
        """How many plates the tallest stack has."""
        return len(self.floors)

    def stack(self, node: int) -> tuple[Plate, ...]:
        """Plates of a stack, innermost first."""
        found = []
        while node:
            found.append(self.kinds[int(self.kind[node])])
            node = int(self.parent[node])
        return tuple(reversed(found))

    def spread(self, cost: Floats, edge: float) -> tuple[Floats, Ints]:
        """Let costs spread along the tree, each plate taken off or put on at a price.

        Parameters
        ----------
        cost : array, shape (stacks,)
            Cost of being at each stack [kg]; infinite where one can't be.
        edge : float
            Price of one plate on each end [kg].

        Returns
        -------
        cost : array, shape (stacks,)
            Least cost of getting to each stack [kg].
        source : array of int, shape (stacks,)
            From which stack.
        """
        cost, source = cost.copy(), np.arange(self.size)
        for first, last in reversed(self.floors):
            above = self.parent[first:last]
            through = cost[first:last] + edge
            heads = np.flatnonzero(np.diff(above, prepend=-1))
            least = np.minimum.reduceat(through, heads)
            parents = above[heads]
            better = least < cost[parents]
            cost[parents[better]] = least[better]
            bettered = np.zeros(self.size, dtype=bool)
            bettered[parents[better]] = True
            won = bettered[above] & (through <= cost[above])
            source[above[won]] = source[first:last][won]
        for first, last in self.floors:
            above = self.parent[first:last]
            through = cost[above] + edge
            better = through < cost[first:last]
            cost[first:last] = np.where(better, through, cost[first:last])
            source[first:last] = np.where(better, source[above], source[first:last])
        return cost, source


def grow_tree(plates: Iterable[Plate], room_m: float, most_kg: float) -> PlateTree:
    """List every stack that fits, no plate heavier than the one inside of it.

    Parameters
    ----------
    plates : iterable of Plate
        Owned plates; a size counts in pairs.
    room_m : float
        Sleeve room of one end [m].
    most_kg : float
        Heaviest stack of one end that is of use [kg].

    Returns
    -------
    PlateTree
        Floor by floor. Plates of the same mass may stand in any order.

    Examples
    --------
    >>> from topheavy.gym.stock import Plate
    >>> owned = [Plate(mass_kg=kg, width_m=0.03, diameter_m=0.3, count=2) for kg in (10.0, 5.0)]
    >>> grow_tree(owned, 0.1, 50.0).total_kg.tolist()
    [0.0, 10.0, 5.0, 15.0]
    """
    kinds = tuple(
        sorted((p for p in plates if p.count >= 2), key=lambda p: (-p.mass_kg, p.width_m))
    )
    grown = _Growing(kinds, room_m, most_kg)
    floors: list[tuple[int, int]] = []
    first, last = 0, 1
    while grown.add_children(first, last):
        first, last = last, len(grown.parent)
        if first == last:
            break
        floors.append((first, last))
    return PlateTree(
        kinds=kinds,
        parent=np.array(grown.parent[:last], dtype=np.intp),
        kind=np.array(grown.kind[:last], dtype=np.intp),
        total_kg=np.array(grown.total_kg[:last]),
        floors=tuple(floors),
        whole=last == len(grown.parent),
    )


class _Growing:
    """Stacks found so far, one list for each fact."""

    def __init__(self, kinds: tuple[Plate, ...], room_m: float, most_kg: float) -> None:
        self.kinds = kinds
        self.room_m, self.most_kg = room_m + _HAIR, most_kg + _HAIR
        self.parent, self.kind, self.total_kg = [0], [-1], [0.0]
        self.width_m = [0.0]
        self.left = [tuple(kind.count // 2 for kind in kinds)]

    def add_children(self, first: int, last: int) -> bool:
        """Put one plate more on each stack of a floor; False when there are too many to list."""
        for node in range(first, last):
            for index in range(len(self.kinds)):
                if self._fits(node, index):
                    self._add(node, index)
            if len(self.parent) > MOST_STACKS:
                return False
        return True

    def _fits(self, node: int, index: int) -> bool:
        plate, outer = self.kinds[index], self.kind[node]
        return (
            self.left[node][index] > 0
            and (outer < 0 or plate.mass_kg <= self.kinds[outer].mass_kg + _HAIR)
            and self.width_m[node] + plate.width_m <= self.room_m
            and self.total_kg[node] + plate.mass_kg <= self.most_kg
        )

    def _add(self, node: int, index: int) -> None:
        plate, left = self.kinds[index], self.left[node]
        self.parent.append(node)
        self.kind.append(index)
        self.total_kg.append(self.total_kg[node] + plate.mass_kg)
        self.width_m.append(self.width_m[node] + plate.width_m)
        self.left.append((*left[:index], left[index] - 1, *left[index + 1 :]))
