"""The comparisons that bound the search never promise more than a rig can miss."""

from __future__ import annotations

import numpy as np
import pytest

from tests.rigging.random_problems import random_limits_problem, random_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.additions import Additions, additions_under, nothing_yet
from topheavy.rigging.bounds import bounds_of
from topheavy.rigging.plate_choice import PlateChoice
from topheavy.rigging.problem import Problem, pose

SEEDS = range(60)


def posed(seed: int, *, limits: bool) -> tuple[Problem, Additions] | None:
    setup, target, bounds = (random_limits_problem if limits else random_problem)(seed)
    try:
        problem = pose(setup, target, bounds)
    except NotInStockError:
        return None
    fixtures = np.arange(len(problem.fixtures))
    additions = additions_under(problem, fixtures, bounds.most_pieces // 2)
    return (problem, additions) if additions.kind.size else None


@pytest.mark.parametrize("limits", [False, True])
@pytest.mark.parametrize("seed", SEEDS)
def test_no_rig_misses_less_than_the_comparisons_say(seed: int, *, limits: bool) -> None:
    found = posed(seed, limits=limits)
    if found is None:
        return
    problem, additions = found
    bounds = bounds_of(problem, additions)
    start = nothing_yet(problem, np.arange(len(problem.fixtures)))
    whole = additions.added_to(start, problem.limits.most_pieces // 2)
    _, miss_kg = PlateChoice(problem).best_for(problem.wanted_kg - whole.load_kg)
    nothing_more = bounds.wants(whole).least_miss_kg(np.zeros(len(whole)))
    assert np.all(nothing_more <= miss_kg + 1e-9)
    wants = bounds.wants(start.take(whole.fixture))
    way = whole.picks[:, 0]
    key_kg = additions.keys.key_kg(additions.lift_m)[whole.fixture, additions.kind[way]]
    added_kg = additions.sum_kg_per_m[way] * key_kg
    assert np.all(wants.least_miss_kg(np.maximum(added_kg, 0.0)) <= miss_kg + 1e-9)
    low_kg, high_kg = wants.within(np.where(np.isfinite(miss_kg), miss_kg, 1e9))
    assert np.all((low_kg <= added_kg + 1e-9) & (added_kg <= high_kg + 1e-9))


def test_for_bottom_and_top_the_key_is_what_the_top_gets_more_than_the_bottom() -> None:
    tried = 0
    for seed in SEEDS:
        found = posed(seed, limits=False)
        if found is None or len(found[0].target.heights_m) != 2:
            continue
        problem, additions = found
        lift_m = problem.lift_m[:, :, :2]
        assert additions.keys.key_kg(lift_m) == pytest.approx(lift_m[..., 1] - lift_m[..., 0])
        tried += 1
    assert tried > 10


def test_along_a_curve_the_comparisons_lie_inside_it_where_it_bends() -> None:
    inside = 0
    for seed in SEEDS:
        found = posed(seed, limits=True)
        if found is None or len(found[0].target.heights_m) < 3:
            continue
        problem, additions = found
        last = len(problem.target.heights_m) - 1
        inside += int(np.sum(additions.keys.short.at < last))
    assert inside > 10
