"""The search against a general solver on stocks too large to try every rig.

Reference
---------
OR-tools CP-SAT (Perron and Furnon, OR-Tools, v9.15, Google), a constraint solver that proves its
optimum. How seen: run here. Its model is in benchmarks/reference/cp_sat.py; it shares with the
search how much of a piece hangs at each height (checked elsewhere against built rigs), not how
the best rig is found.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from benchmarks.cases import pieces_of, posed, setup_of
from benchmarks.reference.cp_sat import Form, rounding_kg, solve
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Peg
from topheavy.rigging.limits import Limits
from topheavy.rigging.search import find
from topheavy.rigging.target import Target

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem

SEEDS = range(12)
BAND_SEEDS = range(4)
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


def band(tag: str, stiff_kg_per_m: float) -> Band:
    """A band that pulls straight on from 40 cm at rest."""
    lengths_m = (0.6, 0.8, 1.0, 1.3)
    pulls_kg = tuple(stiff_kg_per_m * (length_m - 0.4) for length_m in lengths_m)
    readings = BandReadings(tag=tag, rest_m=0.4, length_m=lengths_m, tension_kg=pulls_kg)
    return Band(readings=readings)


@pytest.mark.parametrize("seed", BAND_SEEDS)
def test_the_same_optimum_with_a_pair_of_bands_or_without(seed: int) -> None:
    """The solver is asked once for each way to hang bands; alone they leave nothing to solve.

    Like bands pull alike, so they add to both ends the same and lean nowhere.
    """
    plain = stock(seed)
    bands = tuple(band(tag, 10.0 + 8.0 * (tag in "cd")) for tag in "abcd")
    setup = replace(
        plain.setup,
        stock=replace(plain.setup.stock, bands=bands),
        pegs=(StationPeg(name="low", peg=Peg(height_m=0.1, offset_m=0.1)),),
    )
    problem = posed((setup, plain.target, replace(plain.limits, most_bands=1)))
    assert len(problem.bands.options) == 2
    costs_kg = [solve(plain, workers=2, units_per_kg=UNITS_PER_KG).cost_kg or math.inf]
    for option in problem.bands.options:
        assert option.lean_kg == pytest.approx(0.0, abs=1e-9)
        beside = problem.with_band(option, chain=True)
        assert beside is not None
        held_kg = beside.held_kg + option.load_kg
        solved = solve(
            replace(beside, held_kg=held_kg, band=None), workers=2, units_per_kg=UNITS_PER_KG
        )
        assert solved.proven
        costs_kg.append((solved.cost_kg or math.inf) + option.price_kg)
        alone = problem.with_band(option, chain=False)
        assert alone is not None
        missed_kg = np.abs(alone.straight_kg[:, None] + option.load_kg - problem.wanted_kg)
        costs_kg.append(float(missed_kg.max(axis=1).min()) + option.price_kg)
    best = find(problem).best
    assert best is not None
    rounding = rounding_kg(problem, UNITS_PER_KG)
    assert best.cost_kg == pytest.approx(min(costs_kg), abs=rounding)
