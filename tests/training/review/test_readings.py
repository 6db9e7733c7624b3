"""A set as a straight single: from the rig by the shape, from repetitions by the formulas."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.training.review.samples import CHAIN, HEIGHTS, read, seen, shapes
from topheavy.lifter.evenness import heaviest_straight
from topheavy.lifter.one_rm import one_rm
from topheavy.training.review.readings import (
    least_factor,
    read_sets,
    sampled_singles,
    single_factor,
    spread_of,
)
from topheavy.training.review.shapes import SAMPLES, straight_as_hard

LOADS = st.floats(20.0, 300.0)
LOCKOUTS = st.floats(1.0, 2.0)


@settings(max_examples=30)
@given(straight_kg=LOADS, lockout=LOCKOUTS)
def test_straight_weight_stands_for_itself(straight_kg: float, lockout: float) -> None:
    assert straight_as_hard(straight_kg, None, shapes(lockout)) == straight_kg


@settings(max_examples=30)
@given(best_kg=LOADS, lockout=LOCKOUTS, share=st.floats(0.0, 0.3))
def test_the_heaviest_under_a_hung_load_stands_for_the_best(
    best_kg: float, lockout: float, share: float
) -> None:
    """The other way round, by the kernel that finds it: P = min (S - C) stands for min S."""
    mine = shapes(lockout)
    hung = (share * best_kg / 30.0) * CHAIN
    straight_kg, _ = heaviest_straight(best_kg * mine.likeliest, hung.at(HEIGHTS))
    found = straight_as_hard(float(straight_kg), hung, mine)
    assert found == pytest.approx(best_kg, rel=1e-9)


@settings(max_examples=30)
@given(straight_kg=LOADS, lockout=LOCKOUTS)
def test_hung_load_makes_it_no_easier_and_no_harder_than_all_of_it(
    straight_kg: float, lockout: float
) -> None:
    found = straight_as_hard(straight_kg, CHAIN, shapes(lockout))
    assert straight_kg <= found <= straight_kg + 30.0 + 1e-9


def test_where_strength_does_not_rise_chain_counts_whole() -> None:
    assert straight_as_hard(80.0, CHAIN, shapes(1.0)) == pytest.approx(110.0)


def test_where_strength_rises_as_fast_chain_counts_for_nothing() -> None:
    assert straight_as_hard(80.0, CHAIN, shapes(1.5)) == pytest.approx(80.0)


@pytest.mark.parametrize(("reps", "left"), [(5, 0.0), (3, 2.0), (1, 1.0), (10, 0.0)])
def test_repetitions_count_as_the_published_formulas_say(reps: int, left: float) -> None:
    (one,) = read([seen(0, 100.0, reps, reps_left=left)])
    assert one.single_kg == pytest.approx(one_rm(100.0, reps, reps_left=left).middle_kg)
    assert one.told


def test_a_single_with_nothing_left_is_no_guess() -> None:
    (one,) = read([seen(0, 140.0, 1)])
    assert spread_of(one, shapes()) == (140.0, 140.0) == (one.single_kg, one.single_kg)


@pytest.mark.parametrize(
    "values",
    [
        {"reps_left": None},  # nobody said
        {"reps_left": 5.0},  # far from its end
        {"reps": 12},  # many
    ],
)
def test_other_sets_stand_for_that_much_at_least(values: dict[str, float | None]) -> None:
    (one,) = read([seen(0, **{"straight_kg": 100.0, "reps": 6, **values})])  # type: ignore[arg-type]
    assert not one.told
    assert 100.0 < one.single_kg < 100.0 * single_factor(10.0)


def test_the_least_of_the_formulas_never_falls_with_repetitions() -> None:
    factors = [least_factor(reps) for reps in range(1, 31)]
    assert factors == sorted(factors)
    assert factors[0] == 1.0


def test_a_miss_after_repetitions_is_a_set_with_nothing_left() -> None:
    (one,) = read([seen(0, 100.0, 4, missed=True)])
    assert one.told
    assert one.single_kg == pytest.approx(one_rm(100.0, 4).middle_kg)


def test_a_first_repetition_missed_stands_for_nothing() -> None:
    assert read([seen(0, 150.0, 0, missed=True)]) == ()


def test_without_a_shape_only_straight_weight_can_be_compared() -> None:
    sets = [seen(0, 100.0, 1), seen(1, 90.0, 1, rig="chain")]
    assert [one.seen.rig for one in read_sets(sets, None)] == [""]
    assert [one.seen.rig for one in read_sets([seen(2, rig="chain", hung=None)], shapes())] == []


@settings(max_examples=30)
@given(straight_kg=LOADS, reps=st.integers(1, 10), left=st.sampled_from([0.0, 0.5, 1.0, 3.0, None]))
def test_no_reading_is_below_what_was_lifted(
    straight_kg: float, reps: int, left: float | None
) -> None:
    mine = shapes(1.2, doubt=0.15)
    (one,) = read([seen(0, straight_kg, reps, reps_left=left, rig="chain")], mine)
    low, high = spread_of(one, mine)
    assert straight_kg <= low <= one.single_kg <= high
    sampled = sampled_singles([one], mine)
    assert sampled.shape == (SAMPLES, 1)
    assert np.min(sampled) >= straight_kg


def test_the_range_is_wider_with_more_repetitions_and_an_unknown_shape() -> None:
    def width(reps: int, doubt: float) -> float:
        mine = shapes(1.2, doubt=doubt)
        (one,) = read([seen(0, 100.0, reps, rig="chain")], mine)
        low, high = spread_of(one, mine)
        return high - low

    assert width(1, 0.0) == pytest.approx(0.0)
    assert width(1, 0.1) > 1.0
    assert width(3, 0.1) < width(8, 0.1)


def test_what_flatters_one_set_flatters_the_like() -> None:
    """The same plausible lifter stands behind a row: two sets of five rise and fall together."""
    sampled = sampled_singles(read([seen(0, 100.0, 5), seen(7, 110.0, 5)]), shapes())
    assert np.allclose(sampled[:, 1] / sampled[:, 0], 1.1)
    assert np.std(sampled[:, 0]) > 1.0
