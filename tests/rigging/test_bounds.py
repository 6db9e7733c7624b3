"""Bounds never promise too much: no rig grown from a partial choice is cheaper than its bound."""

from __future__ import annotations

import numpy as np
import pytest

from tests.rigging.random_problems import random_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.additions import Additions, Partials, additions_under, nothing_yet
from topheavy.rigging.bounds import HAIR_KG, Bounds, bounds_of
from topheavy.rigging.problem import Problem, pose


def costs_kg(problem: Problem, additions: Additions, whole: Partials) -> list[float]:
    """Cost of every rig, plates tried one by one; inf where a limit is broken."""
    found = []
    for row in range(len(whole)):
        lean_kg = abs(float(whole.lean_kg[row]))
        most_hung_kg = additions.most_hung_kg[whole.fixture[row]]
        broken = lean_kg > problem.limits.most_imbalance_kg + HAIR_KG
        broken |= bool(np.any(whole.ends_kg[row] > most_hung_kg + HAIR_KG))
        misses = [
            float(np.max(np.abs(whole.load_kg[row] + straight_kg - problem.wanted_kg)))
            for straight_kg in problem.straight_kg
        ]
        cost_kg = min(misses) + lean_kg + float(whole.price_kg[row])
        found.append(np.inf if broken else cost_kg)
    return found


Row = tuple[Partials, float]
Tree = tuple[Problem, Additions, Bounds, list[Row]]


def tree(problem: Problem, additions: Additions, partials: Partials) -> list[Row]:
    """Every partial choice by itself, with the cheapest rig grown from it."""
    found = []
    for row in range(len(partials)):
        one = partials.take(slice(row, row + 1))
        cheapest, grown = np.inf, one
        while len(grown := additions.added_to(grown, problem.limits.most_pieces // 2)):
            cheapest = min(cheapest, *costs_kg(problem, additions, grown))
        found.append((one, float(cheapest)))
    return found


@pytest.fixture(scope="module")
def trees() -> list[Tree]:
    """Partial choices of one and of no kind, in a few dozen small problems."""
    found = []
    for seed in range(7000, 7200):
        try:
            problem = pose(*random_problem(seed))
        except NotInStockError:
            continue
        fixtures = np.arange(min(3, len(problem.fixtures)))
        additions = additions_under(problem, fixtures, problem.limits.most_pieces // 2)
        start = nothing_yet(problem, fixtures)
        first = additions.added_to(start, problem.limits.most_pieces // 2)
        step = max(1, len(first) // 12)
        roots = [start, first.take(slice(0, None, step))]
        rows = [row for some in roots for row in tree(problem, additions, some)]
        found.append((problem, additions, bounds_of(problem, additions), rows))
    return found


def test_no_rig_is_cheaper_than_the_bound_of_what_it_grew_from(trees: list[Tree]) -> None:
    compared = 0
    for _, additions, bounds, rows in trees:
        for partial, cheapest_kg in rows:
            least_kg = bounds.least_cost_kg(additions, partial).item()
            assert least_kg <= cheapest_kg + 1e-9
            compared += np.isfinite(cheapest_kg)
    assert compared > 150


def test_bounds_are_of_use(trees: list[Tree]) -> None:
    """At least a fifth of what the cheapest rig costs is known beforehand, on the median."""
    shares = [
        bounds.least_cost_kg(additions, partial).item() / cheapest_kg
        for _, additions, bounds, rows in trees
        for partial, cheapest_kg in rows
        if np.isfinite(cheapest_kg)
    ]
    assert float(np.median(shares)) > 0.2


def test_the_window_holds_every_last_addition_worth_it(trees: list[Tree]) -> None:
    kept_and_dropped = np.zeros(2)
    for problem, additions, bounds, rows in trees:
        most = problem.limits.most_pieces // 2
        for partial, cheapest_kg in rows:
            worth_kg = 1.2 * cheapest_kg if np.isfinite(cheapest_kg) else 5.0
            kept = additions.last_added_to(partial, bounds.window(partial, worth_kg), most)
            everything = additions.added_to(partial, most)
            in_window = {tuple(picks) for picks in kept.picks.tolist()}
            costs = costs_kg(problem, additions, everything)
            for picks, cost_kg in zip(everything.picks.tolist(), costs, strict=True):
                assert tuple(picks) in in_window or cost_kg > worth_kg
            kept_and_dropped += len(kept), len(everything) - len(kept)
    assert kept_and_dropped.min() > 100
