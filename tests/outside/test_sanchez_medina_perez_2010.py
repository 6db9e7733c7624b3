"""From which load on a bench press is propulsive all the way.

Sanchez-Medina L, Perez CE, Gonzalez-Badillo JJ. Importance of the propulsive phase in strength
assessment. International Journal of Sports Medicine 31(2): 123-129, 2010. doi
10.1055/s-0029-1242815. 100 strength-trained men, concentric bench press. Seen: abstract (the load
at which the braking phase no longer existed was 76.1 +- 7.4 % of 1RM).

Loturco I et al. Determining the one-repetition maximum in the ballistic bench press exercise, 2020.
28 athletes. Seen: abstract (at 80 % of 1RM the concentric action is 100 % propulsive).
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.by_speed import UNBRAKED
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.velocity import plain_reps


def test_mean_speed_counts_from_where_braking_was_gone() -> None:
    """76.1 % and one standard deviation of 7.4 above it; 80 % in the second study."""
    assert 0.761 <= UNBRAKED <= 0.761 + 0.074
    assert UNBRAKED == 0.80


def test_a_simulated_press_is_hardly_braked_from_there_on() -> None:
    """Mean and mean propulsive speed the same to 0.02 m/s at 80 % and up, and not at 40 %.

    The precision is that of bar speeds, about 0.01 to 0.02 m/s; the study states none.
    """
    shares = np.array([0.4, 0.8, 0.85, 0.9, 0.95, 1.0])
    reps = plain_reps(BENCH.typical(), shares, BENCH.travel_m.value)
    gap = reps.propulsive_m_per_s - reps.mean_m_per_s
    assert gap[0] > 0.02
    assert np.all(gap[1:] < 0.02)
