"""Waves, loads and weeks in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.training.blocks import slot
from topheavy.present.weeks.words import (
    kind_words,
    load_words,
    reserve_words,
    short_load,
    wave_words,
    weeks_words,
)
from topheavy.training.weeks import Wave
from topheavy.units import METRIC, POUNDS

CHAIN = slot(hang="chain", load=0.83)


def test_a_percentage_names_its_load_and_base() -> None:
    assert load_words(CHAIN, METRIC) == "83 % of the best, mean load"
    assert load_words(replace(CHAIN, at="top"), METRIC) == "83 % of the best, at the top"
    assert load_words(slot(load=0.8), METRIC) == "80 % of the best"
    matched = load_words(replace(CHAIN, match=True), METRIC)
    assert matched == "83 % of strength, where the lift is hardest"
    by_hand = replace(CHAIN, load_kg=100.0)
    assert load_words(by_hand, POUNDS) == "220.5 lb by hand, mean load"
    assert (short_load(CHAIN), short_load(by_hand)) == ("83 %", "by hand")
    assert load_words(slot(kind="test", load=1.0), METRIC) == "singles up to 100 % of the best"


def test_waves() -> None:
    assert wave_words(Wave(hang="straight", weeks=1)) == "straight weight"
    assert wave_words(Wave(hang="bands", weeks=1, of="best")) == "bands, 20 % of the best"
    many = Wave(hang="mixed", weeks=2, share=(0.1, 0.125), of="bottom")
    assert wave_words(many) == "chain and bands, 10, 12.5 % of the bottom load"
    matched = wave_words(Wave(hang="chain", weeks=2, match=True))
    assert matched == "chain, matched to the lifter's strength"


@pytest.mark.parametrize(
    ("weeks", "words"),
    [((1,), "week 1"), ((1, 2), "weeks 1, 2"), ((1, 3, 4, 5, 9), "weeks 1, 3 to 5, 9")],
)
def test_weeks_in_a_row_are_put_together(weeks: tuple[int, ...], words: str) -> None:
    assert weeks_words(weeks) == words


def test_a_deload_and_a_test_leave_more_and_say_so() -> None:
    assert kind_words(replace(CHAIN, deload=True)) == "heavy, deload"
    assert reserve_words(CHAIN) == "1 to 2 reps left"
    assert reserve_words(replace(CHAIN, deload=True)) == "2 reps left or more"
    assert "a miss is never the aim" in reserve_words(slot(kind="test"))
