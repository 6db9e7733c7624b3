"""Adding chain to partial choices, against adding it one piece of arithmetic at a time."""

from __future__ import annotations

import numpy as np
import pytest

from tests.rigging.builders import batch, connector, feeder, piece, setup_of
from topheavy.rigging.additions import (
    Additions,
    Partials,
    Window,
    additions_under,
    nothing_yet,
)
from topheavy.rigging.limits import Limits
from topheavy.rigging.problem import Problem, pose
from topheavy.rigging.target import Target

LIMITS = Limits(most_pieces=8, fold_price_kg_per_m=1.0)


def posed(target: Target | None = None) -> tuple[Problem, Additions]:
    pieces = [
        *batch(4, "5/8 in"),
        *(piece(f"w{d}", "1/2 in", density=d) for d in (3.5, 3.6, 3.8)),
        *batch(2, "3/8 in", density=2.0),
    ]
    setup = setup_of(
        *pieces, feeders=(feeder(lengths_m=(0.5, 0.6)), feeder("b", lengths_m=(0.67,)))
    )
    ends = Target(heights_m=(0.75, 1.0, 1.2), loads_kg=(60.0, 70.0, 78.0), links_down=1)
    problem = pose(setup, target or ends, LIMITS)
    return problem, additions_under(problem, np.array([2, 0, 1]), 4)


def test_every_split_that_hangs_something_is_an_addition() -> None:
    problem, additions = posed()
    listed = list(zip(additions.kind.tolist(), additions.split.tolist(), strict=True))
    assert listed == [
        (k, s) for k, kind in enumerate(problem.kinds) for s in range(1, kind.each_end.size)
    ]
    for k, s, pieces in zip(additions.kind, additions.split, additions.pieces, strict=True):
        assert pieces == problem.kinds[k].each_end[s]


def test_added_loads_masses_leans_and_prices() -> None:
    problem, additions = posed()
    fixtures = [2, 0, 1]
    grown = additions.added_to(nothing_yet(problem, np.array(fixtures)), 4)
    assert len(grown) > 12
    for row in range(len(grown)):
        fixture, way = fixtures[grown.fixture[row]], int(grown.picks[row, 0])
        kind = problem.kinds[int(additions.kind[way])]
        left, right = kind.split(int(additions.split[way]))
        density = [sum(p.chain.density_kg_per_m for p in end) for end in (left, right)]
        lift_m = problem.lift_m[fixture, additions.kind[way]]
        load_kg = problem.held_kg[fixture] + sum(density) * lift_m
        assert grown.load_kg[row] == pytest.approx(load_kg)
        masses = [sum(p.chain.mass_kg for p in end) for end in (left, right)]
        assert grown.ends_kg[row] == pytest.approx(masses)
        top_m = problem.lift_top_m[fixture, additions.kind[way]]
        assert grown.lean_kg[row] == pytest.approx((density[0] - density[1]) * top_m)
        price_kg = problem.fold_price_kg[fixture] + 0.2 + 0.1 * 2 * len(left)
        assert grown.price_kg[row] == pytest.approx(price_kg)
        assert grown.last[row] == additions.kind[way] + 1


def test_of_two_mirror_images_one_is_grown() -> None:
    """Three weighed pieces: 3 pairs x 2 ways round, of which only those that lean left."""
    problem, additions = posed()
    start = nothing_yet(problem, np.array([2, 0, 1]))
    grown = additions.added_to(start, 4)
    weighed = additions.kind[grown.picks[:, 0]] == 1
    assert np.count_nonzero(weighed & (grown.fixture == 0)) == 3
    assert np.all(grown.lean_kg >= 0)
    leaning = additions.added_to(grown.take(weighed), 4)
    assert len(leaning) > 0


def test_kinds_are_added_in_order_and_within_the_number_of_pieces() -> None:
    problem, additions = posed()
    grown = nothing_yet(problem, np.array([2, 0, 1]))
    seen = set()
    for _ in range(3):
        grown = additions.added_to(grown, 3)
        for row in range(len(grown)):
            picks = [int(pick) for pick in grown.picks[row] if pick >= 0]
            kinds = [int(additions.kind[pick]) for pick in picks]
            assert kinds == sorted(set(kinds))
            assert grown.pieces[row] == sum(additions.pieces[picks]) <= 3
            assert additions.splits_of(grown.picks[row], 3).count(0) == 3 - len(picks)
            seen.add((int(grown.fixture[row]), *picks))
    assert len(grown) > 0
    assert len(additions.added_to(grown, 3)) == 0


@pytest.mark.parametrize(
    "target",
    [
        None,
        Target(heights_m=(1.1,), loads_kg=(75.0,)),
        Target(heights_m=(), loads_kg=(), mean_kg=70.0),
        Target(heights_m=(0.75, 1.2), loads_kg=(60.0, 78.0), mean_kg=70.0),
    ],
)
def test_the_window_keeps_just_what_lies_in_it(target: Target | None) -> None:
    """Against all additions, filtered one by one; windows differ from row to row."""
    problem, additions = posed(target)
    start = additions.added_to(nothing_yet(problem, np.array([2, 0, 1])), 3)
    rng = np.random.default_rng(3)
    low_kg = rng.uniform(-5, 15, size=len(start))
    high_kg = low_kg + rng.uniform(-1, 12, size=len(start))
    low_kg[::7], high_kg[::5] = -np.inf, np.inf
    most_lean_kg = rng.choice([0.05, 0.3, np.inf], size=len(start))
    window = Window(low_kg=low_kg, high_kg=high_kg, most_lean_kg=most_lean_kg)
    kept = additions.last_added_to(start, window, 4)
    found = {(int(f), *p) for f, p in zip(kept.fixture, kept.picks.tolist(), strict=True)}
    everything = additions.added_to(start, 4)
    expected = set()
    for row in range(len(everything)):
        picks = everything.picks[row].tolist()
        parent = _parent(start, int(everything.fixture[row]), picks[0])
        added_kg = everything.load_kg[row] - start.load_kg[parent]
        key_kg = additions.keys.key_kg(np.tile(added_kg, (3, 1)))[everything.fixture[row]]
        level = abs(everything.lean_kg[row]) <= most_lean_kg[parent]
        if low_kg[parent] <= key_kg <= high_kg[parent] and level:
            expected.add((int(everything.fixture[row]), *picks))
    assert found == expected
    assert 0 < len(expected) < len(everything)


def _parent(start: Partials, fixture: int, pick: int) -> int:
    same = (start.fixture == fixture) & (start.picks[:, 0] == pick)
    (row,) = np.flatnonzero(same)
    return int(row)


def test_a_kind_that_breaks_a_rule_under_a_fixture_is_not_added_there() -> None:
    pieces = [*batch(2, links=40), *batch(2, links=16)]
    setup = setup_of(*pieces, feeders=(feeder(lengths_m=(0.4, 0.67)),), connectors=(connector(),))
    target = Target(heights_m=(0.75, 1.2), loads_kg=(60.0, 78.0), links_down=1)
    problem = pose(setup, target)
    additions = additions_under(problem, np.array([0, 1]), 4)
    grown = additions.added_to(nothing_yet(problem, np.array([0, 1])), 4)
    hung = {
        (int(f), int(additions.kind[p]))
        for f, p in zip(grown.fixture, grown.picks[:, 0], strict=True)
    }
    assert hung == {(s, k) for s in (0, 1) for k in (0, 1) if problem.allowed[s, k]}
    assert len(hung) < 4
