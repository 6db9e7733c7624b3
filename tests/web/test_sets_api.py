"""Sets sent over HTTP: each answered for itself, never doubled, and a lifter's own alone."""

from __future__ import annotations

import uuid
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any

import pytest

from tests.web.rack_store import client_as, entry, stocked, work_for
from tests.web.serving import client, store_client, written
from topheavy.store.sets import count_sets, list_sets

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from topheavy.store.opening import Store


def send(asking: TestClient, *sets: Any) -> list[dict[str, Any]]:
    """Send sets and give the answers."""
    answer = asking.post("/api/sets", json={"sets": list(sets)}, headers=written(asking))
    assert answer.status_code == 200, answer.text
    found: list[dict[str, Any]] = answer.json()["answers"]
    return found


def test_a_set_of_the_work_has_its_loads(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    asking = store_client(store)
    last = work.steps[-1]
    sent = entry(work, last.number, reps_left=1, time="18:05", note=" good ")
    assert [one["outcome"] for one in send(asking, sent)] == ["new"]
    logged = next(iter(list_sets(store, gym))).logged
    assert logged.rig == last.rig
    assert logged.straight_kg == last.straight_kg
    assert (logged.lifter, logged.lift, logged.station) == (work.lifter, work.lift, work.station)
    assert (logged.day, logged.time, logged.number) == (work.day, "18:05", last.number)
    assert (logged.reps, logged.reps_left, logged.note) == (3, 1.0, "good")


def test_sending_again_never_doubles(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    asking = store_client(store)
    sets = [entry(work, number) for number in (1, 2)]
    assert [one["outcome"] for one in send(asking, *sets)] == ["new", "new"]
    more = entry(work, 3)
    found = send(asking, *sets, more, more)
    assert [one["outcome"] for one in found] == ["known", "known", "new", "known"]
    other = {**sets[0], "reps": 5}
    assert send(asking, other)[0]["trouble"]["field"] == "id"
    assert count_sets(store, gym) == 3


def test_one_that_is_refused_holds_up_no_other(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    asking = store_client(store)
    wrong: list[Any] = [
        "nothing",
        {},
        entry(work, 99),
        entry(work, 1, reps="many"),
        entry(work, 1, reps=0),
        entry(work, 1, colour="red"),
        {**entry(work), "work": str(uuid.uuid4())},
        {**entry(work), "id": "no uuid"},
        {"id": str(uuid.uuid4()), "struck": True},
        {"id": str(uuid.uuid4()), "corrects": str(uuid.uuid4()), "struck": True},
        {
            "id": str(uuid.uuid4()),
            "lifter": "Nobody",
            "lift": "squat",
            "straight_kg": 60,
            "reps": 1,
        },
        {"id": str(uuid.uuid4()), "lifter": "Pip", "lift": "squat", "reps": 1},
    ]
    found = send(asking, *wrong, entry(work))
    assert [one["outcome"] for one in found] == ["refused"] * len(wrong) + ["new"]
    assert all(one["trouble"]["detail"] for one in found[:-1])
    assert count_sets(store, gym) == 1


def test_taken_back_and_corrected(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    asking = store_client(store)
    one, two = entry(work), entry(work, 2)
    gone = {"id": str(uuid.uuid4()), "corrects": one["id"], "struck": True}
    better = {"id": str(uuid.uuid4()), "corrects": two["id"], "reps": 5, "missed": False}
    # A phone that was away sends a set and its end together.
    assert [a["outcome"] for a in send(asking, one, gone, two, better)] == ["new"] * 4
    assert [a["outcome"] for a in send(asking, gone)] == ["known"]
    stand = [found.logged for found in list_sets(store, gym)]
    assert [(logged.number, logged.reps) for logged in stand] == [(2, 5)]
    late = {"id": str(uuid.uuid4()), "corrects": two["id"], "reps": 1}
    assert send(asking, late)[0]["outcome"] == "refused"
    assert count_sets(store, gym) == 4


def test_other_plates_than_planned(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    last = work.steps[-1]
    send(store_client(store), entry(work, last.number, straight_kg=last.straight_kg - 5))
    logged = next(iter(list_sets(store, gym))).logged
    assert logged.rig is not None
    assert logged.rig.top_kg == pytest.approx(last.top_kg - 5, abs=1e-3)


def test_a_lifter_sees_and_logs_only_their_own(store: Store) -> None:
    osric, pip = work_for("Osric"), work_for("Pip")
    stocked(store, osric, pip)
    coach = client_as(store, "Keeper of keys")
    lifter = client_as(store, "pip", lifter="Pip")
    theirs, own = entry(osric), entry(pip)
    assert send(coach, theirs)[0]["outcome"] == "new"
    plain = {"id": str(uuid.uuid4()), "lifter": "Osric", "lift": "squat", "straight_kg": 60}
    gone = {"id": str(uuid.uuid4()), "corrects": theirs["id"], "struck": True}
    found = send(lifter, own, entry(osric, 2), {**plain, "reps": 1}, gone)
    assert [one["outcome"] for one in found] == ["new", "refused", "refused", "refused"]
    assert {row["lifter"] for row in lifter.get("/api/sets").json()["sets"]} == {"Pip"}
    assert lifter.get("/api/sets", params={"lifter": "Osric"}).status_code == 403
    day = lifter.get("/api/work").json()
    assert [one["work"]["lifter"] for one in day["work"]] == ["Pip"]
    assert lifter.get("/api/work", params={"lifter": "Osric"}).status_code == 403
    assert len(coach.get("/api/work").json()["work"]) == 2
    assert store_client(store).get("/api/work").status_code == 401


def test_work_is_sent_anew_only_when_something_changed(store: Store) -> None:
    work = work_for()
    stocked(store, work)
    asking = store_client(store)
    first = asking.get("/api/work")
    known = {"If-None-Match": first.headers["ETag"]}
    assert asking.get("/api/work", headers=known).status_code == 304
    send(asking, entry(work))
    after = asking.get("/api/work", headers=known)
    assert after.status_code == 200
    assert after.json()["work"][0]["next_number"] == 2


def test_many_phones_at_once_lose_nothing(store: Store) -> None:
    work = work_for()
    gym = stocked(store, work)
    clients = [store_client(store) for _ in range(4)]
    heads = [written(client) for client in clients]

    def log(place: int) -> list[str]:
        ids = []
        for number in range(1, 6):
            one = entry(work, number)
            for _ in range(2):  # each is sent twice, as after a lost answer
                clients[place].post("/api/sets", json={"sets": [one]}, headers=heads[place])
            ids.append(one["id"])
        return ids

    with ThreadPoolExecutor(4) as pool:
        sent = [one for some in pool.map(log, range(4)) for one in some]
    assert sorted(found.logged.id for found in list_sets(store, gym)) == sorted(sent)


@pytest.mark.parametrize("body", [{}, {"sets": []}, {"sets": "all"}, {"sets": [{}] * 501}])
def test_what_is_no_list_of_sets_is_refused_whole(body: dict[str, Any]) -> None:
    asked = client()
    answer = asked.post("/api/sets", json=body, headers=written(asked))
    assert answer.status_code in {409, 422}
    assert answer.headers["content-type"] == "application/problem+json"
