"""Drawing what hangs: links, feeder, connector, and what goes round the sleeve."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Draped
from topheavy.present.picture.feeder import (
    LUMP_M,
    RING_RADIUS_M,
    RING_WIRE_M,
    STRAP_M,
    connector_width_m,
    connector_wire_m,
    down_and_along,
    feeder_link_width_m,
    feeder_link_wire_m,
    hardware,
)
from topheavy.present.picture.links import Link, fold_offset_m
from topheavy.present.picture.plan import SLEEVE_RADIUS_M, links_at
from topheavy.present.picture.sheet import BRIGHT, INK, PALE, SLATE, STEEL

if TYPE_CHECKING:
    from topheavy.present.picture.feeder import Course, Hardware, Run
    from topheavy.present.picture.pen import Pen
    from topheavy.present.picture.plan import HungAt, Plan
    from topheavy.present.picture.scene import Scene

_SHORTEST_M: Final = 0.004
_MOST_FEEDER_LINKS: Final = 150


def draw_hangs(pen: Pen, scene: Scene, placed: Plan, bar_m: float) -> None:
    """Draw everything that hangs from one bar end, bar at `bar_m` [m], the heap behind."""
    lying, hanging = links_at(scene, placed, bar_m)
    _draw_links(pen, lying, "down", (STEEL, SLATE))
    surface_m = scene.ground.surface_m
    held = []
    for hung in placed.hangs:
        note = scene.note(hung.number)
        ware = hardware(hung, note, bar_m, surface_m)
        if ware is not None:
            held.append(ware)
            _draw_feeder(pen.inside(class_="feeder"), ware, note.form, surface_m)
    _draw_links(pen, hanging, "off", (BRIGHT, STEEL))
    for ware in held:
        _draw_connector(pen, ware, surface_m)
    for hung in placed.hangs:
        _draw_grip(pen, hung, bar_m, surface_m)


def _draw_links(pen: Pen, links: list[Link], state: str, inks: tuple[str, str]) -> None:
    """Draw links of one state in the inks for face-on and edge-on, each named by its chain."""
    thinnest_m = min((link.wire_m for link in links), default=1.0)
    hair = min(0.45, 0.25 * pen.units(thinnest_m))
    group = pen.inside(class_=state, stroke=INK, stroke_width=hair, fill_rule="evenodd")
    for link in links:
        group.link(
            link,
            fill=inks[link.edge_on],
            class_="link",
            data_chain=f"{link.hang}.{link.piece}",
        )


def _draw_feeder(pen: Pen, ware: Hardware, form: str, surface_m: float) -> None:
    for run in ware.runs:
        if form == "links":
            _draw_light_chain(pen, run.course, ware.step_m, surface_m)
        elif form == "strap":
            pen.tube(run.course.points, STRAP_M, PALE)
            _draw_marks(pen, run)
        else:
            _draw_ringed_strap(pen, run)


def _draw_ringed_strap(pen: Pen, run: Run) -> None:
    """Draw a strap that goes from ring to ring, and is not seen inside them."""
    edge_m = 0.0
    for ring_m in (*run.rings_m, math.inf):
        until_m = min(ring_m - RING_RADIUS_M, run.course.length_m)
        if until_m > edge_m:
            pen.tube(run.course.part(edge_m, until_m).points, 0.5 * STRAP_M, PALE)
        edge_m = max(edge_m, ring_m + RING_RADIUS_M)
    radius_m = RING_RADIUS_M - 0.5 * RING_WIRE_M
    wire = pen.units(RING_WIRE_M)
    for ring_m in run.rings_m:
        for ink, wide in ((INK, wire + 0.4), (BRIGHT, max(wire - 0.4, 0.3 * wire))):
            centre = run.course.at(ring_m)
            pen.disc(centre, radius_m, fill="none", stroke=ink, stroke_width=wide)


def _draw_marks(pen: Pen, run: Run) -> None:
    """Draw a stroke across a strap at each of its marks."""
    for mark_m in run.rings_m:
        x_m, height_m = run.course.at(mark_m)
        left, right = (x_m - 0.5 * STRAP_M, height_m), (x_m + 0.5 * STRAP_M, height_m)
        pen.line(left, right, stroke=INK, stroke_width=0.5)


def _draw_light_chain(pen: Pen, course: Course, step_m: float, surface_m: float) -> None:
    step_m = max(step_m, course.length_m / _MOST_FEEDER_LINKS)
    places = course.places(step_m)
    wire_m, width_m = feeder_link_wire_m(step_m), feeder_link_width_m(step_m)
    hair = min(0.35, 0.25 * pen.units(wire_m))
    group = pen.inside(stroke=INK, stroke_width=hair, fill_rule="evenodd")
    pairs = list(pairwise(places))
    for width, ink, some in ((width_m, PALE, pairs[0::2]), (wire_m, STEEL, pairs[1::2])):
        for start, end in some:
            group.link(_part(start, end, wire_m, width).above(surface_m), fill=ink)


def _draw_connector(pen: Pen, ware: Hardware, surface_m: float) -> None:
    start, end = ware.connector
    group = pen.inside(class_="connector", stroke=INK, stroke_width=0.5, fill=SLATE)
    if ware.connector_m == 0:
        group.disc(start, LUMP_M)
        return
    long_m = ware.connector_m
    link = _part(start, end, connector_wire_m(long_m), connector_width_m(long_m))
    group.link(link.above(surface_m), fill_rule="evenodd")


def _part(
    start: tuple[float, float], end: tuple[float, float], wire_m: float, width_m: float
) -> Link:
    """Shape something that is no link of a piece, but is drawn like one."""
    return Link(start=start, end=end, wire_m=wire_m, width_m=width_m, hang=-1, piece=-1, off=True)


def _draw_grip(pen: Pen, hung: HungAt, bar_m: float, surface_m: float) -> None:
    """Draw what goes round the sleeve: a loop, or chain laid across it."""
    group = pen.inside(class_="grip", fill=SLATE, stroke=INK, stroke_width=0.45)
    drop_m = 0.0 if hung.has_feeder else fold_offset_m(hung.hang)
    if drop_m > _SHORTEST_M:
        course = down_and_along((hung.x_m, bar_m), drop_m, surface_m)
        group.tube(course.points, 0.5 * STRAP_M, PALE)
    places, half_m = [hung.x_m], 0.4 * STRAP_M
    if isinstance(hung.hang, Draped):
        half_m = 0.5 * hung.pieces[0].wire_m
        heads = [(p.head_x_m,) if p.middle else p.strand_x_m for p in hung.pieces]
        places = [x_m for head in heads for x_m in head]
    over_m = SLEEVE_RADIUS_M + 0.006
    for x_m in places:
        corner, opposite = (x_m - half_m, bar_m + over_m), (x_m + half_m, bar_m - over_m)
        group.box(corner, opposite, rx=0.7 * pen.units(half_m))
