"""The shape of a ramp: shares, reps, rests."""

from __future__ import annotations

import itertools

import pytest

from topheavy.errors import BadInputError
from topheavy.training.scheme import (
    ATTEMPTS,
    WIDEST,
    rest_before_s,
    rising_shares,
    singles_shares,
    warm_up_reps,
)

FIRSTS = [n / 100 for n in range(1, 100)]


@pytest.mark.parametrize("reps", [1, 3, 5, 10])
@pytest.mark.parametrize("first", FIRSTS)
def test_shares_rise_by_jumps_that_shrink(first: float, reps: int) -> None:
    shares = rising_shares(first, reps)
    jumps = [b - a for a, b in itertools.pairwise(shares)]
    assert shares[0] == first
    assert shares[-1] == 1.0
    assert all(a > b > 0 for a, b in itertools.pairwise(jumps)) or len(jumps) == 1
    assert jumps[0] <= WIDEST + 1e-9
    assert jumps[-1] <= 0.13 + 1e-9


def test_fewer_reps_are_met_by_smaller_last_jumps() -> None:
    last = [1 - rising_shares(0.3, reps)[-2] for reps in (8, 5, 3, 1)]
    assert last == sorted(last, reverse=True)


@pytest.mark.parametrize("first", FIRSTS)
def test_singles_end_in_two_attempts_and_the_goal(first: float) -> None:
    shares = singles_shares(first)
    assert all(b > a for a, b in itertools.pairwise(shares))
    assert shares[0] == first
    assert shares[-1] == 1.0
    if first < ATTEMPTS[0] - 0.02:
        assert shares[-3:-1] == ATTEMPTS


@pytest.mark.parametrize("top_reps", [1, 3, 5, 8, 12])
def test_reps_never_rise_with_the_load(top_reps: int) -> None:
    reps = [warm_up_reps(share, top_reps) for share in FIRSTS]
    assert reps == sorted(reps, reverse=True)
    assert reps[0] == 8
    assert reps[-1] == max(1, -(-top_reps // 3))


def test_rests_never_fall_with_the_load() -> None:
    rests = [rest_before_s(share) for share in (*FIRSTS, 1.0)]
    assert rests == sorted(rests)


@pytest.mark.parametrize("first", [0.0, 1.0, -0.2, 1.4, float("nan")])
def test_a_first_share_out_of_range(first: float) -> None:
    with pytest.raises(BadInputError, match="starts below"):
        rising_shares(first, 3)


@pytest.mark.parametrize("reps", [0, -1])
def test_no_rep(reps: int) -> None:
    with pytest.raises(BadInputError, match="whole number"):
        rising_shares(0.3, reps)
    with pytest.raises(BadInputError, match="whole number"):
        warm_up_reps(0.3, reps)
