"""Rests and reps for strength: a college's position stand.

American College of Sports Medicine, Progression models in resistance training for healthy adults,
Med. Sci. Sports Exerc. 41(3), 687-708, 2009. Seen: summary. Intermediate and advanced lifters:
loads of 1 to 12 RM with emphasis on 1 to 6 RM, "using 3- to 5-min rest periods between sets"; loads
raised by 2 to 10 % when one or two more repetitions than wanted can be done.
"""

from __future__ import annotations

import pytest

from topheavy.training.attempts import LastAttempt, next_attempt
from topheavy.training.days import day_named
from topheavy.training.scheme import rest_before_s
from topheavy.training.weeks_checks import MOST_RISE
from topheavy.training.weeks_loads import USUAL


def test_rest_between_heavy_sets() -> None:
    """3 to 5 min."""
    day = day_named("heavy")
    assert day.rest_s == (180.0, 300.0)
    assert 180.0 <= rest_before_s(1.0) <= 300.0


def test_a_heavy_day_keeps_to_one_to_six_reps() -> None:
    day = day_named("heavy")
    assert 1 <= day.reps + day.reps_left[0] <= 6
    assert 1 <= day.reps + day.reps_left[1] <= 6


@pytest.mark.parametrize("left", [1, 2])
def test_steps_up_lie_within_its_range(left: int) -> None:
    """2 to 10 % when one or two more could be done."""
    change = next_attempt(LastAttempt(load_kg=100.0, made=True, reps_left=left)).change
    assert 0.02 <= change <= 0.10


def test_a_rise_from_week_to_week_is_flagged_beyond_its_range() -> None:
    """10 %; and the usual steps of a wave lie from 2 to 10 %."""
    assert MOST_RISE == 0.10
    for first, step in USUAL.values():
        assert 0.02 <= step / first <= 0.10
