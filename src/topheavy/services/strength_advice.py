"""What one more piece of evidence would narrow a strength curve most."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.one_rm import DAY_TO_DAY

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.strength import StrengthCurve

    Floats = NDArray[np.float64]

SAMPLES: Final = 400
"""Plausible curves that answers are read from."""

MOST_OF_BEST: Final = 1.3
"""Heaviest single that is proposed, by the likeliest curve, over the full-range best [-].

Own judgement: nobody need meet a load far above the best for the sake of a curve.
"""

_STEPS: Final = 20
_HIGHEST: Final = 0.85
_WORTH_IT: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """The single that would tell most.

    Parameters
    ----------
    from_m : float or None
        Where it would start [m]; None: over the full range.
    likely_kg : float
        What it would be by the likeliest curve [kg].
    low_kg, high_kg : float
        Within which 95 of 100 plausible curves have it [kg].
    spread_kg, left_kg : float
        Standard deviation of strength over the lift, root mean square over its heights [kg]: now,
        and about what would be left.
    """

    from_m: float | None
    likely_kg: float
    low_kg: float
    high_kg: float
    spread_kg: float
    left_kg: float

    @property
    def share(self) -> float:
        """By how much of itself the spread would shrink [-]."""
        return 1.0 - self.left_kg / self.spread_kg if self.spread_kg > 0 else 0.0

    @property
    def is_worth_it(self) -> bool:
        """Whether it would change anything to speak of: by a tenth or more."""
        return self.share >= _WORTH_IT


def tells_most(curve: StrengthCurve, curves_kg: Floats) -> Advice:
    """Find the single, from the bottom or from pins, that would narrow the curve most.

    For every start the plausible curves say how much of the strength at each height would follow
    from that single: a straight line through them, and what a single varies from day to day.

    Parameters
    ----------
    curve : StrengthCurve
        As it stands.
    curves_kg : array, shape (samples, heights)
        Plausible curves at its heights [kg].

    Notes
    -----
    Starts are steps of a twentieth of the travel, up to 85 % of the way, for higher up there is
    hardly a movement left, and no higher than where the single would likely be 1.3 times the
    full-range best. A single from a start is the least strength from there to the top.
    """
    shares = (curve.height_m - curve.travel.bottom_m) / curve.travel.travel_m
    least_above = np.minimum.accumulate(curves_kg[:, ::-1], axis=1)[:, ::-1]
    starts = np.arange(round(_HIGHEST * _STEPS) + 1) / _STEPS
    indices = [int(np.argmin(np.abs(shares - start))) for start in starts]
    likely_kg = np.minimum.accumulate(curve.best_kg[::-1])[::-1]
    most_kg = MOST_OF_BEST * curve.full_range_kg
    indices = [index for index in indices if likely_kg[index] <= most_kg * (1 + 1e-9)]
    varied = curves_kg - np.mean(curves_kg, axis=0)
    now = np.mean(varied**2, axis=0)
    left = [_left(varied, now, least_above[:, index]) for index in indices]
    best = int(np.argmin([np.mean(one) for one in left]))
    single_kg = least_above[:, indices[best]]
    low_kg, high_kg = np.quantile(single_kg, (0.025, 0.975))
    return Advice(
        from_m=None if best == 0 else float(curve.height_m[indices[best]]),
        likely_kg=float(likely_kg[indices[best]]),
        low_kg=float(low_kg),
        high_kg=float(high_kg),
        spread_kg=float(np.sqrt(np.mean(now))),
        left_kg=float(np.sqrt(np.mean(left[best]))),
    )


def _left(varied: Floats, now: Floats, single_kg: Floats) -> Floats:
    """Variance of strength at each height [kg2] once a single is known."""
    off = single_kg - np.mean(single_kg)
    noise = (DAY_TO_DAY * np.mean(single_kg)) ** 2
    shared = varied.T @ off / off.size
    return np.asarray(now - shared**2 / (np.mean(off**2) + noise), dtype=np.float64)
