"""Work done, day by day, from what was on the bar at each height."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Literal

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.training.review.seen import LiftLog, SeenSet

Basis = Literal["straight", "curve", "loads"]
"""What work was reckoned from: straight weight, the logged curve, or bottom, mean and top alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayWork:
    """Work of one day in one lift.

    Parameters
    ----------
    day : str
        The day.
    sets, reps : int
        Sets, and repetitions done.
    raising_j, lowering_j : float or None
        Work done on the bar on the way up, and taken from it on the way down [J]; None when the
        heights of the lift were never measured.
    bases : tuple of {'straight', 'curve', 'loads'}
        What it was reckoned from.
    unknown : int
        Sets that are not in it, for what hung can't be told by height.
    """

    day: str
    sets: int
    reps: int
    raising_j: float | None
    lowering_j: float | None
    bases: tuple[Basis, ...]
    unknown: int


def rep_work_j(one: SeenSet, travel: Travel) -> float:
    """Work of raising the bar once, slowly [J]: g times the integral of load over height.

    Parameters
    ----------
    one : SeenSet
        What was on the bar.
    travel : Travel
        From where to where [m].

    Examples
    --------
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> from topheavy.training.review.seen import SeenSet
    >>> chain = LoadCurve.through([0.6, 1.0], [0.0, 20.0])
    >>> one = SeenSet(day="2026-11-25", straight_kg=90.0, reps=5, hung=chain, rig="chain")
    >>> round(rep_work_j(one, Travel(bottom_m=0.6, top_m=1.0)), 1)
    392.3
    """
    area = one.straight_kg * travel.travel_m
    if one.hung is not None:
        area += float(one.hung.integral(travel.bottom_m, travel.top_m))
    return STANDARD_GRAVITY_M_PER_S2 * area


def days_work(log: LiftLog) -> tuple[DayWork, ...]:
    """Add up the work of each day.

    A missed repetition counts for none: how far it went, nobody measured. The way down is reckoned
    by the same loads: piles hold a little more then, and a bar that is dropped is not lowered.

    Parameters
    ----------
    log : LiftLog
        Sets by day.
    """
    known: dict[tuple[int, float], float] = {}
    return tuple(
        _of_day(day, list(sets), log.travel, known)
        for day, sets in groupby(log.sets, key=lambda one: one.day)
    )


def _of_day(
    day: str,
    sets: Sequence[SeenSet],
    travel: Travel | None,
    known: dict[tuple[int, float], float],
) -> DayWork:
    counted = [one for one in sets if one.placed]
    work_j = None
    if travel is not None and counted:
        work_j = sum(one.reps * _once(one, travel, known) for one in counted)
    return DayWork(
        day=day,
        sets=len(sets),
        reps=sum(one.reps for one in sets),
        raising_j=work_j,
        lowering_j=work_j,
        bases=tuple(dict.fromkeys(_basis(one) for one in counted)),
        unknown=len(sets) - len(counted),
    )


def _once(one: SeenSet, travel: Travel, known: dict[tuple[int, float], float]) -> float:
    """Work of one repetition [J], reckoned once for each load."""
    key = (id(one.hung), one.straight_kg)
    if key not in known:
        known[key] = rep_work_j(one, travel)
    return known[key]


def _basis(one: SeenSet) -> Basis:
    if one.hung is None:
        return "straight"
    return "curve" if one.exact else "loads"
