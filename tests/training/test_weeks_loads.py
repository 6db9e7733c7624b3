"""Loads week by week."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import pytest

from topheavy.training.days import DAY_NAMES, DAYS
from topheavy.training.weeks import Wave
from topheavy.training.weeks_loads import DELOAD_LOAD, USUAL, deload_sets, loads_of_wave

if TYPE_CHECKING:
    from topheavy.training.days import DayName


@pytest.mark.parametrize("kind", DAY_NAMES)
def test_usual_loads_stay_inside_the_kind_of_day(kind: DayName) -> None:
    loads = loads_of_wave(Wave(hang="chain", weeks=4), kind)
    assert DAYS[kind].low <= loads[0] <= loads[-1] <= DAYS[kind].high
    assert all(a < b <= 1.06 * a for a, b in itertools.pairwise(loads))


def test_given_loads_are_kept_and_the_deload_follows_from_the_first() -> None:
    given = {"heavy": (0.7, 0.9)}
    loads = loads_of_wave(Wave(hang="chain", weeks=3, loads=given, deload=True), "heavy")  # type: ignore[arg-type]
    assert loads == (0.7, 0.9, DELOAD_LOAD * 0.7)


def test_a_deload_written_down_is_kept() -> None:
    wave = Wave(hang="chain", weeks=3, loads={"heavy": (0.7, 0.9, 0.5)}, deload=True)
    assert loads_of_wave(wave, "heavy") == (0.7, 0.9, 0.5)


def test_one_load_holds_for_all_weeks() -> None:
    assert (
        loads_of_wave(Wave(hang="chain", weeks=3, loads={"heavy": (0.7,)}), "heavy") == (0.7,) * 3
    )


def test_a_deload_keeps_a_set() -> None:
    assert [deload_sets(sets) for sets in (1, 2, 3, 8)] == [1, 1, 2, 4]
    assert set(USUAL) == set(DAY_NAMES)
