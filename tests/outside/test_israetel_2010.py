"""Force at bottom and top when elastic and plain squats do equal work.

Israetel MA, McBride JM, Nuzzo JL, Skinner JW, Dayne AM. Kinetic and kinematic differences between
squats performed with and without elastic bands. Journal of Strength and Conditioning Research
24(1): 190-194, 2010. doi 10.1519/JSC.0b013e31819b7995. Seen: abstract. Equal total work; with
bands the force was higher over the last 10 % of the concentric phase and lower over its first 5
%. The study used bands; the same sign for chain is this model's prediction, tested by no study
read. The load is not in the abstract: the signs are checked where the lifter pushes up to the
end, 80 and 90 % of 1RM; lighter bars are pulled down into lockout with either.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import SQUAT
from topheavy.lifter.rep import Rep, simulate
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=150.0, bottom_m=0.90, top_m=1.52)
RISING = LoadCurve.through([0.90, 1.52], [5.0, 35.0])


def rep_of(straight_kg: float, kind: str) -> Rep:
    hung = RISING if kind == "chain" else LoadCurve.constant(0.0)
    band = RISING if kind == "band" else None
    return simulate(LIFTER, OnBar(straight_kg=straight_kg, hung=hung, band=band), SQUAT.typical())


def mean_force_n(rep: Rep, start: float, end: float) -> float:
    """Mean force over part of the time."""
    times = np.linspace(start, end, 101) * rep.path.time_s[-1]
    return float(np.mean(np.interp(times, rep.path.time_s, rep.path.force_n)))


def equal_work(share: float, kind: str) -> tuple[Rep, Rep]:
    """Plain and rising resistance; straight weight of the latter set so that work is equal."""
    plain = rep_of(share * 150.0, "plain")
    goal = float(plain.ascent.energy.work_j[0])
    low, high = 0.3 * 150.0, share * 150.0
    for _ in range(30):
        middle = 0.5 * (low + high)
        more = float(rep_of(middle, kind).ascent.energy.work_j[0]) > goal
        low, high = (low, middle) if more else (middle, high)
    return plain, rep_of(low, kind)


@pytest.mark.parametrize("share", [0.8, 0.9])
@pytest.mark.parametrize("kind", ["band", "chain"])
def test_less_force_at_the_bottom_more_at_the_top(share: float, kind: str) -> None:
    """First 5 % lower, last 10 % higher: signs."""
    plain, rising = equal_work(share, kind)
    assert float(rising.ascent.energy.work_j[0]) == pytest.approx(
        float(plain.ascent.energy.work_j[0]), rel=1e-4
    )
    assert mean_force_n(rising, 0.0, 0.05) < mean_force_n(plain, 0.0, 0.05)
    assert mean_force_n(rising, 0.9, 1.0) > mean_force_n(plain, 0.9, 1.0)
