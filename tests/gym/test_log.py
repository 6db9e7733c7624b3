"""Logged sets that can be, and those that can't."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.store.samples import RIG, a_set
from topheavy.errors import BadInputError
from topheavy.gym.log import LoggedSet, RigThen, same_set
from topheavy.gym.people import Travel


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"id": "7"}, "id"),
        ({"id": "5D5A2C8E-0000-4000-8000-000000000001"}, "id"),
        ({"day": "2026-02-30"}, "day"),
        ({"day": "25.11.2026"}, "day"),
        ({"day": "1066-10-14"}, "day"),
        ({"time": "24:00"}, "time"),
        ({"lifter": ""}, "lifter"),
        ({"lift": " squat"}, "lift"),
        ({"note": "x" * 2001}, "note"),
        ({"note": "a\x00b"}, "note"),
        ({"straight_kg": 0.0}, "straight_kg"),
        ({"straight_kg": float("nan")}, "straight_kg"),
        ({"straight_kg": 2000.1}, "straight_kg"),
        ({"reps": -1}, "reps"),
        ({"reps": 201}, "reps"),
        ({"reps": True}, "reps"),
        ({"reps": 0}, "reps"),
        ({"number": 0}, "number"),
        ({"reps_left": -0.5}, "reps_left"),
        ({"reps_left": 11}, "reps_left"),
        ({"reps_left": 1, "missed": True}, "reps_left"),
        ({"third": "middle"}, "third"),
        ({"third": "knee", "missed": True}, "third"),
        ({"speed_m_per_s": 0.0}, "speed_m_per_s"),
        ({"rig": RIG, "straight_kg": 90.0}, "rig"),
        ({"corrects": "x"}, "corrects"),
        ({"struck": True}, "struck"),
    ],
)
def test_sets_that_can_not_be(values: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as told:
        a_set(**values)
    assert told.value.field == field


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"bottom_kg": -1.0}, "bottom_kg"),
        ({"mean_kg": 80.0}, "mean_kg"),
        ({"mean_kg": 120.0}, "mean_kg"),
        ({"words": "x" * 501}, "words"),
        ({"curve": ((0.7, 0.0), (0.7, 1.0))}, "curve"),
        ({"curve": ((0.7, 0.0), (float("inf"), 1.0))}, "curve"),
    ],
)
def test_rigs_that_can_not_be(values: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as told:
        replace(RIG, **values)
    assert told.value.field == field


def test_three_loads_make_a_curve_with_that_mean() -> None:
    """By the trapezium rule over two equal halves: (bottom + 2 middle + top) / 4 is the mean."""
    travel = Travel(bottom_m=0.6, top_m=1.0)
    for mean_kg in (96.0, 100.0, 104.0):
        curve = RigThen(bottom_kg=85, mean_kg=mean_kg, top_kg=115).hung_curve(85.0, travel)
        assert 85.0 + curve.mean(0.6, 1.0) == pytest.approx(mean_kg)


def test_a_frozen_curve_is_read_as_it_was() -> None:
    curve = RIG.hung_curve(85.0, Travel(bottom_m=0.0, top_m=1.0))
    assert np.allclose(curve.at([0.66, 0.87, 1.07]), [0.0, 11.0, 30.0])


def test_sets_are_the_same_whoever_logged_them() -> None:
    one = a_set()
    other: LoggedSet = replace(one, id="5d5a2c8e-0000-4000-8000-000000000001", by="Pip")
    assert same_set(one, other)
    assert not same_set(one, replace(one, reps=4))
