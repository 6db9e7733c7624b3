"""Test-retest reliability of the 1RM over 32 studies.

Grgic J, Lazinica B, Schoenfeld BJ, Pedisic Z. Test-retest reliability of the one-repetition maximum
(1RM) strength assessment: a systematic review. Sports Med Open 6: 31, 2020. Seen: abstract.
Coefficients of variation 0.5 to 12.1 %, median 4.2 %.
"""

from __future__ import annotations

from topheavy.lifter.one_rm import DAY_TO_DAY
from topheavy.training.review.trend import MOST_NOISE


def test_day_to_day_uncertainty_of_a_trained_lifter_is_inside_the_range_below_the_median() -> None:
    assert 0.005 <= DAY_TO_DAY <= 0.042


def test_the_bound_of_two_uncertainties_reaches_about_the_median() -> None:
    """A bound allows two of them: 4 %, the median over studies of many kinds of people."""
    assert abs(2 * DAY_TO_DAY - 0.042) < 0.005


def test_a_review_takes_no_noise_above_what_any_study_found() -> None:
    assert MOST_NOISE == 0.121
