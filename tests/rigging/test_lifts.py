"""Lengths off the floor, read for all fixtures at once, against one built end at a time."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.rigging.random_problems import random_problem
from topheavy.errors import NotInStockError
from topheavy.gym.people import Travel
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.rig import End
from topheavy.rigging.lifts import Aims, suspension_loads_kg
from topheavy.rigging.problem import Problem, pose


def problems() -> list[Problem]:
    found = []
    for seed in range(5000, 5060):
        setup, target, limits = random_problem(seed)
        if not target.loads_kg:
            target = replace(target, heights_m=(setup.travel.bottom_m,), loads_kg=(60.0,))
        try:
            found.append(pose(setup, replace(target, straight_weight_kg=None), limits))
        except NotInStockError:
            continue
    return found


@pytest.mark.parametrize("problem", problems())
def test_suspension_and_chain_add_up_to_the_curve_of_the_built_end(problem: Problem) -> None:
    """Under every fixture, for one piece of every kind, at every aim and at the top."""
    travel, ground = problem.setup.travel, problem.setup.ground
    for s, fixture in enumerate(problem.fixtures):
        for k, kind in enumerate(problem.kinds):
            chain = kind.pieces[0].chain
            curve = End(fixture.hangs([chain])).curve(ground, "raising")
            aims = [float(load) for load in curve.at(problem.target.heights_m)]
            if problem.target.mean_kg is not None:
                aims.append(curve.mean(travel.bottom_m, travel.top_m))
            chain_kg = chain.density_kg_per_m * problem.lift_m[s, k]
            assert (0.5 * problem.held_kg[s] + chain_kg).tolist() == pytest.approx(aims, abs=1e-9)
            strands = End(fixture.hangs([replace(chain, density_kg_per_m=1.0)])).curve(ground)
            without = End(fixture.hangs([replace(chain, density_kg_per_m=1e-12)])).curve(ground)
            lifted_m = float(strands.at(travel.top_m)) - float(without.at(travel.top_m))
            assert problem.lift_top_m[s, k] == pytest.approx(lifted_m, abs=1e-9)


def test_a_lump_leaves_the_floor_just_above_it() -> None:
    travel = Travel(bottom_m=0.5, top_m=1.0)
    aims = Aims(heights_m=(0.6, 0.7, 0.8), has_mean=True, travel=travel, ground=Ground())
    assert aims.cleared(np.array([0.7])).tolist() == [[0.0, 0.0, 1.0, pytest.approx(0.6), 1.0]]


def test_a_lump_is_off_the_floor_all_the_way_or_never() -> None:
    travel = Travel(bottom_m=0.5, top_m=1.0)
    aims = Aims(heights_m=(), has_mean=True, travel=travel, ground=Ground(surface_m=0.1))
    assert aims.cleared(np.array([0.2, 1.2])).tolist() == [[1.0, 1.0], [0.0, 0.0]]


def test_a_run_hangs_by_its_length() -> None:
    """20 cm that begin 60 cm down, floor at 10 cm: off the floor from 70 to 90 cm."""
    travel = Travel(bottom_m=0.5, top_m=1.0)
    aims = Aims(heights_m=(0.6, 0.8), has_mean=True, travel=travel, ground=Ground(surface_m=0.1))
    lifted_m = aims.lifted_m(np.array([0.6]), np.array([0.2]))
    mean_m = (0.5 * 0.2 * 0.2 + 0.1 * 0.2) / 0.5
    assert lifted_m[0].tolist() == pytest.approx([0.0, 0.1, mean_m, 0.2])


def test_no_suspension_weighs_nothing() -> None:
    problem = next(p for p in problems() if p.fixtures[0].suspension is None)
    travel = problem.setup.travel
    aims = Aims(heights_m=(1.0,), has_mean=False, travel=travel, ground=problem.setup.ground)
    assert suspension_loads_kg(aims, problem.fixtures[:1]).tolist() == [[0.0, 0.0]]
