"""`topheavy weeks`: what is shown, written, and refused."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import icalendar
import pytest

from tests.cli.calling import TINY, call, refused
from topheavy.planfile import demo_plan_text, plan_schema

if TYPE_CHECKING:
    from pathlib import Path

PLAN = """\
[plan]
name = "Small"
start = "2026-11-30"
time_zone = "Europe/Vienna"

[[day]]
weekday = "monday"
time = "18:30"
lift = "bench press"

[[wave]]
hang = "chain"
weeks = 3
deload = true
"""


@pytest.fixture
def plan(tmp_path: Path) -> str:
    path = tmp_path / "small.toml"
    path.write_text(PLAN, encoding="utf-8")
    return str(path)


def test_json_and_terminal_say_the_same_week(plan: str) -> None:
    words = ("weeks", "show", plan, "--gym", TINY, "--week", "2")
    shown, view = call(*words).out, call(*words, "--json").json
    text = " ".join(shown.split())
    assert max(len(line) for line in shown.splitlines()) <= 80
    (row,) = view["sessions"]
    assert (row["week"], row["date"], row["lifter"]) == (2, "2026-12-07", "Ansa")
    for place in ("bottom", "mean", "top"):
        assert row[place]["shown"].removesuffix(" kg") in text
    assert row["rig"] in text
    assert view["promise"] in text


def test_the_week_shown_is_the_one_today_is_in(plan: str) -> None:
    words = ("weeks", "show", plan, "--gym", TINY, "--json")
    for day, week in (("2026-01-01", 1), ("2026-12-16", 3), ("2027-09-01", 4)):
        view = call(*words, "--today", day).json
        assert [one["number"] for one in view["weeks"]] == [week]


def test_a_lifter_and_all_show_the_whole_block(plan: str) -> None:
    for more in (("--lifter", "ANSA"), ("--all",)):
        view = call("weeks", "show", plan, "--gym", TINY, *more, "--json").json
        assert [one["number"] for one in view["weeks"]] == [1, 2, 3, 4]


def test_pounds(plan: str) -> None:
    view = call("weeks", "show", plan, "--gym", TINY, "--all", "--units", "lb", "--json").json
    assert all(row["top"]["shown"].endswith(" lb") for row in view["sessions"])


def test_files_are_written_whole_and_named(plan: str, tmp_path: Path) -> None:
    ical, sheet = tmp_path / "a.ics", tmp_path / "a.pdf"
    words = ("weeks", "show", plan, "--gym", TINY, "--week", "1")
    done = call(*words, "--ical", str(ical), "--sheet", str(sheet))
    assert done.code == 0
    assert done.out.rstrip().endswith(f"Wrote {ical}\nWrote {sheet}")
    calendar = icalendar.Calendar.from_ical(ical.read_bytes())
    assert len(calendar.events) == 4, "the whole block, whatever week is shown"
    assert sheet.read_bytes().startswith(b"%PDF")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.ics", "a.pdf", "small.toml"]


def test_a_calendar_written_again_has_the_same_events(plan: str, tmp_path: Path) -> None:
    found = []
    for name in ("a.ics", "b.ics"):
        path = tmp_path / name
        call("weeks", "show", plan, "--gym", TINY, "--ical", str(path))
        events = icalendar.Calendar.from_ical(path.read_bytes()).events
        found.append([str(event["UID"]) for event in events])
    assert found[0] == found[1]


def test_example_and_schema_are_those_of_the_library() -> None:
    assert call("weeks", "example").out == demo_plan_text()
    assert json.loads(call("weeks", "schema").out) == plan_schema()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--week", "0"), ("--week", "1 to 4")),
        (("--week", "5"), ("--week", "1 to 4")),
        (("--lifter", "Nobody"), ("--lifter", "one of Ansa")),
        (("--lifter", " "), ("--lifter", "a name")),
        (("--units", "st"), ("--units", "kg or lb")),
        (("--today", "soon"), ("--today", "year-month-day")),
        (("--ical", "a.txt"), ("--ical", ".ics")),
        (("--sheet", "a.ics"), ("--sheet", ".pdf")),
        (("--sheet", "nowhere/a.pdf"), ("--sheet", "no such folder")),
    ],
)
def test_what_is_refused(plan: str, words: tuple[str, ...], says: tuple[str, ...]) -> None:
    refused(call("weeks", "show", plan, "--gym", TINY, *words), *says)


def test_mistakes_in_the_plan_are_told_with_line_and_column(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(PLAN.replace("monday", "moonday").replace("11-30", "11-31"), encoding="utf-8")
    done = call("weeks", "show", str(path), "--gym", TINY)
    refused(
        done, "2 mistakes", "plan.start (line 3, column 1)", "day[1].weekday (line 7, column 1)"
    )


def test_nothing_is_written_when_the_plan_is_wrong(tmp_path: Path) -> None:
    path, ical = tmp_path / "bad.toml", tmp_path / "a.ics"
    path.write_text(PLAN.replace("monday", "moonday"), encoding="utf-8")
    refused(call("weeks", "show", str(path), "--gym", TINY, "--ical", str(ical)), "moonday")
    assert not ical.exists()


def test_nothing_is_written_when_one_of_two_files_cannot_be_made(tmp_path: Path) -> None:
    """The clocks go forward over 02:30 on a Sunday in March, so there is no calendar of it."""
    path, ical, sheet = (tmp_path / name for name in ("gap.toml", "a.ics", "a.pdf"))
    gap = PLAN.replace("monday", "sunday").replace("18:30", "02:30")
    path.write_text(gap.replace("2026-11-30", "2027-03-22"), encoding="utf-8")
    words = ("weeks", "show", str(path), "--gym", TINY)
    done = call(*words, "--ical", str(ical), "--sheet", str(sheet))
    refused(done, "clocks go forward", "2027-03-28 02:30")
    assert not ical.exists()
    assert not sheet.exists()


def test_the_example_belongs_to_the_built_in_gym() -> None:
    refused(call("weeks", "show", "--gym", TINY), "weeks example")


def test_no_plan_file_at_all(tmp_path: Path) -> None:
    none = str(tmp_path / "none.toml")
    refused(call("weeks", "show", none, "--gym", TINY), "no such file")


def test_a_lifter_without_a_session_is_told(tmp_path: Path) -> None:
    path = tmp_path / "pull.toml"
    path.write_text(PLAN.replace("bench press", "deadlift"), encoding="utf-8")
    done = call("weeks", "show", str(path), "--gym", TINY, "--lifter", "Ansa")
    refused(done, "no session for this lifter")
