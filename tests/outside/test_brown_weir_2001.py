"""The 1RM test of an exercise physiologists' society.

Brown L. E., Weir J. P., ASEP procedures recommendation I: accurate assessment of muscular strength
and power, Journal of Exercise Physiology online 4(3), 1-21, 2001. Seen: the abstract up to "after
the general warm-up, ... a specific warm-up set of 8 repetitions at approximately 50 % of the
estimated 1-RM followed by another set of 3 repetitions". That these are at 70 %, that single
repetitions follow, and that rests are 1 to 5 min is from memory.
"""

from __future__ import annotations

import pytest

from topheavy.training.protocols import PROTOCOLS
from topheavy.training.scheme import rest_before_s, warm_up_reps


def test_the_rows_as_told() -> None:
    told = PROTOCOLS[1]
    assert [one.reps for one in told.sets] == [(8, 8), (3, 3), (1, 1)]
    assert "50 %" in told.sets[0].what
    assert "70 %" in told.sets[1].what


def test_reps_at_its_loads_are_near_its_own() -> None:
    """At 50 % no more than its 8, at 70 % its 3, near the max its singles."""
    assert 5 <= warm_up_reps(0.50, 1) <= 8
    assert warm_up_reps(0.70, 1) == 3
    assert warm_up_reps(0.90, 1) == 1


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7, 0.9, 1.0])
def test_rests_within_one_to_five_minutes(share: float) -> None:
    assert 60 <= rest_before_s(share) <= 300
