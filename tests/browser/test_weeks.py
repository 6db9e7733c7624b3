"""The weeks with a phone and at a desk: a block planned, changed by hand, taken back."""

from __future__ import annotations

import time
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE_MS, Opened, serving
from tests.browser.test_access import violations
from tests.web.people import barn
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Route

expect.set_options(timeout=PATIENCE_MS)

LISTEN = """() => new MutationObserver((_, self) => {
  sessionStorage.setItem("said", document.getElementById("busy").textContent);
  self.disconnect();
}).observe(document.getElementById("busy"), {childList: true})"""


def _slowly(route: Route) -> None:
    time.sleep(0.8)
    route.continue_()


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[Opened]:
    """Serve a store with the demo gym."""
    with (
        closing(barn(tmp_path)) as store,
        serving(make_app(None, Serving(shelf=Shelf(store)))) as address,
    ):
        one = Opened(browser, address)
        yield one
        one.close()
        assert one.heard.complaints == []


@pytest.mark.parametrize(("size", "scheme"), [("phone", "light"), ("desktop", "dark")])
def test_planned_changed_and_taken_back(opened: Opened, size: str, scheme: str) -> None:
    page = opened.page(size, color_scheme=scheme)
    page.goto(f"{opened.address}/weeks")
    assert violations(page) == []
    page.get_by_label("First day").fill("2026-11-23")
    page.get_by_label("Name").fill("Winter")
    page.get_by_label("Pip").check()
    page.evaluate(LISTEN)
    page.route("**/weeks/begin", _slowly)
    page.get_by_role("button", name="Plan it").click()
    expect(page.get_by_role("status")).to_contain_text("Planned: Winter.")
    # What takes long says so, and no longer.
    assert "Working" in page.evaluate("sessionStorage.getItem('said')")
    expect(page.locator("#busy")).to_be_hidden()
    drawn = page.get_by_role("img", name="Pip, squat: loads of the block Winter")
    expect(drawn.locator("visible=true")).to_have_count(1)
    assert violations(page) == []
    assert (
        page.evaluate("document.documentElement.scrollWidth")
        <= (page.viewport_size or {"width": 0})["width"]
    )
    page.get_by_label("Load", exact=True).fill("70 %")
    page.get_by_role("button", name="Change it").click()
    expect(page.get_by_role("status")).to_contain_text("is changed")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("status")).to_contain_text("As it was before.")
