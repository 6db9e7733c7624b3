"""The search finds what a search of everything finds, keeps every limit, breaks ties as told."""

from __future__ import annotations

import functools
import math
from collections import Counter
from dataclasses import dataclass, replace

import pytest

from tests.rigging.builders import batch, connector, feeder, piece, plate, setup_of
from tests.rigging.exhaustive import Best, best_of_everything, keeps_rules, miss_and_lean_kg
from tests.rigging.random_problems import random_limits_problem, random_problem
from topheavy.errors import NotInStockError
from topheavy.rigging.built import BuiltRig, build
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import Setup, pose
from topheavy.rigging.search import Choice, find
from topheavy.rigging.target import Target

SEEDS = range(320)
LIMIT_SEEDS = range(1000, 1160)
"""From here on the loads wanted are limits."""
ENDS = Target(heights_m=(0.75, 1.2), loads_kg=(60.0, 78.0))


@dataclass(frozen=True)
class Both:
    """What both searches make of one problem."""

    everything: Best | None
    choice: Choice | None
    built: BuiltRig | None


def problem_of(seed: int) -> tuple[Setup, Target, Limits]:
    return random_limits_problem(seed) if seed in LIMIT_SEEDS else random_problem(seed)


@functools.cache
def both(seed: int) -> Both:
    setup, target, limits = problem_of(seed)
    everything = best_of_everything(setup, target, limits)
    try:
        problem = pose(setup, target, limits)
    except NotInStockError:
        return Both(everything, None, None)
    found = find(problem)
    assert found.exact
    built = build(problem, found.best) if found.best else None
    return Both(everything, found.best, built)


@pytest.mark.parametrize("seed", [*SEEDS, *LIMIT_SEEDS])
def test_as_good_as_a_search_of_everything(seed: int) -> None:
    found = both(seed)
    assert (found.choice is None) == (found.everything is None)
    if found.choice is not None and found.everything is not None:
        assert found.choice.cost_kg == pytest.approx(found.everything.cost_kg, abs=1e-6)


@pytest.mark.parametrize("seed", [*SEEDS, *LIMIT_SEEDS])
def test_the_rig_built_again_costs_what_the_search_says(seed: int) -> None:
    setup, target, limits = problem_of(seed)
    choice, built = both(seed).choice, both(seed).built
    if choice is None or built is None:
        return
    miss_kg, lean_kg = miss_and_lean_kg(built.rig, setup, target)
    assert choice.miss_kg == pytest.approx(miss_kg, abs=1e-9)
    assert choice.imbalance_kg == pytest.approx(lean_kg, abs=1e-9)
    kinds = len({piece.kind for piece in built.left})
    price_kg = limits.piece_price_kg * built.pieces + limits.kind_price_kg * kinds
    if built.fixture.suspension is not None:
        above_m = setup.travel.bottom_m - setup.ground.surface_m - built.fixture.fold_m
        price_kg += limits.fold_price_kg_per_m * abs(above_m)
    assert choice.cost_kg == pytest.approx(miss_kg + lean_kg + price_kg, abs=1e-9)


@pytest.mark.parametrize("seed", [*SEEDS, *LIMIT_SEEDS])
def test_the_rig_keeps_every_limit(seed: int) -> None:
    setup, target, limits = problem_of(seed)
    built = both(seed).built
    if built is None:
        return
    hung = [*built.left, *built.right]
    assert len(hung) == len({piece.tag for piece in hung}) <= limits.most_pieces
    assert not any(piece.retired for piece in hung)
    assert Counter(p.kind for p in built.left) == Counter(p.kind for p in built.right)
    assert built.imbalance_kg <= limits.most_imbalance_kg + 1e-9
    collar_m = setup.collar.width_m if setup.collar else 0.0
    assert built.loading.width_m + collar_m + limits.loop_width_m <= setup.bar.sleeve_m + 1e-9
    for end, pieces in ((built.rig.left, built.left), (built.rig.right, built.right)):
        assert keeps_rules(end, setup, target)
        chain_kg = sum(piece.chain.mass_kg for piece in pieces)
        for part, extra_kg in _rated(built):
            assert (chain_kg + extra_kg) * limits.design_factor <= part + 1e-6


def _rated(built: BuiltRig) -> list[tuple[float, float]]:
    """Rating of each part, and what hangs on it besides the chain [kg]."""
    held, link = built.fixture.feeder, built.fixture.connector
    if held is None or link is None:
        return []
    assert held.rating_kg is not None
    assert link.rating_kg is not None
    return [(held.rating_kg, link.mass_kg), (link.rating_kg, 0.0)]


def test_where_loads_are_limits_many_problems_have_an_answer_and_many_have_none() -> None:
    solved = [both(seed).everything is not None for seed in LIMIT_SEEDS]
    assert 0.25 * len(LIMIT_SEEDS) < sum(solved) < 0.9 * len(LIMIT_SEEDS)
    built = [found for found in (both(seed).built for seed in LIMIT_SEEDS) if found]
    assert any(found.miss_kg > 1 for found in built)
    assert any(found.imbalance_kg > 1e-6 for found in built)


def test_the_random_problems_reach_into_every_corner() -> None:
    """Each way to ask and each limit decides some of the problems above."""
    solved = [seed for seed in SEEDS if both(seed).everything is not None]
    problems = [random_problem(seed) for seed in solved]
    assert len(solved) > 0.55 * len(SEEDS)
    assert len(SEEDS) - len(solved) > 0.1 * len(SEEDS)
    rigs = [found.rigs for found in (both(seed).everything for seed in solved) if found]
    assert sum(rigs) > 50_000
    seen = Counter[str]()
    for setup, target, limits in problems:
        seen["dragged"] += setup.ground.lay == "dragged"
        seen["mean"] += target.mean_kg is not None
        seen["curve"] += len(target.heights_m) >= 3
        seen["one aim"] += len(target.heights_m) == 1
        seen["fixed straight weight"] += target.straight_weight_kg is not None
        seen["deload"] += target.full_deload
        seen["links down"] += bool(target.links_down)
        seen["all clear"] += target.all_clear
        seen["sizes"] += bool(limits.sizes)
        seen["weighed"] += any(p.weighed for p in setup.stock.chains)
        seen["three kinds"] += len({p.kind for p in setup.stock.chains}) == 3
    built = [both(seed).built for seed in solved]
    for rig in built:
        assert rig is not None
        seen[rig.fixture.style] += 1
        seen["two kinds hung"] += len({p.kind for p in rig.left}) > 1
        seen["unlike ends"] += rig.imbalance_kg > 1e-6
        seen["odd links"] += any(p.chain.links % 2 == 1 for p in rig.left)
    assert len(seen) == 17
    assert min(seen.values()) >= 5, seen


@pytest.mark.parametrize(
    "limit", ["imbalance", "rating", "pieces", "sleeve", "deload", "links down", "all clear"]
)
def test_limits_bite(limit: str) -> None:
    """Without the limit a better rig would win now and then, so the tests above do test it."""
    bitten = 0
    for seed in SEEDS[::2]:
        choice = both(seed).choice
        try:
            freed = find(pose(*_without(limit, *random_problem(seed)))).best
        except NotInStockError:
            continue
        if choice is None:
            bitten += freed is not None
        else:
            assert freed is not None
            assert freed.cost_kg <= choice.cost_kg + 1e-9
            bitten += freed.cost_kg < choice.cost_kg - 1e-6
    assert bitten >= 3


def _without(
    limit: str, setup: Setup, target: Target, limits: Limits
) -> tuple[Setup, Target, Limits]:
    """Drop one limit."""
    if limit == "sleeve":
        return replace(setup, bar=replace(setup.bar, sleeve_m=2.0)), target, limits
    rules = {
        "deload": replace(target, full_deload=False),
        "links down": replace(target, links_down=None),
        "all clear": replace(target, all_clear=False),
    }
    free = {
        "imbalance": replace(limits, most_imbalance_kg=math.inf),
        "rating": replace(limits, design_factor=1.0),
        "pieces": replace(limits, most_pieces=14),
    }
    return setup, rules.get(limit, target), free.get(limit, limits)


def test_nothing_dearer_than_it_is_worth() -> None:
    problem = pose(setup_of(*batch(6)), ENDS)
    best = find(problem).best
    assert best is not None
    assert find(problem, best.cost_kg).best == best
    assert find(problem, best.cost_kg - 1e-6).best is None


def test_nothing_keeps_the_limits() -> None:
    problem = pose(setup_of(*batch(6)), ENDS, Limits(most_pieces=1))
    assert find(problem).best is None


def test_equal_cost_goes_to_fewer_pieces() -> None:
    """Two light pieces of one kind load the bar just as one heavy piece of another."""
    pieces = [*batch(4, "light", density=2.5), *batch(2, "heavy", density=5.0)]
    free = Limits(piece_price_kg=0.0, kind_price_kg=0.0)
    target = Target(heights_m=(0.75, 1.2), loads_kg=(46.0, 54.7))
    choice = find(pose(setup_of(*pieces), target, free)).best
    light = find(pose(setup_of(*pieces[:4]), target, free)).best
    assert choice is not None
    assert light is not None
    assert choice.cost_kg == pytest.approx(light.cost_kg, abs=1e-9)
    assert (choice.pieces, light.pieces) == (2, 4)


def test_equal_cost_goes_to_fewer_pieces_also_of_more_kinds() -> None:
    """Three light pieces of one kind, found first, load the bar like one each of two others."""
    pieces = [
        *batch(6, "light", density=2.0),
        *batch(2, "heavy", density=3.5),
        *batch(2, "middle", density=2.5),
    ]
    free = Limits(piece_price_kg=0.0, kind_price_kg=0.0)
    target = Target(heights_m=(0.75, 1.2), loads_kg=(46.0, 56.5))
    setup = setup_of(*pieces, feeders=(feeder(lengths_m=(0.67,)),))
    choice = find(pose(setup, target, free)).best
    light = find(pose(setup, target, replace(free, sizes=("light",)))).best
    assert choice is not None
    assert light is not None
    assert choice.cost_kg == pytest.approx(light.cost_kg, abs=1e-9)
    assert (choice.pieces, light.pieces) == (4, 6)


def test_equal_cost_goes_to_the_nearer_fold_or_the_first() -> None:
    twins = (feeder("first", (0.67,)), feeder("second", (0.67,)))
    problem = pose(setup_of(*batch(4), feeders=twins[::-1]), ENDS)
    best = find(problem).best
    assert best is not None
    assert best.fixture is not None
    assert problem.fixtures[best.fixture].feeder == twins[1]


def test_a_fold_far_from_the_floor_must_be_worth_it() -> None:
    """At no price the search takes the setting that hits the target; at a high one the nearer."""
    settings = (feeder(lengths_m=(0.40, 0.67)),)
    target = Target(heights_m=(0.75, 1.2), loads_kg=(46.0, 63.0))
    gaps_m = []
    for price in (0.0, 100.0):
        problem = pose(
            setup_of(*batch(4), feeders=settings), target, Limits(fold_price_kg_per_m=price)
        )
        best = find(problem).best
        assert best is not None
        assert best.fixture is not None
        gaps_m.append(abs(0.75 - problem.fixtures[best.fixture].fold_m))
    assert gaps_m == pytest.approx([0.27, 0.0])


def test_weighed_pieces_are_paired_to_balance_the_ends() -> None:
    """Four pieces, weighed: 5.0 + 5.3 against 5.1 + 5.2 is the only even split."""
    pieces = [piece(str(d), density=d) for d in (5.0, 5.1, 5.2, 5.3)]
    target = Target(heights_m=(0.75, 1.2), loads_kg=(40.0, 58.5))
    problem = pose(setup_of(*pieces, feeders=(feeder(lengths_m=(0.67,)),)), target)
    best = find(problem).best
    assert best is not None
    built = build(problem, best)
    assert best.imbalance_kg == pytest.approx(0.0, abs=1e-9)
    assert sorted(sorted(p.tag for p in end) for end in (built.left, built.right)) == [
        ["5.0", "5.3"],
        ["5.1", "5.2"],
    ]


def test_kinds_balance_each_other() -> None:
    """Two kinds that can't balance alone lean to opposite ends, so the rig stands level."""
    pieces = [
        piece("a", "5/8 in", density=5.0),
        piece("b", "5/8 in", density=5.2),
        piece("c", "1/2 in", density=3.4),
        piece("d", "1/2 in", density=3.6),
    ]
    target = Target(heights_m=(0.75, 1.2), loads_kg=(40.0, 56.0))
    limits = Limits(most_imbalance_kg=0.01)
    problem = pose(setup_of(*pieces, feeders=(feeder(lengths_m=(0.67,)),)), target, limits)
    best = find(problem).best
    assert best is not None
    assert best.pieces == 4
    assert best.imbalance_kg == pytest.approx(0.0, abs=1e-9)


def test_several_pieces_may_level_what_one_tips() -> None:
    """One kind tips the bar by 0.4 kg/m; only two pairs of the other, 0.2 each, level it."""
    pieces = [
        piece("a", "5/8 in", density=5.4),
        piece("b", "5/8 in", density=5.0),
        *(piece(f"c{i}", "1/2 in", density=d) for i, d in enumerate((3.4, 3.4, 3.6, 3.6))),
    ]
    target = Target(heights_m=(0.75, 1.2), loads_kg=(40.0, 61.0))
    limits = Limits(most_imbalance_kg=0.01)
    problem = pose(setup_of(*pieces, feeders=(feeder(lengths_m=(0.67,)),)), target, limits)
    best = find(problem).best
    assert best is not None
    assert best.pieces == 6
    assert best.imbalance_kg == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("seed", SEEDS[::5])
def test_cut_into_small_helpings_it_finds_the_same(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One fixture and one partial choice at a time, as a stock of many weighed pieces needs."""
    monkeypatch.setattr("topheavy.rigging.search._LOOK_UP", 1)
    monkeypatch.setattr("topheavy.rigging.search._HELPING", 1)
    choice = both(seed).choice
    if choice is not None:
        again = find(pose(*random_problem(seed))).best
        assert again is not None
        assert again.cost_kg == pytest.approx(choice.cost_kg, abs=1e-9)
        assert again.pieces == choice.pieces


def test_a_lump_of_a_connector_just_at_the_floor_weighs_nothing_yet() -> None:
    """Connector without length, its bearing point level with the floor at the bottom."""
    setup = setup_of(
        *batch(2), feeders=(feeder(lengths_m=(0.75,)),), connectors=(connector(length_m=0.0),)
    )
    problem = pose(setup, ENDS)
    best = find(problem).best
    assert best is not None
    miss_kg, _ = miss_and_lean_kg(build(problem, best).rig, setup, ENDS)
    assert best.miss_kg == pytest.approx(miss_kg, abs=1e-12)


def test_plates_of_one_total_are_those_with_the_fewest_plates_in_pounds_too() -> None:
    """One 25 lb plate, not 10 + 10 + 5, though the kilograms differ in the last digit."""
    lb = 0.45359237
    plates = (plate(25 * lb, 2), plate(10 * lb, 4), plate(5 * lb, 2))
    target = Target(heights_m=(0.75, 1.2), loads_kg=(44.0, 53.0))
    problem = pose(setup_of(*batch(2), plates=plates), target)
    best = find(problem).best
    assert best is not None
    loading = problem.plates[best.loading]
    assert loading.total_kg == pytest.approx(50 * lb)
    assert loading.plates_a_side == 1


def test_many_weighed_pieces_are_classed_and_it_says_so() -> None:
    pieces = [piece(f"{i:02}", density=5.3 + 0.003 * i) for i in range(30)]
    found = find(pose(setup_of(*pieces), ENDS))
    assert not found.exact
    assert found.best is not None
    assert found.best.imbalance_kg < 0.05
