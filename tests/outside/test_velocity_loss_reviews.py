"""Ending a set at a loss of speed: what reviews say of thresholds.

A meta-analysis in Slovene of 15 studies (dlib.si, DOC-7BDJOEL9; authors not seen). Seen: abstract.
Low thresholds were 5 to 20 %, high ones 20 to 45 %; low ones are most appropriate for speed and
power, for maximal strength there was no difference.

Hernandez-Belmonte A., Pallares J. G., Appl. Sci. 12(9), 4425, 2022. Seen: abstract. Ten studies,
308 trained young men; low to moderate is a loss of 25 % or less, 16.1 +- 6.2 % on average.

Jukic I. et al., One velocity loss threshold does not fit all, Sports Med. Open 9, 80, 2023 (authors
and number from memory). Seen: abstract. 46 trained people; the work done to a threshold did not
agree from one session to the next.
"""

from __future__ import annotations

import pytest

from topheavy.training.days import DAYS, MOST_LOSS, VELOCITY_LOSS, day_named, stop_speed_m_per_s

LOW, HIGH = (0.05, 0.20), (0.20, 0.45)


def test_a_speed_day_ends_sets_early() -> None:
    """In the low range, and within one standard deviation of the low groups' mean."""
    loss = day_named("speed").loss
    assert loss is not None
    assert LOW[0] <= loss <= LOW[1]
    assert 0.161 - 0.062 <= loss <= 0.161 + 0.062


def test_no_day_ends_sets_later_than_was_tried() -> None:
    losses = [day.loss for day in DAYS.values() if day.loss is not None]
    assert all(LOW[0] <= loss <= HIGH[1] for loss in losses)
    assert HIGH[1] == MOST_LOSS


def test_heavy_days_stay_at_low_to_moderate() -> None:
    """25 % or less."""
    loss = day_named("heavy").loss
    assert loss is not None
    assert loss <= 0.25


def test_the_loss_is_from_the_fastest_rep() -> None:
    """The Slovene review: the difference between the fastest and the ongoing repetition."""
    assert stop_speed_m_per_s(0.50, 0.20) == pytest.approx(0.40)


def test_it_is_said_that_one_threshold_does_not_fit_all() -> None:
    assert "varies from day to day" in VELOCITY_LOSS
    assert "plain weight" in VELOCITY_LOSS
