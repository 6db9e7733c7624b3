"""A gym's band: its tag, its readings, and when to read it again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.mechanics.bands import read
from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.bands import REMEASURE_DAYS, Band
from topheavy.gym.people import Station, StationPeg
from topheavy.gym.stock import Stock
from topheavy.mechanics.banded import Peg

BAND = Band(readings=read(), measured_on="2026-02-27")


def test_tag_rest_length_and_fit_are_those_of_the_readings() -> None:
    assert (BAND.tag, BAND.rest_m) == ("red-1", 0.45)
    assert float(BAND.fit().tension_kg(0.85)) == pytest.approx(34 * 0.4 - 12 * 0.16)


def test_after_half_a_year_it_is_to_be_read_again() -> None:
    assert REMEASURE_DAYS == 183
    assert BAND.remeasure("2026-08-29") == ""
    said = BAND.remeasure("2026-08-30")
    assert said.startswith("Band red-1 was read 184 days ago")
    assert "warm or worn" in said


def test_leap_days_count() -> None:
    assert "366 days" in replace(BAND, measured_on="2027-06-01").remeasure("2028-06-01")


def test_a_band_without_a_day_is_to_be_read_again() -> None:
    assert "Nobody noted" in Band(readings=read()).remeasure("2026-08-30")


@pytest.mark.parametrize("day", ["yesterday", "2026-02-30", "2026-2-3", "2026", "12.09.2026"])
def test_a_day_is_year_month_day(day: str) -> None:
    with pytest.raises(BadInputError, match="Not a day"):
        Band(readings=read(), measured_on=day)
    with pytest.raises(BadInputError, match="Not a day"):
        BAND.remeasure(day)


def test_readings_from_the_future_are_refused() -> None:
    with pytest.raises(BadInputError, match="read after today"):
        BAND.remeasure("2026-02-26")


def test_the_stock_finds_bands_and_keeps_retired_ones_apart() -> None:
    old = Band(readings=read("red-2"), retired="nick")
    stock = Stock(bands=(BAND, old))
    assert stock.band("red-2") == old
    assert stock.fit_bands == (BAND,)
    assert Stock().bands == ()
    with pytest.raises(NotInStockError, match="No band 'blue'"):
        stock.band("blue")
    with pytest.raises(BadInputError, match="listed twice"):
        Stock(bands=(BAND, BAND))


def test_a_station_finds_its_pegs() -> None:
    low = Peg(height_m=0.12, offset_m=0.06)
    rack = Station(name="rack", kind="rack", pegs=(StationPeg(name="Low", peg=low),))
    assert rack.peg("low") == low
    with pytest.raises(NotInStockError, match="no band peg 'high'") as caught:
        rack.peg("high")
    assert caught.value.wanted == "one of Low"
    with pytest.raises(NotInStockError) as caught:
        Station(name="platform", kind="platform").peg("low")
    assert caught.value.wanted == "a station with band pegs"
