"""At the rack with a phone: set by set, with the network gone, two phones at once, and for all."""

from __future__ import annotations

import re
import shutil
from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE_MS, Opened, serving
from tests.browser.test_access import violations
from tests.web.rack_store import cookie_of, stocked, work_for
from topheavy.store.gyms import Change
from topheavy.store.opening import open_store
from topheavy.store.sets import Wanted, count_sets, list_sets
from topheavy.store.work import give_work
from topheavy.web.app import Serving, make_app
from topheavy.web.desk import Shelf, now

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

    from topheavy.gym.log import LoggedSet
    from topheavy.store.opening import Store
    from topheavy.training.work import Work

expect.set_options(timeout=PATIENCE_MS)

AWAY = ("ERR_INTERNET_DISCONNECTED", "status of 401")
"""What a browser writes down when the network is gone, or when somebody must sign in again."""


@dataclass
class Barn:
    """The demo gym served from a store, with work for Osric."""

    store: Store
    gym: int
    work: Work
    opened: Opened

    def logged(self) -> list[LoggedSet]:
        """Sets that stand in the log."""
        return [one.logged for one in list_sets(self.store, self.gym, Wanted())]


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, int, Work]:
    """Make a store once; each test gets a copy."""
    path, work = tmp_path_factory.mktemp("begun") / "store.sqlite", work_for()
    with closing(open_store(str(path))) as store:
        gym = stocked(store, work)
    return path, gym, work


@pytest.fixture
def barn(browser: Browser, tmp_path: Path, begun: tuple[Path, int, Work]) -> Iterator[Barn]:
    """Serve a store of its own."""
    path, gym, work = begun
    shutil.copy(path, tmp_path / "store.sqlite")
    with (
        closing(open_store(str(tmp_path / "store.sqlite"))) as store,
        serving(make_app(None, Serving(shelf=Shelf(store)))) as address,
    ):
        one = Opened(browser, address)
        one.heard.expected += AWAY
        yield Barn(store, gym, work, one)
        one.close()
        assert one.heard.complaints == []
        away = [url for url in one.heard.asked if url.startswith(("http", "ws"))]
        assert [url for url in away if not url.startswith(f"{address}/")] == []


def at_rack(barn: Barn, size: str = "phone", **settings: Any) -> Page:
    """Open Osric's page."""
    page = barn.opened.page(size, **settings)
    page.goto("/rack?lifter=Osric")
    expect(page.locator("#wire")).to_have_text(re.compile("in the log"))
    return page


def shown(page: Page, number: int) -> None:
    """Wait until this set is the one to do."""
    expect(page.locator(f".set[data-number='{number}']")).to_be_visible()
    expect(page.locator(".set[data-number]:not([hidden])")).to_have_count(1)


def log(page: Page, *, left: str = "") -> None:
    """Log the set that is shown, as it was planned."""
    if left:
        page.locator(".left").get_by_text(left, exact=True).click()
    page.get_by_role("button", name="Log this set").click()


def waits(page: Page, count: int) -> None:
    """Wait until the page says how many wait."""
    said = "in the log" if count == 0 else f"{count} entr(y waits|ies wait)"
    expect(page.locator("#wire")).to_have_text(re.compile(said))


def test_a_whole_set_by_thumb(barn: Barn) -> None:
    page = at_rack(barn)
    first, second = barn.work.steps[0], barn.work.steps[1]
    shown(page, 1)
    step = page.locator(".set[data-number='1']")
    expect(step.locator(".big")).to_contain_text(f"{first.top_kg:.1f} kg")
    expect(step.locator(".change li").last).to_contain_text("On the connectors")
    page.get_by_role("button", name="One rep fewer").tap()
    page.locator(".left").get_by_text("3", exact=True).tap()
    page.get_by_role("button", name="Log this set").tap()
    shown(page, 2)
    waits(page, 0)
    logged = barn.logged()
    assert [(one.reps, one.reps_left, one.number) for one in logged] == [(first.reps - 1, 3.0, 1)]
    assert logged[0].rig == first.rig
    change = page.locator(".set[data-number='2'] .change")
    expect(change.locator("li").first).to_contain_text("nobody under it")
    expect(change).to_contain_text("Collars off")
    expect(page.locator("#clock")).to_contain_text(f"of {int(second.rest_s // 60)}:")
    page.get_by_text("Missed a rep").tap()
    page.get_by_text("bottom third").tap()
    log(page)
    shown(page, 3)
    waits(page, 0)
    missed = barn.logged()[-1]
    assert (missed.missed, missed.third, missed.reps_left) == (True, "lower", None)
    page.get_by_role("button", name="Take back the last one").tap()
    shown(page, 2)
    waits(page, 0)
    assert [one.number for one in barn.logged()] == [1]
    assert count_sets(barn.store, barn.gym) == 3


def test_logged_without_a_network_and_reloaded(barn: Barn) -> None:
    page = at_rack(barn)
    page.evaluate("navigator.serviceWorker.ready")
    page.wait_for_function(
        "caches.open('topheavy-rack-1').then((s) => s.keys()).then((k) => k.length > 8)"
    )
    page.context.set_offline(True)
    log(page, left="2")
    shown(page, 2)
    waits(page, 1)
    log(page)
    shown(page, 3)
    waits(page, 2)
    page.reload()
    shown(page, 3)
    waits(page, 2)
    expect(page.locator("#done .waits")).to_have_count(2)
    page.get_by_role("button", name="Take back the last one").click()
    shown(page, 2)
    log(page, left="1")
    shown(page, 3)
    assert barn.logged() == []
    page.context.set_offline(False)
    waits(page, 0)
    expect(page.locator("#done li")).to_have_count(2)
    assert [(one.number, one.reps_left) for one in barn.logged()] == [(1, 2.0), (2, 1.0)]
    # The one that was taken back is kept too, and nothing came twice.
    assert count_sets(barn.store, barn.gym) == 4
    page.reload()
    shown(page, 3)
    waits(page, 0)
    assert count_sets(barn.store, barn.gym) == 4


def test_an_answer_that_is_lost_doubles_nothing(barn: Barn) -> None:
    page = at_rack(barn)
    lost: list[Any] = []

    def lose(route: Any) -> None:
        if lost:
            route.continue_()
            return
        lost.append(route.fetch())
        route.abort("internetdisconnected")

    page.route("**/api/sets", lose)
    log(page)
    shown(page, 2)
    waits(page, 1)
    assert lost[0].ok
    assert len(barn.logged()) == 1
    waits(page, 0)
    assert count_sets(barn.store, barn.gym) == 1


def test_two_phones_at_once(barn: Barn) -> None:
    one, two = at_rack(barn), at_rack(barn, "desktop")
    one.context.set_offline(True)
    log(one)
    log(one)
    waits(one, 2)
    log(two)
    shown(two, 2)
    waits(two, 0)
    one.context.set_offline(False)
    waits(one, 0)
    # Nothing is lost: the same set was logged on both, and the log has both.
    assert sorted(logged.number or 0 for logged in barn.logged()) == [1, 1, 2]
    shown(two, 3)


def test_the_plan_is_followed_live(barn: Barn) -> None:
    page = at_rack(barn)
    lighter = work_for(kind="technique")
    change = Change(author="coach", at=now())
    give_work(barn.store, barn.gym, lighter, change, replaces=barn.work.id)
    expect(page.locator(".whose")).to_contain_text("technique day")
    log(page)
    shown(page, 2)
    waits(page, 0)
    assert len(barn.logged()) == 1


def test_a_refused_entry_is_kept_and_shown(barn: Barn) -> None:
    page = at_rack(barn)
    page.get_by_text("Note, other plates").click()
    page.locator("#straight").fill("9000 kg")
    log(page)
    refused = page.locator("#refused")
    expect(refused).to_contain_text("kept on this phone")
    expect(refused).to_contain_text("Got 9000.0. Wanted: above 0, up to 2000 kg.")
    assert barn.logged() == []
    page.reload()
    expect(page.locator("#refused")).to_contain_text("kept on this phone")
    shown(page, 1)
    page.get_by_role("button", name="Delete it here").click()
    page.get_by_role("button", name="in no log").click()
    expect(refused).to_be_hidden()


def test_signed_out_meanwhile_keeps_the_set(barn: Barn) -> None:
    cookie = cookie_of(barn.store, "osric", lifter="Osric")

    def come_in(page: Page) -> None:
        name, value = cookie
        page.context.add_cookies([{"name": name, "value": value, "url": barn.opened.address}])

    page = barn.opened.page("phone")
    come_in(page)
    page.goto("/rack")
    shown(page, 1)
    page.context.clear_cookies()
    log(page)
    shown(page, 2)
    expect(page.locator("#wire")).to_contain_text("Sign in to send: 1 entry waits")
    assert barn.logged() == []
    come_in(page)
    waits(page, 0)
    assert [one.by for one in barn.logged()] == ["osric"]


@pytest.mark.parametrize(
    ("size", "scheme", "more"),
    [("phone", "dark", "/rack/give?lifter=Osric"), ("desktop", "light", "/rack?lifter=Pip")],
)
def test_for_everybody(barn: Barn, size: str, scheme: str, more: str) -> None:
    page = at_rack(barn, size, color_scheme=scheme)
    # By keys alone: two more reps than planned, and one left.
    page.locator("#reps").focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    page.locator("[name='left']").first.focus()
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")
    page.locator("#reps").press("Enter")
    shown(page, 2)
    waits(page, 0)
    assert [(one.reps - barn.work.steps[0].reps, one.reps_left) for one in barn.logged()] == [
        (2, 1.0)
    ]
    page.get_by_text("Missed a rep").click()
    for path in ["", *(["/rack"] if size == "phone" else []), more]:
        if path:
            page.goto(path)
        assert violations(page) == [], path
        wide, inside = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide <= inside, path


def test_without_scripts(barn: Barn) -> None:
    page = barn.opened.page("phone", java_script_enabled=False)
    page.goto("/rack?lifter=Osric")
    page.locator("#reps").fill("4")
    page.locator(".left").get_by_text("2", exact=True).click()
    page.get_by_role("button", name="Log this set").click()
    expect(page.locator(".told")).to_contain_text("Logged")
    shown(page, 2)
    assert [(one.reps, one.reps_left) for one in barn.logged()] == [(4, 2.0)]
    page.get_by_role("button", name="Take back the last one").click()
    expect(page.locator(".told")).to_contain_text("Taken back")
    shown(page, 1)
    assert barn.logged() == []


def test_given_taken_away_and_put_back(barn: Barn) -> None:
    page = barn.opened.page("desktop")
    page.goto("/rack")
    expect(page.locator(".work")).to_have_count(1)
    page.get_by_role("button", name="Take away").click()
    expect(page.locator(".told")).to_contain_text("What was logged of it stays")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".work")).to_have_count(1)
