"""Laws that any best rig obeys, whatever the stock: order, more stock, heights and scale."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rigging.random_problems import random_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.search import find

if TYPE_CHECKING:
    from random import Random

    from topheavy.rigging.limits import Limits
    from topheavy.rigging.target import Target

SEEDS = st.integers(10_000, 20_000)
LAW = settings(max_examples=60, deadline=None, derandomize=True)


def cost_kg(setup: Setup, target: Target, limits: Limits) -> float:
    """Least cost [kg]; inf when there is no rig."""
    try:
        best = find(pose(setup, target, limits)).best
    except NotInStockError:
        return np.inf
    return best.cost_kg if best else np.inf


@LAW
@given(seed=SEEDS, order=st.randoms(use_true_random=False))
def test_the_order_of_the_stock_does_not_matter(seed: int, order: Random) -> None:
    setup, target, limits = random_problem(seed)
    stock = setup.stock
    shuffled = {
        name: tuple(order.sample(things, len(things)))
        for name in ("chains", "feeders", "connectors", "plates")
        for things in [getattr(stock, name)]
    }
    again = replace(setup, stock=replace(stock, **shuffled))
    assert cost_kg(again, target, limits) == pytest.approx(cost_kg(setup, target, limits))


@LAW
@given(seed=SEEDS, other=SEEDS)
def test_more_stock_never_costs_more(seed: int, other: int) -> None:
    setup, target, limits = random_problem(seed)
    stock, more = setup.stock, random_problem(other)[0].stock
    chains = tuple(replace(piece, tag=f"more {piece.tag}") for piece in more.chains[:3])
    feeders = tuple(replace(feeder, name=f"more {feeder.name}") for feeder in more.feeders[:1])
    richer = replace(
        stock,
        chains=(*stock.chains, *chains),
        feeders=(*stock.feeders, *feeders),
        plates=(*stock.plates, *more.plates[:2]),
    )
    poorer_kg = cost_kg(setup, target, limits)
    assert cost_kg(replace(setup, stock=richer), target, limits) <= poorer_kg + 1e-9


@LAW
@given(seed=SEEDS, up_m=st.floats(-0.2, 0.3))
def test_floor_and_lifter_raised_alike_change_nothing(seed: int, up_m: float) -> None:
    setup, target, limits = random_problem(seed)
    travel, ground = setup.travel, setup.ground
    raised = replace(
        setup,
        travel=replace(travel, bottom_m=travel.bottom_m + up_m, top_m=travel.top_m + up_m),
        ground=replace(ground, surface_m=ground.surface_m + up_m),
    )
    higher = replace(target, heights_m=tuple(height_m + up_m for height_m in target.heights_m))
    assert cost_kg(raised, higher, limits) == pytest.approx(
        cost_kg(setup, target, limits), abs=1e-6
    )


@LAW
@given(seed=SEEDS, factor=st.sampled_from([0.5, 2.0, 4.0]))
def test_everything_twice_as_heavy_costs_twice_as_much(seed: int, factor: float) -> None:
    setup, target, limits = random_problem(seed)
    assert cost_kg(
        _heavier(setup, factor), _more_load(target, factor), _dearer(limits, factor)
    ) == pytest.approx(factor * cost_kg(setup, target, limits))


def _heavier(setup: Setup, factor: float) -> Setup:
    stock = setup.stock
    chains = [
        replace(p, chain=replace(p.chain, density_kg_per_m=factor * p.chain.density_kg_per_m))
        for p in stock.chains
    ]
    feeders = [
        replace(
            f,
            density_kg_per_m=factor * f.density_kg_per_m,
            rating_kg=None if f.rating_kg is None else factor * f.rating_kg,
        )
        for f in stock.feeders
    ]
    connectors = [
        replace(
            c,
            mass_kg=factor * c.mass_kg,
            rating_kg=None if c.rating_kg is None else factor * c.rating_kg,
        )
        for c in stock.connectors
    ]
    collar = setup.collar
    return replace(
        setup,
        bar=replace(setup.bar, mass_kg=factor * setup.bar.mass_kg),
        collar=replace(collar, mass_kg=factor * collar.mass_kg) if collar else None,
        stock=replace(
            stock,
            chains=tuple(chains),
            feeders=tuple(feeders),
            connectors=tuple(connectors),
            plates=tuple(replace(p, mass_kg=factor * p.mass_kg) for p in stock.plates),
        ),
    )


def _more_load(target: Target, factor: float) -> Target:
    straight_kg = target.straight_weight_kg
    return replace(
        target,
        loads_kg=tuple(factor * load_kg for load_kg in target.loads_kg),
        mean_kg=None if target.mean_kg is None else factor * target.mean_kg,
        straight_weight_kg=None if straight_kg is None else factor * straight_kg,
    )


def _dearer(limits: Limits, factor: float) -> Limits:
    return replace(
        limits,
        most_imbalance_kg=factor * limits.most_imbalance_kg,
        piece_price_kg=factor * limits.piece_price_kg,
        kind_price_kg=factor * limits.kind_price_kg,
        fold_price_kg_per_m=factor * limits.fold_price_kg_per_m,
    )
