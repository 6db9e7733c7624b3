"""The benchmark's cases are what they are called, and nested loops find the same least cost."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchmarks.cases import forty_pieces, posed, rigs_in
from benchmarks.named import check_twelve
from benchmarks.reference.nested_loops import search_everything
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import pose
from topheavy.rigging.search import find
from topheavy.rigging.target import Target


def test_forty_pieces_in_eight_kinds_sixty_settings_two_hundred_plate_totals() -> None:
    problem = posed(forty_pieces())
    assert sum(len(kind.pieces) for kind in problem.kinds) == 40
    assert (len(problem.kinds), len(problem.fixtures), len(problem.plates)) == (8, 60, 200)
    assert problem.limits.most_pieces == 40
    assert rigs_in(problem) == (3**8 - 1) * 60 * 200


def test_nested_loops_agree_on_a_whole_case() -> None:
    assert check_twelve() == 31_200


@pytest.mark.parametrize("chain_kg", [12.0, 30.0, 55.0])
def test_nested_loops_agree_on_one_setting_of_the_large_case(chain_kg: float) -> None:
    """More kinds, and limits that cut: rating, pieces, links at lockout."""
    setup, _, _ = forty_pieces()
    target = Target(heights_m=(0.75, 1.2), loads_kg=(80.0, 80.0 + chain_kg), links_down=3)
    limits = Limits(most_pieces=8, design_factor=30.0)
    stock = setup.stock
    feeder = stock.feeders[0]
    settings = (feeder.settings[13],)
    one = replace(setup, stock=replace(stock, feeders=(replace(feeder, settings=settings),)))
    problem = pose(one, target, limits)
    best = find(problem).best
    assert best is not None
    assert search_everything(problem).cost_kg == pytest.approx(best.cost_kg, abs=1e-9)
