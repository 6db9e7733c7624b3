"""The normal distribution against a general-purpose library's.

SciPy, scipy.special.ndtr (P. Virtanen et al., SciPy 1.0, Nature Methods 17, 2020,
261-272): run side by side.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ndtr

from topheavy.mechanics.normal import cumulative


def test_it_is_the_library_s_to_the_last_digits_of_a_double() -> None:
    """One double near 1 is 2.2e-16 from the next; both sides may be off by half of that."""
    t = np.concatenate([np.linspace(-12.0, 12.0, 24001), np.logspace(-300, 2, 500), [-np.inf]])
    assert cumulative(t) == pytest.approx(ndtr(t), rel=0, abs=2.3e-16)


def test_the_lower_tail_is_the_library_s_to_all_its_digits() -> None:
    """Relative to the value itself, down to 1.1e-18 at 8.75 deviations below the mean."""
    t = np.linspace(-8.75, 0.0, 5001)
    assert cumulative(t) == pytest.approx(ndtr(t), rel=4e-15, abs=0)


def test_shapes_ends_and_what_is_no_number() -> None:
    """As the library: any shape, 0 and 1 at the ends, nan where nan came."""
    t = np.array([[0.0, np.nan], [np.inf, -np.inf]])
    assert np.array_equal(cumulative(t), ndtr(t), equal_nan=True)
    assert cumulative(1.0) == pytest.approx(float(ndtr(1.0)), rel=1e-15)
