"""What hung then is read from the stock as it is now."""

from __future__ import annotations

import numpy as np
import pytest

from tests.services.lifters import BENCH, CHAIN, STATIONS, STOCK
from topheavy.errors import TopheavyError
from topheavy.gym.people import Station, Travel
from topheavy.gym.records import BandsUsed, HungThen
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Draped, Straight
from topheavy.mechanics.rig import End
from topheavy.services.hung_then import hung_curve_then

HEIGHTS = np.linspace(0.66, 1.07, 23)
BANDS = HungThen(bands=(BandsUsed(left="red-1", right="red-2", peg="low"),))


@pytest.mark.parametrize(
    ("style", "hang"), [("straight", Straight(chain=CHAIN)), ("draped", Draped(chains=(CHAIN,)))]
)
def test_chain_without_a_feeder(style: str, hang: Straight | Draped) -> None:
    hung = HungThen(left=("A1",), right=("A2",), style=style)  # type: ignore[arg-type]  # both are
    wanted = 2 * End((hang,)).curve(Ground()).at(HEIGHTS)
    found = hung_curve_then(hung, STOCK, STATIONS[0], BENCH).at(HEIGHTS)
    assert found == pytest.approx(wanted)


def test_bands_pull_as_their_fit_says() -> None:
    band = Banded(
        band=STOCK.bands[0].fit(), peg=Peg(height_m=0.12, offset_m=0.06), travel_m=(0.66, 1.07)
    )
    found = hung_curve_then(BANDS, STOCK, STATIONS[0], BENCH).at(HEIGHTS)
    assert found == pytest.approx(2 * band.load_kg(HEIGHTS), abs=0.02)


def test_a_mat_under_the_chain_takes_load_off() -> None:
    hung = HungThen(left=("A1",), right=("A2",), style="straight")
    matted = Station(name="rack", kind="rack", surface_m=0.05)
    loads = [hung_curve_then(hung, STOCK, at, BENCH).at(0.9) for at in (STATIONS[3], matted)]
    assert float(loads[0] - loads[1]) == pytest.approx(2 * 5.3 * 0.05, rel=1e-6)


@pytest.mark.parametrize(
    ("hung", "said"),
    [
        (HungThen(left=("A7",), right=("A2",), style="straight"), "No chain piece 'A7'"),
        (HungThen(left=("A1",), right=("A1",), style="straight"), "two places"),
        (HungThen(left=("A1",), feeder="rope", setting="1"), "No feeder 'rope'"),
        (HungThen(left=("A1",), feeder="strap", setting="9"), "no setting '9'"),
        (HungThen(left=("A1",), feeder="strap", setting="1", connector="x"), "No connector 'x'"),
        (HungThen(bands=(BandsUsed(left="red-1", right="red-1", peg="low"),)), "two places"),
        (HungThen(bands=(BandsUsed(left="red-1", right="red-9", peg="low"),)), "No band 'red-9'"),
        (HungThen(bands=(BandsUsed(left="red-1", right="red-2", peg="top"),)), "no band peg"),
    ],
)
def test_what_the_gym_does_not_know_is_refused(hung: HungThen, said: str) -> None:
    with pytest.raises(TopheavyError, match=said):
        hung_curve_then(hung, STOCK, STATIONS[0], BENCH)


def test_a_band_beyond_its_readings_is_refused() -> None:
    with pytest.raises(TopheavyError, match="red-1"):
        hung_curve_then(BANDS, STOCK, STATIONS[0], Travel(bottom_m=0.66, top_m=1.3))
