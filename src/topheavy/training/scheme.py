"""The shape of a ramp: how loads rise, how reps fall, how long to rest.

Rising by jumps that shrink, fewer reps as the load rises and longer rests is common practice. The
published protocols for a 1RM that it is laid out after:

- Baechle & Earle, Essentials of Strength Training and Conditioning: 5 to 10 easy reps, rest 1 min;
  3 to 5 reps, 2 min; 2 to 3 reps, 2 to 4 min; then singles 2 to 4 min apart, the 1RM within 3 to 5
  of them. Seen in a college textbook's appendix that gives the same steps; the book itself from
  memory.
- Brown & Weir, ASEP Procedures Recommendation I, JEPonline 4(3), 1-21, 2001: 8 reps at about 50 %
  of the estimated 1RM, another set of 3 (at 70 %: from memory), then singles. Seen: abstract, in
  part.

The numbers between (how much the jumps shrink, where reps change) are own judgement.
"""

from __future__ import annotations

from typing import Final

from topheavy.errors import BadInputError

SHRINK: Final = 0.8
"""Each jump over the one before [-]."""

WIDEST: Final = 0.25
"""Widest jump, as a share of the top set's load [-]."""

ATTEMPTS: Final = (0.90, 0.95)
"""Singles before the goal, as shares of it [-]: with the goal, three attempts."""

_APART: Final = 0.02
_REPS: Final = ((0.40, 8), (0.55, 5), (0.72, 3), (0.86, 2))
_RESTS: Final = ((0.50, 60.0), (0.70, 90.0), (0.85, 120.0))
_HEAVY_REST_S: Final = 180.0


def rising_shares(first: float, top_reps: int) -> tuple[float, ...]:
    """Shares of the top set's load for every set, the top set last.

    Parameters
    ----------
    first : float
        Share of the first set [-], 0 < first < 1.
    top_reps : int
        Reps of the top set, >= 1: the fewer, the smaller the last jump.

    Returns
    -------
    tuple of float
        Rising from `first` to 1, each jump `SHRINK` times the one before, none wider than
        `WIDEST`, in the fewest sets.

    Raises
    ------
    BadInputError
        A first share that is not between 0 and 1, or no rep.

    Examples
    --------
    >>> [round(share, 2) for share in rising_shares(0.3, 5)]
    [0.3, 0.51, 0.67, 0.81, 0.91, 1.0]
    """
    if not 0 < first < 1:
        raise BadInputError(
            "A ramp starts below its top set", field="first", got=first, wanted="above 0, below 1"
        )
    _check_reps(top_reps)
    last_jump = min(0.13, 0.07 + 0.01 * top_reps)
    jumps = 1
    while True:
        widest = (1 - first) * (1 - SHRINK) / (1 - SHRINK**jumps)
        if widest <= WIDEST and widest * SHRINK ** (jumps - 1) <= last_jump:
            break
        jumps += 1
    shares = [first]
    for jump in range(jumps):
        shares.append(shares[-1] + widest * SHRINK**jump)
    shares[-1] = 1.0
    return tuple(shares)


def singles_shares(first: float) -> tuple[float, ...]:
    """Shares of the goal for singles up to a max: warm-ups, two attempts, the goal.

    Parameters
    ----------
    first : float
        Share of the first set [-], 0 < first < 1.

    Raises
    ------
    BadInputError
        A first share that is not between 0 and 1.

    Examples
    --------
    >>> [round(share, 2) for share in singles_shares(0.3)]
    [0.3, 0.51, 0.67, 0.81, 0.9, 0.95, 1.0]
    """
    warm = [share for share in rising_shares(first, 3)[1:-1] if share < ATTEMPTS[0] - _APART]
    return (first, *warm, *(share for share in ATTEMPTS if share > first + _APART), 1.0)


def warm_up_reps(share: float, top_reps: int) -> int:
    """Reps of a warm-up at a share of the top set's load.

    Parameters
    ----------
    share : float
        Share of the top set's load [-], below 1.
    top_reps : int
        Reps of the top set, >= 1.

    Returns
    -------
    int
        From 8 down to 1; for a top set of many reps no fewer than a third of them.

    Examples
    --------
    >>> [warm_up_reps(share, 3) for share in (0.3, 0.5, 0.7, 0.8, 0.9)]
    [8, 5, 3, 2, 1]
    """
    _check_reps(top_reps)
    usual = next((reps for most, reps in _REPS if share <= most), 1)
    return max(usual, min(8, -(-top_reps // 3)))


def rest_before_s(share: float) -> float:
    """Rest before a set [s], by its share of the top set's load [-].

    Longer the heavier; three minutes before what is heavy, the least of the 3 to 5 that the ACSM's
    position stand of 2009 gives for heavy sets (summary read), and within the 2 to 4 of the 1RM
    protocols.

    Examples
    --------
    >>> [rest_before_s(share) for share in (0.4, 0.6, 0.8, 1.0)]
    [60.0, 90.0, 120.0, 180.0]
    """
    return next((rest for most, rest in _RESTS if share < most), _HEAVY_REST_S)


def _check_reps(top_reps: int) -> None:
    if top_reps < 1 or top_reps % 1:
        raise BadInputError(
            "A top set has a whole number of reps",
            field="reps",
            got=top_reps,
            wanted="1 or more",
        )
