"""The gym's pages on a phone and on a desk: axe, keys alone, a bar put in, a lifter measured."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING, Final

import pytest

from tests.browser.conftest import Opened, serving
from tests.browser.test_access import violations
from tests.web.gym.keeping import DEMO, begin
from topheavy.store.gyms import load_gym
from topheavy.store.opening import open_store
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from topheavy.store.opening import Store

PAGES: Final = (
    "/gym",
    "/gym/stock",
    "/gym/thing?section=chain&key=A1",
    "/gym/care",
    "/gym/piece?tag=A9",
    "/gym/version?number=1",
    "/lifters",
    "/lifters/one?name=Osric",
    "/lifters/measure?name=Osric&lift=bench press",
)


@pytest.fixture(scope="module")
def barn(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Store, str]]:
    """A store with the demonstration's gym, and the address where it is served."""
    path = tmp_path_factory.mktemp("barn") / "store.sqlite"
    with closing(open_store(str(path))) as store:
        begin(store, DEMO)
        with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
            yield store, address


@pytest.fixture
def pages(browser: Browser, barn: tuple[Store, str]) -> Iterator[Opened]:
    """Pages of that gym, and the promise that they stay at home and complain of nothing."""
    one = Opened(browser, barn[1])
    yield one
    one.close()
    assert one.heard.complaints == []
    assert [url for url in one.heard.asked if not url.startswith(f"{barn[1]}/")] == []


@pytest.mark.parametrize(("size", "scheme"), [("phone", "light"), ("desktop", "dark")])
def test_axe_finds_nothing_and_nothing_is_cut_off(pages: Opened, size: str, scheme: str) -> None:
    page = pages.page(size, color_scheme=scheme)
    for path in PAGES if size == "phone" else PAGES[1::2]:
        page.goto(path)
        assert violations(page) == [], path
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= page.viewport_size["width"], path  # type: ignore[index]


@pytest.mark.parametrize("size", ["phone", "desktop"])
def test_a_bar_is_put_in_wrongly_then_rightly_and_taken_back(
    pages: Opened, barn: tuple[Store, str], size: str
) -> None:
    page = pages.page(size)
    page.goto("/gym/stock")
    page.get_by_role("link", name="Add a bar").click()
    page.get_by_label("Name").fill(f"{size} bar")
    page.get_by_label("Mass").fill("20")
    page.get_by_label("Sleeve").fill("9 q")
    page.get_by_role("button", name="Save", exact=True).click()
    wrong = page.locator("#f-sleeve-wrong")
    wrong.wait_for()
    assert "Unknown unit 'q' for a length." in wrong.inner_text()
    assert page.get_by_label("Sleeve").get_attribute("aria-invalid") == "true"
    assert violations(page) == []
    page.get_by_label("Sleeve").fill("41.5")
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_text(f"Bar {size} bar added.").wait_for()
    assert load_gym(barn[0]).gym.stock.bar(f"{size} bar").sleeve_m == pytest.approx(0.415)
    page.get_by_role("button", name="Undo").click()
    page.get_by_text(f"Undone: bar {size} bar added.").wait_for()
    assert all(bar.name != f"{size} bar" for bar in load_gym(barn[0]).gym.stock.bars)


def test_a_lifter_is_measured_by_keys_alone(pages: Opened, barn: tuple[Store, str]) -> None:
    page = pages.page("desktop")
    page.goto("/lifters/measure?name=Wren&lift=deadlift")
    page.get_by_label("First reading of the bottom").focus()
    for text in ("22.5", "22.6", "", "70", "73"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.get_by_text("Readings of the top lie 3.0 cm apart").first.wait_for()
    assert violations(page) == []
    again = page.get_by_label("Second reading of the top")
    again.fill("70.4")
    again.press("Enter")
    page.get_by_text("Wren, deadlift measured: 2 and 2 readings.").wait_for()
    travel = load_gym(barn[0]).gym.lifter("Wren").lifts["deadlift"].travel
    assert travel.top_m == pytest.approx(0.702)


def test_a_rig_is_held_against_the_scale(pages: Opened) -> None:
    page = pages.page("phone")
    page.goto("/gym/weigh?left=A1 A2&right=A3 A4&feeder=ring strap&setting=7&straight=80")
    page.get_by_label("Connector").select_option("10 mm screw link")
    rows = ((66, 80.6), (75, 81.2), (84, 84.7), (93, 88.5), (100, 91.7), (107, 94.4))
    for number, (height, mass) in enumerate(rows, 1):
        page.get_by_label(f"Bar at, cm, row {number}").fill(str(height))
        page.get_by_label(f"Scale, kg, row {number}").fill(str(mass))
    page.get_by_role("button", name="Compare with what was predicted").click()
    page.get_by_role("heading", name="What the scale says").wait_for()
    assert page.locator("#says").get_by_text("agree within").count() == 1
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_on_paper_there_is_nothing_to_press(pages: Opened) -> None:
    page = pages.page("desktop")
    page.goto("/gym/stock")
    page.emulate_media(media="print")
    assert not page.get_by_role("link", name="Add a bar").is_visible()
    assert page.get_by_role("heading", name="Chain", exact=True).is_visible()
