"""Plates from set to set against a general-purpose library's shortest path.

SciPy 1.15 or later, `scipy.sparse.csgraph.dijkstra`. Every stack of the demonstration gym's plates
is a node in each layer of one graph: edges up and down within a layer are a pair of plates handled,
edges from layer to layer are the miss of a set. The graph is built here from counts of each size,
in another way than the library of plates does it.
"""

from __future__ import annotations

import itertools

import pytest
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from topheavy.gymfile import demo_gym
from topheavy.training.plate_path import PLATE_PRICE_KG, Window, plate_path

PLATES = sorted(demo_gym().stock.plates, key=lambda p: -p.mass_kg)
BAR_KG, ROOM_M = 25.0, 0.34
BASE = 1.0  # added to each edge between layers: SciPy takes an edge of no cost for none


def states() -> dict[tuple[int, ...], float]:
    """Counts of each size on one end that fit, and the straight weight they make [kg]."""
    spans = [range(p.count // 2 + 1) for p in PLATES]
    return {
        counts: BAR_KG + 2 * sum(n * p.mass_kg for n, p in zip(counts, PLATES, strict=True))
        for counts in itertools.product(*spans)
        if sum(n * p.width_m for n, p in zip(counts, PLATES, strict=True)) <= ROOM_M + 1e-9
    }


def without_the_outermost(counts: tuple[int, ...]) -> tuple[int, ...]:
    """One plate fewer: of the lightest size that is on."""
    last = max(place for place, n in enumerate(counts) if n)
    return (*counts[:last], counts[last] - 1, *counts[last + 1 :])


def least_kg(windows: list[Window]) -> float:
    """Least cost by Dijkstra's algorithm [kg]."""
    weights = states()
    number = {counts: place for place, counts in enumerate(weights)}
    size, layers = len(number), len(windows)
    rows, columns, costs = [], [], []
    for layer in range(layers):
        for counts, place in number.items():
            if any(counts):
                inner = number[without_the_outermost(counts)]
                for a, b in ((place, inner), (inner, place)):
                    rows.append(layer * size + a)
                    columns.append(layer * size + b)
                    costs.append(2 * PLATE_PRICE_KG)
    goal = layers * size
    for layer, window in enumerate(windows):
        for counts, weight in weights.items():
            if window.low_kg - 5e-4 <= weight <= window.high_kg + 5e-4:
                rows.append(layer * size + number[counts])
                columns.append(goal if layer == layers - 1 else (layer + 1) * size + number[counts])
                costs.append(BASE + abs(weight - window.wanted_kg))
    # Edges to the goal come from many nodes, one each; none is there twice.
    graph = coo_array((costs, (rows, columns)), shape=(goal + 1, goal + 1)).tocsr()
    bare = number[(0,) * len(PLATES)]
    found = dijkstra(graph, indices=[bare])
    return float(found[0, goal]) - layers * BASE


@pytest.mark.parametrize(
    "wanted",
    [
        (25.0, 47.3, 61.8, 74.9, 86.1, 95.4, 103.5),
        (25.0, 60.0, 88.0, 112.0, 131.0, 147.0, 160.0),
        (32.0, 39.0, 44.0, 49.0),
    ],
)
def test_as_cheap_as_dijkstra_finds(wanted: tuple[float, ...]) -> None:
    """Exact to rounding; the last set in a window of 1 kg, the others in 8 kg."""
    windows = [
        Window(low_kg=kg - half, wanted_kg=kg, high_kg=kg + half)
        for kg, half in zip(wanted, [*[4.0] * (len(wanted) - 1), 0.5], strict=True)
    ]
    path = plate_path(PLATES, ROOM_M, BAR_KG, windows)
    assert path.exact
    assert path.cost_kg == pytest.approx(least_kg(windows), abs=1e-9)
