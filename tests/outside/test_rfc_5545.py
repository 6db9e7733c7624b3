"""Calendars: the standard's own rules, and a parser that others wrote.

Internet Calendaring and Scheduling Core Object Specification (iCalendar), RFC 5545, 2009. Sections
3.1 (content lines: CR LF, 75 octets, folding), 3.3.4 and 3.3.5 (dates, UTC times), 3.3.11 (text),
3.6.1 (events need UID and DTSTAMP, each once). From memory. Read back with icalendar, the
general-purpose library, which unfolds, unescapes and checks by its own code.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace

import icalendar
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.present.weeks.views import view
from topheavy.present.weeks.calendar import calendar_of, escaped, folded

MOMENT = dt.datetime(2026, 11, 25, 13, 30, 5, tzinfo=dt.timezone(dt.timedelta(hours=1)))
STAMP = dt.datetime(2026, 11, 25, 12, 30, 5, tzinfo=dt.UTC)
TEXT = calendar_of(view(), "Europe/Vienna", MOMENT)
WORDS = st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=200)


def test_lines_end_in_cr_lf_and_have_at_most_75_octets() -> None:
    """3.1."""
    assert TEXT.endswith("END:VCALENDAR\r\n")
    assert "\n" not in TEXT.replace("\r\n", "")
    assert max(len(line.encode()) for line in TEXT.split("\r\n")) <= 75


def test_the_calendar_has_what_it_must() -> None:
    """3.6 and 3.7: version 2.0 and a product identifier, once each."""
    parsed = icalendar.Calendar.from_ical(TEXT)
    assert parsed["VERSION"] == "2.0"
    assert str(parsed["PRODID"])
    assert TEXT.count("VERSION:") == TEXT.count("PRODID:") == 1


def test_every_event_has_one_identifier_and_one_stamp_in_utc() -> None:
    """3.6.1, 3.8.4.7 and 3.8.7.2."""
    parsed = icalendar.Calendar.from_ical(TEXT)
    assert not parsed.errors
    for event in parsed.events:
        assert not event.errors
        assert len(event.property_items()) > 4
        stamp: dt.datetime = event.DTSTAMP
        assert stamp == STAMP
    uids = re.findall(r"^UID:(.*)$", TEXT, re.MULTILINE)
    assert len(uids) == len(set(uids)) == len(parsed.events)


def test_times_are_utc_and_days_are_dates() -> None:
    """3.3.4 and 3.3.5, forms as the standard prints them."""
    starts = re.findall(r"^DTSTART[^\r]*", TEXT, re.MULTILINE)
    assert all(
        re.fullmatch(r"DTSTART:\d{8}T\d{6}Z|DTSTART;VALUE=DATE:\d{8}", start) for start in starts
    )
    for event in icalendar.Calendar.from_ical(TEXT).events:
        assert isinstance(event.start, dt.date)
        if isinstance(event.start, dt.datetime):
            assert event.start.utcoffset() == dt.timedelta(0)
            assert event.end > event.start


@given(WORDS)
@settings(max_examples=60, deadline=None)
def test_any_words_come_back_as_they_were(words: str) -> None:
    """3.1 and 3.3.11: folded and escaped here, unfolded and unescaped by the library."""
    line = folded(f"DESCRIPTION:{escaped(words)}")
    assert max(len(part.encode()) for part in line.split("\r\n")) <= 75
    event = icalendar.Event.from_ical(f"BEGIN:VEVENT\r\n{line}\r\nEND:VEVENT\r\n")
    assert str(event["DESCRIPTION"]) == words


@pytest.mark.parametrize("name", ["Jörn; the \\ tall, one", "名前" * 30, "x" * 300])
def test_names_of_any_kind_survive(name: str) -> None:
    rows = tuple(replace(row, lifter=name) for row in view().sessions[:1])
    text = calendar_of(replace(view(), sessions=rows), "Europe/Vienna", MOMENT)
    (event,) = icalendar.Calendar.from_ical(text).events
    assert name in str(event["SUMMARY"])
    assert str(event["DESCRIPTION"]).startswith(f"{name}: bench press")
