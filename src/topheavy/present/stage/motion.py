"""Shapes at every height of the bar: stretches over which each shape moves evenly.

The drawing itself is asked at some heights; between them a page moves every number along a straight
line. Heights are put wherever something else happens (a link leaves the floor, leans, comes clear),
and as close together as it takes to stay within a millimetre of the drawing.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from topheavy.present.stage.tracing import PER_M

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from topheavy.present.stage.tracing import Shape

    Poses = Callable[[float], tuple[Shape, ...]]

WITHIN_M: Final = 0.001
"""A shape is drawn so near to where it belongs [m]: half a pixel on a screen."""

CHANGE_M: Final = 0.0006
"""A change is drawn so near to the height where it happens [m]."""

_SHORT_M: Final = 0.006
_SHORT_WITHIN_M: Final = 0.0025
"""Over a stretch that a finger passes in no time, less care will do."""

_LONGER_M: Final = 1e-6
"""A shape that is only there at one height is there a little longer [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Heights over which the same shapes move evenly.

    Parameters
    ----------
    heights_m : tuple of float
        Heights of the bar, rising [m], at least two.
    poses : tuple of tuple of Shape
        The shapes at each.
    """

    heights_m: tuple[float, ...]
    poses: tuple[tuple[Shape, ...], ...]

    def at(self, bar_m: float) -> list[tuple[float, ...]]:
        """Numbers of every shape with the bar at `bar_m` [m], as a page works them out."""
        heights_m = self.heights_m
        last = len(heights_m) - 2
        number = next((i for i in range(last) if bar_m < heights_m[i + 1]), last)
        low_m, high_m = heights_m[number], heights_m[number + 1]
        share = min(max((bar_m - low_m) / (high_m - low_m), 0.0), 1.0)
        return [
            tuple(a + share * (b - a) for a, b in zip(low.numbers, high.numbers, strict=True))
            for low, high in zip(self.poses[number], self.poses[number + 1], strict=True)
        ]


def stretches(
    pose: Poses, span_m: tuple[float, float], changes_m: Sequence[float]
) -> list[Stretch]:
    """Find stretches from the bottom to the top of a lift.

    Parameters
    ----------
    pose : callable
        Shapes with the bar at a height [m].
    span_m : tuple of float
        Bottom and top [m].
    changes_m : sequence of float
        Heights at which shapes are known to change [m]; others are found.
    """
    low_m, high_m = span_m
    inner = sorted({h for h in changes_m if low_m < h < high_m})
    edges = [low_m, *inner, high_m]
    asked: list[tuple[float, tuple[Shape, ...]]] = []
    for start_m, end_m in pairwise(edges):
        # Just short of a change things are still as before it.
        last_m = max(end_m - 0.1 * CHANGE_M, 0.5 * (start_m + end_m)) if end_m < high_m else end_m
        ends = (start_m, pose(start_m)), (last_m, pose(last_m))
        asked += [ends[0], *_asked(pose, *ends), ends[1]]
    return _grouped(asked)


_Asked = tuple[float, tuple["Shape", ...]]


def _asked(pose: Poses, low: _Asked, high: _Asked) -> list[_Asked]:
    """Ask for poses between two heights, until an even move is near enough."""
    wide_m = high[0] - low[0]
    if wide_m <= CHANGE_M:
        return []
    middle_m = 0.5 * (low[0] + high[0])
    middle = (middle_m, pose(middle_m))
    if _alike(low[1], high[1]) and _alike(low[1], middle[1]):
        near_m = _SHORT_WITHIN_M if wide_m <= _SHORT_M else WITHIN_M
        if _off_m(low[1], middle[1], high[1]) <= near_m:
            return []
    return [*_asked(pose, low, middle), middle, *_asked(pose, middle, high)]


def _alike(one: tuple[Shape, ...], other: tuple[Shape, ...]) -> bool:
    """Whether one is the other moved, every shape of the same sort and size."""
    return len(one) == len(other) and all(
        a.sort == b.sort and _same_size(a, b) for a, b in zip(one, other, strict=True)
    )


def _same_size(one: Shape, other: Shape) -> bool:
    return one.kind != "link" or abs(one.numbers[4] - other.numbers[4]) < 1e-6


def _off_m(low: tuple[Shape, ...], middle: tuple[Shape, ...], high: tuple[Shape, ...]) -> float:
    """How far the middle is from half way between both ends [m]."""
    return (
        max(
            abs(0.5 * (a + c) - b)
            for one, two, three in zip(low, middle, high, strict=True)
            for a, b, c in zip(one.numbers, two.numbers, three.numbers, strict=True)
        )
        / PER_M
    )


def _grouped(asked: list[_Asked]) -> list[Stretch]:
    """Put heights together whose shapes are alike; a stretch ends where the next begins."""
    groups: list[list[_Asked]] = []
    for height_m, shapes in asked:
        if groups and _alike(groups[-1][-1][1], shapes):
            groups[-1].append((height_m, shapes))
        else:
            groups.append([(height_m, shapes)])
    found = []
    for number, group in enumerate(groups):
        ends_m = groups[number + 1][0][0] if number + 1 < len(groups) else group[-1][0]
        if len(group) == 1:
            group.append((max(ends_m, group[0][0] + _LONGER_M), group[0][1]))
        found.append(
            Stretch(
                heights_m=tuple(h for h, _ in group), poses=tuple(shapes for _, shapes in group)
            )
        )
    return found
