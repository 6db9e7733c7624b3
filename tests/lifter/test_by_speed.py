"""A best reckoned from bar speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.by_speed import best_by_speed, together
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.lifter.strength import strength_curve
from topheavy.lifter.velocity import LINES, LoadVelocityLine

if TYPE_CHECKING:
    from topheavy.lifter.evidence import Evidence

LIFTS = pytest.mark.parametrize("line", LINES.values(), ids=LINES)
TRAVEL = Travel(bottom_m=0.66, top_m=1.07)
BENCH = lift_named("bench press")


@LIFTS
@pytest.mark.parametrize("share", [0.4, 0.6, 0.8, 0.95, 1.0])
def test_a_lifter_on_the_line_has_the_best_the_line_says(
    line: LoadVelocityLine, share: float
) -> None:
    speed = float(line.speed_at(share))
    best = best_by_speed(line.pattern, share * 140.0, speed, "propulsive")
    assert best.load_kg == pytest.approx(140.0)
    assert best.reckoned
    assert not best.is_single


@LIFTS
def test_two_standard_errors_of_speed_lie_within_two_uncertainties(line: LoadVelocityLine) -> None:
    """The line bends little, so its error carried to load covers a lifter as far off as it says."""
    speed = float(line.speed_at(0.8))
    best = best_by_speed(line.pattern, 112.0, speed, "propulsive")
    for off in (-2.0, 2.0):
        share = float(line.share_at(speed + off * line.error_m_per_s))
        assert abs(112.0 / share - best.load_kg) < 2.6 * (best.load_u_kg or 0.0)


def test_the_heavier_the_rep_the_surer_the_best() -> None:
    us = []
    for share in (0.4, 0.6, 0.8, 1.0):
        speed = float(LINES["squat"].speed_at(share))
        best = best_by_speed("squat", share * 200.0, speed, "propulsive")
        us.append(best.load_u_kg or math.nan)
    assert us == sorted(us, reverse=True)
    assert us[-1] > 0.02 * 200.0


def test_mean_speed_counts_where_the_bar_is_not_braked() -> None:
    assert best_by_speed("bench press", 100.0, 0.4) == best_by_speed(
        "bench press", 100.0, 0.4, "propulsive"
    )
    with pytest.raises(BadInputError, match="braked") as caught:
        best_by_speed("bench press", 60.0, 0.8)
    assert caught.value.field == "speed_m_per_s"


@pytest.mark.parametrize(
    ("lift", "load_kg", "speed", "kind", "field"),
    [
        ("overhead press", 60.0, 0.3, "mean", "lift"),
        ("paused bench press", 60.0, 0.3, "mean", "lift"),
        ("bench press", 0.0, 0.3, "mean", "load_kg"),
        ("bench press", 100.0, -0.3, "mean", "speed_m_per_s"),
        ("bench press", 100.0, math.nan, "mean", "speed_m_per_s"),
        ("bench press", 100.0, 0.05, "mean", "speed_m_per_s"),
        ("bench press", 100.0, 2.0, "propulsive", "speed_m_per_s"),
    ],
)
def test_what_no_line_tells_is_refused(
    lift: str, load_kg: float, speed: float, kind: Literal["mean", "propulsive"], field: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        best_by_speed(lift, load_kg, speed, kind)
    assert caught.value.field == field


def test_more_readings_make_nobody_surer_than_one() -> None:
    one = best_by_speed("deadlift", 160.0, 0.4, "propulsive")
    many = together([one] * 10)
    assert many.load_kg == pytest.approx(one.load_kg)
    assert many.load_u_kg == pytest.approx(one.load_u_kg)


def test_the_surer_reading_counts_more() -> None:
    sure, unsure = (
        FullRange(load_kg=load, load_u_kg=u, reckoned=True)
        for load, u in ((100.0, 2.0), (110.0, 8.0))
    )
    both = together([sure, unsure])
    assert 100.0 < both.load_kg < 101.0
    assert 2.0 <= (both.load_u_kg or 0.0) <= 8.0


def test_a_reckoned_best_never_stands_for_a_single() -> None:
    """A partial and a set pull the curve away from it; a single that was made would hold it."""
    others: list[Evidence] = [FullRange(load_kg=90.0, reps=5), Partial(height_m=0.9, load_kg=112.0)]
    reckoned = FullRange(load_kg=110.0, load_u_kg=8.0, reckoned=True)
    single = FullRange(load_kg=110.0, load_u_kg=8.0)
    weighed = strength_curve(BENCH, TRAVEL, [reckoned, *others])
    held = strength_curve(BENCH, TRAVEL, [single, *others])
    assert held.full_range_kg == pytest.approx(110.0)
    assert 100.0 < weighed.full_range_kg < 109.0
    assert np.all(weighed.samples(50).min(axis=1) > 90.0 - 1e-9)


def test_it_alone_is_enough_for_a_curve_and_says_what_it_is() -> None:
    reckoned = best_by_speed("bench press", 100.0, 0.4)
    curve = strength_curve(BENCH, TRAVEL, [reckoned])
    assert curve.full_range_kg == pytest.approx(reckoned.load_kg)
    assert "bar speed" in reckoned.words
