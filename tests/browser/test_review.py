"""The review on a phone and on a desk: axe finds nothing, nothing is cut off, filters work."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import Opened, serving
from tests.browser.test_access import violations
from tests.store.samples import START, put
from topheavy.logfile.example import example_log
from topheavy.store.gyms import load_gym
from topheavy.store.opening import open_store
from topheavy.store.sets import add_sets
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def logged(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Serve the demo gym with the log of the example."""
    path = tmp_path_factory.mktemp("review") / "barn.sqlite"
    with closing(open_store(str(path))) as store:
        put(store)
        add_sets(store, load_gym(store, "").id, example_log(), at=START)
        with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
            yield address


@pytest.fixture
def pages(browser: Browser, logged: str) -> Iterator[Opened]:
    """Pages that complain of nothing."""
    one = Opened(browser, logged)
    yield one
    one.close()
    assert one.heard.complaints == []


@pytest.mark.parametrize(("size", "scheme"), [("phone", "dark"), ("desktop", "light")])
def test_axe_finds_nothing_and_nothing_is_cut_off(pages: Opened, size: str, scheme: str) -> None:
    page = pages.page(size, color_scheme=scheme)
    page.goto("/review")
    assert violations(page) == []
    page.locator('a[href="/review?lifter=Osric"]').click()
    page.get_by_role("heading", name="Bests, on equal terms").wait_for()
    assert violations(page) == []
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= page.viewport_size["width"]  # type: ignore[index]
    shown = page.locator("figure svg:visible")
    assert shown.count() == 3
    box = shown.first.bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= wide


def test_the_form_narrows_by_keys_alone(pages: Opened) -> None:
    page = pages.page("desktop")
    page.goto("/review")
    page.get_by_label("Lifter").focus()
    page.keyboard.type("Pip")
    page.get_by_label("From").fill("2026-09-01")
    page.get_by_role("button", name="Review").press("Enter")
    page.get_by_role("heading", name="Pip, bench press").wait_for()
    assert page.get_by_role("heading", name="Review, 1 Sep to 20 Nov 2026").is_visible()
    assert page.get_by_label("Lifter").input_value() == "Pip"
    page.get_by_role("link", name="Everybody's news").click()
    page.get_by_role("heading", name="Wren, squat").wait_for()
