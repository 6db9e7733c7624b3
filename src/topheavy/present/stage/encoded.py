"""Stage and motion as plain lists and numbers, short enough to be sent to a phone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.present.stage.motion import Stretch
    from topheavy.present.stage.stage import Corners, Stage
    from topheavy.present.stage.tracing import Look, Shape

_PLACES: Final = 2


def encode_stage(stage: Stage) -> dict[str, Any]:
    """Write a stage as plain values; the keys are those of `Stage`, in the same units."""
    looks: dict[Look, int] = {}
    return {
        "bottom_m": stage.bottom_m,
        "top_m": stage.top_m,
        "low_m": stage.low_m,
        "high_m": stage.high_m,
        "width_m": stage.width_m,
        "surface_m": stage.surface_m,
        "sleeve_end_m": stage.sleeve_end_m,
        "straight_weight_kg": stage.straight_weight_kg,
        "raising": _corners(stage.raising),
        "lowering": _corners(stage.lowering),
        "straight": _corners(stage.straight),
        "wanted": _corners(stage.wanted),
        "kinds": [
            {
                "size": kind.size,
                "links": kind.links,
                "pieces": kind.pieces,
                "steps": [[round(height_m, 5), off] for height_m, off in kind.steps],
            }
            for kind in stage.kinds
        ],
        "still": _shapes(stage.still, looks),
        "pose": _shapes(stage.pose, looks),
        "looks": [list(look) for look in looks],
        "bar_m": stage.bar_m,
        "title": stage.title,
        "description": stage.description,
    }


def encode_motion(found: Iterable[Stretch]) -> dict[str, Any]:
    """Write stretches: each shape as kind, number of its look, and a track for each number.

    A track is a number that stays, or a list of numbers, one for each height of the stretch.
    """
    looks: dict[Look, int] = {}
    encoded = [
        {
            "heights_m": [round(height_m, 6) for height_m in stretch.heights_m],
            "shapes": [_moved(shapes, looks) for shapes in zip(*stretch.poses, strict=True)],
        }
        for stretch in found
    ]
    return {"looks": [list(look) for look in looks], "stretches": encoded}


def _corners(corners: Corners) -> list[list[float]]:
    return [[round(height_m, 6), round(load_kg, 4)] for height_m, load_kg in corners]


def _shapes(shapes: Iterable[Shape], looks: dict[Look, int]) -> list[list[Any]]:
    return [
        [shape.kind, _number(shape.look, looks), *_rounded(shape.numbers), *_outline(shape)]
        for shape in shapes
    ]


def _moved(shapes: Sequence[Shape], looks: dict[Look, int]) -> list[Any]:
    first = shapes[0]
    tracks: list[Any] = []
    for values in zip(*(shape.numbers for shape in shapes), strict=True):
        track = _rounded(values)
        tracks.append(track[0] if min(track) == max(track) else track)
    return [first.kind, _number(first.look, looks), *tracks, *_outline(first)]


def _number(look: Look, looks: dict[Look, int]) -> int:
    return looks.setdefault(look, len(looks))


def _outline(shape: Shape) -> list[str]:
    return [shape.outline] if shape.outline else []


def _rounded(values: Iterable[float]) -> list[float]:
    return [round(value, _PLACES) + 0.0 for value in values]
