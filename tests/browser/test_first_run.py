"""From nothing to the first card, and through the door, in a browser: phone and desktop."""

from __future__ import annotations

import time
from contextlib import closing, contextmanager
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opened, serving
from tests.browser.test_access import violations
from tests.store.samples import START, put
from tests.web.people import COACH_WORDS, PIP_WORDS, hash_quickly, with_coach
from tests.web.test_first import OWN
from topheavy.store.accounts import NewAccount, add_account, find_account
from topheavy.store.gyms import load_gym
from topheavy.store.opening import Store, open_store
from topheavy.store.sign_ins import invite
from topheavy.web.access.keys import hashed
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf, now

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """A store with nothing in it; hashes cost nothing."""
    hash_quickly(monkeypatch)
    with closing(open_store(str(tmp_path / "store.sqlite"))) as found:
        yield found


@contextmanager
def served(browser: Browser, store: Store) -> Iterator[Opened]:
    """Pages of a store that is served; they ask nobody else and complain of nothing."""
    with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
        opened = Opened(browser, address)
        try:
            yield opened
        finally:
            opened.close()
    assert opened.heard.complaints == []
    away = [url for url in opened.heard.asked if url.startswith(("http", "ws"))]
    assert [url for url in away if not url.startswith(f"{opened.address}/")] == []


def sound(page: Page) -> None:
    """Nothing for axe to say, nothing cut off at the side, and targets for a chalky hand."""
    assert violations(page) == []
    wide, inside = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide <= inside
    small = page.evaluate(
        """() => [...document.querySelectorAll("button, select, .button, .ways a, input")]
          .filter((one) => one.offsetParent && one.type !== "hidden")
          .filter((one) => one.getBoundingClientRect().height < 40)
          .map((one) => one.outerHTML.slice(0, 80))"""
    )
    assert small == []


@pytest.mark.parametrize(("size", "scheme"), [("phone", "dark"), ("desktop", "light")])
def test_from_nothing_to_the_first_card_with_the_demo_gym(
    browser: Browser, store: Store, size: str, scheme: str
) -> None:
    with served(browser, store) as opened:
        page = opened.page(size, color_scheme=scheme)
        begun_s = time.monotonic()
        page.goto("/")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        sound(page)
        page.get_by_role("button", name="Open the demo gym").click()
        expect(page.locator(".told")).to_contain_text("is in the store")
        page.get_by_role("button", name="Find the rig").click()
        card = page.locator("#card")
        expect(card).to_be_visible()
        taken_s = time.monotonic() - begun_s
        assert page.request.get(card.get_attribute("href") or "").body().startswith(b"%PDF-")
        assert taken_s < 120


def test_an_own_gym_by_keys_alone(browser: Browser, store: Store) -> None:
    with served(browser, store) as opened:
        page = opened.page("desktop")
        page.goto("/first/own")
        page.locator("#gym").focus()
        for name in page.locator("form.door input[id], form.door select").evaluate_all(
            "(fields) => fields.map((one) => one.id)"
        ):
            assert page.evaluate("document.activeElement.id") == name
            typed = "many" if name == "links" else OWN[name]
            if name not in {"units", "lift"}:
                page.keyboard.type(typed)
            page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        expect(page.locator("#links[aria-invalid]")).to_be_visible()
        sound(page)
        page.locator("#links").fill("32")
        page.locator("#links").press("Enter")
        expect(page.locator("#answer .found")).to_be_visible()
        assert load_gym(store).gym.name == "The Shed"


@pytest.mark.parametrize(("size", "scheme"), [("phone", "light"), ("desktop", "dark")])
def test_through_the_door_and_out_again(
    browser: Browser, store: Store, size: str, scheme: str
) -> None:
    put(store)
    with_coach(store)
    with served(browser, store) as opened:
        page = opened.page(size, color_scheme=scheme)
        page.goto("/people")
        expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
        sound(page)
        assert page.evaluate("document.activeElement.id") == "name"
        page.keyboard.type("runa")
        page.keyboard.press("Tab")
        page.keyboard.type("not the right words")
        page.keyboard.press("Enter")
        expect(page.get_by_role("alert")).to_contain_text("do not go together")
        sound(page)
        assert page.locator("#name").input_value() == "runa"
        assert page.locator("#passphrase").input_value() == ""
        page.locator("#passphrase").fill(COACH_WORDS)
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="People")).to_be_visible()
        sound(page)
        page.get_by_role("button", name="Sign out", exact=True).click()
        expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
        page.goto("/people")
        expect(page.get_by_role("heading", name="Sign in")).to_be_visible()


def test_a_lifter_comes_in_by_a_link_on_a_phone(browser: Browser, store: Store) -> None:
    put(store)
    with_coach(store)
    new = NewAccount(name="Pip", role="lifter", gym_id=load_gym(store).id, lifter="Pip")
    pip = add_account(store, new, by="Runa", at=START)
    invite(store, pip, hashed("a-link"), by="Runa", at=now())
    with served(browser, store) as opened:
        page = opened.page("phone")
        page.goto("/welcome/a-link")
        sound(page)
        page.locator("#passphrase").fill(PIP_WORDS)
        page.locator("#again").fill(PIP_WORDS)
        page.get_by_role("button", name="Keep it and come in").click()
        expect(page.locator(".told")).to_contain_text("Welcome, Pip")
        links = page.get_by_role("navigation", name="Pages").get_by_role("link")
        assert "People" not in links.all_text_contents()
        expect(page.locator("#lifter option")).to_have_count(1)


def test_a_link_in_a_message_keeps_one_signed_in(browser: Browser, store: Store) -> None:
    """Followed from another site, and on one of two tabs; the browser decides what cookies go."""
    put(store)
    with_coach(store)
    with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
        context = browser.new_context()
        context.route(
            "http://elsewhere.example/**",
            lambda route: route.fulfill(
                content_type="text/html",
                body=f'<a href="{address}/rig">Come</a>'
                f'<form method="post" action="{address}/units">'
                '<button name="units" value="lb">Send</button></form>',
            ),
        )
        page, old = context.new_page(), context.new_page()
        for one in (page, old):
            one.goto(f"{address}/sign-in")
        page.locator("#name").fill("Runa")
        page.locator("#passphrase").fill(COACH_WORDS)
        page.keyboard.press("Enter")
        expect(page.get_by_role("navigation", name="Pages")).to_be_visible()
        page.goto("http://elsewhere.example/")
        page.get_by_role("link", name="Come").click()
        expect(page.get_by_role("navigation", name="Pages")).to_be_visible()
        page.goto("http://elsewhere.example/")
        page.get_by_role("button", name="Send").click()
        expect(page.get_by_role("heading")).to_contain_text("Sign in first")
        page.goto(f"{address}/people")
        expect(page.get_by_role("heading", name="People")).to_be_visible()
        assert find_account(store, "Runa").units == ""
        old.locator("#name").fill("Runa")
        old.locator("#passphrase").fill(COACH_WORDS)
        old.keyboard.press("Enter")
        expect(old.get_by_role("heading")).to_contain_text("too old")
        old.get_by_role("link", name="To the page to sign in").click()
        expect(old.get_by_role("navigation", name="Pages")).to_be_visible()
        context.close()
