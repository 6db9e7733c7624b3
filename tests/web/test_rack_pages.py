"""The pages at the rack: given from a rig, replaced only when seen, followed from bar to bar."""

from __future__ import annotations

import html
import json
import re
import uuid
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from tests.web.rack_store import client_as, entry, stocked, work_for
from tests.web.serving import client, store_client, written
from topheavy.store.work import todays_work, work_to_come

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from topheavy.store.opening import Store

CHOSEN = {
    "lifter": "Osric",
    "lift": "bench press",
    "station": "bench 1",
    "bottom": "85 kg",
    "top": "115 kg",
    "left": ["A1", "A2"],
    "right": ["A3", "A4"],
    "feeder": "ring strap",
    "setting": "7",
    "connector": "10 mm screw link",
    "plate": ["25 kg", "10 kg"],
}


def words(page: str) -> str:
    """What a page says, without its marks."""
    bare = re.sub(r"(?s)<(head|script)\b.*?</\1>|<[^>]+>", " ", page)
    return " ".join(html.unescape(bare).split())


def post(asking: TestClient, path: str, data: dict[str, Any]) -> Any:
    """Send a form; where it leads is not followed."""
    return asking.post(path, data=data, headers=written(asking), follow_redirects=False)


def send(asking: TestClient, *sets: dict[str, Any]) -> None:
    """Log sets; all of them must be new."""
    answer = asking.post("/api/sets", json={"sets": list(sets)}, headers=written(asking))
    assert {one["outcome"] for one in answer.json()["answers"]} == {"new"}, answer.text


def data_of(page: str) -> dict[str, Any]:
    """What the page's scripts know."""
    found = re.search(r'data-rack="([^"]*)"', page)
    assert found
    known: dict[str, Any] = json.loads(html.unescape(found[1]))
    return known


def test_a_chosen_rig_is_given_as_it_hangs(store: Store) -> None:
    gym = stocked(store)
    asking = store_client(store)
    asked = asking.get("/rack/give", params=CHOSEN)
    assert "With the rig you chose: A1 + A2 left, A3 + A4 right" in words(asked.text)
    given = post(asking, "/rack/give", {**CHOSEN, "kind": "speed", "sets": "4", "reps": "2"})
    assert (given.status_code, given.headers["location"]) == (303, "/rack")
    work = todays_work(store, gym, data_day(asking))
    assert len(work) == 1
    last = work[0].work.steps[-1]
    # The ramp may stack other plates of the same weight, so that fewer are handled on the way.
    assert sum(last.bar.plates_kg) == 35.0
    assert last.bar.hung is not None
    assert (last.bar.hung.left, last.bar.hung.right) == (("A1", "A2"), ("A3", "A4"))
    sets = [step for step in work[0].work.steps if step.kind == "work set"]
    assert [step.reps for step in sets] == [2, 2, 2, 2]


def test_work_for_a_later_day_is_said_to_be_and_can_be_taken_away(store: Store) -> None:
    gym = stocked(store)
    asking = store_client(store)
    today = date.fromisoformat(data_day(asking))
    later = [str(today + timedelta(days=days)) for days in (9, 2)]
    for day in later:
        assert post(asking, "/rack/give", {**CHOSEN, "day": day}).status_code == 303
    page = asking.get("/rack").text
    assert f"Osric has work for {later[1]}" in words(page)
    assert "Nobody has work for today" in page
    assert 0 < page.index(f"<h3>{later[1]}, Osric") < page.index(f"<h3>{later[0]}, Osric")
    first = work_to_come(store, gym, str(today))[0].work
    assert first.day == later[1]
    assert post(asking, "/rack/take", {"work": first.id}).status_code == 303
    assert [one.work.day for one in work_to_come(store, gym, str(today))] == [later[0]]


def data_day(asking: TestClient) -> str:
    """The day it is for the pages."""
    day: str = asking.get("/api/work").json()["day"]
    return day


def test_nothing_is_replaced_unseen(store: Store) -> None:
    stocked(store, work_for())
    asking = store_client(store)
    asked = post(asking, "/rack/give", {**CHOSEN, "kind": "heavy"})
    assert asked.status_code == 409
    assert "Osric has work in the bench press" in words(asked.text)
    seen = re.search(r'name="replaces" value="([^"]+)"', asked.text)
    assert seen
    stale = post(asking, "/rack/give", {**CHOSEN, "replaces": str(uuid.uuid4())})
    assert stale.status_code == 409
    assert post(asking, "/rack/give", {**CHOSEN, "replaces": seen[1]}).status_code == 303


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"reps": "xx"}, "Not a number"),
        ({"sets": "99"}, "No session has that many sets"),
        ({"day": "tomorrow"}, "Not a day"),
        ({"day": "2020-02-29"}, "That day is past"),
        ({"day": "2999-01-01"}, "That day is too far ahead"),
        ({"lifter": "Nobody"}, "No lifter called"),
        ({"left": ["Z9"]}, "Z9"),
    ],
)
def test_a_mistake_is_told_on_the_form(store: Store, wrong: dict[str, Any], said: str) -> None:
    stocked(store)
    answer = post(store_client(store), "/rack/give", {**CHOSEN, **wrong})
    assert answer.status_code == 422
    assert said in words(answer.text)
    assert 'name="lifter"' in answer.text


def test_the_change_is_from_what_is_on_the_bar(store: Store) -> None:
    osric, pip = work_for("Osric"), work_for("Pip")
    stocked(store, osric, pip)
    asking = store_client(store)
    alone = data_of(asking.get("/rack?lifter=Pip").text)
    assert alone["left"] is None
    send(asking, entry(osric, len(osric.steps), time="18:10"))
    shared = asking.get("/rack?lifter=Pip").text
    assert "On the bar: what Osric lifted at 18:10." in words(shared)
    lines = data_of(shared)["left"]["changes"][1]
    # Osric's plates and chain come off for Pip's empty bar.
    plates = [f"{kg:g} kg" for kg in reversed(osric.steps[-1].bar.plates_kg)]
    assert f"Off each end: {', then '.join(plates)}." in lines
    assert "Off the connectors: A1 + A2 left, A3 + A4 right." in lines
    send(asking, entry(pip, 1, time="18:12"))
    assert "On the bar" not in words(asking.get("/rack?lifter=Pip").text)
    assert "what Pip lifted" in words(asking.get("/rack?lifter=Osric").text)


def test_after_an_attempt_the_next_is_named(store: Store) -> None:
    work = work_for(kind="test")
    stocked(store, work)
    asking = store_client(store)
    last = work.steps[-1]
    send(asking, entry(work, last.number, reps=1, reps_left=2, time="18:30"))
    page = asking.get("/rack?lifter=Osric").text
    assert "About two reps were left: 5 % more" in words(page)
    assert "Next attempt" in words(page)
    planned = re.search(r'data-planned="([\d.]+) kg"', page)
    assert planned
    assert float(planned[1]) > last.straight_kg
    miss = entry(work, last.number, reps=0, missed=True, number=last.number + 1, time="18:35")
    again = {**miss, "id": str(uuid.uuid4()), "number": last.number + 2, "time": "18:40"}
    send(asking, {**miss, "straight_kg": float(planned[1])}, again)
    assert "Stop here" in words(asking.get("/rack?lifter=Osric").text)


def test_a_part_is_sent_anew_only_when_something_changed(store: Store) -> None:
    work = work_for()
    stocked(store, work)
    asking = store_client(store)
    first = asking.get("/part/rack?lifter=Osric")
    known = {"If-None-Match": first.headers["ETag"]}
    assert asking.get("/part/rack?lifter=Osric", headers=known).status_code == 304
    send(asking, entry(work))
    assert asking.get("/part/rack?lifter=Osric", headers=known).status_code == 200


def test_a_lifter_has_a_page_of_their_own(store: Store) -> None:
    stocked(store, work_for("Osric"), work_for("Pip"))
    lifter = client_as(store, "pip", lifter="Pip")
    assert "Pip: bench press" in words(lifter.get("/rack").text)
    for path in ("/rack?lifter=Osric", "/part/rack?lifter=Osric", "/rack/give"):
        assert lifter.get(path).status_code == 403, path
    assert post(lifter, "/rack/take", {"work": str(uuid.uuid4())}).status_code == 403
    nobody = store_client(store)
    assert nobody.get("/part/rack?lifter=Pip", follow_redirects=False).status_code == 401


def test_the_worker_may_open_the_page_and_nothing_else() -> None:
    answer = client().get("/rack-worker.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert "Service-Worker-Allowed" not in answer.headers


def test_a_gym_file_has_no_log() -> None:
    answer = client().get("/rack")
    assert answer.status_code == 409
    assert "gym load" in words(answer.text)


def test_the_rig_page_gives_what_it_shows(store: Store) -> None:
    stocked(store)
    page = store_client(store).get("/part/chosen", params=CHOSEN).text
    found = re.search(r'id="give" href="([^"]+)"', page)
    assert found
    asked = store_client(store).get(html.unescape(found[1]))
    assert "With the rig you chose: A1 + A2 left, A3 + A4 right" in words(asked.text)
    assert 'id="give"' not in client().get("/part/found", params={"bottom": "65", "top": "85"}).text
