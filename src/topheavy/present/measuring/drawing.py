"""A lifter and the bar from the side, and the tape from the floor to the middle of the bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.present.picture.pen import Pen
from topheavy.present.picture.sheet import (
    BRIGHT,
    CHALK,
    EMBER,
    INK,
    PALE,
    RUBBER,
    SLATE,
    STEEL,
    Scale,
    Sheet,
)

if TYPE_CHECKING:
    from topheavy.gym.lifts import Lift
    from topheavy.present.picture.sheet import Point

End = Literal["bottom", "top"]

_PLATE_M: Final = 0.225
_WIDE: Final = 250.0
_HIGH: Final = 270.0
_FLOOR: Final = 262.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pose:
    """A lifter at one end of a lift, from the side; every point x and height [m]."""

    bar: Point
    head: Point
    neck: Point
    body: tuple[Point, ...]
    arm: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scene:
    """Both ends of a lift, and what the drawing of them needs.

    Parameters
    ----------
    bottom, top : _Pose
        Both ends.
    tallest_m : float
        What must find room [m].
    pad_m : float or None
        Height of what the lifter lies on [m]; None for the floor.
    plates : bool
        Whether the bar stands on its plates.
    start : float
        Where x = 0 is in the panel [drawing units].
    tape_m : float
        Where the tape stands [m].
    """

    bottom: _Pose
    top: _Pose
    tallest_m: float
    pad_m: float | None = None
    plates: bool = False
    start: float = 105.0
    tape_m: float = 0.52


_SHIN, _KNEE_UP, _HIP_UP, _NECK_UP = (0.0, 0.07), (0.04, 0.5), (-0.02, 0.93), (0.0, 1.42)
_FEET: Final = ((0.2, 0.03), (-0.05, 0.03))
_STANDING: Final = (*_FEET, _SHIN, _KNEE_UP, _HIP_UP, _NECK_UP)


def _lying(pad_m: float, press_m: float) -> _Pose:
    """On the back, the bar so far [m] above the shoulders."""
    high = pad_m + 0.1
    bar = (0.0, high + press_m)
    elbow = (0.1, high - 0.08) if press_m < 0.4 else (0.01, high + press_m / 2)
    legs = ((0.62, high + 0.02), (0.94, high + 0.06), (0.98, 0.06), (1.12, 0.03))
    if pad_m < 0.2:
        legs = ((0.62, high), (0.86, high + 0.32), (1.02, 0.06), (1.18, 0.03))
    return _Pose(
        bar=bar,
        head=(-0.3, high + 0.03),
        neck=(-0.12, high),
        body=((-0.12, high), *legs),
        arm=((-0.06, high + 0.02), elbow, bar),
    )


_SCENES: Final[dict[str, _Scene]] = {
    "bench": _Scene(
        bottom=_lying(0.43, 0.16),
        top=_lying(0.43, 0.58),
        tallest_m=1.78,
        pad_m=0.43,
        start=84.0,
        tape_m=0.3,
    ),
    "floor": _Scene(
        bottom=_lying(0.02, 0.2), top=_lying(0.02, 0.58), tallest_m=1.78, start=84.0, tape_m=0.3
    ),
    "squat": _Scene(
        bottom=_Pose(
            bar=(0.02, 0.9),
            head=(0.3, 1.08),
            neck=(0.12, 0.9),
            body=(*_FEET, (-0.02, 0.07), (0.32, 0.46), (-0.26, 0.4), (0.12, 0.9)),
            arm=((0.12, 0.88), (0.02, 0.62), (0.02, 0.9)),
        ),
        top=_Pose(
            bar=(-0.06, 1.4),
            head=(0.06, 1.66),
            neck=_NECK_UP,
            body=_STANDING,
            arm=((0.0, 1.38), (-0.06, 1.1), (-0.06, 1.4)),
        ),
        tallest_m=1.85,
    ),
    "pull": _Scene(
        bottom=_Pose(
            bar=(0.12, _PLATE_M),
            head=(0.3, 1.12),
            neck=(0.1, 0.98),
            body=(*_FEET, (-0.02, 0.07), (0.1, 0.5), (-0.34, 0.62), (0.1, 0.98)),
            arm=((0.1, 0.95), (0.12, 0.6), (0.12, _PLATE_M)),
        ),
        top=_Pose(
            bar=(0.1, 0.76),
            head=(0.06, 1.66),
            neck=_NECK_UP,
            body=_STANDING,
            arm=((0.0, 1.38), (0.03, 1.06), (0.1, 0.76)),
        ),
        tallest_m=1.85,
        plates=True,
    ),
    "press": _Scene(
        bottom=_Pose(
            bar=(0.13, 1.42),
            head=(-0.02, 1.66),
            neck=_NECK_UP,
            body=_STANDING,
            arm=((0.0, 1.38), (0.16, 1.16), (0.13, 1.42)),
        ),
        top=_Pose(
            bar=(0.0, 2.04),
            head=(0.04, 1.66),
            neck=_NECK_UP,
            body=_STANDING,
            arm=((0.0, 1.4), (0.0, 1.72), (0.0, 2.04)),
        ),
        tallest_m=2.3,
    ),
}


def _scene(lift: Lift) -> _Scene:
    if lift.overhead:
        return _SCENES["press"]
    if lift.name == "floor press":
        return _SCENES["floor"]
    if lift.station == "bench":
        return _SCENES["bench"]
    return _SCENES["pull" if "pull" in lift.name or lift.station == "platform" else "squat"]


def measuring_svg(lift: Lift, end: End) -> str:
    """Draw where the tape goes at one end of a lift.

    Parameters
    ----------
    lift : Lift
        Which; the drawing shows a lifter of no one's size.
    end : {'bottom', 'top'}
        Which end.

    Returns
    -------
    str
        SVG 1.1, nothing from outside.

    Examples
    --------
    >>> from topheavy.gym.lifts import LIFTS
    >>> "middle of the bar" in measuring_svg(LIFTS["deadlift"], "bottom")
    True
    """
    scene = _scene(lift)
    pose = scene.bottom if end == "bottom" else scene.top
    sheet = Sheet(_WIDE, _HIGH, ("250", "270"))
    sheet.root.set("aria-labelledby", f"measuring-{end}-title measuring-{end}-desc")
    described = (
        "A lifter and the bar from the side. The tape stands upright on the floor and is read at "
        "the middle of the bar."
    )
    title = f"Where the tape goes at the {end} of the {lift.name}"
    for tag, words in (("title", title), ("desc", described)):
        sheet.add(sheet.root, tag, id=f"measuring-{end}-{tag}").text = words
    sheet.box(sheet.root, (0, 0), (_WIDE, _HIGH), fill=CHALK)
    sheet.box(sheet.root, (0, _FLOOR), (_WIDE, _HIGH), fill=RUBBER)
    per_m = (_FLOOR - 14) / scene.tallest_m
    pen = Pen(sheet, sheet.group(), Scale(scene.start, _FLOOR, per_m))
    _draw(pen, scene, pose)
    _tape(pen, pose.bar, scene.tape_m)
    return sheet.text()


def _draw(pen: Pen, scene: _Scene, pose: _Pose) -> None:
    if scene.pad_m is not None:
        for x in (-0.35, 0.55):
            pen.box((x, 0), (x + 0.06, scene.pad_m - 0.07), fill=SLATE)
        pen.box((-0.48, scene.pad_m - 0.08), (0.72, scene.pad_m), fill=STEEL, rx=2)
    if scene.plates:
        plate = pen.inside(opacity="0.85")
        plate.disc(pose.bar, _PLATE_M, fill=PALE, stroke=STEEL, stroke_width=1.2)
        plate.disc(pose.bar, 0.8 * _PLATE_M, fill="none", stroke=BRIGHT, stroke_width=1)
    _limb(pen, (pose.neck, pose.head), 0.07)
    _limb(pen, pose.body, 0.12)
    pen.disc(pose.head, 0.1, fill=BRIGHT, stroke=INK, stroke_width=0.9)
    _limb(pen, pose.arm, 0.075)
    pen.disc(pose.bar, 0.055, fill=STEEL, stroke=INK, stroke_width=0.9)


def _limb(pen: Pen, points: tuple[Point, ...], width_m: float) -> None:
    """A part of the body: thick, round at its ends, with a dark edge."""
    width = pen.units(width_m)
    for stroke, wide in ((INK, width), (BRIGHT, width - 1.8)):
        pen.trace(
            points, stroke=stroke, stroke_width=wide, stroke_linejoin="round",
            stroke_linecap="round",
        )  # fmt: skip


def _tape(pen: Pen, bar: Point, x: float) -> None:
    """The tape beside the bar, with its marks, and a line to the middle of the bar."""
    top = bar[1]
    pen.line(bar, (x + 0.05, top), stroke=EMBER, stroke_width=1.2, stroke_dasharray="4 2.5")
    pen.box((x - 0.022, 0), (x + 0.022, top), fill=CHALK, stroke=EMBER, stroke_width=1.2)
    for step in range(1, int(top / 0.05)):
        wide = 0.022 if step % 2 == 0 else 0.01
        mark = ((x - 0.022, step * 0.05), (x - 0.022 + wide, step * 0.05))
        pen.line(*mark, stroke=EMBER, stroke_width=0.7)
    for tip, down in ((top, -0.06), (0.0, 0.06)):
        arrow = ((x - 0.05, tip + down), (x, tip), (x + 0.05, tip + down))
        pen.trace(arrow, stroke=EMBER, stroke_width=1.6)
    pen.disc(bar, 0.028, fill=EMBER, stroke=CHALK, stroke_width=1)
