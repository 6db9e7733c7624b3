"""Events of a block: stable, and changed where the plan changed."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import icalendar
import pytest

from tests.present.weeks.views import view
from topheavy.errors import BadInputError
from topheavy.present.weeks.calendar import calendar_of, escaped

if TYPE_CHECKING:
    from topheavy.present.weeks.view import WeeksView

MOMENT = dt.datetime(2026, 11, 25, 12, 0, tzinfo=dt.UTC)


def events(shown: WeeksView, time_zone: str = "Europe/Vienna") -> dict[str, icalendar.Event]:
    parsed = icalendar.Calendar.from_ical(calendar_of(shown, time_zone, MOMENT))
    found = {str(event["UID"]): event for event in parsed.events}
    assert len(found) == len(parsed.events)
    return found


def test_an_event_a_day_with_everybody_in_it() -> None:
    found = events(view())
    assert len(found) == 5 * 2 - 1 + 1
    first = next(iter(found.values()))
    assert str(first["SUMMARY"]) == "Bench press, heavy: Ansa, Bo"
    text = str(first["DESCRIPTION"])
    assert "Ansa: bench press, heavy, 5 x 3" in text
    assert "Plates a side:" in text
    assert "\n" in text


def test_times_and_whole_days() -> None:
    found = list(events(view()).values())
    monday, thursday = found[0], found[1]
    assert monday.start == dt.datetime(2026, 11, 30, 17, 30, tzinfo=dt.UTC)
    assert monday.end == dt.datetime(2026, 11, 30, 18, 45, tzinfo=dt.UTC)
    assert thursday.start == dt.date(2026, 12, 3)


def test_again_after_a_change_the_same_events_and_none_doubled() -> None:
    before = events(view())
    moved = [replace(row, time="07:00", sets=1, kind="speed") for row in view().sessions]
    after = events(replace(view(), sessions=tuple(moved)))
    assert set(after) == set(before)
    gone = [row for row in view().sessions if row.week != 1]
    assert set(events(replace(view(), sessions=tuple(gone)))) < set(before)


def test_other_lifters_and_other_blocks_have_their_own() -> None:
    group, bo, ansa = (set(events(view(who))) for who in ("", "Bo", "Ansa"))
    other = set(events(replace(view(), block="Other")))
    assert not group & bo
    assert not ansa & bo
    assert not group & other


def test_two_tables_of_one_day_are_two_events() -> None:
    twice = [
        replace(row, day=day, of_weekday=day + 1) for row in view().sessions[:2] for day in (0, 1)
    ]
    assert len(events(replace(view(), sessions=tuple(twice)))) == 2


def test_the_same_plan_is_the_same_text() -> None:
    assert calendar_of(view(), "UTC", MOMENT) == calendar_of(view(), "UTC", MOMENT)


def test_line_ends_of_any_kind_are_escaped() -> None:
    assert escaped("a\r\nb\rc\nd\\e") == "a\\nb\\nc\\nd\\\\e"


def test_a_time_that_does_not_exist_is_told() -> None:
    row = replace(view().sessions[0], date="2027-03-28", time="02:30")
    with pytest.raises(BadInputError, match="clocks go forward"):
        calendar_of(replace(view(), sessions=(row,)), "Europe/Vienna", MOMENT)
