"""An unknown chain weighed in a link-by-link simulation.

MuJoCo 4.0.0, 32 links of 47.5 mm pitch and 6.105 kg/m held together by contact only; table
``data/link_level_straight.csv``: load on the bar, mean over one pitch, mean of four piles. Seen:
computed; a simulation, not a measurement.

The chain's mass is stated as if it had been guessed from a size name, and badly: 4.4 kg/m with a
standard uncertainty of half of it. Only the scale can tell.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.services.weighing.weigh import Number, Scale, ScaleReading, Weighing, weigh

if TYPE_CHECKING:
    from topheavy.services.weighing.case import ReadingWay

TABLE = np.loadtxt(
    Path(__file__).parent / "data" / "link_level_straight.csv", delimiter=",", skiprows=2
)
UP, DOWN = 2, 5
TRUE_KG_PER_M = 6.105
UNKNOWN = Chain(links=32, pitch_m=0.0475, density_kg_per_m=4.4, density_u_kg_per_m=2.2)
RIG = Rig(20.0, 0.0, End((Straight(chain=UNKNOWN),)), End())
HOOKED = Scale(carries="left", straight_kg=0.0)


def readings(column: int, way: ReadingWay, low_m: float, high_m: float) -> list[ScaleReading]:
    rows = [row for row in TABLE[::10] if low_m <= row[0] <= high_m]
    return [
        ScaleReading(height_m=row[0], mass_kg=row[column], mass_u_kg=0.02, way=way) for row in rows
    ]


def number(answer: Weighing, name: str) -> Number:
    found = answer.fit.number(name)
    assert found is not None
    return found


def test_raising_mean_tells_the_mass_per_length() -> None:
    """Column up_mean from 0.32 m to 1.42 m: 6.105 kg/m within 4 %, and within 2 of its own u.

    No reading has all chain in the air, which would give the mass away.
    """
    answer = weigh(RIG, Ground(), readings(UP, "raising", 0.3, 1.45), HOOKED)
    chain = number(answer, "chain")
    assert chain.value == pytest.approx(TRUE_KG_PER_M, rel=0.04)
    assert abs(chain.value - TRUE_KG_PER_M) < 2 * chain.u
    assert chain.known_from == "scale"


def test_both_ways_tell_how_much_the_pile_differs() -> None:
    """Columns up_mean and down_mean: a raised floor of 0.5 to 2 cm going up, 8 cm going down."""
    both = readings(UP, "raising", 0.3, 1.45) + readings(DOWN, "lowering", 0.3, 1.45)
    answer = weigh(RIG, Ground(), both, HOOKED)
    assert number(answer, "chain").value == pytest.approx(TRUE_KG_PER_M, rel=0.04)
    assert number(answer, "pile difference").value == pytest.approx(0.068, abs=0.02)
    assert not answer.fit.separable


def test_lifting_it_clear_tells_the_whole_mass() -> None:
    """With readings above 1.52 m all 9.280 kg hang: the table's last rows, three decimals."""
    answer = weigh(RIG, Ground(), readings(UP, "raising", 0.3, 1.6), HOOKED)
    chain = number(answer, "chain")
    assert chain.value * 32 * 0.0475 == pytest.approx(9.28, rel=0.01)
    assert chain.u < 0.02 * chain.value


def test_it_is_not_the_chain_that_was_stated() -> None:
    """Stated as known to 5 % the same chain raises the alarm, and its mass is named."""
    sure = Chain(links=32, pitch_m=0.0475, density_kg_per_m=4.4, density_u_kg_per_m=0.22)
    rig = Rig(20.0, 0.0, End((Straight(chain=sure),)), End())
    answer = weigh(rig, Ground(), readings(UP, "raising", 0.3, 1.45), HOOKED)
    assert answer.outcome in {"cause", "causes"}
    (cause,) = (cause for cause in answer.likely if cause.kind == "chain")
    assert cause.what.say().startswith("The chain weighs 6.")
