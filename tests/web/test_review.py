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
from topheavy.gym.log import RigThen
from topheavy.logfile.example import example_log
from topheavy.store.gyms import load_gym
from topheavy.store.sets import add_sets

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from starlette.testclient import TestClient

    from topheavy.store.opening import Store


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The demo gym, nothing logged."""
    with closing(barn(tmp_path_factory.mktemp("bare"))) as found:
        yield found


@pytest.fixture(scope="module")
def open_store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """The demo gym with the log of the example; nobody has an account."""
    with closing(barn(tmp_path_factory.mktemp("logged"))) as found:
        add_sets(found, load_gym(found, "").id, example_log(), at=START)
        yield found


@pytest.fixture(scope="module")
def coach(open_store: Store) -> TestClient:
    """Whoever sits at the machine."""
    return store_client(open_store)


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """The same with accounts for a coach and for Pip."""
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        add_sets(found, load_gym(found, "").id, example_log(), at=START)
        with_coach(found)
        with_pip(found)
        yield found


def test_the_coach_sees_the_news_of_all_and_all_of_one(coach: TestClient) -> None:
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


def test_what_was_asked_for_goes_along_to_the_sheet_and_to_programs(coach: TestClient) -> None:
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


def test_pounds_where_they_are_liked(coach: TestClient) -> None:
    assert " lb" in coach.get("/review?lifter=Pip&units=lb").text


def test_everybody_sees_what_is_theirs(store: Store) -> None:
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
    assert "Osric" in signed_in(store, "Runa", COACH_WORDS).get("/review").text
    stranger = store_client(store, beyond=True)
    assert stranger.get("/api/review").status_code == 401
    assert "Osric" not in stranger.get("/review").text


def test_an_empty_log_says_what_to_do_and_what_comes_in_is_seen_and_escaped(bare: Store) -> None:
    asking = store_client(bare)
    page = asking.get("/review")
    assert page.status_code == 200
    assert "Nothing to review yet" in page.text
    assert asking.get("/review/sheet.pdf").status_code == 422
    rig = 'a <script>alert("1")</script> chain'
    hung = RigThen(bottom_kg=60.0, mean_kg=70.0, top_kg=80.0, words=rig)
    add_sets(
        bare,
        load_gym(bare, "").id,
        [a_set(straight_kg=60.0, rig=hung, reps_left=1.0)],
        at=START,
    )
    shown = asking.get("/review?lifter=Osric").text
    assert "<script>alert" not in shown
    assert "&lt;script&gt;alert" in shown


def test_questions_that_make_no_sense_are_refused(coach: TestClient) -> None:
    for path in ("/review", "/api/review"):
        for question in (
            "lifter=Nobody", "lift=curl", "since=soon", "until=2026-02-30", "noise=loud", "more=1",
        ):  # fmt: skip
            assert coach.get(f"{path}?{question}").status_code == 422, question


def test_a_gym_file_has_no_log() -> None:
    answer = client().get("/review")
    assert answer.status_code == 409
    assert "topheavy gym load" in answer.text
