"""What is left out as out of reach would surely miss; what may do stays in."""

from __future__ import annotations

import functools
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.rigging.random_problems import (
    random_bands_problem,
    random_limits_problem,
    random_problem,
)
from topheavy.errors import NotInStockError
from topheavy.rigging.problem import pose
from topheavy.rigging.reach import within_reach
from topheavy.rigging.search import find

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Problem, Setup
    from topheavy.rigging.target import Target

    Asked = tuple[Setup, Target, Limits]

MAKERS: tuple[Callable[[int], Asked], ...] = (
    random_problem,
    random_limits_problem,
    random_bands_problem,
)
TOLERANCES_KG = (0.3, 1.0, 3.0, 10.0)
SEEDS = range(3000, 3024)


@functools.cache
def posed(make: Callable[[int], Asked], seed: int) -> Problem | None:
    """Ask for more than usual now and then, of a miss alone: nothing has a price."""
    setup, target, limits = make(seed)
    if seed % 2 and target.loads_kg:
        target = replace(target, loads_kg=(*target.loads_kg[:-1], target.loads_kg[-1] + 25.0))
    free = replace(
        limits,
        piece_price_kg=0.0,
        band_price_kg=0.0,
        kind_price_kg=0.0,
        fold_price_kg_per_m=0.0,
    )
    try:
        return pose(setup, target, free)
    except NotInStockError:
        return None


@pytest.mark.parametrize("make", MAKERS, ids=lambda make: make.__name__)
def test_what_is_out_of_reach_is_found_by_no_search(make: Callable[[int], Asked]) -> None:
    """The search without any bound on its worth knows the least miss there is."""
    left_out = 0
    for problem in filter(None, (posed(make, seed) for seed in SEEDS)):
        best = find(problem).best
        least_kg = best.cost_kg if best else float("inf")
        for tolerance_kg in TOLERANCES_KG:
            near = within_reach(problem, tolerance_kg)
            left_out += near is not problem
            if near is None:
                assert least_kg > tolerance_kg
            elif least_kg <= tolerance_kg:
                again = find(near, worth_kg=tolerance_kg).best
                assert again is not None
                assert again.cost_kg == pytest.approx(least_kg, abs=1e-9)
    assert left_out > 10, "nothing was tried"


def test_only_bands_that_add_enough_stay() -> None:
    some = 0
    for problem in filter(None, (posed(random_bands_problem, seed) for seed in SEEDS)):
        for tolerance_kg in TOLERANCES_KG:
            near = within_reach(problem, tolerance_kg)
            if near is None or near is problem:
                continue
            some += 1
            assert near.bands.options
            assert near.limits.least_bands >= 1, "without bands it is out of reach"
            adds = [option.load_kg[-1] - option.load_kg[0] for option in near.bands.options]
            left_out = set(problem.bands.options) - set(near.bands.options)
            if problem.target.mean_kg is None and left_out:
                most = max(option.load_kg[-1] - option.load_kg[0] for option in left_out)
                assert min(adds) > most
    assert some > 3


def test_a_single_aim_is_never_out_of_reach() -> None:
    problem = posed(random_problem, SEEDS[0])
    assert problem is not None
    far = replace(problem, target=replace(problem.target, heights_m=(1.0,), loads_kg=(900.0,)))
    assert within_reach(far, 1.0) is far
