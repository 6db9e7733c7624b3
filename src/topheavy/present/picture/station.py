"""Drawing the bar end, and what stands behind and under it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.present.picture.plan import FLANGE_M, SHAFT_M, SHAFT_RADIUS_M, SLEEVE_RADIUS_M
from topheavy.present.picture.sheet import (
    BRIGHT,
    CHALK,
    FAINT,
    INK,
    PALE,
    RUBBER,
    SLATE,
    STEEL,
    number,
)

if TYPE_CHECKING:
    from topheavy.present.picture.pen import Pen
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene
    from topheavy.present.picture.sheet import Sheet

FLANGE_RADIUS_M: Final = 0.037
COLLAR_RADIUS_M: Final = 0.045
FLOOR_UNITS: Final = 5.0
"""Thickness of the drawn floor [drawing units]."""

_STUB_M: Final = 0.018
_PAD_THICK_M: Final = 0.09
_HALF_PAD_M: Final = 0.1
_POST_M: Final = 0.025
_FOOT_M: Final = (0.07, 0.012)
_UPRIGHT_M: Final = (0.012, 0.087)
_HOLE_STEP_M: Final = 0.05
_HOLE_RADIUS_M: Final = 0.011
"""Looks of a bench and a rack; no source."""


def draw_ground(pen: Pen, scene: Scene, placed: Plan) -> None:
    """Draw the mat the chain lies on, or the platform beside which it lies."""
    surface_m = scene.ground.surface_m
    if surface_m > 0:
        mat = pen.inside(class_="mat", fill=SLATE, stroke=INK, stroke_width=0.6)
        mat.box((placed.block_left_m, surface_m), (placed.width_m, 0.0))
    elif surface_m < 0:
        lowest = [scene.bottom_m - 0.5 * disc.diameter_m for disc in scene.drawn_discs()]
        beside = min(lowest, default=1.0) < -1e-9
        platform = pen.inside(class_="platform", fill=SLATE, stroke=INK, stroke_width=0.6)
        platform.box((0.0, 0.0), (0.5 * SHAFT_M if beside else placed.plates_end_m, surface_m))


def draw_floor(sheet: Sheet, left: float, right: float, floor: float) -> None:
    """Draw the floor line and the rubber under it."""
    group = sheet.group(class_="floor")
    sheet.box(group, (left, floor), (right, floor + FLOOR_UNITS), fill=RUBBER)


def draw_station(pen: Pen, scene: Scene, high_m: float) -> None:
    """Draw what stands inside the plates, faintly: a bench's pad or a rack's upright.

    Heights are to scale; how far inside it stands is not, the shaft is broken there.
    """
    group = pen.inside(class_="station", stroke=STEEL, stroke_width=0.5)
    if scene.station_kind == "rack":
        _draw_upright(group, high_m)
    elif scene.station_kind == "bench" and scene.pad_m is not None:
        _draw_pad(group, scene.pad_m)


def _draw_upright(pen: Pen, high_m: float) -> None:
    left_m, right_m = _UPRIGHT_M
    pen.box((left_m, high_m), (right_m, 0.0), fill=FAINT)
    for step in range(2, int(high_m / _HOLE_STEP_M)):
        centre = (0.5 * (left_m + right_m), step * _HOLE_STEP_M)
        pen.disc(centre, _HOLE_RADIUS_M, fill="none", stroke_width=0.35)


def _draw_pad(pen: Pen, pad_m: float) -> None:
    """Draw half a pad and its foot, cut at the bench's middle."""
    low_m = pad_m - min(_PAD_THICK_M, 0.5 * pad_m)
    foot_m, thick_m = _FOOT_M
    leg = [(0.0, low_m), (_POST_M, low_m), (_POST_M, thick_m), (foot_m, thick_m), (foot_m, 0.0)]
    pen.trace([*leg, (0.0, 0.0)], fill=FAINT)
    (left, top), (right, low) = pen.scale.at((0.0, pad_m)), pen.scale.at((_HALF_PAD_M, low_m))
    curve = 0.3 * (low - top)
    turn = f"A{number(curve)} {number(curve)} 0 0 1 "
    d = (
        f"M{number(left)} {number(top)}L{number(right - curve)} {number(top)}"
        f"{turn}{number(right)} {number(top + curve)}L{number(right)} {number(low - curve)}"
        f"{turn}{number(right - curve)} {number(low)}L{number(left)} {number(low)}"
    )
    pen.outline(d, fill=PALE)


def draw_bar(pen: Pen, scene: Scene, placed: Plan, bar_m: float) -> None:
    """Draw shaft, flange, sleeve, plates and collar, bar centre at `bar_m` [m]."""
    group = pen.inside(class_="bar", stroke=INK, stroke_width=0.5)
    group.group.set("data-bar-y", number(pen.scale.y(bar_m)))

    def turned(from_m: float, to_m: float, radius_m: float, **look: str | float) -> None:
        group.box((from_m, bar_m + radius_m), (to_m, bar_m - radius_m), **look)

    def lit(from_m: float, to_m: float, radius_m: float) -> None:
        height_m, thick = bar_m + 0.4 * radius_m, pen.units(0.3 * radius_m)
        group.line((from_m, height_m), (to_m, height_m), stroke=CHALK, stroke_width=thick)

    _draw_shaft(group, bar_m)
    lit(_STUB_M + 0.02, SHAFT_M - 0.004, SHAFT_RADIUS_M)
    turned(SHAFT_M + FLANGE_M, placed.sleeve_end_m, SLEEVE_RADIUS_M, fill=BRIGHT)
    lit(placed.plates_end_m, placed.sleeve_end_m - 0.004, SLEEVE_RADIUS_M)
    turned(SHAFT_M, SHAFT_M + FLANGE_M - 0.003, FLANGE_RADIUS_M, fill=STEEL)
    for disc, x_m in placed.discs:
        rounding = pen.units(min(0.012, 0.3 * disc.width_m))
        turned(x_m, x_m + disc.width_m, 0.5 * disc.diameter_m, fill=RUBBER, rx=rounding)
        middle_m, reach_m = x_m + 0.5 * disc.width_m, 0.43 * disc.diameter_m
        groove = (middle_m, bar_m + reach_m), (middle_m, bar_m - reach_m)
        group.line(*groove, stroke=SLATE, stroke_width=0.6)
    if scene.collar_m > 0:
        right_m = placed.collar_x_m + scene.collar_m
        turned(placed.collar_x_m, right_m, COLLAR_RADIUS_M, fill=STEEL, rx=0.8)


def _draw_shaft(pen: Pen, bar_m: float) -> None:
    """Draw the shaft with a slanting break: it goes on to the other end."""
    high_m, low_m = bar_m + SHAFT_RADIUS_M, bar_m - SHAFT_RADIUS_M
    slant_m = 0.5 * SHAFT_RADIUS_M
    gap_m = 2.4 / pen.scale.per_m
    stub = [
        (0.0, high_m),
        (_STUB_M + slant_m, high_m),
        (_STUB_M - slant_m, low_m),
        (0.0, low_m),
    ]
    start_m = _STUB_M + gap_m
    shaft = [
        (start_m + slant_m, high_m),
        (SHAFT_M, high_m),
        (SHAFT_M, low_m),
        (start_m - slant_m, low_m),
    ]
    for corners in (stub, shaft):
        pen.trace([*corners, corners[0]], fill=BRIGHT)
