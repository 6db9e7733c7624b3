"""The first visit: nothing there, the demo gym, a file, an own gym, and several to choose from."""

from __future__ import annotations

import re
from contextlib import closing
from typing import TYPE_CHECKING, Any

import pytest

from tests.store.samples import DEMO, put
from tests.web.people import post
from tests.web.serving import client, store_client, written
from topheavy.gymfile import demo_text
from topheavy.store.gyms import history, load_gym
from topheavy.store.opening import Store, open_store

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from starlette.testclient import TestClient

OWN = {
    "gym": "The Shed", "units": "kg", "size": "5/8 in", "links": "32", "pieces": "4",
    "rings": "56, 60, 64", "feeder_mass": "0,2", "feeder_rating": "200",
    "connector_mass": "0.175", "connector_length": "7", "connector_rating": "850",
    "lifter": "Ansa", "lift": "bench press", "bottom": "66", "top": "107", "best": "100",
    "pad": "43",
}  # fmt: skip


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A store with nothing in it."""
    with closing(open_store(str(tmp_path / "empty.sqlite"))) as found:
        yield found


def bring(asking: TestClient, content: bytes, name: str = "mine.toml") -> Any:
    return asking.post(
        "/first/file",
        files={"file": (name, content)},
        headers=written(asking),
        follow_redirects=False,
    )


def test_an_empty_store_leads_to_the_first_page_and_from_there_to_a_rig(store: Store) -> None:
    here = store_client(store)
    assert here.get("/", follow_redirects=True).url.path == "/first"
    assert here.get("/api/gym").status_code == 409
    answer = post(here, "/first/demo")
    assert (answer.status_code, answer.headers["location"]) == (303, "/rig")
    assert "is in the store" in here.get("/rig").text
    assert "is in the store" not in here.get("/rig").text
    assert load_gym(store).tables == DEMO
    asked = {"lifter": "Osric", "lift": "bench press", "bottom": "85", "top": "115"}
    assert here.get("/api/rig/card", params=asked).content.startswith(b"%PDF-")
    assert post(here, "/first/demo").status_code == 303
    assert len(history(store)) == 1


@pytest.mark.parametrize("units", ["kg", "lb"])
def test_an_own_gym_begins_with_a_rig(store: Store, units: str) -> None:
    here = store_client(store)
    pounds = {"feeder_mass": "0.4", "feeder_rating": "440", "connector_mass": "0.4",
              "connector_length": "2.75", "connector_rating": "1800", "bottom": "26", "top": "42",
              "best": "220", "pad": "17", "rings": "22, 23.6, 25"}  # fmt: skip
    form = {**OWN, "units": units, **(pounds if units == "lb" else {})}
    answer = post(here, "/first/own", **form)
    assert answer.status_code == 303, answer.text
    gym = load_gym(store).gym
    assert (gym.name, gym.units, len(gym.stock.chains)) == ("The Shed", units, 4)
    page = here.get(answer.headers["location"]).text
    assert "What to hang" in page
    assert re.search(r'class="[^"]*found', page)


MISTAKES: tuple[tuple[dict[str, str], str], ...] = (
    ({"gym": ""}, "gym"), ({"links": "many"}, "links"), ({"links": "0"}, "links"),
    ({"pieces": "two"}, "pieces"), ({"size": "heavy"}, "size"), ({"rings": ""}, "rings"),
    ({"rings": "a, b"}, "rings"), ({"connector_mass": "-1"}, "connector_mass"),
    ({"connector_rating": "850 kN"}, "connector_rating"), ({"lifter": ""}, "lifter"),
    ({"bottom": "low"}, "bottom"), ({"top": "20"}, "top"), ({"best": "much"}, "best"),
    ({"pad": "9 km"}, "pad"),
)  # fmt: skip


def test_mistakes_stand_beside_their_field_and_nothing_is_kept(store: Store) -> None:
    here = store_client(store)
    for change, field in MISTAKES:
        answer = post(here, "/first/own", **{**OWN, **change})
        assert answer.status_code == 422, change
        wrong = re.findall(r'<input id="(\w+)"[^>]*aria-invalid="true"', answer.text)
        assert wrong == [field]
        assert 'value="The Shed"' in answer.text or field == "gym"
    assert history(store) == []


def test_what_was_left_empty_is_called_empty(store: Store) -> None:
    page = post(store_client(store), "/first/own", **{**OWN, "gym": "", "connector_mass": ""}).text
    assert page.count("Still empty.") == 2
    assert "Not a usable name" not in page


def test_feeders_too_short_for_the_bottom_are_told_with_what_would_do(store: Store) -> None:
    here = store_client(store)
    kept = post(here, "/first/own", **{**OWN, "rings": "42, 46"})
    assert "with two feeders set to" in here.get(kept.headers["location"]).text


def test_names_are_names_and_nothing_else(store: Store) -> None:
    here = store_client(store)
    assert post(here, "/first/own", **{**OWN, "lifter": "<b>x</b>"}).status_code == 303
    assert "<b>x" not in here.get("/rig").text


def test_a_bad_file_is_told_with_its_place_and_nothing_is_kept(store: Store) -> None:
    here = store_client(store)
    for content, status, words in (
        (b"", 422, "There is no file"),
        (b"\xff\xfe", 422, "not UTF-8"),
        (b"[gym]\nname = x\n", 422, "line 2"),
        (b"[gym]\nname = 7\n", 422, "gym.name"),
        (b'[gym]\nname = "X"\n[[bar]]\nname="b"\n', 422, "bar[1]"),
        (b"x" * 5_000_001, 413, "5 MB"),
    ):
        answer = bring(here, content)
        assert words in answer.text, words
        assert answer.status_code == status
    assert history(store) == []


def test_a_good_file_comes_in_whole(store: Store) -> None:
    here = store_client(store)
    assert bring(here, demo_text().encode()).status_code == 303
    assert load_gym(store).tables == DEMO
    assert history(store)[0].note == "from mine.toml"
    again = bring(here, demo_text().encode())
    assert again.status_code == 422
    assert "a gym of that name already" in again.text


def test_an_empty_gym_leads_to_its_own_pages(store: Store) -> None:
    here = store_client(store)
    answer = post(here, "/first/empty", gym="  The   Shed ", units="lb")
    assert answer.headers["location"] == "/gym"
    assert load_gym(store).gym.units == "lb"
    assert post(here, "/first/empty", gym="x", units="stone").status_code == 422


def test_several_gyms_are_chosen_from_and_each_browser_remembers(store: Store) -> None:
    put(store)
    put(store, {"gym": {"name": "The Shed"}})
    shed, barn = load_gym(store, "the shed").id, load_gym(store, "the tarnfell barbell barn").id
    one, other = store_client(store), store_client(store)
    assert one.get("/rig", follow_redirects=False).headers["location"] == "/gyms"
    post(one, "/gyms", gym=str(shed))
    post(other, "/gyms", gym=str(barn))
    assert one.get("/api/me").json()["gym"] == "The Shed"
    assert other.get("/api/me").json()["gym"] == "The Tarnfell Barbell Barn"
    assert post(one, "/gyms", gym="999").status_code == 403
    only = store_client(store, gym=barn)
    assert only.get("/api/me").json()["gym"] == "The Tarnfell Barbell Barn"
    assert post(only, "/gyms", gym=str(shed)).status_code == 403


def test_a_file_that_is_served_is_only_read() -> None:
    here = client()
    assert here.get("/first").status_code == 404
    assert here.get("/people").status_code == 404
    assert here.get("/api/me").json()["gym"] == ""
