"""Epley's poundage chart.

Epley B. Poundage chart. In: Boyd Epley Workout. Lincoln, NE: Body Enterprises, 1985. Seen: part, as
quoted: 1RM = 0.033 x repetitions x load + load. The rounder r/30 is in wider use and is ours.
"""

from __future__ import annotations

import pytest

from topheavy.lifter.one_rm import one_rm


def test_ten_with_225() -> None:
    """299.25 with 0.033 a repetition, 300 with 1/30: a quarter of a percent apart."""
    ours = one_rm(225.0, 10).values_kg["Epley"]
    assert ours == pytest.approx(300.0, rel=1e-12)
    assert ours == pytest.approx(225 * (1 + 0.033 * 10), rel=0.0026)


@pytest.mark.parametrize("reps", range(2, 11))
def test_the_two_forms_agree_within_a_third_of_a_percent(reps: int) -> None:
    quoted = 100 * (1 + 0.033 * reps)
    assert one_rm(100.0, reps).values_kg["Epley"] == pytest.approx(quoted, rel=1 / 300)
