"""The 1RM from a set: range, reserve, caveats, and what it refuses."""

from __future__ import annotations

import math

import pytest

from topheavy.errors import BadInputError
from topheavy.lifter.formulas import FORMULAS, Formula
from topheavy.lifter.one_rm import DAY_TO_DAY, one_rm, reps_left_of


def test_a_single_needs_no_formula() -> None:
    best = one_rm(142.5, 1)
    assert (best.low_kg, best.middle_kg, best.high_kg) == (142.5, 142.5, 142.5)
    assert best.u_kg == pytest.approx(DAY_TO_DAY * 142.5)
    assert not best.values_kg
    assert not best.caveats


def test_range_is_least_median_and_greatest_of_all_formulas() -> None:
    best = one_rm(100.0, 5)
    values = sorted(best.values_kg.values())
    assert len(values) == len(FORMULAS) == 7
    assert (best.low_kg, best.middle_kg, best.high_kg) == (values[0], values[3], values[-1])


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda f: f.name)
def test_every_formula_grows_with_repetitions(formula: Formula) -> None:
    factors = [formula.factor(reps) for reps in range(1, 33)]
    assert factors == sorted(factors)
    assert 0.99 < factors[0] < 1.09
    assert math.isfinite(factors[-1])


def test_repetitions_in_reserve_count_as_done_and_widen_the_range() -> None:
    to_failure, with_reserve = one_rm(100.0, 5), one_rm(100.0, 3, reps_left=2)
    assert with_reserve.middle_kg == pytest.approx(to_failure.middle_kg)
    assert with_reserve.low_kg < to_failure.low_kg
    assert with_reserve.high_kg > to_failure.high_kg
    assert with_reserve.u_kg > to_failure.u_kg


def test_far_from_failure_the_reserve_is_two_repetitions_uncertain() -> None:
    near, far = one_rm(100.0, 5, reps_left=5), one_rm(100.0, 4, reps_left=6)
    assert far.middle_kg == pytest.approx(near.middle_kg)
    assert far.high_kg - far.low_kg > near.high_kg - near.low_kg


def test_the_least_is_no_less_than_the_load_that_went_up() -> None:
    assert one_rm(100.0, 1, reps_left=1).low_kg == pytest.approx(100.0)
    assert one_rm(100.0, 2).low_kg >= 100.0


def test_more_repetitions_say_less_of_the_single() -> None:
    relative = [one_rm(100.0, reps).u_kg / one_rm(100.0, reps).middle_kg for reps in range(1, 13)]
    assert relative == sorted(relative)


def test_caveats_past_ten_repetitions_with_reserve_and_for_the_deadlift() -> None:
    assert not one_rm(100.0, 10).caveats
    assert "More than 10" in one_rm(100.0, 11).caveats[0]
    assert "More than 10" in one_rm(100.0, 8, reps_left=3).caveats[0]
    assert any("feeling" in c for c in one_rm(100.0, 5, reps_left=1).caveats)
    assert any("too little" in c for c in one_rm(100.0, 5, lift="sumo deadlift").caveats)
    assert not one_rm(100.0, 5, lift="squat").caveats


@pytest.mark.parametrize(
    ("load_kg", "reps", "reps_left", "field"),
    [
        (0.0, 5, 0.0, "load_kg"),
        (-20.0, 5, 0.0, "load_kg"),
        (math.nan, 5, 0.0, "load_kg"),
        (math.inf, 5, 0.0, "load_kg"),
        (100.0, 0, 0.0, "reps"),
        (100.0, -3, 0.0, "reps"),
        (100.0, 2.5, 0.0, "reps"),
        (100.0, math.nan, 0.0, "reps"),
        (100.0, 31, 0.0, "reps"),
        (100.0, 25, 6.0, "reps"),
        (100.0, 5, -1.0, "reps_left"),
        (100.0, 5, 11.0, "reps_left"),
        (100.0, 5, math.nan, "reps_left"),
    ],
)
def test_refuses_sets_that_are_none(
    load_kg: float, reps: int, reps_left: float, field: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        one_rm(load_kg, reps, reps_left=reps_left)
    assert caught.value.field == field
    assert caught.value.wanted


def test_thirty_repetitions_to_failure_are_the_most() -> None:
    assert one_rm(50.0, 30).high_kg > 100.0


@pytest.mark.parametrize(("rpe", "left"), [(10, 0), (9.5, 0.5), (8, 2), (5, 5), (1, 9)])
def test_rpe_is_ten_less_the_reserve(rpe: float, left: float) -> None:
    assert reps_left_of(rpe) == left


@pytest.mark.parametrize("rpe", [0.5, 10.5, -1.0, math.nan])
def test_refuses_an_rpe_off_the_scale(rpe: float) -> None:
    with pytest.raises(BadInputError, match="RPE"):
        reps_left_of(rpe)
