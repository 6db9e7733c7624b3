"""A scene to a picture: SVG, to scale, one floor, one height axis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.picture.bands import draw_bands, draw_pegs
from topheavy.present.picture.draft import Draft
from topheavy.present.picture.facts import facts
from topheavy.present.picture.frame import frame, high_m
from topheavy.present.picture.ironwork import draw_hangs
from topheavy.present.picture.labels import (
    draw_dimensions,
    draw_headers,
    draw_height_axis,
    draw_height_lines,
)
from topheavy.present.picture.legend import draw_captions, draw_key, draw_legend
from topheavy.present.picture.lettering import printable
from topheavy.present.picture.panel import draw_panel
from topheavy.present.picture.pen import Pen
from topheavy.present.picture.plan import plan
from topheavy.present.picture.sheet import CHALK, Sheet
from topheavy.present.picture.station import draw_bar, draw_floor, draw_ground, draw_station
from topheavy.present.picture.words import description, title

if TYPE_CHECKING:
    from topheavy.present.picture.frame import Figure
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene


def draw_rig(scene: Scene) -> str:
    """Draw a rig to scale: one bar end at the bottom and at the top, and its load curve.

    Parameters
    ----------
    scene : Scene
        What to draw.

    Returns
    -------
    str
        SVG 1.1, nothing from outside; 180 mm wide, or 390 px when tall. Each figure is a group of
        class ``figure`` with ``data-pose`` (bottom or top) and ``data-per-m`` [drawing units a
        metre]; in it every link of a piece is a path of class ``link`` with ``data-chain`` (hang
        and piece), in a group of class ``off`` or ``down``; every band is a group of class ``band``
        with ``data-band`` (its tag), its peg one of class ``peg``.
    """
    placed = plan(scene)
    found = facts(scene, placed)
    page = frame(scene, found, placed)
    draft = Draft(Sheet(page.width, page.height, page.printed), scene, placed, found, page)
    _name(draft)
    draft.sheet.box(draft.sheet.root, (0, 0), (page.width, page.height), fill=CHALK)
    draw_height_lines(draft)
    _draw_floors(draft)
    draw_panel(draft)
    for figure in page.figures:
        _draw_figure(draft, figure)
    _draw_axes(draft)
    draw_headers(draft)
    draw_captions(draft)
    draw_legend(draft)
    draw_dimensions(draft)
    draw_key(draft)
    return draft.sheet.text()


def _name(draft: Draft) -> None:
    """Say in words what is drawn, for those who can't see it."""
    scene, sheet = draft.scene, draft.sheet
    ids = [f"rig-{scene.layout}-{word}" for word in ("title", "desc")]
    sheet.root.set("aria-labelledby", " ".join(ids))
    words = (title(scene, draft.found), description(scene, draft.found))
    for id_, tag, text in zip(ids, ("title", "desc"), words, strict=True):
        sheet.add(sheet.root, tag, id=id_).text = printable(text)


def _draw_floors(draft: Draft) -> None:
    page, low_m = draft.page, draft.scene.low_m
    floors = {page.figures[0].scale.y(low_m): page.figures[1].right}
    floors[page.panel.scale.y(low_m)] = page.panel.right
    for floor, right in floors.items():
        draw_floor(draft.sheet, page.axis_x, right, floor)


def _draw_axes(draft: Draft) -> None:
    page = draft.page
    draw_height_axis(draft, page.figures[0].scale, page.top)
    if draft.scene.layout == "tall":
        draw_height_axis(draft, page.panel.scale, page.panel.top)


def _draw_figure(draft: Draft, figure: Figure) -> None:
    scene, placed, bar_m = draft.scene, draft.placed, draft.heights_m[figure.pose]
    group = draft.sheet.group(class_="figure")
    group.set("data-pose", ("bottom", "top")[figure.pose])
    group.set("data-per-m", f"{figure.scale.per_m:.6f}")
    draw_pose(Pen(draft.sheet, group, figure.scale), scene, placed, bar_m)


def draw_pose(pen: Pen, scene: Scene, placed: Plan, bar_m: float) -> None:
    """Draw the end of the bar at a height [m], with what stands behind and lies under it."""
    draw_station(pen, scene, high_m(scene))
    draw_ground(pen, scene, placed)
    draw_pegs(pen, scene, placed, high_m(scene))
    draw_bar(pen, scene, placed, bar_m)
    draw_hangs(pen, scene, placed, bar_m)
    draw_bands(pen, placed, bar_m)
