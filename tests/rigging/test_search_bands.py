"""Bands beside chain, and bands alone: the search against trying every rig."""

from __future__ import annotations

import functools
from collections import Counter

import numpy as np
import pytest

from tests.rigging.exhaustive import Best, best_of_everything, miss_and_lean_kg
from tests.rigging.exhaustive_bands import gap_kg
from tests.rigging.random_problems import random_bands_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.built import BuiltRig, build
from topheavy.rigging.problem import pose
from topheavy.rigging.search import Choice, find

SEEDS = range(2000, 2060)


@functools.cache
def everything(seed: int) -> Best | None:
    return best_of_everything(*random_bands_problem(seed))


@functools.cache
def found(seed: int) -> tuple[Choice, BuiltRig] | None:
    try:
        problem = pose(*random_bands_problem(seed))
    except NotInStockError:
        return None
    best = find(problem).best
    return (best, build(problem, best)) if best else None


@pytest.mark.parametrize("seed", SEEDS)
def test_as_good_as_a_search_of_everything(seed: int) -> None:
    best, both = everything(seed), found(seed)
    assert (both is None) == (best is None)
    if best is not None and both is not None:
        assert both[0].cost_kg == pytest.approx(best.cost_kg, abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_rig_built_again_costs_what_the_search_says(seed: int) -> None:
    both = found(seed)
    if both is None:
        return
    setup, target, limits = random_bands_problem(seed)
    choice, built = both
    miss_kg, lean_kg = miss_and_lean_kg(built.rig, setup, target)
    assert (choice.miss_kg, choice.imbalance_kg) == pytest.approx((miss_kg, lean_kg), abs=1e-9)
    kinds = len({piece.kind for piece in built.left})
    price_kg = limits.piece_price_kg * built.pieces + limits.kind_price_kg * kinds
    price_kg += limits.band_price_kg * len(built.bands)
    if built.fixture.suspension is not None:
        above_m = setup.travel.bottom_m - setup.ground.surface_m - built.fixture.fold_m
        price_kg += limits.fold_price_kg_per_m * abs(above_m)
    assert choice.cost_kg == pytest.approx(miss_kg + lean_kg + price_kg, abs=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_bands_keep_every_limit(seed: int) -> None:
    both = found(seed)
    if both is None:
        return
    setup, _, limits = random_bands_problem(seed)
    built = both[1]
    tags = [hung.band.tag for hung in built.bands]
    assert len(set(tags)) == len(tags)
    assert not any(hung.band.retired for hung in built.bands)
    assert limits.least_bands <= len(built.left_bands) <= limits.most_bands
    alike = [
        [(h.peg.name, h.doubled) for h in end] for end in (built.left_bands, built.right_bands)
    ]
    assert alike[0] == alike[1]
    assert built.pieces <= limits.most_pieces
    for banded in (*built.rig.left.bands, *built.rig.right.bands):
        assert not banded.remarks()
    if built.bands:
        ends = built.rig.left.bands, built.rig.right.bands
        assert gap_kg(*ends, setup) <= limits.most_imbalance_kg + 1e-9
    loops = len(built.left_bands) + (built.pieces > 0)
    collar_m = setup.collar.width_m if setup.collar else 0.0
    taken_m = built.loading.width_m + collar_m + loops * limits.loop_width_m
    assert taken_m <= setup.bar.sleeve_m + 1e-9


def test_the_random_problems_reach_into_every_corner() -> None:
    seen = Counter[str]()
    for seed in SEEDS:
        both = found(seed)
        seen["none"] += both is None
        if both is None:
            continue
        built, (_, target, limits) = both[1], random_bands_problem(seed)
        bands, chain = len(built.left_bands), built.pieces > 0
        seen["mixed"] += chain and bands > 0
        seen["bands alone"] += bands > 0 and not chain
        seen["chain alone though bands are allowed"] += chain and not bands
        seen["two pairs"] += bands == 2
        seen["doubled"] += any(hung.doubled for hung in built.bands)
        seen["ends differ"] += bool(bands and built.imbalance_kg > 1e-6)
        seen["limits by height"] += target.never_over
        seen["bands asked for"] += limits.least_bands > 0
    assert min(seen.values()) >= 2, seen
    assert np.sum([best.rigs for seed in SEEDS if (best := everything(seed))]) > 5_000
