"""A rig against a lifter: the heaviest straight weight under its hung load, and how even it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.evenness import effort_at, evenness, heaviest_straight
from topheavy.lifter.known import hung_above
from topheavy.mechanics.curve import LoadCurve
from topheavy.phrase import Amount, Phrase, Remark

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from topheavy.lifter.strength import StrengthCurve

    Floats = NDArray[np.float64]

PLAIN: Final = LoadCurve.constant(0.0)
"""Nothing hung: plain weight."""

_SAME_M: Final = 1e-9
_SAMPLES: Final = 400


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Match:
    """What a hung load does for a lifter at one effort.

    Parameters
    ----------
    straight_kg : float
        Heaviest straight weight [kg], bar and collars in it, at the likeliest strength. Below zero
        when the hung load alone is too much.
    low_kg, high_kg : float
        Its range [kg]: all but 2.5 % of sampled strength curves at either end.
    limited_at_m : float
        Height where it is limited [m].
    height_m : array, shape (heights,)
        Heights [m] from bottom to top.
    strength_kg, load_kg : array, shape (heights,)
        Likeliest strength, and the whole load [kg].
    effort : array, shape (heights,)
        Load / strength [-].
    mean_effort, least_effort : float
        Over the travel [-].
    off : float
        Root mean square of effort less the wanted one [-]: 0 is perfectly even.
    wanted : float
        The wanted effort, used nowhere exceeded [-].
    remarks : tuple of Remark
        What to mind.
    """

    straight_kg: float
    low_kg: float
    high_kg: float
    limited_at_m: float
    height_m: Floats
    strength_kg: Floats
    load_kg: Floats
    effort: Floats
    mean_effort: float
    least_effort: float
    off: float
    wanted: float
    remarks: tuple[Remark, ...]

    @property
    def liftable(self) -> bool:
        """Whether any straight weight at all can be moved under this hung load."""
        return self.straight_kg > 0


def heights_for(strength: StrengthCurve, *hung: LoadCurve) -> Floats:
    """Heights [m] of a strength curve and the knots of hung loads within it, rising.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.lifter.evidence import FullRange
    >>> from topheavy.lifter.strength import strength_curve
    >>> travel = Travel(bottom_m=0.8, top_m=1.2)
    >>> strength = strength_curve(lift_named("bench"), travel, [FullRange(load_kg=100.0)])
    >>> heights_for(strength, LoadCurve.strand(20.0, 1.0, 0.9005)).size - strength.height_m.size
    1
    """
    bottom_m, top_m = strength.travel.bottom_m, strength.travel.top_m
    knots = np.concatenate([np.empty(0), *(curve.height_m for curve in hung)])
    inside = knots[(knots > bottom_m + _SAME_M) & (knots < top_m - _SAME_M)]
    return np.unique(np.concatenate([strength.height_m, inside]))


def match(strength: StrengthCurve, hung: LoadCurve = PLAIN, *, effort: float = 1.0) -> Match:
    """Match a hung load to a lifter: as heavy as an effort allows, and how even that is.

    Parameters
    ----------
    strength : StrengthCurve
        The lifter's.
    hung : LoadCurve
        Load of all that hangs, chain and bands, by height. It must not fall on the way up.
    effort : float
        Greatest share of strength to use anywhere [-], 0 < effort <= 1; also the wanted one.

    Returns
    -------
    Match
        Exact for the drawn curve: every knot of strength and hung load is looked at, and just above
        each jump.

    Raises
    ------
    BadInputError
        A hung load that falls on the way up, or an effort out of range.

    Examples
    --------
    A lifter with a best of 100 kg, plain and with chain that grows to 40 kg:

    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.lifter.evidence import FullRange
    >>> from topheavy.lifter.strength import strength_curve
    >>> travel = Travel(bottom_m=0.8, top_m=1.2)
    >>> strength = strength_curve(lift_named("bench"), travel, [FullRange(load_kg=100.0)])
    >>> plain, chain = match(strength), match(strength, LoadCurve.strand(100.0, 1.0, 0.8))
    >>> round(plain.straight_kg, 3), round(chain.straight_kg, 1)
    (100.0, 85.1)
    >>> round(plain.mean_effort, 2), round(chain.mean_effort, 2)
    (0.86, 0.9)
    """
    return _match(strength, hung, effort, strength.samples(_SAMPLES))


def compare(
    strength: StrengthCurve, hung: Mapping[str, LoadCurve], *, effort: float = 1.0
) -> dict[str, Match]:
    """Match plain weight and several hung loads to one lifter, each as heavy as `effort` allows.

    Parameters
    ----------
    strength : StrengthCurve
        The lifter's.
    hung : mapping of str to LoadCurve
        By name, such as straight hang, doubled hang, band.
    effort : float
        As for `match` [-].

    Returns
    -------
    dict of str to Match
        ``"plain weight"`` first, then in the order given.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gym.people import Travel
    >>> from topheavy.lifter.evidence import FullRange
    >>> from topheavy.lifter.strength import strength_curve
    >>> travel = Travel(bottom_m=0.8, top_m=1.2)
    >>> strength = strength_curve(lift_named("bench"), travel, [FullRange(load_kg=100.0)])
    >>> found = compare(strength, {"doubled": LoadCurve.strand(60.0, 0.8, 0.8)}, effort=0.9)
    >>> {name: round(found[name].straight_kg, 1) for name in found}
    {'plain weight': 90.0, 'doubled': 81.2}
    """
    drawn = strength.samples(_SAMPLES)
    named = {"plain weight": PLAIN, **hung}
    return {name: _match(strength, curve, effort, drawn) for name, curve in named.items()}


def _match(strength: StrengthCurve, hung: LoadCurve, effort: float, drawn: Floats) -> Match:
    if not hung.never_falls:
        raise BadInputError(
            "A hung load must not fall on the way up",
            field="hung",
            wanted="chain or bands that load the bar more the higher it is",
        )
    heights = heights_for(strength, hung)
    strength_kg, hung_kg = strength.at(heights), hung_above(hung, heights)
    heaviest, limit = heaviest_straight(strength_kg, hung_kg, effort=effort)
    load_kg = float(heaviest) + hung_kg
    low_kg, high_kg = _range_kg(strength.height_m, drawn, heights, hung_kg, effort)
    even = evenness(strength_kg, load_kg, heights, wanted=effort)
    return Match(
        straight_kg=float(heaviest),
        low_kg=low_kg,
        high_kg=high_kg,
        limited_at_m=float(heights[limit]),
        height_m=heights,
        strength_kg=strength_kg,
        load_kg=load_kg,
        effort=effort_at(strength_kg, load_kg),
        mean_effort=float(even.mean),
        least_effort=float(even.least),
        off=float(even.off),
        wanted=effort,
        remarks=_remarks(float(heaviest), low_kg, hung_kg),
    )


def _range_kg(
    own_m: Floats, drawn: Floats, heights: Floats, hung_kg: Floats, effort: float
) -> tuple[float, float]:
    """Range of the heaviest straight weight [kg] over drawn curves at their own heights [m]."""
    at = np.interp(heights, own_m, np.arange(own_m.size))
    left = np.minimum(at.astype(np.intp), own_m.size - 2)
    share = at - left
    curves = drawn[:, left] * (1 - share) + drawn[:, left + 1] * share
    heaviest, _ = heaviest_straight(curves, hung_kg, effort=effort)
    low, high = np.quantile(heaviest, [0.025, 0.975])
    return float(low), float(high)


def _remarks(straight_kg: float, low_kg: float, hung_kg: Floats) -> tuple[Remark, ...]:
    if straight_kg <= 0:
        return (
            Remark(
                "too much hung",
                Phrase(
                    "The hung load alone, {} at the top, is more than this lifter can move "
                    "somewhere on the way: no bar goes with it.",
                    (Amount(float(hung_kg[-1]), "mass"),),
                ),
            ),
        )
    if low_kg <= 0:
        return (
            Remark(
                "perhaps too much hung",
                Phrase(
                    "Within what is not known of this lifter, the hung load alone may be too "
                    "much. Start far lighter.",
                ),
            ),
        )
    return ()
