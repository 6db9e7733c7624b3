"""What somebody sends who means harm, or whose program is broken: refused, told, nothing kept.

From memory: OWASP Application Security Verification Standard 5.0 (input, files, errors), and CWE
20, 93, 209, 400.
"""

from __future__ import annotations

import json
import uuid
from contextlib import closing
from typing import TYPE_CHECKING, Any

import pytest

from tests.web.people import (
    COACH_WORDS,
    PIP_WORDS,
    barn,
    enter,
    hash_quickly,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.serving import store_client, written
from topheavy.store.gyms import load_gym
from topheavy.store.problems import StoreError
from topheavy.store.sets import list_sets
from topheavy.web.access import gate

if TYPE_CHECKING:
    from collections.abc import Iterator

    from httpx2 import Response
    from starlette.testclient import TestClient

    from topheavy.store.opening import Store

FORM = "application/x-www-form-urlencoded"
MIXED = "multipart/form-data; boundary=x"


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A store with the demo gym, a coach and Pip; hashes cost nothing."""
    folder = tmp_path_factory.mktemp("hostile")
    with (
        pytest.MonkeyPatch.context() as patch,
        closing(barn(folder)) as found,
    ):
        hash_quickly(patch)
        with_coach(found)
        with_pip(found)
        yield found


@pytest.fixture(scope="module")
def coach(store: Store) -> TestClient:
    """A coach who is signed in."""
    return signed_in(store)


def part(name: str, text: str) -> bytes:
    """A field of a form in parts."""
    return f'--x\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{text}\r\n'.encode()


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        (MIXED, b"no boundary in sight"),
        ("multipart/form-data", b"--x--\r\n"),
        (MIXED, part("name", "a" * 1_100_000) + b"--x--\r\n"),
        (FORM, b"name=" + b"a" * 1_100_000),
        (FORM, b"&".join(b"f%d=1" % number for number in range(6000))),
        (MIXED, b"".join(part(f"f{n}", "1") for n in range(6000)) + b"--x--\r\n"),
    ],
    ids=["no parts", "no boundary", "a long part", "a long field", "many fields", "many parts"],
)
def test_a_form_that_can_t_be_taken_apart(coach: TestClient, kind: str, body: bytes) -> None:
    """CWE-20: a mistake of whoever sends it, so 400, and nothing broke here."""
    answer = coach.post("/people", content=body, headers={"Content-Type": kind})
    assert answer.status_code == 400
    assert "no form that can be read" in answer.text


def test_a_long_form_of_the_gym_s_pages_passes_the_door(coach: TestClient) -> None:
    token = written(coach)["X-Csrf-Token"]
    fields = {"csrf": token, **{f"field{number}": "1" for number in range(4000)}}
    assert coach.post("/gym/put-back", data=fields).status_code == 422


def test_a_stranger_sends_no_more_than_a_name_and_a_passphrase(store: Store) -> None:
    """CWE-400: nobody fills the memory who may not even come in."""
    here = store_client(store)
    answer = enter(here, "Runa", "x" * 70_000)
    assert answer.status_code == 413
    assert enter(here, "é" * 200, "é" * 2000, then="/" + "x" * 1999).status_code == 422


def test_whoever_can_t_be_told_apart_hears_nothing_of_the_store(
    store: Store, coach: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """CWE-209: while the store is away a stranger is not told where it is."""

    def away(*_: object) -> None:
        raise StoreError("The store's disk can't take it", field=store.where, got="disk I/O error")

    monkeypatch.setattr(gate, "signed_in", away)
    for path in ("/rig", "/api/gym", "/sign-in"):
        answer = coach.get(path)
        assert answer.status_code == 503
        assert "can't be reached" in answer.text.replace("&#39;", "'")
        for word in (store.where, "barn", "disk"):
            assert word not in answer.text


def sets_of(store: Store) -> int:
    """How many sets are logged."""
    return len(list(list_sets(store, load_gym(store, "").id)))


def sent(coach: TestClient, words: Any) -> Response:
    """Send sets; half a character goes as its number."""
    headers = {**written(coach), "Content-Type": "application/json"}
    return coach.post("/api/sets", content=json.dumps(words), headers=headers)


def test_half_a_character_holds_up_no_other_set(store: Store, coach: TestClient) -> None:
    r"""RFC 8259, section 8.2: JSON may say "\ud83d" alone, which no answer can carry."""
    good: dict[str, Any] = {
        "id": str(uuid.uuid4()), "lifter": "Pip", "lift": "squat", "straight_kg": 60, "reps": 5,
    }  # fmt: skip
    bad = [
        {**good, "id": "\ud83d"},
        {**good, "id": str(uuid.uuid4()), "note": "heavy \ud83d"},
        {**good, "id": str(uuid.uuid4()), "\ud83d": 1},
        {**good, "id": str(uuid.uuid4()), "lifter": "\ud83d"},
        {**good, "id": str(uuid.uuid4()), "lift": "\ud83d"},
        {**good, "id": str(uuid.uuid4()), "work": "\ud83d"},
        {**good, "id": str(uuid.uuid4()), "corrects": "\ud83d"},
        {**good, "id": str(uuid.uuid4()), "station": "\ud83d"},
    ]
    before = sets_of(store)
    answer = sent(coach, {"sets": [*bad, good]})
    assert answer.status_code == 200
    told = [one["outcome"] for one in answer.json()["answers"]]
    assert told == ["refused"] * len(bad) + ["new"]
    assert sets_of(store) == before + 1
    odd = sent(coach, {"\ud83d": []})
    assert odd.status_code == 422


DEEP = ".".join(["a"] * 20_000)
UPLOADS = ("/gym/bring", "/weeks/file", "/room/file", "/first/file", "/log/import")


@pytest.mark.parametrize("path", UPLOADS)
@pytest.mark.parametrize(
    "content",
    [b"a=" + b"[" * 50_000, b"a=" + b"9" * 100_000, f"{DEEP}=1".encode(), f"[{DEEP}]".encode(),
     b"a='\xff'", b"a='\x00'", b"a=" + b"{b=" * 3000, b"\xef\xbb\xbf", b"", b"gym = 1",
     b"gym = 1979-05-27", b"[[gym]]\nname = nan"],
    ids=["nested", "digits", "key", "table", "latin", "nul", "inline", "mark", "empty", "number",
         "day", "list"],
)  # fmt: skip
def test_files_that_are_none(coach: TestClient, path: str, content: bytes) -> None:
    files = {"file": ("x.toml", content)}
    answer = coach.post(path, files=files, data={"over": "1"}, headers=written(coach))
    assert answer.status_code == 422


@pytest.mark.parametrize("path", UPLOADS)
def test_a_file_of_nine_megabytes(store: Store, coach: TestClient, path: str) -> None:
    """The log alone takes larger files, from a coach; what came is not kept."""
    content = b"#" * 9_000_000
    answer = coach.post(path, files={"file": ("x", content)}, headers=written(coach))
    assert answer.status_code == (422 if path == "/log/import" else 413)
    pip = signed_in(store, "pip", PIP_WORDS)
    answer = pip.post(path, files={"file": ("x", content)}, headers=written(pip))
    assert answer.status_code == 413


NAMES = (
    "../../etc/x.toml",
    "<script>alert(1)</script>.toml",
    "\u202elmot.toml",
    "x" * 400,
    '"><b>',
)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("path", UPLOADS)
def test_names_of_files_lead_nowhere_and_are_only_shown(
    coach: TestClient, path: str, name: str
) -> None:
    """CWE-22 and CWE-79: a name is words about a file, never a place, and never part of a page."""
    answer = coach.post(
        path, files={"file": (name, b"what")}, data={"over": "1"}, headers=written(coach)
    )
    assert answer.status_code in {303, 422}
    for never in ("<script>alert", '"><b>', "\u202e"):
        assert never not in answer.text


def test_nobody_gets_a_header_of_their_own_in(coach: TestClient) -> None:
    """CWE-93: a line end in a question is no line end in an answer."""
    bad = "x\r\nX-Mine: 1"
    for path in ("/log/export.csv", "/weeks", "/review", "/rack", "/lifters/one", "/sign-in"):
        answer = coach.get(path, params={"lifter": bad, "name": bad, "next": f"/{bad}"})
        assert "x-mine" not in answer.headers
    stranger = store_client_of(coach)
    answer = stranger.get("/rig", params={"lifter": bad}, follow_redirects=False)
    assert answer.status_code == 303
    assert "x-mine" not in answer.headers


def store_client_of(coach: TestClient) -> TestClient:
    """The same pages, for somebody who is not signed in."""
    return type(coach)(coach.app, base_url="http://127.0.0.1", raise_server_exceptions=False)


def test_two_tabs(store: Store) -> None:
    """Signed in on one, the old page on another is told apart, and leads on."""
    here = store_client(store)
    old = written_before(here)
    assert enter(here, "Runa", COACH_WORDS).status_code == 303
    values = {"csrf": old, "name": "Runa", "passphrase": COACH_WORDS}
    answer = here.post("/sign-in", data=values)
    assert answer.status_code == 403
    assert "load the page again" in answer.text
    assert 'href="/sign-in"' in answer.text
    assert here.get("/sign-in", follow_redirects=False).headers["location"] == "/"


def test_a_write_that_is_refused_begins_no_cookie(store: Store) -> None:
    """One from another site comes without ours, and an answer's would take its place."""
    for path in ("/units", "/sign-in", "/api/sets"):
        answer = store_client(store).post(path, headers={"Sec-Fetch-Site": "cross-site"})
        assert answer.status_code in {401, 403}
        assert "set-cookie" not in answer.headers, path


def test_a_session_that_ended_leads_to_signing_in(store: Store) -> None:
    here = signed_in(store)
    token = written(here)["X-Csrf-Token"]
    here.post("/sign-out", data={"csrf": token})
    answer = here.post("/units", data={"csrf": token, "units": "kg"})
    assert answer.status_code == 401
    assert 'href="/sign-in"' in answer.text


def test_a_cookie_is_good_for_what_it_was_signed_for(store: Store) -> None:
    """What says which gym was chosen is no session, although the server signed it."""
    here = signed_in(store)
    number = load_gym(store, "").id
    chosen = here.post("/gyms", data={"gym": str(number)}, headers=written(here))
    assert chosen.status_code == 200
    other = store_client(store)
    other.cookies.set("topheavy-visit", here.cookies["topheavy-gym"])
    assert other.get("/sign-in").headers["set-cookie"].startswith("topheavy-visit=")


def written_before(here: TestClient) -> str:
    """The token of the page to sign in."""
    page = here.get("/sign-in").text
    return page.partition('name="csrf-token" content="')[2].partition('"')[0]
