"""The room: asked on a phone, planned, put up; the wall and a lifter's phone follow; for all."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE_MS, Opened, serving
from tests.browser.test_access import violations
from tests.cli.calling import TINY
from tests.store.samples import START
from topheavy.gymfile.read import read_tables
from topheavy.store.gyms import Change, save_gym
from topheavy.store.opening import open_store
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

expect.set_options(timeout=PATIENCE_MS)

WALL = {"viewport": {"width": 1920, "height": 1080}}


@dataclass
class Shed:
    """The tiny gym served from a store, open all day, so that a plan is never under way."""

    opened: Opened


@pytest.fixture
def shed(browser: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shed]:
    """Serve a store of its own; it is just before opening all the while."""
    for module in ("board", "wall"):
        monkeypatch.setattr(f"topheavy.web.room.{module}.grain_now", lambda _: -4)
    tables, gym = read_tables(TINY)
    with closing(open_store(str(tmp_path / "store.sqlite"))) as store:
        save_gym(store, tables, gym, Change(author="Coach", at=START))
        with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
            one = Opened(browser, address)
            yield Shed(one)
            one.close()
            assert one.heard.complaints == []
            away = [url for url in one.heard.asked if url.startswith(("http", "ws"))]
            assert [url for url in away if not url.startswith(f"{address}/")] == []


def ask(page: Page, top: str = "85") -> None:
    """Fill the form in, and ask."""
    page.goto("/room/ask")
    page.locator("#room-within").fill("3")
    page.locator("#s0-lift").select_option("bench press")
    page.locator("#s0-bottom").fill("65")
    page.locator("#s0-top").fill(top)
    page.locator("#s0-sets").fill("3")
    page.get_by_role("button", name="Plan it").click()


def fits(page: Page) -> bool:
    """Whether nothing sticks out to the side."""
    return bool(page.evaluate("document.documentElement.scrollWidth <= innerWidth"))


def test_from_the_form_to_the_wall_and_the_phones(shed: Shed) -> None:
    page = shed.opened.page("phone", color_scheme="dark")
    wall = shed.opened.page("desktop", **WALL)
    phone = shed.opened.page("phone")
    wall.goto("/room/wall")
    expect(wall.locator("#wall")).to_contain_text("No plan is up today")

    ask(page, top="heavy")
    expect(page.locator("#s0-top")).to_have_attribute("aria-invalid", "true")
    assert violations(page) == []
    assert fits(page)
    ask(page)
    expect(page.locator("[data-state=found]")).to_be_visible()
    assert violations(page) == []
    assert fits(page)
    page.get_by_role("button", name="Put this plan up").click()
    expect(page.locator(".told")).to_contain_text("Put up")
    assert violations(page) == []
    assert fits(page)

    expect(wall.locator("#wall")).to_contain_text("Ansa")
    assert violations(wall) == []
    assert fits(wall)
    phone.goto("/rack?lifter=Ansa&lift=bench+press")
    expect(phone.locator("#main")).to_contain_text("18:04")

    page.locator("#late").select_option("Ansa")
    page.locator("#at").fill("18:30")
    page.get_by_role("button", name="Plan anew").click()
    expect(page.locator("[data-state=found]")).to_contain_text("was the bench 18:04")
    page.get_by_role("button", name="Put this plan up").click()
    expect(page.locator(".told")).to_contain_text("Put up")
    expect(wall.locator("#wall")).to_contain_text("18:26")
    expect(phone.locator("#main")).to_contain_text("18:30")

    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".told")).to_contain_text("Plan 1 is up again")
    expect(wall.locator("#wall")).to_contain_text("18:00")


def test_by_keys_alone_and_what_to_buy(shed: Shed) -> None:
    page = shed.opened.page("desktop")
    page.goto("/buy")
    assert violations(page) == []
    page.locator("#prices").focus()
    page.keyboard.press("Tab")
    expect(page.get_by_role("button", name="Find the cheapest")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("No lifts were named")
    assert violations(page) == []
    page.set_viewport_size({"width": 360, "height": 740})
    assert fits(page)
