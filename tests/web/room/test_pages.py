"""The room's pages: asked, planned, put up, taken down; who may, and what is said when not."""

from __future__ import annotations

import re
import time
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.cli.calling import TINY
from tests.store.samples import START, a_set
from tests.web.serving import client_of, store_client, written
from topheavy.gymfile import read_gym
from topheavy.gymfile.read import read_tables
from topheavy.present.room.words import clock
from topheavy.roomfile.read import room_of_tables
from topheavy.store.accounts import NewAccount, add_account, server_secret
from topheavy.store.gyms import Change, load_gym, save_gym
from topheavy.store.opening import open_store
from topheavy.store.rooms import list_plans, plan_of_day
from topheavy.store.sets import add_sets
from topheavy.store.sign_ins import begin_sign_in
from topheavy.store.work import todays_work
from topheavy.units import SYSTEMS
from topheavy.web.access.keys import Keys, hashed, new_token
from topheavy.web.desk import now, today
from topheavy.web.room import publish
from topheavy.web.room.fields import filled, tables_from, troubles_of
from topheavy.web.room.publish import grain_now

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.testclient import TestClient

    from topheavy.store.opening import Store

GYM = "The Shed"
FORM = {
    "room-name": "Tuesday",
    "room-opens": "18:00",
    "room-closes": "19:30",
    "room-within": "3",
    "s0-lifter": "Ansa",
    "s0-lift": "bench press",
    "s0-bottom": "65",
    "s0-top": "85 kg",
    "s0-sets": "3",
    "s0-may_spot": "on",
    "s1-lifter": "",
    "s1-may_spot": "on",
    "seconds": "5",
}


@pytest.fixture
def shed(tmp_path: Path) -> Iterator[Store]:
    """A store with the tiny gym."""
    tables, gym = read_tables(TINY)
    with closing(open_store(str(tmp_path / "store.sqlite"))) as store:
        save_gym(store, tables, gym, Change(author="Coach", at=START))
        yield store


def asking(store: Store) -> TestClient:
    """A coach's browser that sends what a form sends."""
    client = store_client(store)
    client.headers.update(written(client))
    return client


def planned(client: TestClient, form: dict[str, Any] | None = None) -> str:
    """Ask for a plan, wait for it, and give its address."""
    sent = client.post("/room/ask", data=form or FORM, follow_redirects=False)
    assert sent.status_code == 303, sent.text
    where = str(sent.headers["location"])
    for _ in range(300):
        part = client.get(f"/part{where}")
        state = re.search(r'data-state="(\w+)"', part.text)
        assert state is not None, part.text
        if state[1] != "planning":
            return where
        time.sleep(0.1)
    raise AssertionError(part.text)


def put_up(client: TestClient) -> None:
    done = client.post(f"{planned(client)}/put-up", follow_redirects=False)
    assert (done.status_code, done.headers["location"]) == (303, "/room")


def gym_id(store: Store) -> int:
    return load_gym(store, GYM).id


def test_from_the_form_to_everybodys_work_and_back(shed: Store) -> None:
    client = asking(shed)
    assert "No plan is up" in client.get("/room").text
    assert "No plan is up today" in client.get("/room/wall").text
    put_up(client)
    up = plan_of_day(shed, gym_id(shed), today())
    assert up is not None
    assert up.asked["session"] == [
        {"lifter": "Ansa", "lift": "bench press", "bottom": "65 kg", "top": "85 kg", "sets": 3}
    ]
    (given,) = todays_work(shed, gym_id(shed), today())
    assert (given.work.lifter, given.work.source, given.work.at) == ("Ansa", "room", "18:04")
    page = client.get("/room").text
    assert "Ansa" in page
    assert "18:04" in page
    assert client.get("/room/sheets.pdf").content[:5] == b"%PDF-"
    down = client.post("/room/take-down", data={"over": up.number}, follow_redirects=False)
    assert down.status_code == 303
    assert todays_work(shed, gym_id(shed), today()) == []
    again = client.post("/room/put-back", data={"number": 1, "over": ""}, follow_redirects=False)
    assert again.status_code == 303
    assert len(todays_work(shed, gym_id(shed), today())) == 1
    assert [one.gone for one in list_plans(shed, gym_id(shed), today())] == [False, True, False]


def at_grain(monkeypatch: pytest.MonkeyPatch, module: str, grain: int) -> None:
    """Let it be that late, in quarter minutes since the room opened."""
    monkeypatch.setattr(f"topheavy.web.room.{module}.grain_now", lambda _: grain)


def test_someone_late_is_planned_anew(shed: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    client = asking(shed)
    put_up(client)
    at_grain(monkeypatch, "board", -40)
    sent = {"over": "1", "lifter": "Ansa", "at": "18:30"}
    asked = client.post("/room/anew", data=sent, follow_redirects=False)
    where = str(asked.headers["location"])
    for _ in range(300):
        part = client.get(f"/part{where}").text
        if 'data-state="planning"' not in part:
            break
        time.sleep(0.1)
    assert "Ansa, bench press: the bench 18:30, was the bench 18:04" in part
    assert client.post(f"{where}/put-up", follow_redirects=False).status_code == 303
    (given,) = todays_work(shed, gym_id(shed), today())
    assert given.work.at == "18:30"
    stale = client.post("/room/anew", data={**sent, "over": "1"})
    assert stale.status_code == 422
    assert "Another plan is up by now" in stale.text


def test_a_plan_over_which_another_was_put_is_not_put_up(shed: Store) -> None:
    client = asking(shed)
    first, second = planned(client), planned(client)
    assert client.post(f"{first}/put-up", follow_redirects=False).status_code == 303
    refused = client.post(f"{second}/put-up")
    assert refused.status_code == 409
    assert "changed meanwhile" in refused.text


def test_the_wall_follows_the_log(shed: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    client = asking(shed)
    put_up(client)
    at_grain(monkeypatch, "wall", 17)
    wall = client.get("/part/room/wall")
    assert "set 1 of 3" in wall.text
    same = client.get("/part/room/wall", headers={"If-None-Match": wall.headers["etag"]})
    assert same.status_code == 304
    (given,) = todays_work(shed, gym_id(shed), today())
    last = given.work.steps[-1]
    logged = a_set(lifter="Ansa", day=today(), straight_kg=last.straight_kg)
    add_sets(shed, gym_id(shed), [logged], at=START)
    after = client.get("/part/room/wall", headers={"If-None-Match": wall.headers["etag"]})
    assert after.status_code == 200
    assert "set 2 of 3" in after.text


def test_mistakes_stand_beside_their_fields(shed: Store) -> None:
    client = asking(shed)
    wrong = client.post(
        "/room/ask", data={**FORM, "s0-top": "heavy", "room-closes": "later", "s0-sets": "many"}
    )
    assert wrong.status_code == 422
    for field in ("s0-top", "room-closes", "s0-sets"):
        assert f'id="{field}-told"' in wrong.text
    assert 'value="heavy"' in wrong.text
    more = client.post("/room/ask", data={**FORM, "more": "rows"})
    assert "s5-lifter" in more.text
    assert client.post("/room/ask", data={}).status_code == 422


def test_what_cannot_be_done_says_what_would_do(shed: Store) -> None:
    client = asking(shed)
    where = planned(client, {**FORM, "room-closes": "18:06"})
    said = client.get(where).text
    assert "Each of these would do" in said
    assert "Stay open" in said
    assert client.post(f"{where}/put-up").status_code == 409
    assert 'value="18:06"' in client.get(f"{where}/ask").text
    none = planned(client, {**FORM, "s0-top": "200 kg"})
    assert "the nearest rig misses by" in client.get(none).text


def test_a_room_file_fills_the_form(shed: Store) -> None:
    client = asking(shed)
    text = (
        '[room]\nopens = "17:30"\ncloses = "19:00"\nspotters = 3\n[[session]]\nlifter = "Ansa"\n'
        'lift = "squat"\nmatch = true\nmay_spot = false\n'
    )
    page = client.post("/room/file", files={"file": ("a.toml", text)})
    assert page.status_code == 200
    assert 'name="room-opens" value="17:30"' in page.text
    assert re.search(r'name="s0-match" value="on" checked', page.text)
    assert not re.search(r'name="s0-may_spot" value="on" checked', page.text)
    for wrong in (text.replace("Ansa", "Nobody"), "[room", ""):
        assert client.post("/room/file", files={"file": ("a.toml", wrong)}).status_code == 422


def test_everybody_stands_there_with_a_lift_that_was_measured(shed: Store) -> None:
    page = asking(shed).get("/room/ask?from=everyone").text
    lift = re.search(r'(?s)<select[^>]*name="s0-lift".*?</select>', page)
    assert lift
    (chosen,) = re.findall(r"<option selected>([^<]+)</option>", lift[0])
    assert chosen in load_gym(shed).gym.lifters[0].lifts


def test_today_s_work_is_asked_for_again(shed: Store) -> None:
    client = asking(shed)
    put_up(client)
    page = client.get("/room/ask?from=work").text
    assert re.search(r"<option selected>Ansa</option>", page)
    assert 'name="s0-sets" value="3"' in page


def test_what_to_buy_is_asked_and_answered(shed: Store) -> None:
    client = asking(shed)
    prices = '[[chain]]\nname = "cut"\nsize = "5/8 in"\ncuts = [32]\nmetre = 14.0\n'
    none = client.post("/buy", data={"prices": prices})
    assert none.status_code == 422
    assert "No lifts were named" in none.text
    put_up(client)
    found = client.post("/buy", data={"prices": prices, "within": "3"})
    assert found.status_code == 200
    assert "Nothing: the lift can be rigged with what you own." in found.text
    wrong = client.post("/buy", data={"prices": prices.replace("cut", "", 1)})
    assert wrong.status_code == 422


def test_a_lifter_sees_the_wall_and_plans_nothing(shed: Store) -> None:
    put_up(asking(shed))
    client = _lifter(shed)
    assert "Tuesday" in client.get("/room/wall").text
    for path in ("/room", "/room/ask", "/buy", "/room/sheets.pdf"):
        assert client.get(path).status_code == 403
    client.headers.update(written(client))
    for path in ("/room/ask", "/room/anew", "/room/take-down", "/room/put-back"):
        assert client.post(path, data={"over": "1", "number": "1"}).status_code == 403


def _lifter(store: Store) -> TestClient:
    new = NewAccount(
        name="ansa",
        role="lifter",
        lifter="Ansa",
        gym_id=gym_id(store),
        passphrase="-",  # noqa: S106 - the hash of none
    )
    account = add_account(store, new, by="Coach", at=now())
    token = new_token()
    begin_sign_in(store, account, hashed(token), now())
    keys = Keys(server_secret(store), secure=False)
    client = store_client(store)
    client.cookies.set(keys.name(), keys.sign(token))
    return client


def test_of_a_file_the_page_says_what_to_do() -> None:
    client = client_of(Path(TINY))
    assert "topheavy gym load" in client.get("/room").text
    assert client.get("/room/ask").status_code == 409
    assert client.get("/room/wall").status_code == 409
    assert client.get("/buy").status_code == 200


def test_the_form_and_the_tables_say_the_same() -> None:
    gym = read_gym(TINY)
    form = {name: [value] for name, value in FORM.items()} | {
        "room-stations": ["the bench", "the rack"],
        "room-hang": ["doubled", "straight"],
        "room-broken": ["H1, H2"],
        "s0-part_deload": ["on"],
    }
    tables = tables_from(form, SYSTEMS["kg"])
    assert room_of_tables(tables, gym).broken == ("H1", "H2")
    shown = filled(tables)
    again = {
        name: value if isinstance(value, list) else ["on"] if value is True else [value or ""]
        for name, value in shown.items()
        if value is not False
    }
    assert tables_from(again, SYSTEMS["kg"]) == tables
    pounds = tables_from(form, SYSTEMS["lb"])
    assert pounds["session"][0]["bottom"] == "65 lb"


def test_a_mistake_of_the_whole_belongs_to_no_field() -> None:
    gym = read_gym(TINY)
    with pytest.raises(Exception, match="Nobody lifts") as told:
        room_of_tables({"room": {"opens": "18:00", "closes": "19:00"}, "session": []}, gym)
    (trouble,) = troubles_of(told.value)  # type: ignore[arg-type]
    assert trouble.field == ""


def test_the_moment_of_a_session_that_goes_past_midnight() -> None:
    gym = read_gym(TINY)
    room = room_of_tables(tables_from({n: [v] for n, v in FORM.items()}, SYSTEMS["kg"]), gym)
    for hour, minute, grain in ((18, 0, 0), (18, 30, 120), (17, 45, -60), (21, 0, 720)):
        at = datetime(2026, 11, 25, hour, minute).astimezone()
        assert grain_now(room, at) == grain
    assert clock(room, -60) == "17:45"
    assert publish.new_id() != publish.new_id()
