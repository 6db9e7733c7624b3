"""Where lifts fail: misses by thirds of the way up, and what was on the bar there."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from topheavy.gym.records import THIRDS, MissedRep

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.gym.records import Third
    from topheavy.training.review.seen import LiftLog, SeenSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Misses in one third of the way up.

    Parameters
    ----------
    third : {'lower', 'middle', 'top'}
        Which.
    straight, hung : int
        First repetitions missed without and with chain or bands.
    tired : int
        Repetitions missed after others: the lifter was tired, so where says little.
    height_m : float or None
        Middle of the third [m]; None where the heights were never measured.
    load_kg : float or None
        Middle load there of the first repetitions missed, or else of all [kg].
    hung_there_kg, hung_top_kg : float or None
        What chain and bands put on the bar there and at the top, the middle of the misses with
        them [kg]; None where none hung.
    """

    third: Third
    straight: int
    hung: int
    tired: int
    height_m: float | None
    load_kg: float | None
    hung_there_kg: float | None
    hung_top_kg: float | None

    @property
    def first(self) -> int:
        """First repetitions that were missed."""
        return self.straight + self.hung


def stops_of(log: LiftLog) -> tuple[Stop, ...]:
    """Count misses by thirds, from the lower up; empty where nobody noted one.

    Parameters
    ----------
    log : LiftLog
        Sets of one lifter in one lift.
    """
    missed = [one for one in log.sets if one.third is not None]
    if not missed:
        return ()
    return tuple(_stop(third, missed, log.travel) for third in THIRDS)


def unplaced_misses(log: LiftLog) -> int:
    """How many misses say nothing of where they stopped.

    Parameters
    ----------
    log : LiftLog
        Sets of one lifter in one lift.
    """
    return sum(one.missed and one.third is None for one in log.sets)


def _stop(third: Third, missed: Sequence[SeenSet], travel: Travel | None) -> Stop:
    here = [one for one in missed if one.third == third]
    first = [one for one in here if not one.reps]
    told = [one for one in first or here if one.placed]
    height_m = None if travel is None else _middle_m(third, travel)
    loads = [] if height_m is None else [one.straight_kg + _hung(one, height_m) for one in told]
    if height_m is None:
        loads = [one.straight_kg for one in told if not one.rig]
    with_hung = [one for one in told if one.hung is not None and height_m is not None]
    return Stop(
        third=third,
        straight=sum(not one.rig for one in first),
        hung=sum(bool(one.rig) for one in first),
        tired=len(here) - len(first),
        height_m=height_m,
        load_kg=_middle(loads),
        hung_there_kg=_middle([_hung(one, height_m) for one in with_hung if height_m is not None]),
        hung_top_kg=_middle([_hung(one, travel.top_m) for one in with_hung if travel is not None]),
    )


def _middle_m(third: Third, travel: Travel) -> float:
    """Where a miss in this third is taken to have stopped: as the strength curve takes it."""
    return MissedRep(straight_kg=1.0, third=third).stopped_at(travel)[0]


def _hung(one: SeenSet, height_m: float) -> float:
    return 0.0 if one.hung is None else float(one.hung.at(height_m))


def _middle(values: Sequence[float]) -> float | None:
    return median(values) if values else None
