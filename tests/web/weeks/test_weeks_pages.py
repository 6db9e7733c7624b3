"""The weeks' pages: planned, changed, taken back, printed, exported, and for whom."""

from __future__ import annotations

import html
import re
from contextlib import closing
from typing import TYPE_CHECKING

import icalendar
import pytest

from tests.store.samples import NAME
from tests.web.people import (
    PIP_WORDS,
    barn,
    hash_quickly,
    post,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.serving import client, store_client, written
from topheavy.gymfile import demo_gym
from topheavy.planfile import demo_plan, demo_plan_text, parse_plan
from topheavy.store.blocks import find_block, last_block
from topheavy.store.gyms import load_gym

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from httpx2 import Response
    from starlette.testclient import TestClient

    from topheavy.store.blocks import StoredBlock
    from topheavy.store.opening import Store

LEAST = """
[plan]
name = "Short"
start = "2026-11-23"
lifters = ["Pip"]
test_week = false
[[day]]
weekday = "wednesday"
lift = "bench press"
[[wave]]
hang = "straight"
weeks = 2
"""


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        yield found


def send(asking: TestClient, text: str, over: int = 0) -> Response:
    return asking.post(
        "/weeks/file",
        data={"over": str(over)},
        files={"file": ("plan.toml", text.encode(), "application/toml")},
        headers=written(asking),
        follow_redirects=False,
    )


def newest(store: Store) -> StoredBlock:
    found = last_block(store, load_gym(store, NAME).id)
    assert found is not None
    return found


def said(answer: Response) -> str:
    text = re.sub(r"<svg.*?</svg>|<[^>]+>", " ", answer.text, flags=re.DOTALL)
    return " ".join(html.unescape(text).split())


def test_the_least_that_makes_a_block(store: Store) -> None:
    coach = store_client(store)
    assert "Plan a block" in said(coach.get("/weeks"))
    answer = coach.post(
        "/weeks/begin",
        data={
            "start": "2026-11-23",
            "name": "Winter",
            "weekday": ["wednesday", ""],
            "lift": ["bench press", "squat"],
            "kind": ["heavy", "heavy"],
            "lifters": ["Pip"],
            "over": "0",
        },
        headers=written(coach),
    )
    page = said(answer)
    assert "Planned: Winter." in page
    assert "Winter, 23 Nov 2026 to 3 Jan 2027" in page
    assert "Week 6" in page
    assert answer.text.count("<svg") == 2
    assert "style=" not in answer.text
    assert newest(store).written["day"] == [
        {"weekday": "wednesday", "lift": "bench press", "kind": "heavy"}
    ]
    bad = post(coach, "/weeks/begin", start="never", weekday="monday", lift="squat", over="1")
    assert bad.status_code == 422
    assert "Not a day" in said(bad)
    assert newest(store).number == 1


def test_changed_by_hand_kept_and_taken_back(store: Store) -> None:
    coach = store_client(store)
    assert send(coach, LEAST).status_code == 303
    page = coach.get("/weeks")
    assert "Pip" in said(page)
    change = {"week": "2", "lifter": "Pip", "load": "70 %", "note": "after <travel>"}
    done = post(coach, "/weeks/change", **change, over="1")
    assert done.headers["location"] == "/weeks?lifter=Pip"
    page = coach.get("/weeks?lifter=Pip")
    assert "after <travel>" in said(page)
    assert "<travel>" not in page.text
    stale = post(coach, "/weeks/change", **change, over="1")
    assert stale.status_code == 422
    assert "The weeks were changed meanwhile" in said(stale)
    for wrong, told in (
        ({"load": "heavy"}, "Not a mass"),
        ({"load": ""} | {"note": ""} | {"lifter": ""}, "Nothing is changed"),
        ({"week": "99"}, "change[2].week"),
        ({"sets": "many"}, "Not a whole number"),
    ):
        answer = post(coach, "/weeks/change", **{**change, **wrong}, over="2")
        assert answer.status_code == 422, wrong
        assert told.casefold() in said(answer).casefold(), wrong
    assert newest(store).number == 2
    post(coach, "/weeks/undo", number="2")
    assert "change" not in newest(store).written
    assert find_block(store, load_gym(store, NAME).id, 2).written["change"][0]["load"] == "70 %"
    assert post(coach, "/weeks/undo", number="2").status_code == 422
    post(coach, "/weeks/change", **change, over="3")
    post(coach, "/weeks/unchange", place="0", over="4")
    assert newest(store).written["change"] == []


def test_put_away_and_back(store: Store) -> None:
    coach = store_client(store)
    send(coach, LEAST)
    post(coach, "/weeks/away", over="1")
    assert "Plan a block" in said(coach.get("/weeks"))
    assert coach.get("/weeks/sheet.pdf").status_code == 422
    post(coach, "/weeks/undo", number="2")
    assert "Short" in said(coach.get("/weeks"))
    post(coach, "/weeks/away", over="3")
    assert send(coach, LEAST, over=4).status_code == 303


def test_files_come_out_as_they_went_in(store: Store) -> None:
    coach = store_client(store)
    assert send(coach, demo_plan_text()).status_code == 303
    again = coach.get("/weeks/plan.toml").text
    gym = demo_gym()
    assert parse_plan(again, gym) == demo_plan(gym)
    for wrong, told in (
        ("[plan]\nstart = 3\n", "Not a day"),
        ("[[[", "line 1"),
        (LEAST.replace("Pip", "Zed"), "No lifter called 'Zed'"),
    ):
        answer = send(coach, wrong, over=1)
        assert answer.status_code == 422, wrong
        assert told in said(answer)
    assert newest(store).number == 1


def test_sheet_calendar_and_todays_work(store: Store) -> None:
    """RFC 5545, read by the library icalendar."""
    coach = store_client(store)
    send(coach, LEAST)
    sheet = coach.get("/weeks/sheet.pdf?lifter=Pip&week=1")
    assert sheet.content.startswith(b"%PDF-")
    answer = coach.get("/weeks/weeks.ics?lifter=Pip")
    assert answer.headers["content-type"].startswith("text/calendar")
    calendar = icalendar.Calendar.from_ical(answer.text)
    days = [str(event.decoded("dtstart")) for event in calendar.walk("VEVENT")]
    assert days == ["2026-11-25", "2026-12-02"]
    assert coach.get("/weeks?week=9").status_code == 422


def test_a_lifter_sees_their_own_weeks_and_changes_none(store: Store) -> None:
    coach = store_client(store)
    send(coach, LEAST.replace('["Pip"]', '["Pip", "Osric"]'))
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    page = said(pip.get("/weeks"))
    assert "Wednesday 2026-11-25, bench press" in page
    assert "Change by hand" not in page
    assert "Osric" not in page
    assert pip.get("/weeks?lifter=Osric").status_code == 403
    assert pip.get("/weeks/sheet.pdf?lifter=Osric").status_code == 403
    assert pip.get("/weeks/plan.toml").status_code == 403
    for path in ("begin", "file", "change", "unchange", "away", "undo"):
        assert post(pip, f"/weeks/{path}", week="1", over="1").status_code == 403
    assert newest(store).number == 1


def test_a_gym_file_has_no_weeks() -> None:
    assert client().get("/weeks").status_code == 409
