"""Biggins & Warner, Understanding the chain fountain, Proc. R. Soc. A 470 (2014) 20130689.

Seen: abstract and introduction. Links come into motion by the pull of the chain above and by a
push from the pile, in proportion to the square of the speed; so the pull is less than the full
momentum term. That the push is at most half of it, by energy, is from memory.
"""

from __future__ import annotations

import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.moving import LOOSE_PILE, raising_force_n

DENSITY = 5.0
HEAP = LoadCurve.strand(DENSITY, 2.0, 0.0)


@pytest.mark.parametrize("push_share", [0.0, 0.12, 0.3, 0.5])
def test_a_push_from_the_heap_leaves_the_rest_to_the_bar(push_share: float) -> None:
    """Bar and heap together give the links' momentum, density v2: the bar's part is k."""
    speed = 0.9
    bar_n = float(raising_force_n(HEAP, 0.0, 0.8, speed, 0.0, LOOSE_PILE - push_share))
    heap_n = push_share * DENSITY * speed**2
    assert bar_n + heap_n - DENSITY * 0.8 * G == pytest.approx(DENSITY * speed**2, rel=1e-9)


@pytest.mark.parametrize("push_share", [-0.1, 0.51])
def test_a_pile_neither_sucks_nor_makes_energy(push_share: float) -> None:
    with pytest.raises(BadInputError):
        raising_force_n(HEAP, 0.0, 0.8, 0.9, 0.0, LOOSE_PILE - push_share)
