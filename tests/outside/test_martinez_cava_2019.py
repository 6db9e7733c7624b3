"""Bench press over part of the range.

Martinez-Cava A, Moran-Navarro R, Hernandez-Belmonte A, Courel-Ibanez J, Conesa-Ros E,
Gonzalez-Badillo JJ, Pallares JG. Range of motion and sticking region effects on the bench press
load-velocity relationship. Journal of Sports Science and Medicine 18: 645-652, 2019. Seen:
abstract. 42 men; full, two thirds and one third of the range: the 1RM rises as the range falls;
the braking phase disappears at 100, 95 and 80 % of 1RM.
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.effort import heaviest_straight_kg
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.velocity import plain_reps
from topheavy.mechanics.curve import LoadCurve

HEIGHTS = np.linspace(0.8, 1.2, 401)
STRENGTH = LoadCurve.through(
    HEIGHTS, 100.0 * BENCH.typical().shape_at(np.linspace(0.0, 1.0, 401))[0]
)


def test_the_1rm_rises_as_the_range_falls() -> None:
    """Full range, then its upper two thirds, then its upper third: the sign."""
    most = []
    for part in (0.0, 1 / 3, 2 / 3):
        lifter = RepLifter(best_kg=100.0, bottom_m=0.8 + 0.4 * part, top_m=1.2, strength=STRENGTH)
        most.append(
            float(heaviest_straight_kg(lifter, [OnBar(straight_kg=0.0)], BENCH.typical())[0, 0])
        )
    assert most[0] < most[1] < most[2]


def test_there_is_no_braking_phase_in_a_1rm() -> None:
    """Full range: it takes less and less of the rep and is gone at 1RM."""
    found = plain_reps(BENCH.typical(), [0.4, 0.6, 1.0], 0.40)
    braking = found.propulsive_m_per_s > found.mean_m_per_s
    assert braking.tolist() == [True, True, False]
