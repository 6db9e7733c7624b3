"""Where a band's load curve needs its knots so that straight lines stay within a stated error."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from topheavy.mechanics.banded import Banded

    Floats = NDArray[np.float64]

_MOST_KNOTS: Final = 20_000
_APART_M: Final = 1e-6
_SLACK_KG: Final = 1e-9
_ROOT_M: Final = 1e-13


def band_knots(hang: Banded, error_kg: float) -> Floats:
    """Heights [m], rising, between which the load may be taken as straight.

    The load is f = T(L) C with C the sum of the cosines, so f'' = T'' C^3 + 3 T' C C' + T C''. On
    each piece every factor has a bound: T and C rise with height, the law's own bounds hold T'
    and T'', and with z a strand's rise and d its offset C' <= sum of d^2/L^3 and |C''| <= sum of
    3 d^2 |z|/L^5. A chord is off by at most max|f''| w^2/8 on a piece w wide; pieces are halved
    until that is within the error. Kinks (slack to taut, end of the readings) are knots.

    Parameters
    ----------
    hang : Banded
        The band on the bar.
    error_kg : float
        What a chord may be off by [kg], > 0.

    Raises
    ------
    BadInputError
        An error so small that it takes more than 20,000 knots.
    """
    require_positive("error_kg", error_kg)
    low, high = _reach(hang)
    law = hang.band.law
    kinks = [*_heights_of(hang, law.rest_m), *_heights_of(hang, law.longest_m)]
    inner = [height for height in kinks if low < height < high]
    knots = _apart(np.unique([low, *inner, high]))
    while True:
        wide = _chord_error_kg(hang, knots) > error_kg
        if not wide.any():
            return knots
        halves = 0.5 * (knots[:-1] + knots[1:])[wide]
        knots = np.sort(np.concatenate([knots, halves]))
        if knots.size > _MOST_KNOTS:
            raise BadInputError(
                "Too fine a curve for a band",
                field="error_kg",
                got=f"{error_kg:g} kg",
                wanted="a larger error; 0.005 kg is usual",
            )


def lowest_length_m(hang: Banded) -> float:
    """Height of the bar [m] where the band is shortest: there it pulls to the side only."""
    pegs = sorted(peg.height_m for peg in hang.pegs)
    low, high = pegs[0], pegs[-1]
    # The length is convex: its slope, the sum of the cosines, rises through zero between them.
    if high - low < _APART_M or hang.upright(low) >= 0 or hang.upright(high) <= 0:
        return low if high - low < _APART_M or hang.upright(low) >= 0 else high
    return _zero_of(lambda height: float(hang.upright(height)), low, high)


def _reach(hang: Banded) -> tuple[float, float]:
    """Heights [m] that the curve covers: where the band was read, and all of the travel."""
    bottom, top = hang.travel_m
    shortest_at = lowest_length_m(hang)
    read = _heights_of(hang, hang.band.law.longest_m)
    low, high = (read[0], read[-1]) if read else (bottom, top)
    if bottom >= shortest_at:
        low = max(low, shortest_at)
    if top <= shortest_at:
        high = min(high, shortest_at)
    return min(low, bottom), max(high, top)


def _heights_of(hang: Banded, length_m: float) -> list[float]:
    """Heights [m] where the band is so long: below and above where it is shortest, or none."""
    shortest_at = lowest_length_m(hang)
    if hang.length_m(shortest_at) >= length_m:
        return []

    def more(height: float) -> float:
        return float(hang.length_m(height)) - length_m

    # No strand is longer than the whole, and each is at least as long as it rises.
    far = 1.001 * (length_m + max(abs(peg.height_m - shortest_at) for peg in hang.pegs))
    return [
        _zero_of(more, *ends)
        for ends in ((shortest_at - far, shortest_at), (shortest_at, shortest_at + far))
    ]


def _zero_of(change: Callable[[float], float], low_m: float, high_m: float) -> float:
    """Height [m] between two where a quantity changes sign, by halving: no library is worth it."""
    rises = change(low_m) < 0.0
    while True:
        middle_m = 0.5 * (low_m + high_m)
        if not low_m < middle_m < high_m or high_m - low_m < _ROOT_M:
            return middle_m
        if (change(middle_m) < 0.0) == rises:
            low_m = middle_m
        else:
            high_m = middle_m


def _apart(knots: Floats) -> Floats:
    """Drop inner knots that rounding alone sets apart, the ends kept."""
    keep = np.concatenate([[True], np.diff(knots) > _APART_M])
    kept: Floats = knots[keep]
    kept[-1] = knots[-1]
    return kept


def _chord_error_kg(hang: Banded, knots: Floats) -> Floats:
    """Bound of how far the chord of each piece is from the load [kg]."""
    law, low, high = hang.band.law, knots[:-1], knots[1:]
    tension = law.tension_kg(hang.length_m(knots))
    tension = np.maximum(tension[:-1], tension[1:])
    upright = np.abs(hang.upright(knots))
    upright = np.maximum(upright[:-1], upright[1:])
    turn, bend = np.zeros_like(low), np.zeros_like(low)
    for peg in hang.pegs:
        if peg.offset_m == 0:
            continue
        rises = np.abs(np.stack([low, high]) - peg.height_m)
        passes = (low < peg.height_m) & (peg.height_m < high)
        nearest = np.hypot(np.where(passes, 0.0, rises.min(axis=0)), peg.offset_m)
        turn += peg.offset_m**2 / nearest**3
        bend += 3.0 * peg.offset_m**2 * rises.max(axis=0) / nearest**5
    second = (
        law.most_bent_kg_per_m2 * upright**3
        + 3.0 * law.stiffest_kg_per_m * upright * turn
        + tension * bend
    )
    # Between slack knots there is nothing to be off.
    error: Floats = np.where(tension > _SLACK_KG, second * (high - low) ** 2 / 8.0, 0.0)
    return error
