"""A file of sets brought in by the browser: looked at first, then all of it or nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.web.log.test_log_pages import logged, said, store
from tests.web.people import PIP_WORDS, signed_in, with_coach, with_pip
from tests.web.serving import store_client, written
from topheavy.web.access import gate

if TYPE_CHECKING:
    import pytest
    from httpx2 import Response
    from starlette.testclient import TestClient

    from topheavy.store.opening import Store

__all__ = ["store"]

GOOD = (
    "date;name;exercise;weight (kg);reps;bar speed\n"
    "25.11.2026;pip;squat;60,5;5;0,5\n"
    "24.11.2026;wren;bench;40;8;\n"
)


def send(asking: TestClient, text: str | bytes, name: str = "sets.csv") -> Response:
    content = text.encode() if isinstance(text, str) else text
    return asking.post(
        "/log/import",
        files={"file": (name, content, "text/csv")},
        headers=written(asking),
        follow_redirects=False,
    )


def yes(asking: TestClient, path: str, **chosen: str) -> Response:
    return asking.post(path, data=chosen, headers=written(asking), follow_redirects=False)


def test_seen_then_brought_in_and_never_doubled(store: Store) -> None:
    coach = store_client(store)
    first = send(coach, GOOD)
    assert first.status_code == 303
    path = first.headers["location"]
    page = coach.get(path)
    assert "2 new sets , 2026-11-24 to 2026-11-25" in said(page)
    assert "Pip , squat, 2026-11-25 60.5 kg x 5, 0.50 m/s" in said(page)
    assert logged(store) == []
    done = yes(coach, path)
    assert done.status_code == 303
    assert "sets.csv: 2 new sets are in the log." in said(coach.get(done.headers["location"]))
    assert {(one.lifter, one.straight_kg, one.by) for one in logged(store)} == {
        ("Pip", 60.5, "coach"),
        ("Wren", 40.0, "coach"),
    }
    assert coach.get(path).status_code == 422  # the file is let go of
    again = send(coach, GOOD).headers["location"]
    assert "2 are in the log already" in said(coach.get(again))
    yes(coach, again)
    assert len(logged(store)) == 2


def test_what_the_file_leaves_open_is_chosen(store: Store) -> None:
    coach = store_client(store)
    text = "When,Heavy,reps\n03/04/2026,185,5\n"
    path = send(coach, text).headers["location"]
    assert "No column is taken for" in said(coach.get(path))
    chosen = {
        "column0": "day", "column1": "straight", "unit1": "lb", "day_order": "mdy",
        "lifter": "Pip", "lift": "squat",
    }  # fmt: skip
    page = coach.get(path, params=chosen)
    assert "Pip , squat, 2026-03-04 83.9 kg x 5" in said(page)
    assert 'value="mdy" selected' in page.text
    assert yes(coach, path, **chosen).status_code == 303
    (one,) = logged(store)
    assert (one.day, one.lifter) == ("2026-03-04", "Pip")


def test_one_bad_row_keeps_all_out(store: Store) -> None:
    coach = store_client(store)
    path = send(coach, GOOD + "23.11.2026;nobody;squat;60;x;\n").headers["location"]
    page = said(coach.get(path))
    assert "1 mistake in sets.csv" in page
    assert "line 4" in page
    refused = yes(coach, path)
    assert refused.status_code == 422
    assert "line 4" in said(refused)
    assert logged(store) == []


def test_what_is_no_table_is_refused(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    coach = store_client(store)
    for content in (b"", b"\x89PNG\r\n\x1a\n\x00\x00", b"\xff\xfea\x00", b"just words\n"):
        answer = send(coach, content)
        assert answer.status_code == 422, content
        assert "Look at it" in answer.text
    ragged = send(coach, GOOD + "a;b\n")
    assert "A row with too few cells" in said(ragged)
    monkeypatch.setitem(gate.LARGER, "/log/import", 200)
    assert send(coach, GOOD).status_code == 413
    assert logged(store) == []


def test_nobody_sees_anothers_file(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    coach = signed_in(store)
    path = send(coach, GOOD).headers["location"]
    assert coach.get(path).status_code == 200
    pip = signed_in(store, "pip", PIP_WORDS)
    assert pip.get(path).status_code == 403
    with_coach(store, name="Ulf")
    other = signed_in(store, "Ulf")
    assert other.get(path).status_code == 422
