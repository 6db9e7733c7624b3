"""The robust line against scipy's.

SciPy (scipy.stats.theilslopes, BSD licence), which follows Theil 1950, Sen 1968 and, for the
interval, Sen's with ties in the values corrected. Exact but for rounding.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import theilslopes

from topheavy.training.review.trend import sen_interval, theil_sen


@pytest.mark.parametrize("count", [6, 7, 12, 31, 80])
@pytest.mark.parametrize("decimals", [0, 6])
def test_slope_and_interval(count: int, decimals: int) -> None:
    """Without ties, and with many: whole kilograms repeat."""
    draws = np.random.default_rng(count)
    days = np.sort(draws.choice(300, count, replace=False)).astype(float)
    singles = np.round(100 + 0.05 * days + 3 * draws.standard_normal(count), decimals)
    found = theilslopes(singles, days, alpha=0.95)
    assert float(theil_sen(days, singles)) == pytest.approx(found.slope, rel=1e-12)
    assert sen_interval(days, singles) == pytest.approx(
        (found.low_slope, found.high_slope), rel=1e-12
    )


def test_many_rows_at_once() -> None:
    draws = np.random.default_rng(5)
    days, rows = np.arange(20.0), draws.standard_normal((7, 20))
    expected = [theilslopes(row, days).slope for row in rows]
    assert theil_sen(days, rows) == pytest.approx(np.array(expected), rel=1e-12)
