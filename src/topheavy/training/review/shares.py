"""Which share of accommodating load went with which trend, where the log can tell."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.training.review.readings import sampled_singles
from topheavy.training.review.trend import trend_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.people import Travel
    from topheavy.training.review.readings import Reading
    from topheavy.training.review.seen import SeenSet
    from topheavy.training.review.shapes import Shapes
    from topheavy.training.review.trend import Trend

NEAR: Final = 0.04
"""Shares no further apart than that are about the same [-]: own judgement."""

STEP: Final = 0.05
"""How finely a share is named [-]."""

_NONE: Final = 0.02
"""Below this share nothing counts as having come on [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareTrend:
    """The trend of the longest stretch of days with about one share.

    Parameters
    ----------
    share : float
        About which share of the top load came on, in steps of `STEP` [-]; 0 with straight weight.
    trend : Trend
        Of those days alone, and so with one rig or nearly one.
    """

    share: float
    trend: Trend


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """What the log says of shares.

    Parameters
    ----------
    trends : tuple of ShareTrend
        Those with days enough, the fastest first; empty where fewer than two have.
    apart : bool
        Whether the fastest is beyond the interval of the next.
    """

    trends: tuple[ShareTrend, ...] = ()
    apart: bool = False


def share_of_top(one: SeenSet, travel: Travel) -> float:
    """Accommodating share of a set, of the load at the top [-].

    Parameters
    ----------
    one : SeenSet
        What was on the bar.
    travel : Travel
        Bottom and top [m].
    """
    if one.hung is None:
        return 0.0
    bottom_kg, top_kg = one.hung.at([travel.bottom_m, travel.top_m]).tolist()
    return float((top_kg - bottom_kg) / (one.straight_kg + top_kg))


def shares_of(
    days: Sequence[Reading], travel: Travel | None, shapes: Shapes | None, noise: float
) -> Shares:
    """Compare stretches of days with different shares.

    A stretch is unbroken days with about one share; the longest of each counts, if a trend can be
    drawn through it. Within it the rig stays about the same, so how rigs compare matters little.

    Parameters
    ----------
    days : sequence of Reading
        The best set of each day, by day.
    travel : Travel or None
        Bottom and top [m].
    shapes : Shapes or None
        The lifter's.
    noise : float
        How well a single repeats [-].
    """
    if travel is None:
        return Shares()
    longest: dict[float, list[Reading]] = {}
    for stretch in _stretches(days, travel):
        about = _about([share_of_top(one.seen, travel) for one in stretch])
        if len(stretch) > len(longest.get(about, [])):
            longest[about] = stretch
    found = [
        ShareTrend(share=about, trend=trend)
        for about, stretch in longest.items()
        if (trend := _trend(stretch, shapes, noise)).known
    ]
    if len(found) < 2:
        return Shares()
    found.sort(key=lambda one: -one.trend.per_week_kg)
    first, second = found[0].trend, found[1].trend
    return Shares(trends=tuple(found), apart=first.low_kg > second.high_kg)


def _trend(stretch: Sequence[Reading], shapes: Shapes | None, noise: float) -> Trend:
    days = np.array([one.seen.at for one in stretch], dtype=np.float64)
    singles = np.array([one.single_kg for one in stretch])
    return trend_of(days, singles, sampled_singles(stretch, shapes), noise)


def _stretches(days: Sequence[Reading], travel: Travel) -> list[list[Reading]]:
    """Cut where the share leaves that of the first day of a stretch, or straight weight begins."""
    found: list[list[Reading]] = []
    first = 0.0
    for one in days:
        share = share_of_top(one.seen, travel)
        if not found or abs(share - first) > NEAR or (share < _NONE) != (first < _NONE):
            found.append([])
            first = share
        found[-1].append(one)
    return found


def _about(shares: Sequence[float]) -> float:
    """The middle share of some days, in steps [-]; those of straight weight are none."""
    middle = median(shares)
    return 0.0 if middle < _NONE else max(STEP, STEP * round(middle / STEP))
