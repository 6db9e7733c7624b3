"""A plain search over every run of plates, for checking the fast one.

It shares no code with it: every order of every choice of plates, every run of them, added up.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from topheavy.gym.stock import Plate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.training.plate_path import Window

Stack = tuple[Plate, ...]


def plate(mass_kg: float, count: int, width_m: float = 0.03) -> Plate:
    """Make a plate size."""
    return Plate(mass_kg=mass_kg, width_m=width_m, diameter_m=0.45, count=count)


def every_stack(plates: Sequence[Plate], room_m: float) -> set[Stack]:
    """Every stack of one end that fits and has no plate heavier than the one inside of it."""
    one_end = [p for p in plates for _ in range(p.count // 2)]
    found: set[Stack] = set()
    for size in range(len(one_end) + 1):
        for stack in itertools.permutations(one_end, size):
            falls = all(a.mass_kg >= b.mass_kg for a, b in itertools.pairwise(stack))
            if falls and sum(p.width_m for p in stack) <= room_m + 1e-9:
                found.add(stack)
    return found


def moves(before: Stack, after: Stack) -> int:
    """Plates taken off and put on one end, the outermost first."""
    kept = len(list(itertools.takewhile(lambda two: two[0] == two[1], zip(before, after))))  # noqa: B905 - the shorter ends it
    return len(before) + len(after) - 2 * kept


def cheapest_kg(
    stacks: set[Stack], bar_kg: float, windows: Sequence[Window], price_kg: float
) -> float | None:
    """Least cost over every run of stacks; None when a window has none."""
    layers = []
    for window in windows:
        weights = {s: bar_kg + 2 * sum(p.mass_kg for p in s) for s in stacks}
        fits = [
            (s, abs(kg - window.wanted_kg))
            for s, kg in weights.items()
            if window.low_kg - 5e-4 <= kg <= window.high_kg + 5e-4
        ]
        layers.append(fits)
    if not all(layers):
        return None
    costs = []
    for run in itertools.product(*layers):
        cost = 0.0
        here: Stack = ()
        for stack, miss_kg in run:
            cost += 2 * price_kg * moves(here, stack) + miss_kg
            here = stack
        costs.append(cost)
    return min(costs)
