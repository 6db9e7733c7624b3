"""Isometric squat force by knee angle.

Paulus DC, Reiser RF, Troxell WO. Peak lifting velocities of men and women for the reduced inertia
squat exercise using force control. Eur J Appl Physiol 102: 299-305, 2008. Seen: abstract. 24 people
at knee angles of 90, 110, 130, 150 and 170 degrees: the least force at 90, without exception.
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.typical import typical_for


def test_squat_from_a_right_angled_knee_up_is_weakest_at_its_start() -> None:
    """A right-angled knee lies at 0.4 of the travel or above (ours): every typical shape rises."""
    typical = typical_for("squat")
    shares = np.linspace(0.45, 1.0, 50)
    assert typical.weakest.high <= 0.45
    assert np.all(np.diff(typical.shape.at(shares)) > 0)
    assert np.all(np.diff(typical.least(shares, typical.weakest.high)) > 0)
