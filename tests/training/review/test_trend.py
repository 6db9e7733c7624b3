"""A trend is called progress or loss only when it is more than noise and more than chance."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.training.review.samples import read, seen, shapes
from topheavy.errors import BadInputError
from topheavy.training.review.bests import best_of_days
from topheavy.training.review.readings import sampled_singles
from topheavy.training.review.trend import LEAST_DAYS, Trend, trend_of

if TYPE_CHECKING:
    from topheavy.training.review.seen import SeenSet
    from topheavy.training.review.shapes import Shapes

WEEKS = 7 * np.arange(12)
JITTER = np.array([0.0, 0.6, -0.5, 0.3, -0.7, 0.8, -0.2, 0.5, -0.6, 0.1, 0.4, -0.3])


def of(singles: object, noise: float = 0.035, days: object = WEEKS) -> Trend:
    loads = np.asarray(singles, dtype=np.float64)
    return trend_of(np.asarray(days), loads, loads[None], noise)


def of_sets(sets: list[SeenSet], mine: Shapes) -> Trend:
    days = best_of_days(read(sets, mine))
    singles = np.array([one.single_kg for one in days])
    return trend_of([one.seen.at for one in days], singles, sampled_singles(days, mine))


def test_a_steady_rise_beyond_noise_is_progress() -> None:
    found = of(100 + 0.8 * np.arange(12) + JITTER)
    assert found.verdict == "up"
    assert found.per_week_kg == pytest.approx(0.8, abs=0.1)
    assert 0 < found.low_kg < found.per_week_kg < found.high_kg


def test_a_fall_is_loss_in_the_same_way() -> None:
    assert of(100 - 0.8 * np.arange(12) + JITTER).verdict == "down"


def test_a_sure_rise_within_noise_is_neither() -> None:
    """Two kilograms, sure as can be: below 3.5 % of a hundred it is not called progress."""
    found = of(100 + 2.0 / 11 * np.arange(12))
    assert found.low_kg > 0
    assert found.change_kg == pytest.approx(2.0)
    assert found.verdict == "level"


def test_the_narrower_noise_of_men_lets_it_count() -> None:
    assert of(100 + 2.0 / 11 * np.arange(12), noise=0.014).verdict == "up"


@pytest.mark.parametrize("noise", [0.0, 0.0139, 0.13, math.nan, -0.02])
def test_a_noise_that_no_study_found_is_refused(noise: float) -> None:
    with pytest.raises(BadInputError) as caught:
        of(100 + JITTER, noise=noise)
    assert caught.value.field == "noise"


def test_a_rise_that_may_be_chance_is_not_called_progress() -> None:
    wild = np.array([100, 112, 96, 118, 95, 110, 104, 121, 99, 116, 103, 113.0])
    assert of(wild).verdict == "unsure"


def test_one_great_day_makes_no_trend() -> None:
    singles = 100 + JITTER
    singles[-1] = 130.0
    assert of(singles).verdict == "level"


@pytest.mark.parametrize(
    "days", [[], [0], 7 * np.arange(LEAST_DAYS - 1), np.arange(LEAST_DAYS) * 5]
)
def test_few_days_or_a_short_time_make_no_line(days: list[int]) -> None:
    found = of([100.0 + at for at in days], days=days)
    assert found.verdict == "few"
    assert not found.known


def test_only_the_last_two_years_of_days_count() -> None:
    days = np.arange(0, 7 * 400, 7)
    singles = np.where(days < 700, 50.0, 100.0)
    assert of(singles, days=days).verdict == "level"


def test_a_step_on_the_day_the_chain_came_on_is_no_progress_when_the_shape_is_not_known() -> None:
    """As much stronger as the likeliest shape says, and as well not, for all that is known."""
    before = [seen(7 * week, 100.0 + 0.2 * week, 1) for week in range(6)]
    after = [seen(7 * week, 96.0 + 0.2 * week, 1, rig="chain") for week in range(6, 12)]
    doubted, known = shapes(1.15, doubt=0.15), shapes(1.15)
    assert of_sets([*before, *after], known).verdict == "up"
    found = of_sets([*before, *after], doubted)
    assert found.verdict == "unsure"
    assert found.by_terms


def test_from_sets_of_eight_to_singles_is_no_progress_by_itself() -> None:
    before = [seen(7 * week, 80.0 + 0.1 * week, 8) for week in range(6)]
    after = [seen(7 * week, 106.0 + 0.1 * week, 1) for week in range(6, 12)]
    found = of_sets([*before, *after], shapes())
    assert found.change_kg > found.noise_kg
    assert found.verdict == "unsure"
    assert found.by_terms


@pytest.mark.parametrize(
    ("scatter", "noise", "most"),
    [(0.035, 0.035, 0.025), (0.014, 0.014, 0.025), (0.014, 0.035, 0.008)],
)
def test_false_progress_is_rare(scatter: float, noise: float, most: float) -> None:
    """True strength stands still: 400 logs of twelve weekly days.

    By design 2.5 in 100 lines at most lie wholly above zero, and fewer move by more than noise.
    The limit is three standard errors above that rate.
    """
    draws = np.random.default_rng(20)
    logs = 100 * (1 + scatter * draws.standard_normal((400, 12)))
    false = np.mean([of(singles, noise).verdict == "up" for singles in logs])
    assert false <= most + 3 * math.sqrt(most * (1 - most) / 400)


def test_true_progress_is_mostly_found() -> None:
    """A rise of a tenth in twelve weeks, days that scatter by 2 %."""
    draws = np.random.default_rng(21)
    logs = np.linspace(100, 110, 12) * (1 + 0.02 * draws.standard_normal((100, 12)))
    assert np.mean([of(singles).verdict == "up" for singles in logs]) > 0.9
