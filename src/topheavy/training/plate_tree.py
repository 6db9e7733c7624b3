"""Every way to stack plates on a sleeve, as a tree: the bare bar is the root."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.plates import loadings

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.stock import Plate
    from topheavy.rigging.plates import Loading

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

MOST_STACKS: Final = 50_000
"""How many stacks are listed. Few gyms have so many plates that a ramp needs more; then taller
stacks are left out, but for those with the fewest plates for a weight, where a set needs them."""

UNLIMITED: Final = 10**6
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
    full_depth : int
        Up to how many plates every stack is there.
    """

    kinds: tuple[Plate, ...]
    parent: Ints
    kind: Ints
    total_kg: Floats
    floors: tuple[tuple[int, int], ...]
    full_depth: int

    @property
    def size(self) -> int:
        """How many stacks there are, the bare bar counted."""
        return self.parent.size

    @property
    def whole(self) -> bool:
        """Whether every stack that fits is there."""
        return self.full_depth == UNLIMITED

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


def grow_tree(
    plates: Iterable[Plate],
    room_m: float,
    most_kg: float,
    wanted_kg: Sequence[tuple[float, float]] = (),
) -> PlateTree:
    """List every stack that fits, no plate heavier than the one inside of it.

    Parameters
    ----------
    plates : iterable of Plate
        Owned plates; a size counts in pairs.
    room_m : float
        Sleeve room of one end [m].
    most_kg : float
        Heaviest stack of one end that is of use [kg].
    wanted_kg : sequence of (float, float)
        Least and greatest mass of one end that must be there if plates make it at all [kg], should
        there be too many stacks to list.

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
    first, last = 0, 1
    while grown.add_children(first, last):
        first, last = last, len(grown.parent)
        if first == last:
            return grown.tree(UNLIMITED)
        grown.floors.append((first, last))
    grown.cut(last)
    full_depth = len(grown.floors)
    if not grown.has(wanted_kg):
        grown.add_fewest(loadings(kinds, room_m))
    return grown.tree(full_depth)


class _Growing:
    """Stacks found so far, one list for each fact."""

    def __init__(self, kinds: tuple[Plate, ...], room_m: float, most_kg: float) -> None:
        self.kinds = kinds
        self.room_m, self.most_kg = room_m + _HAIR, most_kg + _HAIR
        self.parent, self.kind, self.total_kg = [0], [-1], [0.0]
        self.width_m = [0.0]
        self.left = [tuple(kind.count // 2 for kind in kinds)]
        self.floors: list[tuple[int, int]] = []

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

    def cut(self, size: int) -> None:
        """Drop a floor that was begun."""
        for facts in (self.parent, self.kind, self.total_kg, self.width_m, self.left):
            del facts[size:]

    def has(self, wanted_kg: Iterable[tuple[float, float]]) -> bool:
        """Whether some stack lies in each span of masses."""
        total_kg = np.array(self.total_kg)
        return all(
            bool(np.any((total_kg >= low_kg - _HAIR) & (total_kg <= high_kg + _HAIR)))
            for low_kg, high_kg in wanted_kg
        )

    def add_fewest(self, choices: Iterable[Loading]) -> None:
        """Add the stacks with the fewest plates for their weight, so that each can be loaded."""
        places = {kind: place for place, kind in enumerate(self.kinds)}
        stacks = [
            tuple(places[plate] for plate, count in choice.per_side for _ in range(count))
            for choice in choices
            if choice.total_kg / 2 <= self.most_kg
        ]
        children = {(self.parent[n], self.kind[n]): n for n in range(1, len(self.parent))}
        below = dict.fromkeys(stacks, 0)
        tallest = max((len(stack) for stack in stacks), default=0)
        for height in range(1, tallest + 1):
            below = {stack: node for stack, node in below.items() if len(stack) >= height}
            missing = {(node, stack[height - 1]) for stack, node in below.items()} - set(children)
            first = len(self.parent)
            for node, index in sorted(missing):
                children[node, index] = len(self.parent)
                self._add(node, index)
            if missing:
                self.floors.append((first, len(self.parent)))
            below = {stack: children[node, stack[height - 1]] for stack, node in below.items()}

    def tree(self, full_depth: int) -> PlateTree:
        """Put what was found into arrays."""
        return PlateTree(
            kinds=self.kinds,
            parent=np.array(self.parent, dtype=np.intp),
            kind=np.array(self.kind, dtype=np.intp),
            total_kg=np.array(self.total_kg),
            floors=tuple(self.floors),
            full_depth=full_depth,
        )
