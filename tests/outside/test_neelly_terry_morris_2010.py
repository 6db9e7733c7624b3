"""Measured unloading of chain hung straight and doubled on a back squat.

Neelly KR, Terry JG, Morris MJ. A mechanical comparison of linear and double-looped hung
supplemental heavy chain resistance to the back squat: a case study. Journal of Strength and
Conditioning Research 24(1): 278-281, 2010. doi 10.1519/JSC.0b013e3181b2977a. Seen: abstract.
One lifter, load cells between chain and bar, one chain of 9.6 kg or two. The abstract gives no
length of chain and no travel: those are ours and marked so.
"""

from __future__ import annotations

import pytest

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.rig import End, Rig

PIECE_KG = 9.6
LENGTH_M = 1.524  # assumed: 5 ft, a usual cut for a working piece
BOTTOM_M, TRAVEL_M = 0.85, 0.60  # assumed: a 1.83 m lifter's squat
TOP_M = BOTTOM_M + TRAVEL_M
LINKS = 32
PIECE = Chain(links=LINKS, pitch_m=LENGTH_M / LINKS, density_kg_per_m=PIECE_KG / LENGTH_M)

MEASURED_STRAIGHT = (0.36, 0.42)
MEASURED_DOUBLED = (0.78, 0.89)


def unloading(end: End) -> float:
    """Share of the chain's own weight that the floor takes over from top to bottom."""
    top_kg, bottom_kg = Rig(20.0, 64.1, end, end).hung_curve(way="still").at([TOP_M, BOTTOM_M])
    return float(top_kg - bottom_kg) / (2 * PIECE_KG)


def straight() -> End:
    return End((Straight(chain=PIECE),))


def doubled() -> End:
    return End((Doubled(chains=(PIECE,), suspension=Suspension(feeder_m=BOTTOM_M)),))


def test_straight_unloads_travel_over_length() -> None:
    """Abstract: 36 to 42 % of the chain's weight; model 0.60 m of 1.524 m = 39.4 %."""
    assert unloading(straight()) == pytest.approx(TRAVEL_M / LENGTH_M, rel=1e-6)
    assert MEASURED_STRAIGHT[0] <= unloading(straight()) <= MEASURED_STRAIGHT[1]


def test_doubled_unloads_inside_the_measured_range() -> None:
    """Abstract: 78 to 89 % of the chain's weight; no travel or length beyond those above."""
    low, high = MEASURED_DOUBLED
    assert low <= unloading(doubled()) <= high


@pytest.mark.parametrize("measured", [0.78 / 0.36, 0.89 / 0.42])
def test_doubled_unloads_about_twice_what_straight_does(measured: float) -> None:
    """Abstract: "nearly 2 times"; 78/36 = 2.17 and 89/42 = 2.12 from its rounded ends; 10 %."""
    assert unloading(doubled()) / unloading(straight()) == pytest.approx(measured, rel=0.10)
