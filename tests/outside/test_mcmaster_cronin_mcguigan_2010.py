"""Mass of chain off the floor against displacement is a straight line.

McMaster DT, Cronin JB, McGuigan MR. Quantification of rubber and chain-based resistance modes.
Journal of Strength and Conditioning Research 24(8): 2056-2064, 2010.
doi 10.1519/jsc.0b013e3181dc4200. Seen: abstract. Chains of 6, 8, 10, 13 and 16 mm on a load cell
and a force plate, raised in steps of 10 cm: linear mass-displacement, R = 1.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import linregress

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.links import count_straight
from topheavy.mechanics.rig import End

# Links of the five wire sizes: pitch and mass a metre of DIN 766 (a chain maker's table, read).
SIZES = {6: (18.5, 0.8), 8: (24.0, 1.4), 10: (28.0, 2.3), 13: (36.0, 3.9), 16: (45.0, 5.8)}
STEPS_M = np.arange(0.0, 1.01, 0.10)


def piece(wire_mm: int) -> Chain:
    pitch_mm, density_kg_per_m = SIZES[wire_mm]
    pitch_m = pitch_mm / 1000
    return Chain(links=round(2.4 / pitch_m), pitch_m=pitch_m, density_kg_per_m=density_kg_per_m)


@pytest.mark.parametrize("wire_mm", SIZES)
def test_mass_against_displacement_is_a_straight_line(wire_mm: int) -> None:
    """Abstract: best represented by first-order polynomials, R = 1 for all five sizes."""
    chain = piece(wire_mm)
    line = linregress(STEPS_M, End((Straight(chain=chain),)).curve(way="still").at(STEPS_M))
    assert line.rvalue == pytest.approx(1.0, abs=1e-9)
    assert line.slope == pytest.approx(chain.density_kg_per_m, rel=1e-9)
    assert line.intercept == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("wire_mm", SIZES)
def test_links_counted_in_steps_still_read_as_one_line(wire_mm: int) -> None:
    """The same R = 1, to the two decimals a reader may expect, with the steps of links left in."""
    chain = piece(wire_mm)
    loads = [count_straight(chain, float(z)).mass_kg(chain) for z in STEPS_M]
    assert linregress(STEPS_M, loads).rvalue >= 0.995


@pytest.mark.parametrize("wire_mm", SIZES)
def test_doubled_is_a_line_of_twice_the_slope(wire_mm: int) -> None:
    """Two strands of the same chain: a line again while both still reach the floor.

    Read from where both begin to rise: of an odd piece, once its middle link hangs.
    """
    chain = piece(wire_mm)
    curve = End((Doubled(chains=(chain,), suspension=Suspension(feeder_m=0.5)),)).curve(way="still")
    middle_m = chain.links % 2 * chain.pitch_m
    line = linregress(STEPS_M, curve.at(0.5 + middle_m + STEPS_M))
    assert line.rvalue == pytest.approx(1.0, abs=1e-9)
    assert line.slope == pytest.approx(2 * chain.density_kg_per_m, rel=1e-9)


def test_static_weight_of_eighty_centimetres() -> None:
    """Lambda g z for 5 kg/m and 0.8 m: 39.227 N, computed from standard gravity; 1e-3 N."""
    chain = Chain(links=40, pitch_m=0.05, density_kg_per_m=5.0)
    load_kg = float(End((Straight(chain=chain),)).curve(way="still").at(0.8))
    assert load_kg * STANDARD_GRAVITY_M_PER_S2 == pytest.approx(39.227, abs=1e-3)
