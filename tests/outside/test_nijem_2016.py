"""Nijem, R. M., Coburn, J. W., Brown, L. E., Lynn, S. K. and Ciccone, A. B. (2016).

Electromyographic and force plate analysis of the deadlift performed with and without chains.
Journal of Strength and Conditioning Research 30(5), 1177-1182. Seen: abstract. Load at the top
85 % of 1RM, chain 19.9 % of it.
"""

from __future__ import annotations

import pytest

from topheavy.rigging.target import Ask, share_of


def test_top_matched_load_splits_into_plates_and_chain() -> None:
    """Computed from the abstract's figures: chain 16.9, plates 68.1 % of 1RM, to 0.1 point."""
    bottom, top = Ask(top_kg=85.0, chain_share=0.199, base="top").ends_kg()
    assert top == 85.0
    assert bottom == pytest.approx(68.1, abs=0.1)
    assert share_of(bottom, top, "best", 100.0) == pytest.approx(0.169, abs=0.001)
