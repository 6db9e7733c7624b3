"""Godwin, M., Fernandes, J. F. T. and Twist, C. (2018).

Effects of variable resistance using chains on bench throw performance in trained rugby players.
Journal of Strength and Conditioning Research 32(4), 950-954. Seen: abstract. Straight weight 30 %
and chain 15 % of a mean 1RM of 105.6 kg.
"""

from __future__ import annotations

import pytest

from topheavy.rigging.target import Ask


def test_straight_weight_and_chain_of_the_best() -> None:
    """Computed: 31.7 + 15.8 = 47.5 kg, to 0.1 kg."""
    best_kg = 105.6
    bottom_kg, top_kg = Ask(
        straight_kg=0.30 * best_kg, chain_share=0.15, base="best", best_kg=best_kg
    ).ends_kg()
    assert bottom_kg == pytest.approx(31.7, abs=0.1)
    assert top_kg - bottom_kg == pytest.approx(15.8, abs=0.1)
    assert top_kg == pytest.approx(47.5, abs=0.1)
