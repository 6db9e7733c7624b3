"""Bench press 1RM over the full, two thirds and one third of the range.

Martinez-Cava A et al. Range of motion and sticking region effects on the bench press load-velocity
relationship. J Sports Sci Med 18: 645-652, 2019. Seen: abstract. 42 trained men: the 1RM increased
as the range decreased, full < 2/3 < 1/3; no figures in the abstract.
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.typical import typical_for


def test_typical_partials_grow_as_the_range_shrinks() -> None:
    shape = typical_for("bench press").shape
    shares = np.linspace(0.0, 1.0, 301)
    least = [float(np.min(shape.at(shares[shares >= start]))) for start in (0.0, 1 / 3, 2 / 3)]
    assert least[0] <= least[1] < least[2]


def test_the_strongest_typical_lifter_shows_it_clearly_and_the_weakest_still() -> None:
    """Weakest height at its lowest: one third of the range is ahead of the full in every span."""
    typical = typical_for("bench press")
    start = np.array([2 / 3])
    assert float(typical.greatest(start, typical.weakest.low)[0]) > 1.5
    assert float(typical.least(start, typical.weakest.high)[0]) > 1.0
