"""The best set with each rig, on equal terms."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.training.review.readings import spread_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.training.review.readings import Reading
    from topheavy.training.review.shapes import Shapes


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The best set with one rig.

    Parameters
    ----------
    reading : Reading
        The set and the straight single it stands for.
    low_kg, high_kg : float
        Between which 95 of 100 readings of it lie [kg].
    """

    reading: Reading
    low_kg: float
    high_kg: float


def bests_of(readings: Iterable[Reading], shapes: Shapes | None) -> tuple[Best, ...]:
    """Find the best set of each rig, the greatest first.

    Of equals the first counts: a best is beaten or it stands. More sets never lower one.

    Parameters
    ----------
    readings : iterable of Reading
        Sets of one lifter in one lift, by day.
    shapes : Shapes or None
        The lifter's.
    """
    found: dict[str, Reading] = {}
    for reading in readings:
        had = found.get(reading.seen.rig)
        if had is None or reading.single_kg > had.single_kg:
            found[reading.seen.rig] = reading
    in_order = sorted(found.values(), key=lambda one: -one.single_kg)
    return tuple(_best(reading, shapes) for reading in in_order)


def best_of_days(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """The set of each day that stands for the greatest single, of those that tell of strength.

    Parameters
    ----------
    readings : iterable of Reading
        Sets of one lifter in one lift, by day.
    """
    found: dict[str, Reading] = {}
    for reading in readings:
        had = found.get(reading.seen.day)
        if reading.told and (had is None or reading.single_kg > had.single_kg):
            found[reading.seen.day] = reading
    return tuple(found[day] for day in sorted(found))


def _best(reading: Reading, shapes: Shapes | None) -> Best:
    low_kg, high_kg = spread_of(reading, shapes)
    return Best(reading=reading, low_kg=low_kg, high_kg=high_kg)
