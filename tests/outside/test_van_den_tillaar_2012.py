"""Isometric bench press at twelve heights.

van den Tillaar R, Saeterbakken AH, Ettema G. Is the occurrence of the sticking region the result of
diminishing potentiation in bench press? J Sports Sci 30(6): 591-599, 2012. Seen: abstract. Twelve
trained men, isometric pushes at twelve heights over the whole range: a region of lower force at the
sticking region, less than below and above it.
"""

from __future__ import annotations

import numpy as np

from topheavy.lifter.typical import typical_for


def test_typical_bench_press_is_weakest_between_chest_and_lockout() -> None:
    typical = typical_for("bench press")
    values = typical.shape.at(np.linspace(0.0, 1.0, 12))
    at = int(np.argmin(values))
    assert 0 < at < 11
    assert values[0] > values[at] < values[-1]
    assert np.all(np.diff(values[: at + 1]) < 0)
    assert np.all(np.diff(values[at:]) > 0)


def test_its_weakest_height_is_left_open_across_the_lower_half() -> None:
    """The abstract gives no height: the span runs over a third of the travel and more."""
    span = typical_for("bench press").weakest
    assert span.low > 0
    assert span.high - span.low > 1 / 3
