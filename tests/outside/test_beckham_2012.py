"""Isometric pulls at key heights of the deadlift.

Beckham GK, Lamont HS, Sato K, Ramsey MW, Haff GG, Stone MH. Isometric strength of powerlifters in
key positions of the conventional deadlift. Journal of Trainology 1(2): 32-35, 2012. Seen: abstract.
14 powerlifters: force grows with height, at the floor < just above the patella < 5 to 6 cm short of
lockout.
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.typical import typical_for

HEIGHTS = np.array([0.0, 0.6, 0.9])  # shares of the travel; ours


def test_typical_deadlift_grows_from_floor_to_knee_to_lockout() -> None:
    floor, knee, lockout = typical_for("deadlift").shape.at(HEIGHTS)
    assert floor < knee < lockout


def test_rack_pull_from_above_the_knee_grows_to_lockout() -> None:
    values = typical_for("rack pull").shape.at(np.linspace(0.1, 1.0, 10))
    assert np.all(np.diff(values) > 0)
