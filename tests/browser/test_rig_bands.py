"""Bands on the rig page, and a page that stays where it is while the answer comes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opened, serving
from tests.browser.rig_page import show
from tests.browser.test_access import violations
from topheavy.web.app import make_app
from topheavy.web.gyms import GymSource

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

WITH_BANDS = "/rig?lifter=Osric&lift=bench+press&station=bench+1&bottom=85&top=115&bands=1"
SHIFTS = """
    window.shifted = 0;
    new PerformanceObserver((list) => {
      for (const one of list.getEntries()) if (!one.hadRecentInput) window.shifted += one.value;
    }).observe({ type: "layout-shift", buffered: true });
"""
"""Adds up what the page shifts by itself; 0.1 is the bound that Core Web Vitals call good
(web.dev/articles/cls, from memory)."""


@pytest.fixture(scope="module")
def barn() -> Iterator[str]:
    with serving(make_app(GymSource())) as found:
        yield found


@pytest.fixture
def at_barn(browser: Browser, barn: str) -> Iterator[Opened]:
    one = Opened(browser, barn)
    yield one
    one.close()
    assert one.heard.complaints == []


@pytest.mark.parametrize("size", ["phone", "desktop"])
def test_bands_are_found_drawn_changed_and_taken_off(at_barn: Opened, size: str) -> None:
    page = at_barn.page(size)
    page.add_init_script(SHIFTS)
    show(page, WITH_BANDS)
    table = page.locator("#answer .banded tbody tr")
    expect(table).to_have_count(2)
    expect(page.locator("#answer .hang")).to_contain_text(re.compile("band red-. on peg low"))
    drawn = page.locator("#stage .live [data-part='band']")
    expect(drawn.first).to_be_attached()
    assert page.evaluate("window.shifted") < 0.01
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")

    said = page.locator("#parts .now").text_content()
    page.get_by_label("Left end", exact=True).select_option("red-2")
    expect(page.get_by_label("Right end", exact=True)).to_have_value("red-4")
    expect(table.first).to_contain_text("red-2 left")
    expect(page.locator("#parts .now")).not_to_have_text(said or "")
    assert violations(page) == []

    page.get_by_label("Left end", exact=True).select_option("none")
    expect(table).to_have_count(0)
    expect(drawn).to_have_count(0)
    page.get_by_role("button", name="Back to the found rig").click()
    expect(table).to_have_count(2)


def test_no_bands_are_offered_where_no_peg_is(at_barn: Opened) -> None:
    page = at_barn.page("desktop")
    show(page, "/rig?lifter=Osric&lift=bench+press&station=bench+2&bottom=85&top=115")
    expect(page.locator("#bands-field")).to_be_hidden()
    expect(page.locator("#parts .bands")).to_have_count(0)
    page.get_by_label("Station").select_option("bench 1")
    expect(page.locator("#bands-field")).to_be_visible()


def test_the_page_prints_what_to_hang_and_nothing_to_press(at_barn: Opened) -> None:
    page = at_barn.page("desktop")
    show(page, WITH_BANDS)
    page.emulate_media(media="print")
    for name in ("#answer .hang", "#answer .printed", "#answer .banded", "#answer .cautions"):
        expect(page.locator(name)).to_be_visible()
    for name in ("#ask", "#stage", "#parts", "#card"):
        expect(page.locator(name)).to_be_hidden()
