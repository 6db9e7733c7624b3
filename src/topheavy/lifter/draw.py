"""One strength curve through what was measured, along a shape where nothing was."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.bounds import Box
    from topheavy.lifter.typical import Shape

    Floats = NDArray[np.float64]

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Points:
    """What a curve has to meet.

    Parameters
    ----------
    best_kg : float
        Strength at the weakest height [kg].
    lifted : sequence of (int, float)
        Height index and strength [kg] there: partial bests.
    missed : sequence of (int, float)
        Height index and greatest strength [kg] there.
    under : sequence of array, shape (heights,)
        Straight weight and hung load [kg] of bests under hung load: to be met somewhere.
    at_least : sequence of array, shape (heights,)
        Loads [kg] lifted with more left: never to go below; minus infinity where none was.
    """

    best_kg: float
    lifted: Sequence[tuple[int, float]] = ()
    missed: Sequence[tuple[int, float]] = ()
    under: Sequence[Floats] = ()
    at_least: Sequence[Floats] = ()


def draw_curve(shares: Floats, shape: Shape, points: Points, box: Box) -> Floats:
    """Draw a curve [kg] over the heights.

    It is least at the box's weakest height, where it is the full-range best, or what was lifted
    under hung load when that is more. Above, it goes
    through every partial best, or where one shows less than another from lower down, stays level;
    it meets every best under hung load; between them it rises as the shape does, in monotone
    pieces. It is kept inside the box.

    Parameters
    ----------
    shares : array, shape (heights,)
        Shares of the travel [-].
    shape : Shape
        With its weakest share at the box's weakest height.
    points : Points
        What to meet.
    box : Box
        Allowed curves.

    Returns
    -------
    array, shape (heights,)
        Strength [kg].
    """
    start = box.weakest
    form = shape.at(shares)
    never_below = (*points.under, *points.at_least, box.low_kg)
    hardest = max(float(load_kg[start]) for load_kg in never_below)
    best_kg = min(max(points.best_kg, hardest), float(box.high_kg[start]))
    marks = _never_falling([(start, best_kg), *(m for m in points.lifted if m[0] >= start)])
    for load_kg in points.under:
        marks = _meeting(form, marks, load_kg, (*points.under, *points.at_least))
    line = best_kg * form
    line[start:] = _held_down(form, marks, points.missed)
    for load_kg in (*points.under, *points.at_least):
        line[start:] = np.maximum(line[start:], load_kg[start:])
    return np.clip(line, box.low_kg, box.high_kg)


def _meeting(
    form: Floats, marks: list[tuple[int, float]], load_kg: Floats, others: Sequence[Floats]
) -> list[tuple[int, float]]:
    """Add the mark where the curve meets a hung load: where it would come nearest to it.

    Only where the load is no less than what was lifted from lower down, or under other hung loads
    at that height; nowhere when the load is less than that all the way.
    """
    start = marks[0][0]
    lifted = np.zeros(form.size)
    for at, mark_kg in marks:
        lifted[at:] = mark_kg
    needed = np.max([lifted, *(other for other in others if other is not load_kg)], axis=0)
    spare = np.full(form.size, np.inf)
    spare[start:] = _along(form, marks) - load_kg[start:]
    spare[load_kg < needed * (1 - _ROUNDING)] = np.inf
    at = int(np.argmin(spare))
    if not np.isfinite(spare[at]):
        return marks
    return _never_falling([*marks, (at, float(load_kg[at]))])


def _never_falling(marks: list[tuple[int, float]]) -> list[tuple[int, float]]:
    """Marks in order of height; one that shows less than another from lower down is lifted."""
    found: dict[int, float] = {}
    most = 0.0
    for at, load_kg in sorted(marks):
        most = max(most, load_kg)
        found[at] = most
    return list(found.items())


def _along(form: Floats, marks: list[tuple[int, float]]) -> Floats:
    """Rise from mark to mark as the form does, and past the last in proportion to it.

    From the first mark, the weakest height, up.
    """
    start = marks[0][0]
    line = np.empty(form.size - start)
    for (at, low), (end, high) in pairwise(marks):
        part = form[at : end + 1]
        rise = part[-1] - part[0]
        steps = np.arange(part.size) / (part.size - 1)
        share = (part - part[0]) / rise if rise > _ROUNDING else steps
        line[at - start : end + 1 - start] = low + (high - low) * share
    last, load_kg = marks[-1]
    line[last - start :] = load_kg * form[last:] / form[last]
    return line


def _held_down(
    form: Floats, marks: list[tuple[int, float]], missed: Sequence[tuple[int, float]]
) -> Floats:
    """Draw along the marks, held down to each miss as far as lifts from below allow."""
    start = marks[0][0]
    above = _along(form, marks)
    for at, load_kg in sorted(missed, reverse=True):
        if at <= start or above[at - start] <= load_kg:
            continue
        least = max(mark[1] for mark in marks if mark[0] <= at)
        others = [mark for mark in marks if mark[0] != at]
        marks = _never_falling([*others, (at, max(load_kg, least))])
        above = _along(form, marks)
    return above
