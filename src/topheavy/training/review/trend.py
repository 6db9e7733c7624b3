"""The line through many days, and whether it may be called progress or loss."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.errors import BadInputError
from topheavy.training.review.readings import MOST_APART

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

NOISE_MEN: Final = 0.014
NOISE_WOMEN: Final = 0.035
"""How well a single repeats: coefficients of variation of an all-chain bench 1RM between two tests
in nine trained men and seven women [-] (McCurdy et al. 2008, abstract). Nobody is asked for a sex,
so the wider one holds unless a coach says another."""

MOST_NOISE: Final = 0.121
"""The largest of 32 studies of the 1RM [-] (Grgic et al. 2020, abstract)."""

LEAST_DAYS: Final = 6
LEAST_SPAN_DAYS: Final = 28
"""From how many days, over how many from first to last, a line is drawn: own judgement. With six
the interval of the slope below still has its meaning."""

MOST_DAYS: Final = 300
"""The line goes through the last so many days: two years of three a week."""

_HAIR: Final = 1e-9
_Z: Final = 1.959964
"""Quantile of the normal distribution that leaves 95 % between it and its negative."""

Verdict = Literal["up", "down", "level", "unsure", "few"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A robust line through the singles of many days.

    Parameters
    ----------
    verdict : {'up', 'down', 'level', 'unsure', 'few'}
        Progress, loss, no change beyond the noise, a change that may be chance, too few days.
    days : int
        How many days tell.
    first_day, last_day : int
        From when to when, counted from 1 January 1970; 0 without a day.
    noise : float
        How well a single repeats [-].
    first_kg, last_kg : float
        Height of the line at both ends [kg]; nan where there are too few days.
    per_week_kg, low_kg, high_kg : float
        Its slope and the interval of it [kg a week]; nan where there are too few days.
    by_terms : bool
        Whether rigs or repetitions that changed leave more open than the scatter of the days.
    """

    verdict: Verdict
    days: int
    first_day: int
    last_day: int
    noise: float
    first_kg: float = math.nan
    last_kg: float = math.nan
    per_week_kg: float = math.nan
    low_kg: float = math.nan
    high_kg: float = math.nan
    by_terms: bool = False

    @property
    def ends(self) -> tuple[str, str]:
        """First and last day, such as ``"2026-11-25"``."""
        first, last = np.array([self.first_day, self.last_day]).astype("datetime64[D]").astype(str)
        return str(first), str(last)

    @property
    def weeks(self) -> float:
        """How long it is [weeks]."""
        return (self.last_day - self.first_day) / 7

    @property
    def change_kg(self) -> float:
        """From its beginning to its end [kg]."""
        return self.last_kg - self.first_kg

    @property
    def noise_kg(self) -> float:
        """What a change must be more than [kg]."""
        return self.noise * self.first_kg

    @property
    def known(self) -> bool:
        """Whether there is a line."""
        return self.verdict != "few"


def check_noise(noise: float) -> None:
    """Refuse a noise [-] below what was ever found with chain, or above what any study found."""
    if not NOISE_MEN - _HAIR <= noise <= MOST_NOISE + _HAIR:
        raise BadInputError(
            "No single repeats like that",
            field="noise",
            got=f"{100 * noise:g} %",
            wanted=f"{100 * NOISE_MEN:g} to {100 * MOST_NOISE:g} %: {100 * NOISE_MEN:g} % in "
            f"trained men, {100 * NOISE_WOMEN:g} % in women (McCurdy et al. 2008)",
        )


def theil_sen(days: ArrayLike, singles_kg: ArrayLike) -> Floats:
    """Slope of the robust line by Theil and Sen [kg a day]: the median over all pairs of days.

    Parameters
    ----------
    days : array_like, shape (n,)
        Days [d], rising, n >= 2.
    singles_kg : array_like, shape (..., n)
        Singles [kg], one row for each way to read them.

    Returns
    -------
    array, shape (...)
        Slopes [kg a day].

    References
    ----------
    Theil 1950 and Sen 1968 (from memory); `scipy.stats.theilslopes` gives the same.

    Examples
    --------
    >>> float(theil_sen([0, 7, 14, 21], [100.0, 101.0, 102.0, 103.0])) * 7
    1.0
    >>> round(7 * float(theil_sen([0, 7, 14, 21, 28], [100.0, 101.0, 102.0, 103.0, 60.0])), 3)
    1.0
    """
    at = np.asarray(days, dtype=np.float64)
    loads = np.asarray(singles_kg, dtype=np.float64)
    early, late = np.triu_indices(at.size, k=1)
    apart = at[late] - at[early]
    rows = loads.reshape(-1, at.size)  # one by one: many pairs of many rows fill the memory
    slopes = [float(np.median((row[late] - row[early]) / apart)) for row in rows]
    return np.array(slopes).reshape(loads.shape[:-1])


def sen_interval(days: ArrayLike, singles_kg: ArrayLike) -> tuple[float, float]:
    """Interval of the robust line's slope that holds the true one 95 times in 100 [kg a day].

    Parameters
    ----------
    days : array_like, shape (n,)
        Days [d], rising, none twice, n >= 2.
    singles_kg : array_like, shape (n,)
        Singles [kg].

    References
    ----------
    Sen, Estimates of the regression coefficient based on Kendall's tau, J Am Stat Assoc 63,
    1379-1389, 1968 (from memory): the slopes of all pairs in order, counted off from both ends by
    the normal distribution of Kendall's statistic, ties corrected.

    Examples
    --------
    >>> low, high = sen_interval(range(8), [0.0, 1.2, 1.8, 3.1, 4.0, 5.2, 5.9, 7.1])
    >>> round(low, 2), round(high, 2)
    (0.93, 1.1)
    """
    at, loads = (np.asarray(a, dtype=np.float64) for a in (days, singles_kg))
    early, late = np.triu_indices(at.size, k=1)
    slopes = np.sort((loads[late] - loads[early]) / (at[late] - at[early]))
    _, ties = np.unique(loads, return_counts=True)
    free = at.size * (at.size - 1) * (2 * at.size + 5) - np.sum(ties * (ties - 1) * (2 * ties + 5))
    off = _Z * math.sqrt(max(float(free), 0.0) / 18)
    low = max(round((slopes.size - off) / 2) - 1, 0)
    high = min(round((slopes.size + off) / 2), slopes.size - 1)
    return float(slopes[low]), float(slopes[high])


def trend_of(
    days: ArrayLike, singles_kg: ArrayLike, sampled_kg: ArrayLike, noise: float = NOISE_WOMEN
) -> Trend:
    """Draw the line and judge it.

    Progress needs both: more change than one single's noise, and a slope whose whole interval is
    above zero. So does loss. The interval counts the scatter of the days (Sen's, 95 %) and, in
    quadrature, what rigs and repetitions that changed leave open.

    Parameters
    ----------
    days : array_like, shape (n,)
        Days [d], counted from 1 January 1970, rising.
    singles_kg : array_like, shape (n,)
        The single that each day stands for [kg].
    sampled_kg : array_like, shape (samples, n)
        The same for each plausible lifter [kg].
    noise : float
        How well a single repeats [-].

    Raises
    ------
    BadInputError
        A noise that no study found.

    Examples
    --------
    >>> import numpy as np
    >>> weeks = 7 * np.arange(10)
    >>> singles = 100 + np.array([0, 2, 0, 3, 4, 4, 7, 6, 9, 9])
    >>> trend_of(weeks, singles, singles[None]).verdict
    'up'
    """
    check_noise(noise)
    at = np.asarray(days, dtype=np.float64)[-MOST_DAYS:]
    loads = np.asarray(singles_kg, dtype=np.float64)[-MOST_DAYS:]
    sampled = np.asarray(sampled_kg, dtype=np.float64)[..., -MOST_DAYS:]
    ends = (int(at[0]), int(at[-1])) if at.size else (0, 0)
    if at.size < LEAST_DAYS or ends[1] - ends[0] < LEAST_SPAN_DAYS:
        return Trend(verdict="few", days=at.size, first_day=ends[0], last_day=ends[1], noise=noise)
    slope, scatter, terms = _slope(at, loads, sampled)
    low, high = (
        slope + sign * math.hypot(s, t) for sign, s, t in zip((-1, 1), scatter, terms, strict=True)
    )
    middle = float(np.median(loads - slope * at))
    first_kg, last_kg = (middle + slope * end for end in ends)
    return Trend(
        verdict=_verdict(last_kg - first_kg, noise * first_kg, low, high),
        days=at.size,
        first_day=ends[0],
        last_day=ends[1],
        noise=noise,
        first_kg=first_kg,
        last_kg=last_kg,
        per_week_kg=7 * slope,
        low_kg=7 * low,
        high_kg=7 * high,
        by_terms=sum(terms) > sum(scatter),
    )


def _slope(
    at: Floats, loads: Floats, sampled: Floats
) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """The slope [kg a day], and how far it may lie below and above, by scatter and by terms."""
    slope = float(theil_sen(at, loads))
    least, most = sen_interval(at, loads)
    scatter = (slope - least, most - slope)
    low, high = np.quantile(theil_sen(at, sampled), MOST_APART)
    return slope, scatter, (max(slope - float(low), 0.0), max(float(high) - slope, 0.0))


def _verdict(change_kg: float, noise_kg: float, low: float, high: float) -> Verdict:
    if abs(change_kg) <= noise_kg:
        return "level"
    if low > 0:
        return "up"
    return "down" if high < 0 else "unsure"
