"""The rig page as the tests see it, and what the library says of the same rig."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

from tests.browser.conftest import PATIENCE_MS
from tests.cli.calling import TINY
from topheavy.gymfile import read_gym
from topheavy.services.chosen import choose
from topheavy.services.counting import links_of
from topheavy.services.reading import hung_straight
from topheavy.web.question import parts_from, place_of
from topheavy.web.words import ChosenWords

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from topheavy.mechanics.rig import Rig

expect.set_options(timeout=PATIENCE_MS)

QUESTION = "/rig?lifter=Ansa&lift=bench+press&bottom=65&top=85"
BOTTOM_M, TOP_M = 0.66, 1.07


def show(page: Page, path: str = QUESTION) -> None:
    """Open the page and wait until the whole lift is drawn."""
    with page.expect_response(re.compile(r"/api/rig/motion")) as moved:
        page.goto(path)
    moved.value.finished()
    expect(page.locator("#answer .found")).to_be_visible()
    expect(page.locator("#grab")).to_be_visible()
    # Only the motion sets links anew; the first pose is followed by it in the same breath.
    page.locator("#stage .live .link").first.wait_for(state="attached")


def rig_of(page: Page) -> tuple[Rig, Any]:
    """Build the rig that the page shows, from its parts, and the place it stands at."""
    told = json.loads(page.locator("#answer .found").get_attribute("data-parts") or "{}")
    plates = [str(kg) for kg in told.pop("plates_kg")]
    for side in ("left", "right"):
        told[f"{side}_band"] = [
            f"{one['tag']}{' doubled' if one['doubled'] else ''} on {one['peg']}"
            for one in told.pop(f"{side}_bands")
        ]
    words = ChosenWords.model_validate(
        {"lifter": "Ansa", "lift": "bench press", **told, "plate": plates}
    )
    place = place_of(read_gym(TINY), words)
    return choose(place, parts_from(words, place)).rig, place


def number(text: str | None) -> float:
    """The first number in a text."""
    found = re.search(r"-?\d+(?:\.\d+)?", text or "")
    assert found, text
    return float(found[0])


def bar_m(page: Page) -> float:
    """Where the bar is, as the slider says [m]."""
    return number(page.locator("#grab").get_attribute("aria-valuenow")) / 100


def checks_out(page: Page) -> float:
    """Hold the shown numbers and links against the library at the shown height [m]."""
    height_m = bar_m(page)
    rig, place = rig_of(page)
    ground = place.ground
    # Shown to a tenth of a centimetre and of a kilogram: half of either, at the curve's slope.
    slack_kg = 0.051 + 0.0005 * max(
        float(rig.curve(ground).slope_at(at)) for at in (height_m - 0.001, height_m + 0.001)
    )
    for place_id, curve in (
        ("#tag", rig.curve(ground, "raising")),
        ("#r-raising", rig.curve(ground, "raising")),
        ("#r-lowering", rig.curve(ground, "lowering")),
        ("#r-straight", hung_straight(rig).curve(ground, "raising")),
    ):
        shown_kg = number(page.locator(place_id).text_content())
        assert abs(shown_kg - float(curve.at(height_m))) <= slack_kg, (place_id, height_m)
    drawn = page.locator("#stage .live [data-part='off'].link").count()
    near = {
        sum(
            links_of(hang, chain, at_m, ground).off
            for hang in rig.right.hangs
            for chain in hang.chains
        )
        for at_m in (height_m - 0.0012, height_m, height_m + 0.0012)
    }
    assert drawn in near
    return height_m
