"""Plates for chain already chosen, against trying every loading."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.rigging.exhaustive import miss_kg
from tests.rigging.random_problems import random_limits_problem, random_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.plate_choice import PlateChoice
from topheavy.rigging.problem import Problem, pose


def posed(seed: int, *, limits: bool) -> Problem | None:
    setup, target, bounds = (random_limits_problem if limits else random_problem)(seed)
    try:
        return pose(setup, replace(target, straight_weight_kg=None), bounds)
    except NotInStockError:
        return None


@pytest.mark.parametrize("limits", [False, True])
@pytest.mark.parametrize("seed", range(40))
def test_no_other_loading_leaves_less_to_miss(seed: int, *, limits: bool) -> None:
    problem = posed(seed, limits=limits)
    if problem is None:
        return
    rng = np.random.default_rng(seed)
    hung_kg = np.sort(rng.uniform(0, 60, size=(8, problem.wanted_kg.size)), axis=1)
    loading, missed_kg = PlateChoice(problem).best_for(problem.wanted_kg - hung_kg)
    for row, hung in enumerate(hung_kg):
        tried = [
            miss_kg([float(load) for load in hung + straight], problem.target)
            for straight in problem.straight_kg
        ]
        assert missed_kg[row] == pytest.approx(min(tried), abs=1e-9)
        if np.isfinite(missed_kg[row]):
            assert tried[int(loading[row])] == pytest.approx(min(tried), abs=1e-9)
