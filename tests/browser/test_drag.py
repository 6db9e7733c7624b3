"""The bar is dragged by mouse, by touch and by keys; number, links and curve follow it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.rig_page import BOTTOM_M, TOP_M, bar_m, checks_out, number, show

if TYPE_CHECKING:
    from playwright.sync_api import FloatRect, Page

    from tests.browser.conftest import Opened

KEYS = (
    ("End", 107.0),
    ("ArrowDown", 106.0),
    ("PageDown", 96.0),
    ("ArrowLeft", 95.0),
    ("ArrowUp", 96.0),
    ("PageUp", 106.0),
    ("Home", 66.0),
    ("ArrowDown", 66.0),
)


def _box(page: Page) -> FloatRect:
    found = page.locator("#grab").bounding_box()
    assert found
    return found


def _middle(page: Page) -> tuple[float, float]:
    box = _box(page)
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_by_mouse(opened: Opened) -> None:
    page = opened.page("desktop")
    show(page)
    assert checks_out(page) == pytest.approx(BOTTOM_M, abs=1e-3)
    x, y = _middle(page)
    page.mouse.move(x, y)
    page.mouse.down()
    seen: list[float] = []
    for step in (40, 80, 90):
        page.mouse.move(x, y - step, steps=4)
        expect(page.locator("#grab")).not_to_have_attribute(
            "aria-valuenow", f"{100 * (seen[-1] if seen else BOTTOM_M):.1f}"
        )
        seen.append(checks_out(page))
        middle_y = _middle(page)[1]
        assert abs(middle_y - (y - step)) < 1.5, "the bar is under the hand"
    assert seen == sorted(seen)
    page.mouse.move(x, -500)
    page.mouse.up()
    expect(page.locator("#grab")).to_have_attribute("aria-valuenow", f"{100 * TOP_M:.1f}")
    checks_out(page)
    page.mouse.move(x, y)
    assert bar_m(page) == pytest.approx(TOP_M), "let go, it stays"


def test_by_touch(opened: Opened) -> None:
    page = opened.page("phone")
    show(page)
    page.locator("#stage").scroll_into_view_if_needed()
    x, y = _middle(page)
    hand = page.context.new_cdp_session(page)

    def touch(kind: str, at_y: float | None) -> None:
        points = [] if at_y is None else [{"x": x, "y": at_y}]
        hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    before = page.evaluate("scrollY")
    touch("touchStart", y)
    for step in range(1, 9):
        touch("touchMove", y - 5 * step)
    touch("touchEnd", None)
    expect(page.locator("#grab")).not_to_have_attribute("aria-valuenow", f"{100 * BOTTOM_M:.1f}")
    assert checks_out(page) > BOTTOM_M + 0.1
    assert page.evaluate("scrollY") == before, "the page does not scroll under the bar"


@pytest.mark.parametrize("size", ["phone", "desktop"])
def test_by_keys(opened: Opened, size: str) -> None:
    page = opened.page(size)
    show(page)
    grab = page.locator("#grab")
    grab.focus()
    for key, cm in KEYS:
        page.keyboard.press(key)
        expect(grab).to_have_attribute("aria-valuenow", f"{cm:.1f}")
        checks_out(page)
    words = grab.get_attribute("aria-valuetext") or ""
    assert "66.0 cm up" in words
    assert "0 of 32 links of 5/8 in" in words


def test_the_same_chain_hung_straight_is_laid_over(opened: Opened) -> None:
    page = opened.page("desktop")
    show(page)
    ghost = page.locator("#stage .ghost .link")
    assert ghost.count() == 0
    page.locator("#overlay").check()
    ghost.first.wait_for(state="attached")
    page.locator("#grab").focus()
    page.keyboard.press("End")
    expect(page.locator("#grab")).to_have_attribute("aria-valuenow", "107.0")
    straight, raising = (
        number(page.locator(place).text_content()) for place in ("#r-straight", "#r-raising")
    )
    assert straight > raising
    page.locator("#overlay").uncheck()
    expect(ghost).to_have_count(0)


def test_bottom_and_top_at_a_tap(opened: Opened) -> None:
    page = opened.page("phone")
    show(page)
    page.get_by_role("button", name="Top").tap()
    expect(page.locator("#grab")).to_have_attribute("aria-valuenow", "107.0")
    page.get_by_role("button", name="Bottom").tap()
    expect(page.locator("#grab")).to_have_attribute("aria-valuenow", "66.0")
