"""Another target, other parts, other units: everything follows, and mistakes are told in place."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.rig_page import checks_out, show

if TYPE_CHECKING:
    from tests.browser.conftest import Opened

SIZES = ["phone", "desktop"]


def test_another_target_finds_another_rig(opened: Opened) -> None:
    page = opened.page("phone")
    show(page)
    before = page.locator("#answer").inner_text()
    page.locator("#bottom").fill("45")
    page.locator("#top").fill("66")
    page.locator("#top").press("Enter")
    expect(page.locator("#answer .wanted")).to_contain_text("45.0 kg at 66.0 cm, 66.0 kg at 107.0")
    expect(page).to_have_url(re.compile("bottom=45.*top=66"))
    assert page.locator("#answer").inner_text() != before
    expect(page.locator("#tag")).not_to_have_text("")
    with page.expect_response(re.compile("/part/found")):
        page.reload()
    expect(page.locator("#bottom")).to_have_value("45")


@pytest.mark.parametrize("size", SIZES)
def test_other_parts_are_read_at_once_and_the_found_rig_comes_back(
    opened: Opened, size: str
) -> None:
    page = opened.page(size)
    show(page)
    found = page.locator("#tag").text_content()
    proven = page.locator("#answer .verdict")
    expect(proven).to_contain_text("Proven best")
    page.get_by_role("button", name="5 kg: one more", exact=True).click()
    expect(proven).to_contain_text("Parts as you chose them")
    expect(page.locator("#tag")).not_to_have_text(found or "")
    checks_out(page)
    setting = page.locator("[data-value='setting']")
    said = setting.text_content() or ""
    way = (
        "one less"
        if page.get_by_role("button", name="Setting: one more").is_disabled()
        else "one more"
    )
    page.get_by_role("button", name=f"Setting: {way}").click()
    expect(setting).not_to_have_text(said)
    expect(page.get_by_role("button", name=f"Setting: {way}")).to_be_attached()
    page.get_by_role("button", name="Back to the found rig").click()
    expect(proven).to_contain_text("Proven best")
    expect(page.locator("#tag")).to_have_text(found or "")
    expect(setting).to_have_text(said)


def test_other_rigs_stand_beside_it_and_can_be_shown(opened: Opened) -> None:
    page = opened.page("desktop")
    show(page, "/rig?lifter=Ansa&lift=bench+press&bottom=70&top=88")
    others = page.locator("#answer .other")
    expect(others.first).to_contain_text("best of all")
    count = others.count()
    assert count > 1
    said = others.nth(1).locator(".loads b").last.text_content()
    others.nth(1).get_by_role("button", name="Show this one").click()
    expect(page.locator("#answer .verdict")).to_contain_text("Parts as you chose them")
    expect(others).to_have_count(count)
    expect(page.locator("#parts .now")).to_contain_text(f"{said} at the top")
    checks_out(page)
    others.first.get_by_role("button", name="Show this one").click()
    expect(page.locator("#answer .verdict")).to_contain_text("Proven best")


def test_what_must_come_down_takes_the_card_away(opened: Opened) -> None:
    page = opened.page("desktop")
    show(page)
    expect(page.locator("#card")).to_be_visible()
    page.locator("#part-connector").select_option("toy clip")
    expect(page.locator("#answer .danger")).to_contain_text("Take it down")
    expect(page.locator("#card")).to_have_count(0)


def test_a_mistake_is_told_at_its_field_and_goes_when_it_is_mended(opened: Opened) -> None:
    page = opened.page("phone")
    show(page)
    page.locator("#bottom").fill("heavy")
    page.locator("#bottom").press("Enter")
    expect(page.locator("#trouble [role=alert]")).to_contain_text("Not a mass")
    expect(page.locator("#bottom")).to_have_attribute("aria-invalid", "true")
    page.locator("#bottom").fill("60")
    page.locator("#bottom").press("Enter")
    expect(page.locator("#trouble [role=alert]")).to_have_count(0)
    expect(page.locator("#answer .wanted")).to_contain_text("60.0 kg at 66.0 cm")


def test_another_lift_needs_nothing_typed(opened: Opened) -> None:
    page = opened.page("desktop")
    show(page, "/rig")
    page.locator("#lift").select_option("squat")
    expect(page.locator("#station")).to_have_value("the rack")
    expect(page.locator("#known")).to_contain_text("84.0 cm to 144.0 cm")
    # The shed's feeders are too short for a squat: that is said, and nothing old is left to read.
    expect(page.locator("#trouble [role=alert]")).to_contain_text("No rig can be built")
    expect(page.locator("#answer .found")).to_have_count(0)
    page.locator("#lift").select_option("bench press")
    expect(page.locator("#answer h2")).to_contain_text("bench press")
    expect(page.locator("#trouble [role=alert]")).to_have_count(0)


def test_pounds_and_inches(opened: Opened) -> None:
    page = opened.page("phone")
    show(page, "/rig?lifter=Ansa&bottom=65kg&top=85kg")
    page.get_by_text("lb, in").tap()
    expect(page.locator("#r-height")).to_have_text("26.0 in")
    expect(page.locator("#tag")).to_contain_text("lb")
    expect(page.locator("#answer .wanted")).to_contain_text("143.3 lb at 26.0 in")


def test_the_card_opens_at_a_tap(opened: Opened) -> None:
    page = opened.page("phone")
    show(page)
    with page.context.expect_event(
        "response", predicate=lambda answer: "card.pdf" in answer.url
    ) as got:
        page.locator("#card").tap()
    assert got.value.headers["content-type"] == "application/pdf"
    assert got.value.status == 200


def test_without_scripts_there_is_a_rig_all_the_same(opened: Opened) -> None:
    page = opened.page("phone", java_script_enabled=False)
    page.goto("/rig")
    page.locator("#bottom").fill("65")
    page.locator("#top").fill("85")
    page.get_by_role("button", name="Find the rig").tap()
    expect(page.locator("#answer .verdict")).to_contain_text("Proven best")
    expect(page.locator(".printed svg")).to_be_visible()
