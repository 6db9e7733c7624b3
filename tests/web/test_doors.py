"""Every route of the pages, as the application itself lists them: who may, and who may not.

A new route is covered by itself: unless it is named here, nobody who is not signed in reaches it,
and no lifter. From memory: OWASP Application Security Verification Standard 5.0, chapter 8
(authorization, denied unless allowed), and CWE 285, 352, 639.
"""

from __future__ import annotations

import html
import io
import re
import uuid
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Final, cast

import pytest
from fastapi.routing import iter_route_contexts
from pypdf import PdfReader

from tests.cli.calling import TINY
from tests.store.samples import START, a_set
from tests.web.people import (
    PIP_WORDS,
    barn,
    hash_quickly,
    post,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.rack_store import work_for
from tests.web.serving import client_of, store_client, written
from topheavy.store.gyms import Change, load_gym
from topheavy.store.sets import add_sets, list_sets
from topheavy.store.work import give_work
from topheavy.web.desk import now, today

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fastapi import FastAPI
    from httpx2 import Response
    from starlette.testclient import TestClient

    from topheavy.gym.log import LoggedSet
    from topheavy.store.opening import Store
    from topheavy.training.work import Work

SAFE: Final = {"GET", "HEAD", "OPTIONS"}

STRANGERS: Final = {
    ("GET", "/sign-in"),
    ("POST", "/sign-in"),
    ("GET", "/welcome/{token}"),
    ("POST", "/welcome/{token}"),
}
"""What may be asked without being signed in; the files of the pages besides, below /static."""

LIFTERS: Final = {
    *STRANGERS,
    *((method, "/account") for method in ("GET", "POST")),
    *((method, "/gyms") for method in ("GET", "POST")),
    *(("POST", path) for path in ("/sign-out", "/units")),
    # The rig page and what it asks: of the lifter's own, in the gym that all know.
    *(
        ("GET", path)
        for path in (
            "/",
            "/rig",
            "/part/found",
            "/part/chosen",
            "/rig/card.pdf",
            "/rig/chosen-card.pdf",
            "/api/openapi.json",
            "/api/me",
            "/api/gym",
            "/api/rig",
            "/api/rig/card",
            "/api/rig/chosen",
            "/api/rig/chosen/card",
            "/api/rig/stage",
            "/api/rig/motion",
            "/api/curve",
            "/api/weigh",
            "/api/catalogue",
            "/api/strength",
            "/api/rep",
            "/api/ramp",
            "/api/session",
            "/api/weeks",
        )
    ),
    ("POST", "/api/weeks"),
    # Their own work, log, weeks, review, heights.
    *(
        ("GET", path)
        for path in (
            "/rack",
            "/rack-worker.js",
            "/part/rack",
            "/api/work",
            "/api/sets",
            "/log",
            "/log/export.{kind}",
            "/log/add",
            "/log/set/{which}",
            "/weeks",
            "/weeks/sheet.pdf",
            "/weeks/weeks.ics",
            "/review",
            "/review/sheet.pdf",
            "/api/review",
            "/lifters",
            "/lifters/one",
            "/lifters/strength",
        )
    ),
    *(
        ("POST", path)
        for path in (
            "/api/sets",
            "/rack/log",
            "/rack/undo",
            "/log/add",
            "/log/set/{which}",
            "/log/strike/{which}",
            "/log/undo/{which}",
        )
    ),
    # The board of the room hangs where everybody reads it: names, loads, times.
    ("GET", "/room/wall"),
    ("GET", "/part/room/wall"),
}
"""What lifters may ask."""

BOARD: Final = {"/room/wall", "/part/room/wall"}
MARK: Final = "zebra"
"""Stands in everything that was written down of Osric and of nobody else."""

PLAN: Final = f"""
[plan]
start = "2026-11-23"
lifters = ["Osric", "Pip"]
test_week = false
[[day]]
weekday = "wednesday"
lift = "bench press"
[[wave]]
hang = "straight"
weeks = 2
[[change]]
week = 1
lifter = "Osric"
note = "{MARK}"
load = "70 kg"
"""


@dataclass(frozen=True, slots=True)
class Route:
    """A method and a path of the application."""

    method: str
    path: str

    def at(self, **values: str) -> str:
        """An address of it."""
        known = {"kind": "csv", "token": "x", "key": "x", "job_id": "x", "which": "x", **values}
        return re.sub(r"\{(\w+)(:\w+)?\}", lambda found: known.get(found[1], "x"), self.path)

    @property
    def key(self) -> tuple[str, str]:
        """As the lists above have it."""
        return self.method, self.path


def routes_of(app: FastAPI) -> list[Route]:
    """Every method of every path, whatever router it is on."""
    found = []
    for one in iter_route_contexts(app.routes):
        methods = one.methods
        if methods is None:
            assert str(one.path).startswith("/static")
            continue
        found += [Route(method, str(one.path)) for method in sorted(methods - {"HEAD"})]
    return found


@dataclass(frozen=True, slots=True)
class Gym:
    """A store with work, sets and weeks of two lifters, and who asks."""

    store: Store
    coach: TestClient
    pip: TestClient
    stranger: TestClient
    set: LoggedSet
    work: Work

    def routes(self) -> list[Route]:
        """All of them."""
        return routes_of(app_of(self.coach))


def app_of(asking: TestClient) -> FastAPI:
    """The application that a client asks."""
    return cast("FastAPI", asking.app)


@pytest.fixture(scope="module")
def gym(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Gym]:
    """Osric and Pip trained and were given work; the weeks are planned."""
    folder = tmp_path_factory.mktemp("doors")
    with pytest.MonkeyPatch.context() as patch, closing(barn(folder)) as store:
        hash_quickly(patch)
        gym_id = load_gym(store, "").id
        with_coach(store)
        with_pip(store)
        osrics = a_set(note=f"{MARK} 1", day=today(), station="bench 1", session=MARK)
        pips = a_set(lifter="Pip", straight_kg=40.0, note="mine", day=today())
        add_sets(store, gym_id, [osrics, pips], at=START)
        work = work_for("Osric")
        for one in (work, replace(work_for("Pip"), station="bench 2")):
            give_work(store, gym_id, one, Change(author="Runa", at=now()))
        coach = signed_in(store)
        sent = coach.post(
            "/weeks/file",
            files={"file": ("plan.toml", PLAN.encode())},
            data={"over": "0"},
            headers=written(coach),
            follow_redirects=False,
        )
        assert sent.status_code == 303, sent.text
        yield Gym(
            store,
            coach,
            signed_in(store, "pip", PIP_WORDS),
            store_client(store, beyond=True),
            osrics,
            work,
        )


def ask(asking: TestClient, route: Route, **values: str) -> Response:
    """Ask a route bare, without a token of our page."""
    return asking.request(route.method, route.at(**values), follow_redirects=False)


def test_the_lists_name_routes_that_are_there(gym: Gym) -> None:
    there = {route.key for route in gym.routes()}
    assert there >= LIFTERS
    assert len(there) > len(LIFTERS) + 40


def test_strangers_are_sent_to_sign_in(gym: Gym) -> None:
    for route in gym.routes():
        answer = ask(gym.stranger, route)
        if route.key in STRANGERS:
            assert answer.status_code in {200, 403, 404}, route
        elif route.method in SAFE and not route.path.startswith(("/api/", "/part/")):
            assert answer.status_code == 303, route
            assert answer.headers["location"].startswith("/sign-in"), route
        else:
            assert answer.status_code == 401, route
        assert MARK not in answer.text
        assert "Osric" not in answer.text


def test_no_write_is_done_without_the_token_of_a_page(gym: Gym) -> None:
    """CWE-352: of a coach, of a lifter, of whoever signs in, and where nobody has an account."""
    for route in gym.routes():
        if route.method in SAFE:
            continue
        for asking in (gym.coach, gym.pip):
            assert ask(asking, route).status_code == 403, route
        if route.key in STRANGERS:
            assert ask(gym.stranger, route).status_code == 403, route
    file = client_of(Path(TINY))
    for route in routes_of(app_of(file)):
        if route.method not in SAFE:
            assert ask(file, route).status_code == 403, route


def test_a_lifter_is_turned_away_wherever_coaches_alone_may(gym: Gym) -> None:
    headers = written(gym.pip)
    for route in gym.routes():
        if route.key in LIFTERS:
            continue
        answer = gym.pip.request(route.method, route.at(), headers=headers, follow_redirects=False)
        assert answer.status_code == 403, route
        assert MARK not in answer.text


def told(answer: Response) -> str:
    """What an answer says, one that is printed too; parquet can't be read here and is not asked."""
    if answer.headers.get("content-type") == "application/pdf":
        return "".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.content)).pages)
    return answer.text


def test_a_coach_reads_what_no_other_lifter_may(gym: Gym) -> None:
    """What the next test looks for is there to be found."""
    pages = ("/log", "/log/export.csv", "/log/export.jsonl", "/api/sets", "/weeks?lifter=Osric")
    for path in (*pages, f"/log/set/{gym.set.id}"):
        assert MARK in gym.coach.get(path).text, path
    for path in ("/rack", "/api/work", "/lifters", "/review"):
        assert "Osric" in gym.coach.get(path).text, path
    assert "Osric" in told(gym.coach.get("/weeks/sheet.pdf", params={"lifter": "Osric"}))
    assert gym.coach.get("/lifters/one", params={"name": "Osric"}).status_code == 200


def test_a_lifter_reads_nothing_of_another(gym: Gym) -> None:
    """CWE-639: neither by asking for nothing, nor by name, nor by the number of a set or work."""
    for route in gym.routes():
        if route.method != "GET" or route.key not in LIFTERS or route.path in BOARD:
            continue
        answer = gym.pip.get(route.at(which=gym.set.id))
        assert MARK not in told(answer), route
        assert "Osric" not in html.unescape(told(answer)).replace("Osric's own pages", ""), route
        for wanted in ("lifter", "name"):
            words = {wanted: "Osric", "lift": "bench press", "bottom": "60", "top": "80"}
            answer = gym.pip.get(route.at(which=gym.set.id), params=words)
            # A page knows what it was asked, and says it where it leads back to itself.
            said = re.sub(r"(lifter|name)=Osric", "", told(answer))
            assert MARK not in said, route
            assert "Osric" not in said or answer.status_code in {403, 422}, route


def test_a_lifter_writes_nothing_of_another(gym: Gym) -> None:
    """CWE-639, of writes: their log stays as it was."""
    headers = written(gym.pip)
    before = logged(gym)
    new = str(uuid.uuid4())
    one = {"id": new, "lifter": "Osric", "lift": "squat", "straight_kg": 60, "reps": 5}
    form = {
        "id": new, "lifter": "Osric", "lift": "squat", "day": today(), "straight": "60",
        "reps": "5", "work": gym.work.id, "step": "1", "number": "1", "corrects": gym.set.id,
    }  # fmt: skip
    for sent in (
        one,
        {"id": new, "work": gym.work.id, "step": 1, "reps": 3},
        {"id": new, "corrects": gym.set.id, "reps": 1},
        {"id": new, "corrects": gym.set.id, "struck": True},
        {**one, "lifter": "OSRIC"},
        {**one, "lifter": "Pip", "corrects": gym.set.id},
        {**one, "lifter": "Pip", "id": gym.set.id},
    ):
        answer = gym.pip.post("/api/sets", json={"sets": [sent]}, headers=headers)
        assert answer.json()["answers"][0]["outcome"] == "refused", sent
        assert MARK not in answer.text
    for route in gym.routes():
        if route.method == "GET" or route.key not in LIFTERS or route.path == "/sign-out":
            continue
        if route.path.startswith(("/log/", "/rack/")):
            answer = gym.pip.post(route.at(which=gym.set.id), data=form, headers=headers)
            assert answer.status_code in {403, 422}, route
            assert MARK not in answer.text, route
    assert logged(gym) == before


def logged(gym: Gym) -> list[str]:
    """Every set, as it stands."""
    gym_id = load_gym(gym.store, "").id
    return [str(one) for one in list_sets(gym.store, gym_id)]


def test_a_gym_file_opens_nothing_of_the_store(gym: Gym) -> None:
    """Served to this machine alone from a file, nobody is asked: so no page may reach a store."""
    file = client_of(Path(TINY))
    there = {route.key for route in routes_of(app_of(file))}
    assert ("GET", "/sign-in") not in there
    headers = written(file)
    for route in routes_of(app_of(file)):
        answer = file.request(route.method, route.at(which=gym.set.id), headers=headers)
        assert MARK not in answer.text, route
    assert post(file, "/log/add", lifter="Osric").status_code == 409


def test_no_path_slips_past_the_door(gym: Gym) -> None:
    """CWE-22: what begins like an open address is not read as another one."""
    for path in ("/static/../people", "/static/%2e%2e/people", "/static//../api/gym",
                 "/sign-in/../people", "/sign-in/", "/welcome/../people", "//people", "/people/",
                 "/PEOPLE", "/api/../people", "/static/..%2fapp.py"):  # fmt: skip
        answer = gym.stranger.get(path, follow_redirects=False)
        assert answer.status_code in {303, 307, 401, 404}, path
        assert "Osric" not in answer.text, path
