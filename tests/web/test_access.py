"""The door: who is asked to sign in, what a session may do, and what is turned away.

Held against OWASP's Application Security Verification Standard 5.0 and its Cheat Sheets (sessions,
CSRF, authentication), RFC 9110, and RFC 6265bis; all from memory, the CSRF sheet as quoted.
"""

from __future__ import annotations

import re
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.store.samples import put
from tests.web.people import (
    COACH_WORDS,
    PIP_WORDS,
    barn,
    enter,
    hash_quickly,
    post,
    signed_in,
    with_coach,
    with_pip,
)
from tests.web.serving import store_client, written
from topheavy.store.accounts import find_account
from topheavy.store.gyms import list_gyms, load_gym
from topheavy.store.sign_ins import count_sign_ins
from topheavy.web.access import signing
from topheavy.web.access.passphrases import Checked
from topheavy.web.access.said import safe_path
from topheavy.web.desk import now

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.testclient import TestClient

    from topheavy.store.opening import Store


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """A store with the demo gym; hashes cost nothing."""
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        yield found


def test_without_accounts_this_machine_is_the_coach_and_nobody_else_is_answered(
    store: Store,
) -> None:
    assert store_client(store).get("/api/me").json()["role"] == "coach"
    beyond = store_client(store, beyond=True)
    assert beyond.get("/api/me").status_code == 401
    assert beyond.get("/rig", follow_redirects=False).headers["location"] == "/sign-in?next=%2Frig"


def test_with_an_account_everybody_signs_in_on_this_machine_too(store: Store) -> None:
    with_coach(store)
    here = store_client(store)
    assert here.get("/", follow_redirects=False).headers["location"] == "/sign-in"
    answer = here.get("/api/gym")
    assert (answer.status_code, answer.json()["status"]) == (401, 401)
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.headers["www-authenticate"]  # RFC 9110, section 15.5.2: it must be there
    assert here.get("/static/css/page.css").status_code == 200
    assert here.post("/units", data={"units": "lb"}).status_code == 401


def test_signing_in_goes_where_one_wanted_to(store: Store) -> None:
    with_coach(store)
    here = store_client(store)
    answer = enter(here, "RUNA", COACH_WORDS, then="/rig?lifter=Pip")
    assert (answer.status_code, answer.headers["location"]) == (303, "/rig?lifter=Pip")
    assert here.get("/api/me").json()["name"] == "Runa"


@pytest.mark.parametrize(
    "away",
    ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", "javascript:x",
     "/\t/elsewhere.example", "\\\\x", "", "/a\r\nSet-Cookie: x=y", "/" + "a" * 3000],
)  # fmt: skip
def test_no_address_leads_elsewhere(away: str) -> None:
    """ASVS 5.0, 3.7.2 and CWE-601: a redirect taken from a question stays with us."""
    assert safe_path(away) == "/"


def test_nobody_is_sent_elsewhere(store: Store) -> None:
    with_coach(store)
    here = store_client(store)
    for away in ("//elsewhere.example", "/\\elsewhere.example"):
        assert enter(here, "Runa", COACH_WORDS, then=away).headers["location"] == "/"
        assert post(here, "/units", units="kg", then=away).headers["location"] == "/"
        assert here.get("/sign-in", params={"next": away}).url.host == "127.0.0.1"
        post(here, "/sign-out")


def test_cookies_are_ours_alone_and_out_of_reach_of_scripts(store: Store) -> None:
    """RFC 6265bis, sections 4.1.2 and 5.4: HttpOnly, SameSite, Secure, and the prefix __Host-."""
    with_coach(store)
    cookie = enter(store_client(store), "Runa", COACH_WORDS).headers["set-cookie"]
    rules = {one.strip() for one in cookie.split(";")[1:]}
    assert {"HttpOnly", "SameSite=Lax", "Path=/"} <= rules
    assert not [one for one in rules if one.startswith("Domain")]
    secure = store_client(store, secure=True)
    cookie = secure.get("/sign-in").headers["set-cookie"]
    assert cookie.startswith("__Host-topheavy-visit=")
    assert cookie.endswith("; Secure")


def test_a_session_begins_with_a_cookie_that_nobody_knew(store: Store) -> None:
    """OWASP Session Management Cheat Sheet: renew the identifier at sign-in; it guards fixation."""
    with_coach(store)
    here = store_client(store)
    here.get("/sign-in")
    before = here.cookies["topheavy-visit"]
    token = written_before(here)
    enter(here, "Runa", COACH_WORDS)
    assert here.cookies["topheavy-visit"] != before
    assert here.post("/sign-out", data={"csrf": token}).status_code == 403
    again = here.cookies["topheavy-visit"]
    enter_again = store_client(store)
    enter_again.cookies.set("topheavy-visit", before)
    assert enter_again.get("/api/me").status_code == 401
    token, _, signature = again.partition(".")
    other = ("A" if token[0] != "A" else "B") + token[1:]
    enter_again.cookies.set("topheavy-visit", f"{other}.{signature}")
    assert enter_again.get("/api/me").status_code == 401


def written_before(here: TestClient) -> str:
    """The token of the page to sign in."""
    page = here.get("/sign-in").text
    found = re.search(r'csrf-token" content="(\w+)"', page)
    assert found
    return found[1]


def test_nobody_gets_in_with_what_the_store_holds(store: Store) -> None:
    """Tokens are kept as hashes, so a copy of the store opens no session."""
    with_coach(store)
    here = signed_in(store)
    token = here.cookies["topheavy-visit"].partition(".")[0]
    files = list(Path(store.where).parent.iterdir())
    assert files
    assert not [path for path in files if token.encode() in path.read_bytes()]


def test_signing_out_ends_the_session_and_not_only_the_cookie(store: Store) -> None:
    account = with_coach(store)
    here = signed_in(store)
    kept = here.cookies["topheavy-visit"]
    assert post(here, "/sign-out").headers["location"] == "/sign-in"
    other = store_client(store)
    other.cookies.set("topheavy-visit", kept)
    assert other.get("/api/me").status_code == 401
    assert count_sign_ins(store, now()).get(account.id, 0) == 0


def test_a_wrong_name_and_a_wrong_passphrase_are_told_alike(store: Store) -> None:
    with_coach(store)
    said = set()
    for name in ("Runa", "Nobody"):
        answer = enter(store_client(store), name, "something else entirely")
        assert answer.status_code == 422
        said.add(re.sub(r"\w{64}", "", answer.text).replace(f'value="{name}"', ""))
    assert len(said) == 1


def test_a_name_that_is_not_there_costs_as_much_work(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """OWASP Authentication Cheat Sheet: no telling by time which accounts are there."""
    with_coach(store)
    checked: list[str] = []

    def verify(_: str, text: str) -> Checked:
        checked.append(text)
        return Checked(right=False)

    monkeypatch.setattr(signing, "verify", verify)
    for name in ("Runa", "Nobody"):
        enter(store_client(store), name, "words")
    assert checked == ["words", "words"]


def test_tries_are_limited_however_many_come_at_once(store: Store) -> None:
    with_coach(store)
    askers = [store_client(store) for _ in range(12)]
    ready = threading.Barrier(len(askers))

    def attempt(number: int) -> int:
        ready.wait(30)
        return enter(askers[number], "Runa", f"wrong words number {number}").status_code

    with ThreadPoolExecutor(len(askers)) as pool:
        codes = sorted(pool.map(attempt, range(len(askers))))
    assert codes == [422] * 5 + [429] * 7
    answer = enter(store_client(store), "Runa", COACH_WORDS)
    assert answer.status_code == 429
    assert 0 < int(answer.headers["retry-after"]) <= 901
    assert "Too many tries" in answer.text


def test_another_account_from_there_is_not_locked_out_by_that(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    for _ in range(6):
        enter(store_client(store), "Runa", "wrong")
    assert enter(store_client(store), "pip", PIP_WORDS).status_code == 303


@pytest.mark.parametrize("beyond", [False, True])
def test_a_write_without_the_page_s_token_is_refused(store: Store, *, beyond: bool) -> None:
    """OWASP CSRF Cheat Sheet: a token tied to the session, on every method that changes things."""
    if beyond:
        with_coach(store)
        here = signed_in(store)
    else:
        here = store_client(store)
    good = written(here)
    other = written(store_client(store)) if not beyond else {"X-Csrf-Token": "0" * 64}
    for headers in ({}, other, {b"X-Csrf-Token": b"\xe9"}):
        answer = here.post("/units", data={"units": "lb"}, headers=headers)
        assert answer.status_code == 403
    for method in ("PUT", "DELETE", "PATCH"):
        assert here.request(method, "/units").status_code == 403
    bad = {**good, "Sec-Fetch-Site": "cross-site"}
    assert here.post("/units", data={"units": "lb"}, headers=bad).status_code == 403
    assert here.get("/api/me").json()["units"] == ""
    done = here.post("/units", data={"units": "lb"}, headers=good, follow_redirects=False)
    assert done.status_code == 303
    assert here.get("/api/me").json()["units"] == "lb"


def test_the_token_goes_as_a_field_of_either_kind_of_form_too(store: Store) -> None:
    here = store_client(store)
    token = written(here)["X-Csrf-Token"]
    plain = here.post("/units", data={"units": "lb", "csrf": token}, follow_redirects=False)
    mixed = here.post(
        "/units",
        data={"units": "kg", "csrf": token},
        files={"x": ("x", b"x")},
        follow_redirects=False,
    )
    assert (plain.status_code, mixed.status_code) == (303, 303)
    assert here.get("/api/me").json()["units"] == "kg"


@pytest.mark.parametrize("honest", [True, False])
def test_what_is_sent_is_bounded(store: Store, *, honest: bool) -> None:
    here = store_client(store)
    headers = {**written(here), "Content-Type": "application/octet-stream"}
    big = b"x" * 8_000_001
    answer = here.post("/api/x", content=big if honest else iter([big]), headers=headers)
    assert (answer.status_code, answer.json()["status"]) == (413, 413)
    assert "8 MB" in answer.json()["wanted"]


def test_a_lifter_sees_only_their_own(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    assert [one["lifter"] for one in pip.get("/api/gym").json()["lifters"]] == ["Pip"]
    asked = {"lifter": "Osric", "lift": "bench press", "bottom": "60", "top": "80"}
    assert pip.get("/api/rig/stage", params=asked).status_code == 422
    assert "Osric" not in pip.get("/rig").text
    coach = signed_in(store)
    assert len(coach.get("/api/gym").json()["lifters"]) == 4


def test_a_lifter_is_turned_away_from_the_coach_s_pages(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    people = ("", "/link", "/reset", "/sign-out", "/remove")
    first = ("demo", "file", "own", "empty")
    wanted = [
        *(("GET", path) for path in ("/people", "/first", "/first/own")),
        *(("POST", f"/people{path}") for path in people),
        *(("POST", f"/first/{path}") for path in first),
    ]
    for method, path in wanted:
        answer = pip.request(method, path, data={"name": "Runa", "gym": "x"}, headers=written(pip))
        assert answer.status_code == 403, path
    assert find_account(store, "Runa").passphrase
    assert len(list_gyms(store)) == 1


def test_links_in_the_head_are_those_that_one_may_follow(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    for asking in (signed_in(store), signed_in(store, "pip", PIP_WORDS)):
        page = asking.get("/rig").text
        nav = page.partition('<nav aria-label="Pages">')[2].partition("</nav>")[0]
        links = re.findall(r'href="([^"]+)"', nav)
        assert "/rig" in links
        assert {asking.get(one).status_code for one in links} == {200}


def test_units_are_the_visitor_s_own(store: Store) -> None:
    with_coach(store)
    with_pip(store)
    pip = signed_in(store, "pip", PIP_WORDS)
    post(pip, "/units", units="lb")
    assert pip.get("/api/gym").status_code == 200
    assert signed_in(store, "pip", PIP_WORDS).get("/api/me").json()["units"] == "lb"
    assert signed_in(store).get("/api/me").json()["units"] == ""
    assert 'value="lb" checked' in pip.get("/rig").text


def test_a_coach_of_one_gym_sees_no_other(store: Store) -> None:
    other = {"gym": {"name": "The Shed"}}
    put(store, other)
    shed = load_gym(store, "the shed").id
    with_coach(store)
    with_coach(store, gym_id=shed, name="Wren")
    with_pip(store)
    wren = signed_in(store, "Wren")
    assert wren.get("/api/me").json()["gym"] == "The Shed"
    barn_id = load_gym(store, "the tarnfell barbell barn").id
    assert post(wren, "/gyms", gym=str(barn_id)).status_code == 403
    page = wren.get("/people").text
    assert "Wren" in page
    assert "pip" not in page
    assert post(wren, "/people/reset", name="pip").status_code == 403
    assert post(wren, "/first/empty", gym="Another", units="kg").status_code == 403
    runa = signed_in(store)
    assert runa.get("/rig", follow_redirects=False).headers["location"] == "/gyms"
    assert runa.get("/api/gym").status_code == 409
    assert post(runa, "/gyms", gym=str(barn_id)).status_code == 303
    assert runa.get("/api/me").json()["gym"] == "The Tarnfell Barbell Barn"


def test_head_is_answered_like_get_without_the_page(store: Store) -> None:
    """RFC 9110, section 9.3.2."""
    here = store_client(store)
    for path in ("/rig", "/api/gym", "/static/css/page.css", "/nowhere"):
        head, got = here.head(path), here.get(path)
        assert (head.status_code, head.content) == (got.status_code, b"")
        assert head.headers["content-type"] == got.headers["content-type"]
