"""Days of a block on the calendar."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tests.training.blocks import block
from topheavy.errors import BadInputError
from topheavy.present.weeks.dates import day_of, span_of, week_with


def test_a_session_keeps_its_time_when_the_clocks_change() -> None:
    """18:30 in Vienna before and after the last Sunday of October 2026."""
    spans = [span_of(dt.date(2026, 10, day), 1110, 60, "Europe/Vienna") for day in (24, 26)]
    assert [span.begins.hour for span in spans] == [16, 17]
    assert all((span.ends - span.begins).total_seconds() == 3600 for span in spans)


def test_a_time_that_the_clocks_leave_out_is_refused() -> None:
    with pytest.raises(BadInputError, match="clocks go forward"):
        span_of(dt.date(2027, 3, 28), 150, 60, "Europe/Vienna")
    span_of(dt.date(2027, 3, 28), 180, 60, "Europe/Vienna")


def test_weeks_follow_each_other_over_the_new_year() -> None:
    assert day_of(block(), 5, 4) == dt.date(2027, 1, 1)
    assert week_with(block(), "2027-01-01") == 5


@pytest.mark.parametrize("start", ["0001-01-01", "9998-12-31"])
def test_years_that_no_calendar_has(start: str) -> None:
    with pytest.raises(BadInputError, match="No calendar"):
        day_of(replace(block(), start=start), 1, 0)
