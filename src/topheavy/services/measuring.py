"""Heights of a lifter from readings of a tape: mean, how sure it is, and what looks wrong."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.gym.people import Travel
from topheavy.mechanics.chain import require_positive
from topheavy.phrase import Amount, Phrase

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.lifts import Lift

TAPE_U_M: Final = 0.003
"""Standard uncertainty [m] that no repeating shows: the tape's zero, the bar's centre found by eye.
A guess, no source."""

ONE_READING_U_M: Final = 0.005
"""Standard uncertainty [m] of a height that was read once. A guess, no source."""

APART_M: Final = 0.01
"""Readings of one height further apart ask for another [m]: common practice, no source."""

MOST_READINGS: Final = 9

_USUAL_TRAVEL_M: Final[dict[str, tuple[float, float]]] = {
    "bench press": (0.20, 0.65),
    "paused bench press": (0.20, 0.65),
    "close-grip bench press": (0.20, 0.65),
    "incline press": (0.20, 0.70),
    "floor press": (0.15, 0.50),
    "squat": (0.30, 0.95),
    "paused squat": (0.30, 0.95),
    "front squat": (0.30, 0.95),
    "box squat": (0.20, 0.90),
    "deadlift": (0.25, 0.90),
    "paused deadlift": (0.25, 0.90),
    "sumo deadlift": (0.20, 0.80),
    "deficit deadlift": (0.30, 1.00),
    "overhead press": (0.35, 1.00),
    "push press": (0.35, 1.00),
}
"""How far the bar usually goes in a full lift [m]; beyond it a height is asked for again. A guard
against slips of the tape, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Height:
    """One height from its readings.

    Parameters
    ----------
    mean_m, u_m : float
        Mean and its standard uncertainty [m].
    readings : int
        How many.
    spread_m : float
        Largest less smallest reading [m].
    """

    mean_m: float
    u_m: float
    readings: int
    spread_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measuring:
    """Bottom and top of a lift as they were measured.

    Parameters
    ----------
    bottom, top : Height
        Both heights.
    travel : Travel
        The same, with the larger of their uncertainties, rounded up to a millimetre.
    remarks : tuple of Phrase
        What to look at again; empty when all is well.
    """

    bottom: Height
    top: Height
    travel: Travel
    remarks: tuple[Phrase, ...]


def measure(lift: Lift, bottom_m: Sequence[float], top_m: Sequence[float]) -> Measuring:
    """Make heights of readings.

    The scatter of both heights is taken together, for it is the same hand, tape and lifter; it is
    put together with what no repeating shows.

    Parameters
    ----------
    lift : Lift
        Which.
    bottom_m, top_m : sequence of float
        Readings of each height [m], one or more, each above 0.

    Raises
    ------
    BadInputError
        No reading, too many, a height that no human reaches, or bottom not below top.

    Notes
    -----
    The mean of n readings has the standard uncertainty s / sqrt(n), with s from the deviations of
    both series over their degrees of freedom: JCGM 100:2008, 4.2.3 and 4.2.4 (from memory).

    Examples
    --------
    >>> from topheavy.gym.lifts import LIFTS
    >>> found = measure(LIFTS["bench press"], [0.660, 0.664], [1.07, 1.07])
    >>> round(found.bottom.mean_m, 3), round(found.travel.height_u_m, 3)
    (0.662, 0.004)
    """
    readings = {"bottom": tuple(bottom_m), "top": tuple(top_m)}
    for name, own in readings.items():
        if not 0 < len(own) <= MOST_READINGS:
            raise BadInputError(
                "No reading" if not own else "So many readings of one height",
                field=name,
                got=len(own) or None,
                wanted=f"1 to {MOST_READINGS} readings, two or three are good",
            )
        for value_m in own:
            require_positive(name, value_m)
    scatter_m = _scatter_m(*readings.values())
    bottom, top = (_height(own, scatter_m) for own in readings.values())
    lift.check_heights(bottom.mean_m, top.mean_m, field="heights")
    u_m = math.ceil(1000 * max(bottom.u_m, top.u_m) - 1e-9) / 1000
    travel = Travel(bottom_m=bottom.mean_m, top_m=top.mean_m, height_u_m=u_m)
    return Measuring(bottom=bottom, top=top, travel=travel, remarks=_remarks(lift, bottom, top))


def _scatter_m(*series: tuple[float, ...]) -> float | None:
    """Standard deviation of one reading [m], both heights together; None when none repeats."""
    free = sum(len(own) - 1 for own in series)
    if free == 0:
        return None
    squares = sum((value - sum(own) / len(own)) ** 2 for own in series for value in own)
    return math.sqrt(squares / free)


def _height(own: tuple[float, ...], scatter_m: float | None) -> Height:
    mean_m = sum(own) / len(own)
    u_m = ONE_READING_U_M
    if scatter_m is not None:
        u_m = math.hypot(scatter_m / math.sqrt(len(own)), TAPE_U_M)
    return Height(mean_m=mean_m, u_m=u_m, readings=len(own), spread_m=max(own) - min(own))


def _remarks(lift: Lift, bottom: Height, top: Height) -> tuple[Phrase, ...]:
    found = []
    for word, one in (("bottom", bottom), ("top", top)):
        if one.spread_m > APART_M + 1e-9:
            found.append(
                Phrase(
                    f"Readings of the {word} lie {{}} apart: take it once more, with the lifter "
                    "set as in the lift.",
                    (Amount(one.spread_m, "length"),),
                )
            )
        elif one.readings == 1:
            found.append(
                Phrase(f"The {word} was read once: twice is better, nothing matters more.")
            )
    travel_m = top.mean_m - bottom.mean_m
    low_m, high_m = _USUAL_TRAVEL_M.get(lift.name, (0.0, math.inf))
    if not low_m <= travel_m <= high_m:
        found.append(
            Phrase(
                f"A {lift.name} usually moves the bar by {{}} to {{}}, this one by {{}}: look at "
                "both heights again.",
                tuple(Amount(value_m, "length") for value_m in (low_m, high_m, travel_m)),
            )
        )
    return tuple(found)
