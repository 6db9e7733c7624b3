"""The log with a phone and at a desk: a set added and taken back, a file brought in."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE_MS, Opened, serving
from tests.browser.test_access import violations
from tests.store.samples import NAME, START, a_set
from tests.web.people import barn
from topheavy.store.gyms import load_gym
from topheavy.store.sets import Wanted, add_sets, list_sets
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from topheavy.store.opening import Store

expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[tuple[Opened, Store]]:
    """Serve a store with a few sets."""
    with closing(barn(tmp_path)) as store:
        sets = [a_set(note="first after a week off"), a_set(lifter="Wren", lift="squat")]
        add_sets(store, load_gym(store, NAME).id, sets, at=START)
        with serving(make_app(None, Serving(shelf=Shelf(store)))) as address:
            one = Opened(browser, address)
            yield one, store
            one.close()


def test_with_a_phone(opened: tuple[Opened, Store]) -> None:
    door, store = opened
    page = door.page("phone", color_scheme="dark")
    page.goto(f"{door.address}/log")
    assert violations(page) == []
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 360
    page.get_by_role("link", name="Add a set").click()
    assert violations(page) == []
    page.get_by_label("Lifter").select_option("Pip")
    page.get_by_label("Lift", exact=True).select_option("squat")
    page.get_by_label("Bar, collars and plates (kg)").fill("60")
    page.get_by_label("Repetitions done").fill("5")
    page.get_by_role("button", name="Log it").click()
    expect(page.get_by_role("status")).to_contain_text("Logged: Pip, squat")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("status")).to_contain_text("Taken back")
    gym = load_gym(store, NAME).id
    assert "Pip" not in {one.logged.lifter for one in list_sets(store, gym, Wanted())}


def test_a_file_at_a_desk(opened: tuple[Opened, Store], tmp_path: Path) -> None:
    door, store = opened
    file = tmp_path / "october.csv"
    file.write_text("date;name;exercise;weight;reps\n31.10.2026;pip;squat;60,5;5\n")
    page = door.page("desktop")
    page.goto(f"{door.address}/log/import")
    assert violations(page) == []
    page.locator("#file").set_input_files(file)
    page.get_by_role("button", name="Look at it").click()
    expect(page.get_by_role("alert")).to_contain_text("Nothing says the unit")
    page.get_by_label("Unit of weight").select_option("kg")
    page.get_by_role("button", name="Look again").click()
    expect(page.locator("main")).to_contain_text("1 new set")
    assert violations(page) == []
    page.get_by_role("button", name="Yes, bring them in").click()
    expect(page.get_by_role("status")).to_contain_text("october.csv: 1 new set is in the log.")
    gym = load_gym(store, NAME).id
    assert "Pip" in {one.logged.lifter for one in list_sets(store, gym, Wanted())}
