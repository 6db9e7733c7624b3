"""Letting people in: links, resets, signing out, and what a link's page takes."""

from __future__ import annotations

import html
import re
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

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
from tests.web.serving import store_client
from topheavy.store.accounts import find_account

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from topheavy.store.opening import Store


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    hash_quickly(monkeypatch)
    with closing(barn(tmp_path)) as found:
        with_coach(found)
        yield found


def link_in(page: str) -> str:
    found = re.search(r'id="link"[^>]*>http://127\.0\.0\.1(/welcome/[\w-]+)<', page)
    assert found, page
    return found[1]


def choose(store: Store, link: str, words: str, again: str | None = None) -> int:
    asking = store_client(store, beyond=True)
    page = asking.get(link)
    if page.status_code != 200:
        return page.status_code
    token = re.search(r'csrf-token" content="(\w+)"', page.text)
    assert token
    values = {"csrf": token[1], "passphrase": words, "again": words if again is None else again}
    answer = asking.post(link, data=values, follow_redirects=False)
    if answer.status_code == 303:
        assert asking.get("/api/me").json()["lifter"] == "Pip"
    return answer.status_code


def test_a_lifter_comes_in_by_a_link_once(store: Store) -> None:
    coach = signed_in(store)
    page = post(coach, "/people", lifter="pip", name="")
    assert page.status_code == 200
    link = link_in(page.text)
    assert choose(store, link, "short") == 422
    assert choose(store, link, PIP_WORDS, "something else of that length") == 422
    assert choose(store, link, "Pip Pip Pip Pip Pip Pip") == 422
    assert choose(store, link, "The Tarnfell Barbell Barn") == 422
    assert choose(store, link, PIP_WORDS) == 303
    assert choose(store, link, PIP_WORDS) == 404
    assert enter(store_client(store), "Pip", PIP_WORDS).status_code == 303


def test_a_link_that_nobody_made(store: Store) -> None:
    assert store_client(store, beyond=True).get("/welcome/abc").status_code == 404


def test_names_and_lifters_that_will_not_do_are_told_in_the_form(store: Store) -> None:
    coach = signed_in(store)
    for values, words in (
        ({"lifter": "", "name": ""}, "Not a name"),
        ({"lifter": "", "name": "runa"}, "already"),
        ({"lifter": "Nobody", "name": ""}, "No lifter called"),
    ):
        answer = post(coach, "/people", **values)
        assert answer.status_code == 422
        assert words in html.unescape(answer.text)


def test_taking_a_passphrase_away_signs_out_and_gives_a_link(store: Store) -> None:
    with_pip(store)
    pip, coach = signed_in(store, "pip", PIP_WORDS), signed_in(store)
    link = link_in(post(coach, "/people/reset", name="pip").text)
    assert pip.get("/api/me").status_code == 401
    assert enter(store_client(store), "pip", PIP_WORDS).status_code == 422
    assert enter(store_client(store), "pip", "").status_code == 422
    assert choose(store, link, "another four words of mine") == 303


def test_a_lost_phone_is_signed_out_by_the_coach(store: Store) -> None:
    with_pip(store)
    phones = [signed_in(store, "pip", PIP_WORDS) for _ in range(2)]
    coach = signed_in(store)
    post(coach, "/people/sign-out", name="pip")
    assert "signed out of 2 browsers" in coach.get("/people").text
    assert {phone.get("/api/me").status_code for phone in phones} == {401}


def test_removing_an_account_ends_its_sessions(store: Store) -> None:
    with_pip(store)
    pip, coach = signed_in(store, "pip", PIP_WORDS), signed_in(store)
    assert post(coach, "/people/remove", name="pip").status_code == 303
    assert pip.get("/api/me").status_code == 401
    assert post(coach, "/people/remove", name="Runa").status_code == 403


def test_a_removed_account_is_made_again_with_a_new_link(store: Store) -> None:
    """What Undo sends is what was there: whose, and of which gym; the passphrase is chosen anew."""
    with_pip(store)
    with_coach(store, name="Wren")
    coach = signed_in(store)
    for name in ("pip", "Wren"):
        old = find_account(store, name)
        assert post(coach, "/people/remove", name=name).status_code == 303
        page = coach.get("/people").text.partition('class="told"')[2].partition("</form>")[0]
        assert 'action="/people"' in page
        fields = dict(re.findall(r'name="(\w+)" value="([^"]*)"', page))
        made = post(coach, "/people", **fields)
        assert made.status_code == 200
        new = find_account(store, name)
        assert (new.role, new.lifter, new.gym_id) == (old.role, old.lifter, old.gym_id)
        assert new.passphrase == ""
        assert link_in(made.text)


def test_changing_one_s_own_passphrase_wants_the_old_one(store: Store) -> None:
    coach, elsewhere = signed_in(store), signed_in(store)
    new = "another four words of mine"
    wrong = {"now_used": "not this one at all", "passphrase": new, "again": new}
    assert post(coach, "/account", **wrong).status_code == 422
    assert post(coach, "/account", **{**wrong, "now_used": COACH_WORDS}).status_code == 303
    assert coach.get("/api/me").status_code == 200
    assert elsewhere.get("/api/me").status_code == 401
    assert enter(store_client(store), "Runa", new).status_code == 303


def test_without_accounts_the_page_says_how_the_first_is_made(tmp_path: Path) -> None:
    folder = tmp_path / "other"
    folder.mkdir()
    with closing(barn(folder)) as store:
        here = store_client(store)
        assert "topheavy serve --host" in here.get("/people").text
        assert post(here, "/people", lifter="Pip", name="").status_code == 422
        assert here.get("/account").status_code == 409


def test_what_was_done_is_told_to_coaches_of_all_gyms(store: Store) -> None:
    coach = signed_in(store)
    post(coach, "/people", lifter="Pip", name="")
    page = coach.get("/people").text
    assert "link made to choose a passphrase" in page
    assert find_account(store, "Pip").passphrase == ""
