"""The log's pages: what is seen, what is written down, what is taken back, and by whom."""

from __future__ import annotations

import csv
import io
import re
import uuid
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from tests.store.samples import NAME, START, a_set
from tests.web.people import (
    PIP_WORDS,
    barn,
    hash_quickly,
    post,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.serving import client, store_client, text_of, written
from topheavy.store.gyms import load_gym
from topheavy.store.sets import Wanted, add_sets, count_sets, list_sets

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from httpx2 import Response
    from starlette.testclient import TestClient

    from topheavy.gym.log import LoggedSet
    from topheavy.store.opening import Store

TYPED = {"lifter": "Osric", "lift": "squat", "day": "2026-11-25", "straight": "100", "reps": "3"}


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        yield found


def logged(store: Store, *, everything: bool = False) -> list[LoggedSet]:
    gym = load_gym(store, NAME)
    return [one.logged for one in list_sets(store, gym.id, Wanted(everything=everything))]


def put_sets(store: Store, *sets: LoggedSet) -> None:
    add_sets(store, load_gym(store, NAME).id, sets, at=START)


def said(answer: Response) -> str:
    return text_of(answer.text)


def followed(asking: TestClient, path: str, **values: str) -> str:
    """Post a form, and read the page that it leads to."""
    answer = post(asking, path, **values)
    assert answer.status_code == 303, answer.text
    return said(asking.get(answer.headers["location"]))


def test_a_set_by_hand_and_taken_back(store: Store) -> None:
    coach = store_client(store)
    more = {"left": "1,5", "bottom": "100", "top": "120", "hung": "A1+A2", "note": "  easy "}
    text = followed(coach, "/log/add", **TYPED, **more)
    assert "Logged: Osric, squat, 2026-11-25, 100.0 kg x 3, 1.5 left." in text
    assert "100.0 kg at the bottom, 110.0 kg mean, 120.0 kg at the top: A1+A2" in text
    (one,) = logged(store)
    assert (one.straight_kg, one.reps_left, one.note, one.by) == (100.0, 1.5, "easy", "coach")
    assert one.rig is not None
    assert one.rig.mean_kg == 110.0
    assert "Taken back" in followed(coach, f"/log/undo/{one.id}")
    assert logged(store) == []
    assert len(logged(store, everything=True)) == 2


def test_sent_twice_it_is_there_once(store: Store) -> None:
    coach, own = store_client(store), str(uuid.uuid4())
    for _ in range(2):
        followed(coach, "/log/add", **TYPED, id=own)
    assert len(logged(store)) == 1


def test_bare_numbers_are_in_the_units_shown(store: Store) -> None:
    coach = store_client(store)
    coach.post("/units", data={"units": "lb", "then": "/log"}, headers=written(coach))
    followed(coach, "/log/add", **{**TYPED, "straight": "225"})
    followed(coach, "/log/add", **{**TYPED, "straight": "100 kg"})
    loads = sorted(one.straight_kg for one in logged(store))
    assert loads == pytest.approx([100.0, 225 * 0.45359237], abs=1e-6)


def test_a_correction_stands_and_can_be_undone(store: Store) -> None:
    put_sets(store, old := a_set(reps=5, reps_left=1.0))
    coach = store_client(store)
    page = coach.get(f"/log/set/{old.id}").text
    assert 'name="reps" type="text" inputmode="numeric" value="5"' in page
    text = followed(
        coach, f"/log/set/{old.id}", day=old.day, straight="100.00 kg", reps="4", third="lower"
    )
    assert "Corrected: Osric, bench press, 2026-11-25, 100.0 kg x 4, missed, lower third." in text
    (new,) = logged(store)
    assert (new.reps, new.missed, new.reps_left, new.corrects) == (4, True, None, old.id)
    assert "As it was" in followed(coach, f"/log/undo/{new.id}")
    (again,) = logged(store)
    assert (again.reps, again.reps_left, again.missed) == (5, 1.0, False)
    stale = post(coach, f"/log/set/{old.id}", day=old.day, straight="100", reps="3")
    assert stale.status_code == 422
    assert "Somebody has corrected this set already" in said(stale)


def test_struck_out_and_back(store: Store) -> None:
    put_sets(store, old := a_set())
    coach = store_client(store)
    assert "Struck out" in followed(coach, f"/log/strike/{old.id}")
    assert logged(store) == []
    page = said(coach.get("/log?everything=true"))
    assert "struck out" in page
    gone = logged(store, everything=True)[-1]
    followed(coach, f"/log/undo/{gone.id}")
    assert [one.reps for one in logged(store)] == [old.reps]


MISTAKES: list[tuple[dict[str, str], str]] = [
    ({"straight": "lots"}, "Not a mass"),
    ({"straight": ""}, "The straight weight is missing"),
    ({"reps": "-3"}, "Not a whole number"),
    ({"reps": "2.5"}, "Not a whole number"),
    ({"day": "2026-02-30"}, "Not a day"),
    ({"day": "2999-01-01"}, "That day is still to come"),
    ({"left": "many"}, "Not a number"),
    ({"top": "120"}, "The load at the bottom is missing"),
    ({"hung": "chain"}, "Something hung, and no loads are given"),
    ({"lifter": "Zed"}, "No lifter called"),
    ({"bottom": "50", "top": "60"}, "below the straight weight"),
    ({"reps": "0"}, "No repetition was done and none missed"),
]


def test_mistakes_come_back_with_what_was_typed(store: Store) -> None:
    coach = store_client(store)
    for change, wanted in MISTAKES:
        answer = post(coach, "/log/add", **{**TYPED, "note": "kept <b>", **change})
        assert answer.status_code == 422, change
        assert wanted in said(answer)
        assert 'value="kept &lt;b&gt;"' in answer.text
    assert count_sets(store, load_gym(store, NAME).id) == 0


def test_the_list_is_of_what_was_asked(store: Store) -> None:
    put_sets(
        store,
        a_set(day="2026-11-20", reps=6),
        a_set(day="2026-11-24", lifter="Wren", note="<script>alert(1)</script>"),
        a_set(day="2026-11-25", lift="squat"),
    )
    coach = store_client(store)
    page = coach.get("/log").text
    days = re.findall(r'<h2 id="day-([\d-]+)">', page)
    assert days == ["2026-11-25", "2026-11-24", "2026-11-20"]
    assert "<script>alert" not in page
    assert "2026-11-24" not in said(coach.get("/log?lifter=osric"))
    assert re.findall(r"day-([\d-]+)\"", coach.get("/log?since=2026-11-25").text)[:1]
    assert "x 6" in said(coach.get("/log?until=2026-11-20"))
    first = coach.get("/log?most=1").text
    assert "Earlier sets too" in first
    assert len(re.findall(r"<li", first.partition("<main")[2])) == 1
    for bad in ("since=nonsense", "lifter=Zed", "lift=swimming", "most=0", "odd=1"):
        assert coach.get(f"/log?{bad}").status_code == 422


def test_a_lifter_has_only_their_own(store: Store) -> None:
    put_sets(store, mine := a_set(lifter="Pip"), other := a_set(lifter="Osric"))
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    page = said(pip.get("/log"))
    assert "Pip" in page
    assert "Osric" not in page
    assert pip.get("/log?lifter=Osric").status_code == 403
    assert pip.get(f"/log/set/{other.id}").status_code == 403
    for path in (f"/log/strike/{other.id}", f"/log/undo/{other.id}", f"/log/set/{other.id}"):
        assert post(pip, path, **TYPED).status_code == 403
    refused = post(pip, "/log/add", **TYPED)
    assert refused.status_code == 403
    assert pip.get("/log/import").status_code == 403
    rows = list(csv.DictReader(io.StringIO(pip.get("/log/export.csv").text)))
    assert [row["id"] for row in rows] == [mine.id]
    assert followed(pip, "/log/add", **{**TYPED, "lifter": "Pip"})
    assert len(logged(store)) == 3


def test_files_take_away_what_is_chosen(store: Store) -> None:
    """RFC 4180: CRLF, quotes doubled, a field with a separator in quotes."""
    put_sets(store, a_set(note='=1+1, "so"'), a_set(lifter="Wren"))
    coach = store_client(store)
    answer = coach.get("/log/export.csv?lifter=Osric")
    assert answer.headers["content-type"].startswith("text/csv")
    assert "attachment" in answer.headers["content-disposition"]
    assert '"\'=1+1, ""so"""' in answer.text
    assert answer.text.count("\r\n") == 2
    assert len(coach.get("/log/export.jsonl").text.splitlines()) == 2
    assert coach.get("/log/export.xls").status_code == 422


def test_a_gym_file_has_no_log() -> None:
    answer = client().get("/log")
    assert answer.status_code == 409
    assert "topheavy gym load" in answer.text


def test_a_write_needs_its_page(store: Store) -> None:
    answer = store_client(store).post("/log/add", data=TYPED)
    assert answer.status_code == 403
    assert logged(store) == []
