"""What lifters say their chain weighs: common practice, no source.

Rules of thumb passed on in gyms; no publication is claimed. Tolerance 15 %, as wide as the words.
The chain is the nearest standard twin of the trade's 5/8 in: DIN 764, 16 x 56 mm, 5.3 kg/m (read
in a chain maker's table).
"""

from __future__ import annotations

import pytest

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.rig import End, Rig
from topheavy.units import KG_PER_LB

PITCH_M = 0.056
BOTTOM_M = 0.392
TOP_M = BOTTOM_M + 8 * PITCH_M  # the bench press of the picture: eight links of travel
LOOSE = 0.15


def links(count: int) -> Chain:
    return Chain(links=count, pitch_m=PITCH_M, density_kg_per_m=5.3)


def pounds(mass_kg: float) -> float:
    return mass_kg / KG_PER_LB


def working_piece() -> Chain:
    """Common practice, no source: a piece to work with weighs about 21 lb."""
    return links(round(21 * KG_PER_LB / links(1).mass_kg))


@pytest.mark.parametrize("said_lb", [2 / 3, 3 / 4])
def test_one_link(said_lb: float) -> None:
    """Common practice, no source: one 5/8 in link weighs 2/3 to 3/4 lb."""
    assert pounds(links(1).mass_kg) == pytest.approx(said_lb, rel=LOOSE)


def test_four_links() -> None:
    """Common practice, no source: four links about 3 lb."""
    assert pounds(links(4).mass_kg) == pytest.approx(3.0, rel=LOOSE)


@pytest.mark.parametrize("said_lb", [10.0, 11.0])
def test_fifteen_links_straight(said_lb: float) -> None:
    """Common practice, no source: 15 links from the sleeve carry 10 to 11 lb a side at the top."""
    end = End((Straight(chain=links(15)),))
    assert pounds(float(end.curve(way="still").at(TOP_M))) == pytest.approx(said_lb, rel=LOOSE)


def test_fifteen_links_straight_hardly_change_the_bar() -> None:
    """Common practice, no source: the whole lift changes the bar by 4 to 10 or 12 lb."""
    end = End((Straight(chain=links(15)),))
    bottom_kg, top_kg = Rig(20.0, 60.0, end, end).curve(way="still").at([BOTTOM_M, TOP_M])
    assert 4 <= pounds(float(top_kg - bottom_kg)) <= 12


def test_eighty_four_pounds_doubled() -> None:
    """Common practice, no source: two 21 lb pieces a side put about 40 lb on the bar at lockout.

    Next to nothing at the chest: here within 15 % of the 40 lb, and exactly none as reckoned.
    """
    pieces = (working_piece(), working_piece())
    end = End((Doubled(chains=pieces, suspension=Suspension(feeder_m=BOTTOM_M)),))
    rig = Rig(20.0, 60.0, end, end)
    bottom_kg, top_kg = rig.hung_curve(way="still").at([BOTTOM_M, TOP_M])
    assert pounds(rig.left.mass_kg + rig.right.mass_kg) == pytest.approx(84, rel=0.02)
    assert pounds(float(top_kg)) == pytest.approx(40, rel=LOOSE)
    assert pounds(float(bottom_kg)) == pytest.approx(0, abs=LOOSE * 40)


def test_doubled_lifts_sixteen_links_a_piece_where_straight_lifts_eight() -> None:
    """Common practice, no source: eight links of travel lift 8 x 2 links of each doubled piece."""
    piece = working_piece()
    doubled = End((Doubled(chains=(piece,), suspension=Suspension(feeder_m=BOTTOM_M)),))
    straight = End((Straight(chain=piece),))
    for end, lifted in ((doubled, 16), (straight, 8)):
        bottom_kg, top_kg = end.curve(way="still").at([BOTTOM_M, TOP_M])
        assert float(top_kg - bottom_kg) / piece.link_mass_kg == pytest.approx(lifted)
