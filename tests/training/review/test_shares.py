"""Which share served: told only where a log has long stretches that differ, and then modestly."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.training.review.samples import CHAIN, TRAVEL, read, seen, shapes
from topheavy.training.review.bests import best_of_days
from topheavy.training.review.shares import Shares, share_of_top, shares_of

if TYPE_CHECKING:
    from topheavy.training.review.seen import SeenSet

WEEKS = 8


def plain(first: int, slope: float, weeks: int = WEEKS) -> list[SeenSet]:
    return [seen(7 * (first + week), 100.0 + slope * week, 1) for week in range(weeks)]


def chained(first: int, slope: float, weeks: int = WEEKS, times: float = 1.0) -> list[SeenSet]:
    return [
        seen(7 * (first + week), 90.0 + slope * week, 1, rig=f"{times:g}", hung=times * CHAIN)
        for week in range(weeks)
    ]


def found(*sets: SeenSet) -> Shares:
    return shares_of(best_of_days(read(list(sets))), TRAVEL, shapes(), 0.035)


def test_the_share_is_of_the_load_at_the_top() -> None:
    assert share_of_top(seen(0, 90.0, rig="chain"), TRAVEL) == pytest.approx(30.0 / 120.0)
    assert share_of_top(seen(0, 90.0), TRAVEL) == 0.0


def test_two_stretches_with_slopes_that_differ_are_told_apart() -> None:
    both = found(*plain(0, 0.1), *chained(WEEKS, 1.5))
    assert [one.share for one in both.trends] == [0.25, 0.0]
    assert both.apart
    assert both.trends[0].trend.per_week_kg == pytest.approx(1.5, abs=0.1)


def test_the_same_slope_is_not() -> None:
    jagged = [seen(7 * week, 100.0 + (3 if week % 2 else 0), 1) for week in range(WEEKS)]
    both = found(*jagged, *chained(WEEKS, 0.5))
    assert len(both.trends) == 2
    assert not both.apart


@pytest.mark.parametrize(
    "sets",
    [
        plain(0, 1.0, 20),  # one share alone
        [*plain(0, 1.0, 4), *chained(4, 1.0, 4)],  # too short
        [*(one for at in range(0, 20, 2) for one in (*plain(at, 1, 1), *chained(at + 1, 1, 1)))],
    ],
)
def test_most_logs_can_not_tell(sets: list[SeenSet]) -> None:
    assert found(*sets).trends == ()


def test_nor_can_one_without_heights() -> None:
    days = best_of_days(read([*plain(0, 0.1), *chained(WEEKS, 1.5)]))
    assert shares_of(days, None, shapes(), 0.035) == Shares()


def test_a_little_more_plate_on_the_same_rig_cuts_no_stretch() -> None:
    """From 25 to 23 % of the top load, as the plates grow."""
    both = found(*plain(0, 0.1), *chained(WEEKS, 1.5, times=1.0))
    assert sum(one.trend.days for one in both.trends) == 2 * WEEKS
