"""Bands of a rig, read over a lift: what each pulls, pairs, doubts, and what is off."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.mechanics.bands import pull_kg as law_kg
from tests.mechanics.bands import read
from topheavy.errors import BadInputError
from topheavy.gym.bands import Band
from topheavy.gym.people import StationPeg, Travel
from topheavy.mechanics.banded import Peg
from topheavy.mechanics.ground import BARE_FLOOR
from topheavy.rigging.hung_band import HungBand
from topheavy.services.bands import REST_STEP_M, band_remarks, read_bands
from topheavy.services.cautions import cautions_for
from topheavy.services.curve import CurveQuestion, answer_curve
from topheavy.services.described import DescribedRig, dangers
from topheavy.services.reading import hung_straight, read_rig

LOW = StationPeg(name="low", peg=Peg(height_m=0.1, offset_m=0.0))
HIGH = StationPeg(name="high", peg=Peg(height_m=2.1))
TRAVEL = Travel(bottom_m=0.66, top_m=1.06)


def pull_kg(length_m: float, rest_m: float = 0.45) -> float:
    """What the band really pulls at a length [kg]."""
    return float(law_kg(np.array(length_m), rest_m))


def band(tag: str = "red-1", rest_m: float = 0.45, *, retired: str = "") -> Band:
    readings = replace(read(tag, rest_m=rest_m), rest_u_m=0.0)
    return Band(readings=readings, measured_on="2026-09-12", retired=retired)


def hung(tag: str = "red-1", *, rest_m: float = 0.45, peg: StationPeg = LOW) -> HungBand:
    return HungBand(band=band(tag, rest_m), peg=peg)


def described(left: tuple[HungBand, ...], right: tuple[HungBand, ...] = ()) -> DescribedRig:
    return DescribedRig(bar_kg=20.0, plates_kg=40.0, left_bands=left, right_bands=right)


def test_a_band_straight_up_pulls_its_tension() -> None:
    (one,) = read_bands([hung()], [], TRAVEL).each
    assert one.bottom.load_kg == pytest.approx(pull_kg(0.56), abs=0.01)
    assert one.top.load_kg == pytest.approx(pull_kg(0.96), abs=0.01)
    assert (one.bottom.length_m, one.top.length_m) == pytest.approx((0.56, 0.96))
    assert one.spare_m == pytest.approx(1.15 - 0.96)
    assert one.side_pull_n == 0


def test_a_centimetre_at_rest_scales_the_length_that_is_looked_up() -> None:
    """The same rubber: the same tension at the same ratio of length to rest length."""
    (one,) = read_bands([hung()], [], TRAVEL).each
    like_kg = pull_kg(0.96 * 0.45 / (0.45 + REST_STEP_M))
    assert one.top.longer_rest_kg == pytest.approx(like_kg - pull_kg(0.96), abs=0.02)
    assert one.top.longer_rest_kg < 0


def test_height_of_bar_and_peg_are_in_the_doubt() -> None:
    """At 0.96 m the law rises by 34 - 24 x 0.51 kg/m, over two heights known to 5 mm each."""
    sure = Travel(bottom_m=0.66, top_m=1.06, height_u_m=0.0)
    (one,), (other,) = (read_bands([hung()], [], travel).each for travel in (TRAVEL, sure))
    added = one.top.u_kg**2 - other.top.u_kg**2
    assert added**0.5 == pytest.approx(0.005 * (34 - 24 * 0.51), rel=0.02)


def test_bands_on_the_same_peg_are_a_pair() -> None:
    reading = read_bands([hung("a")], [hung("b", rest_m=0.47)], TRAVEL)
    (pair,) = reading.pairs
    gaps = [pull_kg(x, 0.45) - pull_kg(x, 0.47) for x in (0.56, 0.96)]
    assert pair.worst_kg == pytest.approx(max(gaps), abs=0.02)
    assert reading.alone == ()


def test_a_band_without_a_partner_is_told() -> None:
    doubled = replace(hung("b"), doubled=True, beyond=True)
    reading = read_bands([hung("a")], [doubled], TRAVEL)
    assert [one.band.tag for one in reading.alone] == ["a", "b"]
    said = [remark.say() for remark in reading.remarks()]
    assert any("Band a has no partner" in words for words in said)
    assert any("stretched 77.0 cm further than it was ever read" in words for words in said)


def test_a_slack_band_is_told() -> None:
    low = Travel(bottom_m=0.50, top_m=1.0)
    assert "Band a hangs slack by 5.0 cm at the bottom" in said_of(low)
    assert "slack all the way" in said_of(Travel(bottom_m=0.3, top_m=0.5))


def said_of(travel: Travel) -> str:
    return read_bands([hung("a")], [hung("b")], travel).remarks()[0].say()


def test_bands_to_read_again_are_told_on_the_day_that_is_said() -> None:
    assert band_remarks([hung()], "") == ()
    assert band_remarks([hung()], "2026-11-25") == ()
    assert "read it again" in band_remarks([hung()], "2027-11-25")[0]


def test_a_stretch_beyond_the_readings_is_refused_by_band_and_peg() -> None:
    with pytest.raises(BadInputError) as raised:
        hung().over((0.66, 1.40))
    assert raised.value.field == "band red-1"
    assert "single on peg low" in raised.value.message
    assert hung().reach_m == pytest.approx(0.1 + 1.15)


def test_deload_is_of_chain_and_bands_are_kept_apart() -> None:
    rig = described((hung("a"),), (hung("b"),)).over(0.66, 1.06).rig
    reading = read_rig(rig, TRAVEL, BARE_FLOOR)
    assert reading.deload is None
    assert (reading.hung_bottom_kg, reading.hung_top_kg) == (0, 0)
    assert reading.bands_top_kg == pytest.approx(2 * pull_kg(0.96), abs=0.02)
    assert reading.top.load_kg == pytest.approx(60 + reading.bands_top_kg)
    assert reading.top.mostly in {"band a", "band b", "top height", "plates", "bar and collars"}
    assert hung_straight(rig) == rig


def test_bands_need_to_know_the_heights_they_are_used_at() -> None:
    with pytest.raises(BadInputError, match="at which heights the bands are used"):
        _ = described((hung(),)).rig


def test_one_height_alone_is_enough() -> None:
    question = CurveQuestion(
        described=described((hung("a"),), (hung("b"),)), ground=BARE_FLOOR, heights_m=(0.9,)
    )
    (point,) = answer_curve(question).points
    assert point.raising.load_kg == pytest.approx(60 + 2 * pull_kg(0.8), abs=0.02)


@pytest.mark.parametrize(
    ("load_kg", "found"), [(60.0, "everywhere"), (75.0, "at a height"), (99.0, "beyond the bands")]
)
def test_where_a_load_is_reached_ends_where_the_bands_were_asked_for(
    load_kg: float, found: str
) -> None:
    question = CurveQuestion(
        described=described((hung("a"),), (hung("b"),)),
        ground=BARE_FLOOR,
        travel=TRAVEL,
        loads_kg=(load_kg,),
    )
    (reached,) = answer_curve(question).reached
    assert reached.found == found


def test_a_band_is_in_one_place_and_a_retired_one_comes_down() -> None:
    with pytest.raises(BadInputError, match="two places"):
        described((hung(),), (hung(),))
    worn = HungBand(band=band("red-5", retired="nick near one end"), peg=LOW)
    (remark,) = dangers(described((worn,)))
    assert remark.phrase.say() == "red-5 is retired (nick near one end): take it down."


def test_cautions_of_bands_come_with_bands_and_those_of_chain_with_chain() -> None:
    def codes(left: tuple[HungBand, ...]) -> set[str]:
        rig = described(left).over(0.66, 1.06).rig
        return {caution.code for caution in cautions_for(None, rig, TRAVEL, BARE_FLOOR)}

    assert {"never let go", "whip", "pegs"} <= codes((hung(),))
    assert "ratings" not in codes((hung(),))
    assert "ratings" in codes(())
    assert "never let go" not in codes(())
    assert "bands from above" not in codes((hung(),))
    above = HungBand(band=band(), peg=HIGH, beyond=True)
    assert "bands from above" in codes((above,))
