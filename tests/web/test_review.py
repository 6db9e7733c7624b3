"""The review in the browser: the coach sees all, a lifter only their own."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from tests.store.samples import START, a_set
from tests.web.people import (
    COACH_WORDS,
    PIP_WORDS,
    barn,
    hash_quickly,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.serving import client, store_client
from topheavy.logfile.example import example_log
from topheavy.store.gyms import load_gym
from topheavy.store.sets import add_sets

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from topheavy.store.opening import Store


@pytest.fixture
def bare(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """The demo gym, nothing logged."""
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        yield found


@pytest.fixture
def store(bare: Store) -> Store:
    """With the log of the example."""
    add_sets(bare, load_gym(bare, "").id, example_log(), at=START)
    return bare


def test_the_coach_sees_the_news_of_all_and_all_of_one(store: Store) -> None:
    coach = store_client(store)
    news = coach.get("/review").text
    for line in ("Runa, squat", "Pip, bench press", "Osric, bench press", "Wren, squat"):
        assert f">{line}</h2>" in news
    assert "<svg" not in news
    assert 'href="/review?lifter=Osric"' in news
    whole = coach.get("/review?lifter=Osric").text
    assert whole.count("<svg") == 6  # three charts in two sizes
    for head in ("Bests, on equal terms", "Work", "Where lifts fail", "Which share served"):
        assert f"<h3>{head}</h3>" in whole
    assert "Pip, bench press" not in whole
    assert "style=" not in whole  # the policy of the pages forbids it


def test_what_was_asked_for_goes_along_to_the_sheet_and_to_programs(store: Store) -> None:
    coach = store_client(store)
    words = "lifter=Pip&since=2026-09-01&noise=men"
    assert "/review/sheet.pdf?lifter=Pip&amp;since=2026-09-01&amp;noise=men" in (
        coach.get(f"/review?{words}").text
    )
    sheet = coach.get(f"/review/sheet.pdf?{words}")
    assert sheet.headers["content-type"] == "application/pdf"
    assert sheet.content.startswith(b"%PDF")
    found = coach.get(f"/api/review?{words}").json()
    assert (found["since"], len(found["lifts"])) == ("2026-09-01", 1)
    assert found["lifts"][0]["trend"]["noise"]["fraction"] == 0.014


def test_pounds_where_they_are_liked(store: Store) -> None:
    assert "lb" in store_client(store).get("/review?lifter=Pip&units=lb").text


def test_a_lifter_sees_only_their_own(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    for path in ("/review", "/review?lifter=pip"):
        page = pip.get(path).text
        assert "Pip, bench press" in page
        assert "Osric" not in page
        assert '<select id="lifter"' not in page
    for path in ("/review", "/review/sheet.pdf", "/api/review"):
        assert pip.get(f"{path}?lifter=Osric").status_code == 403
    numbers = pip.get("/api/review").json()
    assert {lift["lifter"] for lift in numbers["lifts"]} == {"Pip"}


def test_without_an_account_nobody_sees_anything(store: Store) -> None:
    with_coach(store)
    stranger = store_client(store, beyond=True)
    assert stranger.get("/api/review").status_code == 401
    assert stranger.get("/review", follow_redirects=False).status_code in {303, 401}
    coach = signed_in(store, "Runa", COACH_WORDS)
    assert "Osric" in coach.get("/review").text


def test_an_empty_log_says_what_to_do(bare: Store) -> None:
    page = store_client(bare).get("/review")
    assert page.status_code == 200
    assert "Nothing to review yet" in page.text
    assert store_client(bare).get("/review/sheet.pdf").status_code == 422


def test_names_and_notes_are_shown_as_they_are_written(bare: Store) -> None:
    rig = 'a <script>alert("1")</script> chain'
    from topheavy.gym.log import RigThen  # noqa: PLC0415

    hung = RigThen(bottom_kg=60.0, mean_kg=70.0, top_kg=80.0, words=rig)
    add_sets(
        bare,
        load_gym(bare, "").id,
        [a_set(straight_kg=60.0, rig=hung, reps_left=1.0)],
        at=START,
    )
    page = store_client(bare).get("/review?lifter=Osric").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


@pytest.mark.parametrize(
    "question",
    ["lifter=Nobody", "lift=curl", "since=soon", "until=2026-02-30", "noise=loud", "more=1"],
)
def test_questions_that_make_no_sense_are_refused(bare: Store, question: str) -> None:
    for path in ("/review", "/api/review"):
        assert store_client(bare).get(f"{path}?{question}").status_code == 422


def test_a_gym_file_has_no_log() -> None:
    answer = client().get("/review")
    assert answer.status_code == 409
    assert "topheavy gym load" in answer.text
