"""Where figures, curve and words stand on the sheet, wide or tall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.picture.captions import LEADING, caption, key_of, legend_rows
from topheavy.present.picture.sheet import Scale
from topheavy.present.picture.station import FLOOR_UNITS

if TYPE_CHECKING:
    from topheavy.present.picture.captions import Line
    from topheavy.present.picture.facts import Facts
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene

WIDE: Final = 510.0
"""Width of the wide sheet: 180 mm in printer's points, so a size is what the page shows."""

TALL: Final = 390.0
"""Width of the tall sheet: a phone's, in pixels."""

_WIDE_HEIGHT: Final = 258.0
_TALL_HEIGHT: Final = 300.0
_PANEL_LEAST: Final = 124.0
_PANEL_MOST: Final = 160.0
_COLUMN_LEAST: Final = 98.0
"""Heights of the figures, widths of curve and figures [drawing units], as limits."""


@dataclass(frozen=True, slots=True)
class Type:
    """Sizes of type [drawing units]."""

    small: float
    body: float
    label: float
    strong: float


WIDE_TYPE: Final = Type(small=7.4, body=8.2, label=9.5, strong=14.0)
TALL_TYPE: Final = Type(small=11.0, body=12.0, label=14.0, strong=19.0)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: its scale, its column [drawing units], its pose (0 bottom, 1 top)."""

    scale: Scale
    left: float
    right: float
    pose: int


@dataclass(frozen=True, slots=True)
class Panel:
    """The curve: height scale, plot edges, top, baselines of title and tick figures, type."""

    scale: Scale
    left: float
    right: float
    top: float
    title: float
    ticks: float
    type: Type


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The whole sheet.

    Parameters
    ----------
    width, height : float
        Size [drawing units].
    printed : tuple of str
        Width and height with their printing units.
    type : Type
        Sizes of type.
    axis_x : float
        Where the height axis stands.
    header, top : float
        Top of the words above the figures, and of the figures.
    figures : tuple of Figure
        At the bottom, at the top.
    panel : Panel
        The curve.
    captions : float
        Baseline of the first line under the figures.
    caption_lines : tuple of list of Line
        What stands there.
    legend : float
        Baseline of the first line under the curve.
    key_x, key : float
        Left edge and first baseline of the key.
    key_lines : list of str
        The key.
    """

    width: float
    height: float
    printed: tuple[str, str]
    type: Type
    axis_x: float
    header: float
    top: float
    figures: tuple[Figure, Figure]
    panel: Panel
    captions: float
    caption_lines: tuple[list[Line], list[Line]]
    legend: float
    key_x: float
    key: float
    key_lines: list[str]


def frame(scene: Scene, found: Facts, placed: Plan) -> Frame:
    """Lay out the sheet for a scene."""
    return (_tall if scene.layout == "tall" else _wide)(scene, found, placed)


def high_m(scene: Scene) -> float:
    """Height [m] that the figures need above the datum: the bar with its plates, and pegs."""
    radius_m = max((0.5 * disc.diameter_m for disc in scene.drawn_discs()), default=0.0)
    over_bar_m = scene.top_m + max(radius_m + 0.02, 0.09 * (scene.top_m - scene.low_m))
    pegs_m = [peg.height_m + 0.04 for band in scene.drawn_end.bands for peg in band.pegs]
    return max([over_bar_m, *pegs_m])


def _head(scene: Scene, type_: Type, margin: float) -> float:
    """Top of the words above the figures: below the heading, if there is one."""
    return margin + (1.9 * type_.label if scene.heading else 0.0)


def _figures(
    lefts: tuple[float, float], column: float, zero: float, per_m: float
) -> tuple[Figure, Figure]:
    bottom, top = (
        Figure(Scale(x, zero, per_m), x, x + column, pose) for pose, x in enumerate(lefts)
    )
    return bottom, top


def _captions(
    scene: Scene, found: Facts, room: float, size: float
) -> tuple[list[Line], list[Line]]:
    return caption(scene, found, 0, room, size), caption(scene, found, 1, room, size)


def _wide(scene: Scene, found: Facts, placed: Plan) -> Frame:
    type_, margin, axis, gap = WIDE_TYPE, 8.0, 26.0, 12.0
    spare = WIDE - 2 * margin - axis - 3 * gap
    span_m = high_m(scene) - scene.low_m
    per_m = min(_WIDE_HEIGHT / span_m, (spare - _PANEL_LEAST) / (2 * placed.width_m))
    column = max(_COLUMN_LEAST, placed.width_m * per_m)
    panel_width = min(_PANEL_MOST, spare - 2 * column)
    column = (spare - panel_width) / 2
    header = _head(scene, type_, margin)
    top = header + 2.1 * type_.strong
    floor = top + span_m * per_m
    zero = floor + scene.low_m * per_m
    axis_x = margin + axis
    lefts = (axis_x + gap, axis_x + 2 * gap + column)
    panel_left = lefts[1] + column + gap
    ticks = floor + FLOOR_UNITS + type_.small + 1.0
    step = LEADING * type_.small
    captions, legend = floor + FLOOR_UNITS + type_.small + 3.0, ticks + step + 2.0
    lines = _captions(scene, found, column + 0.5 * gap, type_.small)
    key = max(captions + max(map(len, lines)) * step, legend + legend_rows(found) * step) + 6.0
    key_lines = key_of(scene, panel_left - lefts[0] - gap, type_.body)
    key = min(
        key,
        max(
            captions + max(map(len, lines)) * step + 6.0,
            legend + legend_rows(found) * step - len(key_lines) * LEADING * type_.body,
        ),
    )
    height = (
        max(
            key + (len(key_lines) - 1) * LEADING * type_.body,
            legend + (legend_rows(found) - 1) * step,
        )
        + margin
    )
    return Frame(
        width=WIDE,
        height=height,
        printed=("180mm", f"{height * 180 / WIDE:.2f}mm"),
        type=type_,
        axis_x=axis_x,
        header=header,
        top=top,
        figures=_figures(lefts, column, zero, per_m),
        panel=Panel(
            scale=Scale(panel_left, zero, per_m),
            left=panel_left,
            right=panel_left + panel_width,
            top=top,
            title=header + type_.body,
            ticks=ticks,
            type=type_,
        ),
        captions=captions,
        caption_lines=lines,
        legend=legend,
        key_x=lefts[0],
        key=key,
        key_lines=key_lines,
    )


def _tall(scene: Scene, found: Facts, placed: Plan) -> Frame:
    type_, margin, axis, gap = TALL_TYPE, 12.0, 32.0, 10.0
    column = (TALL - 2 * margin - axis - 2 * gap) / 2
    span_m = high_m(scene) - scene.low_m
    per_m = min(_TALL_HEIGHT / span_m, column / placed.width_m)
    header = _head(scene, type_, margin)
    top = header + 2.1 * type_.strong
    floor = top + span_m * per_m
    axis_x = margin + axis
    step = LEADING * type_.small
    captions = floor + FLOOR_UNITS + type_.small + 5.0
    lines = _captions(scene, found, column, type_.small)
    key = captions + max(map(len, lines)) * step + 8.0
    key_lines = key_of(scene, TALL - 2 * margin, type_.body)
    title = key + len(key_lines) * LEADING * type_.body + 1.2 * type_.body
    panel_top = title + 6.0
    rise_m = scene.top_m - scene.low_m
    panel_floor = panel_top + rise_m * per_m + 1.6 * type_.label
    ticks = panel_floor + FLOOR_UNITS + type_.small + 1.0
    legend = ticks + step + 4.0
    height = legend + (legend_rows(found) - 1) * step + margin
    return Frame(
        width=TALL,
        height=height,
        printed=(f"{TALL:.0f}", f"{height:.2f}"),
        type=type_,
        axis_x=axis_x,
        header=header,
        top=top,
        figures=_figures(
            (axis_x + gap, axis_x + 2 * gap + column), column, floor + scene.low_m * per_m, per_m
        ),
        panel=Panel(
            scale=Scale(axis_x, panel_floor + scene.low_m * per_m, per_m),
            left=axis_x + gap,
            right=TALL - margin,
            top=panel_top,
            title=title,
            ticks=ticks,
            type=type_,
        ),
        captions=captions,
        caption_lines=lines,
        legend=legend,
        key_x=margin,
        key=key,
        key_lines=key_lines,
    )
