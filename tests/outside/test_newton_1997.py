"""Which bench press loads stick.

Newton RU, Murphy AJ, Humphries BJ, Wilson GJ, Kraemer WJ, Hakkinen K. Influence of load and
stretch shortening cycle on the kinematics, kinetics and muscle activation that occurs during
explosive upper-body movements. European Journal of Applied Physiology 75: 333-342, 1997 (title
from memory). Seen: through van den Tillaar & Ettema, Med. Sci. Sports Exerc. 41: 2056, 2009
(part): the sticking point "occurred in loads of 90% of 1RM but not for 75% of 1RM load".
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.plausible import plausible
from topheavy.lifter.velocity import plain_reps


def test_ninety_percent_sticks_and_seventy_five_does_not() -> None:
    found = plain_reps(BENCH.typical(), [0.75, 0.90], 0.40).sticking
    assert np.isfinite(found.start_s).tolist() == [False, True]


def test_the_same_holds_across_plausible_lifters() -> None:
    """None at 75 %; many, not all, at 90 %."""
    lifters = plausible(BENCH, 200)
    light, heavy = (
        np.isfinite(plain_reps(lifters, share, 0.40).sticking.start_s) for share in (0.75, 0.90)
    )
    assert np.mean(light) < 0.02
    assert np.mean(heavy) > 0.25
