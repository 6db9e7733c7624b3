"""Weeks of the calendar: Monday first, numbered by ISO 8601.

Held against the standard library's `datetime`: `isocalendar`, `fromisocalendar` and `strftime`
("%G-W%V", by the C library). Years with 53 weeks and weeks that lie in two years are among them.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tests.training.blocks import block
from topheavy.present.weeks.dates import day_of, iso_week, monday_of, week_with

DAYS = st.dates(dt.date(1900, 1, 8), dt.date(9990, 1, 1))


@given(DAYS)
def test_the_name_of_a_week(day: dt.date) -> None:
    year, week, _ = day.isocalendar()
    assert iso_week(day) == f"{year}-W{week:02d}"
    if day.year > 1000:
        assert iso_week(day) == day.strftime("%G-W%V")


@given(DAYS, st.integers(1, 7), st.integers(0, 6))
def test_a_day_of_a_week_of_a_block(start: dt.date, week: int, weekday: int) -> None:
    plan = replace(block(), start=start.isoformat(), first_weekday=start.weekday())
    year, number, _ = start.isocalendar()
    monday = dt.date.fromisocalendar(year, number, 1)
    assert monday_of(plan) == monday
    day = day_of(plan, week, weekday)
    assert day.isoweekday() == weekday + 1
    assert (day - monday).days == 7 * (week - 1) + weekday
    assert week_with(plan, day.isoformat()) == week


def test_a_year_with_53_weeks() -> None:
    """2026 begins on a Thursday, so it has 53."""
    plan = replace(block(), start="2026-12-21", first_weekday=0)
    assert [iso_week(day_of(plan, week, 0)) for week in (1, 2, 3)] == [
        "2026-W52",
        "2026-W53",
        "2027-W01",
    ]
