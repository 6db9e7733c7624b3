"""A band between peg and sleeve: load, side pull, energy, curve, and its part in a rig."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.mechanics.bands import pull_kg, read
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.band import fit_band
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.uncertainty import InputSpread, load_budget, mean_budget, share_budget

FIT = fit_band(read())
TRAVEL = (0.55, 1.1)
STRAIGHT_UP = Banded(band=FIT, peg=Peg(height_m=0.1), travel_m=TRAVEL)
ASLANT = replace(STRAIGHT_UP, peg=Peg(height_m=0.1, offset_m=0.3))
HEIGHTS = np.linspace(0.56, 1.09, 41)
EXACT = InputSpread(height_u_m=0.0, bar_relative_u=0.0, plate_relative_u=0.0)


def test_straight_up_the_bar_carries_the_tension() -> None:
    assert STRAIGHT_UP.load_kg(HEIGHTS) == pytest.approx(pull_kg(HEIGHTS - 0.1), abs=1e-9)
    assert STRAIGHT_UP.side_pull_n(HEIGHTS) == pytest.approx(np.zeros(41))


def test_aslant_only_the_vertical_part_counts() -> None:
    """A 3-4-5 triangle: 0.4 m up and 0.3 m aside is 0.5 m long."""
    tension = float(pull_kg(np.array(0.5)))
    assert float(ASLANT.length_m(0.5)) == pytest.approx(0.5)
    assert float(ASLANT.load_kg(0.5)) == pytest.approx(0.8 * tension)
    side_n = float(ASLANT.side_pull_n(0.5))
    assert side_n == pytest.approx(0.6 * tension * STANDARD_GRAVITY_M_PER_S2)


def test_doubled_two_strands_share_a_tension_of_both_lengths() -> None:
    peg = Peg(height_m=0.1)
    doubled = Banded(band=FIT, peg=peg, second=peg, travel_m=(0.3, 0.6))
    assert float(doubled.load_kg(0.5)) == pytest.approx(2 * float(pull_kg(np.array(0.8))))
    front, back = (Peg(height_m=0.1, offset_m=x) for x in (0.3, -0.3))
    apart = Banded(band=FIT, peg=front, second=back, travel_m=(0.3, 0.55))
    assert float(apart.load_kg(0.5)) == pytest.approx(2 * 0.8 * float(pull_kg(np.array(1.0))))
    assert float(apart.side_pull_n(0.5)) == pytest.approx(0.0, abs=1e-9)


def test_slack_below_adds_nothing() -> None:
    assert STRAIGHT_UP.load_kg([0.2, 0.5, 0.549]).tolist() == [0.0, 0.0, 0.0]
    low = replace(STRAIGHT_UP, travel_m=(0.2, 0.5))
    assert low.remarks() == ("Band red-1 is slack all the way: it adds nothing",)
    assert STRAIGHT_UP.remarks() == ()


def test_from_above_a_band_takes_load_off() -> None:
    above = Banded(band=FIT, peg=Peg(height_m=1.5, offset_m=0.05), travel_m=(0.5, 1.2))
    loads = above.load_kg([0.5, 0.8, 1.2])
    assert np.all(np.diff(loads) > 0)
    assert loads[0] < -15
    assert loads[-1] == 0.0
    assert above.curve().at([0.5, 0.8, 1.2]) == pytest.approx(loads, abs=0.005)


@pytest.mark.parametrize("error_kg", [0.1, 0.005, 0.0005])
@pytest.mark.parametrize(
    "hang",
    [
        STRAIGHT_UP,
        ASLANT,
        replace(STRAIGHT_UP, peg=Peg(height_m=0.1, offset_m=0.02), travel_m=(0.1, 1.1)),
        Banded(
            band=FIT,
            peg=Peg(height_m=0.1, offset_m=0.2),
            second=Peg(height_m=0.3, offset_m=-0.1),
            travel_m=(0.2, 0.7),
        ),
        replace(ASLANT, travel_m=(0.55, 1.4), beyond=True),
    ],
)
def test_the_curve_keeps_its_word(hang: Banded, error_kg: float) -> None:
    heights = np.linspace(*hang.travel_m, 5001)
    miss = np.abs(hang.curve(error_kg).at(heights) - hang.load_kg(heights))
    assert float(np.max(miss)) <= error_kg + 1e-9
    assert hang.curve(error_kg).never_falls
    # A bound that is far too safe would cost knots: a tenth of it is really used.
    assert float(np.max(miss)) > 0.1 * error_kg or hang.curve(error_kg).height_m.size < 10


def test_energy_is_the_work_of_the_curve() -> None:
    bottom, top = TRAVEL
    held = float(ASLANT.energy_j(top) - ASLANT.energy_j(bottom))
    work = ASLANT.curve(1e-4).work_j(bottom, top)
    assert work == pytest.approx(held, abs=1e-4 * STANDARD_GRAVITY_M_PER_S2)


def test_beyond_the_readings_is_refused_unless_asked_and_then_said() -> None:
    with pytest.raises(BadInputError, match="never read that long") as caught:
        replace(STRAIGHT_UP, travel_m=(0.55, 1.3))
    assert "longest reading 1.150 m" in str(caught.value.got)
    with pytest.raises(BadInputError, match="never read that long"):
        STRAIGHT_UP.load_kg(1.3)
    asked = replace(STRAIGHT_UP, travel_m=(0.55, 1.3), beyond=True)
    (remark,) = asked.remarks()
    assert "1.20 m, 0.05 m beyond its longest reading" in remark
    assert "guess" in remark
    assert "band red-1, beyond the readings" in asked.change_curves()


def rig_of(*bands: Banded, chain: bool = True) -> Rig:
    piece = Chain(links=30, pitch_m=0.05, density_kg_per_m=5.0)
    left, right = bands
    hangs = (Straight(chain=piece),) if chain else ()
    return Rig(20.0, 60.0, End(hangs, (left,)), End(hangs, (right,)))


OTHER = replace(STRAIGHT_UP, band=fit_band(read("red-2", stiff=1.03)))


def test_chain_and_band_add_on_the_bar() -> None:
    rig = rig_of(STRAIGHT_UP, OTHER)
    chain = 2 * 5.0 * HEIGHTS
    bands = STRAIGHT_UP.load_kg(HEIGHTS) + OTHER.load_kg(HEIGHTS)
    assert rig.hung_curve(way="still").at(HEIGHTS) == pytest.approx(chain)
    assert rig.band_curve().at(HEIGHTS) == pytest.approx(bands, abs=0.01)
    assert rig.added_curve(way="still").at(HEIGHTS) == pytest.approx(chain + bands, abs=0.01)
    assert rig.curve(way="still").at(HEIGHTS) == pytest.approx(80 + chain + bands, abs=0.01)
    assert rig.left.mass_kg == pytest.approx(7.5)


def test_without_bands_nothing_changes() -> None:
    bare = Rig(20.0, 60.0, End(), End())
    assert bare.band_curve().at(HEIGHTS).tolist() == [0.0] * 41


def test_bands_have_their_own_lines_in_the_budget() -> None:
    rig = rig_of(STRAIGHT_UP, OTHER, chain=False)
    heights = np.array([0.7, 0.9, 1.08])
    budget = load_budget(rig, heights, Ground(), "raising", EXACT)
    grouped = budget.grouped()
    assert {"band red-1", "band red-2"} <= set(grouped)
    own = STRAIGHT_UP.band.tension_u_kg(heights - 0.1)
    slope = STRAIGHT_UP.band.law.slope_kg_per_m(heights - 0.1)
    assert grouped["band red-1"] == pytest.approx(np.hypot(own, 0.005 * slope), rel=0.02)
    high = load_budget(rig, heights, Ground(), "raising", replace(EXACT, height_u_m=0.01))
    assert np.all(high.contributions["bar height"] > 0)


def test_the_budget_is_the_spread_of_rigs_drawn_anew() -> None:
    """Monte Carlo of readings, rest length and peg: load, mean and share over the travel.

    A spread of 250 draws is itself good to 4.5 %.
    """
    dice = np.random.default_rng(9)
    heights = np.array([0.65, 0.8, 1.05])
    single = Rig(20.0, 60.0, End((), (ASLANT,)), End())
    loads, means, shares = [], [], []
    for _ in range(250):
        peg = replace(ASLANT.peg, height_m=ASLANT.peg.height_m + dice.normal(0.0, 0.005))
        hang = replace(ASLANT, band=fit_band(read(dice=dice)), peg=peg, beyond=True)
        curve = replace(single, left=End((), (hang,))).curve()
        loads.append(curve.at(heights))
        means.append(curve.mean(0.6, 1.05))
        bottom, top = curve.at([0.6, 1.05])
        shares.append(1 - bottom / top)
    said = load_budget(single, heights, Ground(), "raising", EXACT).combined_kg
    assert np.std(loads, axis=0) == pytest.approx(said, rel=0.15)
    mean = mean_budget(single, (0.6, 1.05), Ground(), "raising", EXACT)
    assert np.std(means) == pytest.approx(float(mean.combined_kg), rel=0.15)
    share = share_budget(single, (0.6, 1.05), Ground(), "raising", EXACT)
    assert np.std(shares) == pytest.approx(share.combined, rel=0.15)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Peg(height_m=float("nan")), "height_m"),
        (lambda: Peg(height_m=0.1, offset_m=float("inf")), "offset_m"),
        (lambda: Peg(height_m=0.1, u_m=-0.1), "u_m"),
        (lambda: replace(STRAIGHT_UP, travel_m=(1.0, 0.5)), "travel_m"),
        (lambda: replace(STRAIGHT_UP, second=Peg(height_m=0.7), travel_m=(0.6, 0.7)), "peg"),
        (lambda: STRAIGHT_UP.curve(0.0), "error_kg"),
        (lambda: STRAIGHT_UP.curve(1e-12), "error_kg"),
    ],
)
def test_refusals(make: Any, field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        make()
    assert caught.value.field == field
