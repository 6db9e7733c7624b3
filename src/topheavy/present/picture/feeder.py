"""Feeder and connector: from the sleeve down to where the chain hangs, slack when it lies."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from topheavy.mechanics.hang import Doubled
from topheavy.present.picture.links import OUTSIDE_WIDTHS

if TYPE_CHECKING:
    from topheavy.mechanics.hang import Suspension
    from topheavy.present.picture.links import Point
    from topheavy.present.picture.plan import HungAt
    from topheavy.present.picture.scene import HangNote

RING_RADIUS_M: Final = 0.019
RING_WIRE_M: Final = 0.006
STRAP_M: Final = 0.022
"""A ring about 38 mm outside, a strap 22 mm wide: sizes that are seen well, no source."""

_USUAL_STEP_M: Final = {"rings": 0.05, "links": 0.03, "strap": 0.05}
_SHORTEST_STEP_M: Final = 0.008
_LONGEST_LINK_M: Final = 0.06
_SHORTEST_TAIL_M: Final = 0.005
_LIE_M: Final = 0.021
_SLACK_REACH_M: Final = 0.16
_CONNECTOR_WIRE_M: Final = 0.010
LUMP_M: Final = 0.022


@dataclass(frozen=True, slots=True)
class Course:
    """A line through points (x, height) [m] along which something runs."""

    points: tuple[Point, ...]

    @property
    def length_m(self) -> float:
        """Length [m]."""
        return sum(math.dist(a, b) for a, b in pairwise(self.points))

    def at(self, along_m: float) -> Point:
        """Place `along_m` [m] from the start; the ends beyond either end."""
        for start, end in pairwise(self.points):
            step_m = math.dist(start, end)
            if along_m <= step_m and step_m > 0:
                share = max(0.0, along_m / step_m)
                return (
                    start[0] + share * (end[0] - start[0]),
                    start[1] + share * (end[1] - start[1]),
                )
            along_m -= step_m
        return self.points[-1]

    def part(self, from_m: float, to_m: float) -> Course:
        """The stretch between two distances [m] from the start."""
        along_m, corners = 0.0, []
        for start, end in pairwise(self.points):
            along_m += math.dist(start, end)
            if from_m < along_m < to_m:
                corners.append(end)
        return Course((self.at(from_m), *corners, self.at(to_m)))

    def places(self, step_m: float) -> list[Point]:
        """Places every `step_m` [m] from the end back to the start, start first."""
        count = int(self.length_m / step_m + 1e-9)
        return [self.at(self.length_m - step_m * back) for back in range(count, -1, -1)]


@dataclass(frozen=True, slots=True)
class Run:
    """A feeder, or its tail, and how far along it [m] rings or marks sit."""

    course: Course
    rings_m: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """What holds a doubled hang, placed.

    Parameters
    ----------
    runs : tuple of Run
        What is left of the feeder below the connector, if anything; then the feeder from the bar
        centre to the connector.
    step_m : float
        Pitch of a feeder made of links [m].
    connector_m : float
        Inside length of the connector [m]; 0 for a lump.
    connector : tuple of Point
        Upper and lower bearing point.
    """

    runs: tuple[Run, ...]
    step_m: float
    connector_m: float
    connector: tuple[Point, Point]


def hardware(hung: HungAt, note: HangNote, bar_m: float, surface_m: float) -> Hardware | None:
    """Place feeder and connector of a doubled hang, bar at `bar_m` [m]; None for other hangs."""
    if not isinstance(hung.hang, Doubled):
        return None
    held = hung.hang.suspension
    working_m = held.feeder_m
    course = down_and_along((hung.x_m, bar_m), working_m, surface_m)
    marks = _marks(note, working_m)
    runs = [Run(course, tuple(mark for mark in marks if mark <= working_m + 1e-6))]
    whole_m = working_m if held.feeder_whole_m is None else held.feeder_whole_m
    if whole_m - working_m > _SHORTEST_TAIL_M:
        aside_m = -min(hung.half_m + 0.02, 0.09)
        tail = down_and_along(course.points[-1], whole_m - working_m, surface_m, aside_m)
        further = (mark - working_m for mark in marks if working_m + 1e-6 < mark <= whole_m + 1e-6)
        runs.insert(0, Run(tail, tuple(further)))
    return Hardware(
        runs=tuple(runs),
        step_m=_step_m(note),
        connector_m=held.connector_m,
        connector=_connector(held, course, bar_m - working_m - surface_m, surface_m),
    )


def down_and_along(start: Point, length_m: float, surface_m: float, aside_m: float = 0.0) -> Course:
    """Run `length_m` [m] down from `start`, then back and forth along the floor.

    With `aside_m` [m] it first goes so far aside, to hang beside what is below `start`.
    """
    (x_m, height_m), left_m = start, length_m
    points = [start]
    floor_m = min(height_m, surface_m + _LIE_M)
    if aside_m:
        over_m = min(abs(aside_m), 0.6 * left_m)
        drop_m = min(over_m, height_m - floor_m)
        x_m, height_m = x_m + math.copysign(over_m, aside_m), height_m - drop_m
        left_m -= math.hypot(over_m, drop_m)
        points.append((x_m, height_m))
    fall_m = min(left_m, height_m - floor_m)
    points.append((x_m, height_m - fall_m))
    return Course((*points, *_slack(points[-1], left_m - fall_m, surface_m)))


def _slack(start: Point, left_m: float, surface_m: float) -> list[Point]:
    """Lay what is left back and forth, each turn a little above the one before."""
    x_m, height_m = start
    way = 1.0
    points: list[Point] = []
    while left_m > 1e-9:
        run_m = min(left_m, _SLACK_REACH_M)
        x_m += way * run_m
        points.append((x_m, height_m))
        left_m -= run_m
        rise_m = min(left_m, 0.9 * _LIE_M if height_m - surface_m < 0.1 else 0.0)
        if rise_m > 0:
            height_m += rise_m
            left_m -= rise_m
            points.append((x_m, height_m))
        way = -way
    return points


def _step_m(note: HangNote) -> float:
    """Pitch [m] of a feeder made of links: the smallest step between its settings, or a usual one.

    Settings may be several links apart, so a long step is shared out among links of a light chain.
    """
    marks = sorted(note.marks_m)
    steps = [b - a for a, b in pairwise(marks) if b - a >= _SHORTEST_STEP_M]
    step_m = min(steps, default=_USUAL_STEP_M[note.form])
    return step_m / math.ceil(step_m / _LONGEST_LINK_M)


def _marks(note: HangNote, working_m: float) -> list[float]:
    """Distances from the bar centre [m] at which a feeder bears rings or marks."""
    if note.form == "links":
        return []
    if note.marks_m or note.form == "strap":
        return sorted(note.marks_m)
    step_m = _USUAL_STEP_M[note.form]
    return [working_m - step_m * back for back in range(int(working_m / step_m - 1e-9))][::-1]


def _connector(
    held: Suspension, course: Course, above_m: float, surface_m: float
) -> tuple[Point, Point]:
    """Place the connector hanging, leaning on the floor, or lying behind a slack feeder."""
    x_m, top_m = course.points[-1]
    long_m = held.connector_m
    rest_m = surface_m + connector_wire_m(long_m)
    if long_m == 0:
        at = (x_m, max(top_m, surface_m + LUMP_M))
        return at, at
    hangs_to_m = min(surface_m + above_m, top_m) - long_m
    low_m, top_m = max(hangs_to_m, rest_m), max(top_m, rest_m)
    aside_m = math.sqrt(max(0.0, long_m**2 - (top_m - low_m) ** 2))
    if hangs_to_m > surface_m - 0.5 * connector_wire_m(long_m):
        aside_m = 0.0
    return (x_m, top_m), (x_m + aside_m, low_m)


def connector_width_m(long_m: float) -> float:
    """Seen width of a connector of a given inside length [m]; a lump's when it has none."""
    return 2 * LUMP_M if long_m == 0 else min(max(0.55 * long_m, 0.034), 0.07)


def connector_wire_m(long_m: float) -> float:
    """Thickness of its body [m]."""
    return min(_CONNECTOR_WIRE_M, 0.3 * long_m) if long_m else LUMP_M


def feeder_link_wire_m(step_m: float) -> float:
    """Wire diameter [m] of a feeder made of links of the given pitch [m]."""
    return 0.22 * step_m


def feeder_link_width_m(step_m: float) -> float:
    """Outside width [m] of such a link."""
    return OUTSIDE_WIDTHS * feeder_link_wire_m(step_m)
