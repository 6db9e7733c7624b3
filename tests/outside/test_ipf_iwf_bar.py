"""Competition bar and plates: masses, tolerance and the height a loaded bar starts from.

International Powerlifting Federation, Technical Rules Book, bars and discs (seen: part): bar and
collars 25 kg; 1.31 to 1.32 m between collar faces; sleeve 50 to 52 mm; discs within 0.25 % or
10 g of their face value. International Weightlifting Federation, Technical and Competition Rules
and Regulations, 3.3 sport equipment (seen: memory): largest disc 450 mm, tolerance 1 mm.
"""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.gym.lifts import LIFTS
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import BARE_FLOOR
from topheavy.mechanics.hang import Draped
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.uncertainty import InputSpread, load_budget

BAR_AND_COLLARS_KG = 25.0
DISC_TOLERANCE = 0.0025
LARGEST_DISC_M = 0.450
CENTRE_M = LARGEST_DISC_M / 2


def test_bar_and_collars_carry_25_kg_at_every_height() -> None:
    """IPF: bar and collars 25 kg; with 4 x 25 kg and 2 x 20 kg on it, 165 kg exactly."""
    rig = Rig(BAR_AND_COLLARS_KG, 4 * 25.0 + 2 * 20.0, End(), End())
    assert rig.curve().at(np.linspace(0.0, 2.5, 6)).tolist() == [165.0] * 6


def test_default_spread_of_plates_is_the_discs_tolerance() -> None:
    """IPF: 0.25 % either way; a rectangle's standard deviation, drawn by numpy; to 0.5 %."""
    discs = 20 * np.random.default_rng(1).uniform(1 - DISC_TOLERANCE, 1 + DISC_TOLERANCE, 200_000)
    budget = load_budget(Rig(0.0, 20.0, End(), End()), 1.0, BARE_FLOOR, "still", InputSpread())
    assert float(budget.contributions["plates"]) == pytest.approx(float(np.std(discs)), rel=0.005)


@pytest.mark.parametrize("lift", ["deadlift", "paused deadlift", "sumo deadlift"])
def test_a_bar_on_its_largest_discs_is_a_deadlifts_bottom(lift: str) -> None:
    """IWF: 450 mm +- 1 mm, so the centre stands 0.225 m +- 0.5 mm above the platform."""
    low_m, high_m = LIFTS[lift].bottom_m
    assert pytest.approx(0.225, abs=0.001) == CENTRE_M
    assert low_m < CENTRE_M - 0.0005 < CENTRE_M + 0.0005 < high_m
    LIFTS[lift].check_heights(CENTRE_M, 0.80, field="travel")


def test_chain_over_the_bar_at_the_deadlifts_start() -> None:
    """450 mm discs: 2 x 0.225 m of a draped piece is off the floor before the bar is; 1 mm."""
    chain = Chain(links=36, pitch_m=0.056, density_kg_per_m=5.3)
    load_kg = float(End((Draped(chains=(chain,)),)).curve(way="still").at(CENTRE_M))
    assert load_kg / chain.density_kg_per_m == pytest.approx(0.450, abs=0.001)
