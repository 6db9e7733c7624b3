"""A one-repetition maximum from the speed of the bar at a known load, with its range."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, TopheavyError
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.one_rm import DAY_TO_DAY
from topheavy.lifter.velocity import LINES
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.lifter.velocity import Kind, LoadVelocityLine

UNBRAKED: Final = 0.8
"""Load, as a share of 1RM [-], from which mean and mean propulsive speed are taken as the same.

Braking was gone from 76.1 +- 7.4 % of 1RM on in the bench press (Sanchez-Medina, Perez &
Gonzalez-Badillo 2010, abstract), and at 80 % in another study (Loturco et al. 2020, abstract); a
third still found some up to 1RM over the full range (Martinez-Cava et al. 2019, abstract). Squat
and deadlift: taken from the bench press.
"""

_STEP_M_PER_S: Final = 0.01


def best_by_speed(
    lift: str, load_kg: float, speed_m_per_s: float, kind: Kind = "mean"
) -> FullRange:
    """Reckon a 1RM from one rep at a known load, moved as fast as the lifter could.

    Parameters
    ----------
    lift : str
        Name of the lift: bench press, squat or deadlift.
    load_kg : float
        Straight weight [kg], > 0.
    speed_m_per_s : float
        Speed on the way up [m/s], > 0.
    kind : {'mean', 'propulsive'}
        Averaged over the whole way up, or until the bar is braked. The published lines are of the
        second; from 80 % of 1RM on both are the same.

    Returns
    -------
    FullRange
        Marked as reckoned. Its uncertainty holds the published error of the line at that speed and
        the day.

    Raises
    ------
    BadInputError
        A lift without a published line, a speed it does not reach, or a mean speed of a load so
        light that the bar was braked.

    Examples
    --------
    >>> best = best_by_speed("bench press", 100.0, 0.40)
    >>> round(best.load_kg, 1), round(best.load_u_kg, 1)
    (118.7, 5.3)
    """
    require_positive("load_kg", load_kg)
    require_positive("speed_m_per_s", speed_m_per_s)
    line = _line_of(lift)
    share = float(line.share_at(speed_m_per_s))
    if kind == "mean" and share < UNBRAKED:
        raise BadInputError(
            "With a load this light the bar is braked before lockout, and its mean speed says less",
            field="speed_m_per_s",
            got=f"{speed_m_per_s:g} m/s, mean, at about {share:.0%} of 1RM",
            wanted="the mean propulsive speed, or a heavier load: from about "
            f"{UNBRAKED:.0%} of 1RM on both are the same",
        )
    relative = math.hypot(_share_u(line, speed_m_per_s) / share, DAY_TO_DAY)
    best_kg = load_kg / share
    return FullRange(load_kg=best_kg, load_u_kg=relative * best_kg, reckoned=True)


def together(bests: Sequence[FullRange]) -> FullRange:
    """Put several bests reckoned from one lifter's bar speed together.

    What a lifter's speed is off the line it is off at every load, so more readings make the mean
    no surer than they are themselves.

    Parameters
    ----------
    bests : sequence of FullRange
        At least one, each with its uncertainty.

    Examples
    --------
    >>> both = [best_by_speed("squat", 150.0, v, "propulsive") for v in (0.50, 0.54)]
    >>> mean = together(both)
    >>> round(mean.load_kg, 1), mean.reckoned
    (168.4, True)
    """
    weights = [(best.load_u_kg or DAY_TO_DAY * best.load_kg) ** -2 for best in bests]
    total = sum(weights)
    mean_kg = sum(w * b.load_kg for w, b in zip(weights, bests, strict=True)) / total
    u_kg = sum(w * w**-0.5 for w in weights) / total
    return FullRange(load_kg=mean_kg, load_u_kg=u_kg, reckoned=True)


def _line_of(lift: str) -> LoadVelocityLine:
    for pattern, line in LINES.items():
        if pattern == lift:
            return line
    raise BadInputError(
        f"No published line tells a best in the {lift} from bar speed",
        field="lift",
        got=lift,
        wanted=", ".join(LINES),
    )


def _share_u(line: LoadVelocityLine, speed_m_per_s: float) -> float:
    """Standard uncertainty of the share of 1RM [-] from the line's error in speed."""
    step = _STEP_M_PER_S
    try:
        share, other = (float(line.share_at(speed_m_per_s + off)) for off in (0.0, step))
    except TopheavyError:
        share, other = (float(line.share_at(speed_m_per_s + off)) for off in (0.0, -step))
    return abs(other - share) / step * line.error_m_per_s
