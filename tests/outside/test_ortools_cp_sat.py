"""The search against a general solver on stocks too large to try every rig.

Reference
---------
OR-tools CP-SAT (Perron and Furnon, OR-Tools, v9.15, Google), a constraint solver that proves its
optimum. How seen: run here. Its model is in benchmarks/reference/cp_sat.py; it shares with the
search how much of a piece hangs at each height (checked elsewhere against built rigs), not how
the best rig is found.
"""

from __future__ import annotations

import random
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from benchmarks.cases import pieces_of, posed, setup_of
from benchmarks.reference.cp_sat import Form, rounding_kg, solve
from topheavy.rigging.limits import Limits
from topheavy.rigging.search import find
from topheavy.rigging.target import Target

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem

SEEDS = range(12)
UNITS_PER_KG = 1_000_000


def stock(seed: int) -> Problem:
    """16 to 30 unweighed pieces in 3 to 6 kinds, 9 to 24 feeder settings, 200 plate totals."""
    rng = random.Random(seed)  # noqa: S311  (not for secrets)
    setup = setup_of(pieces_of(rng.randint(16, 30), rng.randint(3, 6)), 3, rng.randint(3, 8))
    bottom_kg, chain_kg = rng.uniform(45, 160), rng.uniform(10, 60)
    target = Target(
        heights_m=(0.75, 1.2),
        loads_kg=(bottom_kg, bottom_kg + chain_kg),
        links_down=rng.choice([None, 1, 4]),
        full_deload=rng.random() < 0.4,
    )
    if rng.random() < 0.4:
        target = replace(target, mean_kg=bottom_kg + 0.5 * chain_kg)
    limits = Limits(
        most_pieces=rng.choice([8, 14, 30]),
        design_factor=rng.choice([4.0, 30.0]),
        piece_price_kg=rng.choice([0.0, 0.1]),
        kind_price_kg=rng.choice([0.0, 0.2]),
    )
    return posed((setup, target, limits))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_optimum(seed: int) -> None:
    """Equal cost within rounding to milligrams: half of one for each number in the model."""
    problem = stock(seed)
    forms: tuple[Form, ...] = ("rows", "tables")
    solved = solve(problem, form=forms[seed % 2], workers=2, units_per_kg=UNITS_PER_KG)
    best = find(problem).best
    assert solved.proven
    if best is None:
        assert solved.cost_kg is None
    else:
        assert solved.cost_kg == pytest.approx(best.cost_kg, abs=rounding_kg(problem, UNITS_PER_KG))
