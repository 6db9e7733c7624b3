"""Bands and pegs in a gym file."""

from __future__ import annotations

import pytest

from tests.gymfile.samples import HEAD, problems, read
from topheavy.gym.people import StationPeg
from topheavy.gymfile import demo_gym
from topheavy.mechanics.band_pairs import match_pairs
from topheavy.mechanics.banded import Banded, Peg
from topheavy.units import KG_PER_LB, M_PER_IN

READINGS = (
    '[{ length = "60 cm", pull = "4.7 kg" }, { length = "80 cm", pull = "10.4 kg" }, '
    '{ length = "100 cm", pull = "14.6 kg" }]'
)
BAND = f'[[band]]\ntag = "red-1"\nrest = "45 cm"\nreadings = {READINGS}\n'
RACK = '[[station]]\nname = "rack"\nkind = "rack"\n'


def test_a_band_is_read() -> None:
    (band,) = read(BAND + 'measured = "2026-09-12"\nwithin = "3 mm"\n').stock.bands
    assert band.tag == "red-1"
    assert band.measured_on == "2026-09-12"
    readings = band.readings
    assert readings.length_m == (0.6, 0.8, 1.0)
    assert readings.tension_kg == (4.7, 10.4, 14.6)
    assert (readings.rest_u_m, readings.length_u_m, readings.tension_u_kg) == (0.003, 0.003, 0.05)


def test_the_scale_is_the_gyms_unless_the_band_names_another() -> None:
    (band,) = read(BAND + 'scale_reading = "100 g"').stock.bands
    assert band.readings.tension_u_kg == pytest.approx(0.1)


def test_pounds_and_inches_and_nothing_at_rest() -> None:
    text = BAND.replace('"60 cm", pull = "4.7 kg"', '"45 cm", pull = "0 lb"').replace(
        "}]", '}, { length = "45 in", pull = "37 lb" }]'
    )
    (band,) = read(text).stock.bands
    assert band.readings.tension_kg[0] == 0.0
    assert band.readings.length_m[-1] == pytest.approx(45 * M_PER_IN)
    assert band.readings.tension_kg[-1] == pytest.approx(37 * KG_PER_LB)


def test_a_gym_without_bands_has_none() -> None:
    assert read(RACK).stock.bands == ()
    assert read(RACK).station("rack").pegs == ()


def test_pegs_of_a_station() -> None:
    station = read(
        RACK + 'pegs = [{ name = "low", height = "0 cm" }, { name = "high", height = "2.3 m", '
        'offset = "8 cm", within = "1 cm" }]'
    ).station("rack")
    assert station.pegs == (
        StationPeg(name="low", peg=Peg(height_m=0.0)),
        StationPeg(name="high", peg=Peg(height_m=2.3, offset_m=0.08, u_m=0.01)),
    )


@pytest.mark.parametrize(
    ("tables", "message", "field", "got", "wanted"),
    [
        (BAND + BAND, "The band \"red-1\" is listed twice", "band[1].tag (red-1, line 3)",
         '"red-1"', "once"),
        (BAND.replace("80 cm", "120 cm"), "Band red-1: readings out of order",
         "band[1].readings (red-1, line 3)", "readings 2 and 3: 10.4 kg at 1.2 m",
         "shortest to the longest"),
        (BAND.replace('"60 cm"', '"40 cm"'), "less than its rest length", "band[1].readings",
         "reading 1: 4.7 kg at 0.4 m", "from the rest length up"),
        (BAND.replace("14.6", "9.1"), "stretched further pulls more", "band[1].readings",
         "readings 2 and 3", "read it again"),
        (BAND.replace("4.7 kg", "-1 kg"), "A mass below zero",
         "band[1].readings[1].pull (red-1, line 3)", "-1 kg", "0, up to 500 kg"),
        (BAND.replace('"4.7 kg"', "4.7"), "A mass without its unit", "band[1].readings[1].pull",
         "4.7", '"4.7 kg"'),
        (BAND.replace('{ length = "60 cm", pull = "4.7 kg" }, ', ""), "Too short a list",
         "band[1].readings", "a list of 2", "three at least"),
        (BAND.replace('"60 cm"', '"45 cm"'), "needs more readings", "band[1].readings",
         "2 stretched lengths", "3 or more"),
        (BAND + 'measured = "12 September"', "Not a day", "band[1].measured", "12 September",
         "2026-09-12"),
        (BAND + "measured = 2026-09-12", "Not a text in quotes", "band[1].measured", "2026-09-12",
         "in quotes"),
        (BAND + 'colour = "red"', 'Unknown key "colour"', "band[1].colour", "", "tag, rest"),
        (BAND.replace("red-1", "red 1"), "Not a usable name", "band[1].tag", '"red 1"', "no space"),
        (RACK + 'pegs = [{ name = "a", height = "1 cm" }, { name = "A", height = "2 cm" }]',
         "A peg is listed twice", "station[1].pegs (rack, line 3)", '"a"', "once"),
        (RACK + 'pegs = [{ name = "a", height = "70 m" }]', "too large",
         "station[1].pegs[1].height", "70 m", "up to 6 m"),
        (RACK + 'pegs = [{ name = "a" }]', '"height" is missing', "station[1].pegs[1].height", "",
         "where the band bears"),
    ],
)  # fmt: skip
def test_mistakes_are_told(tables: str, message: str, field: str, got: str, wanted: str) -> None:
    (found,) = problems(tables)
    for part, text in zip((message, field, got, wanted), found, strict=True):
        assert part in text


def test_a_gym_in_pounds_is_told_in_pounds_and_inches_too() -> None:
    text = BAND.replace('"80 cm"', '"20 in"').replace('"10.4 kg"', '"23 lb"')
    ((_, _, got, _),) = problems(text)
    assert "(" not in got
    ((_, _, got, _),) = problems(text, HEAD + 'units = "lb"\n')
    assert "then 10.4326 kg (23.0 lb) at 0.508 m (20.0 in)" in got


def test_the_demo_has_two_pairs_for_the_bench_and_one_for_the_squat() -> None:
    gym = demo_gym()
    assert all(band.measured_on for band in gym.stock.bands)
    assert [band.tag for band in gym.stock.bands if band.retired] == ["red-5"]
    for colour, station, travel, pairs in (
        ("red", "bench 1", (0.63, 1.07), {("red-1", "red-3"), ("red-2", "red-4")}),
        ("blue", "rack", (0.80, 1.57), {("blue-1", "blue-2")}),
    ):
        hangs = [
            Banded(band=band.fit(), peg=gym.station(station).peg("low"), travel_m=travel)
            for band in gym.stock.fit_bands
            if band.tag.startswith(colour)
        ]
        found = match_pairs(hangs)
        assert {(pair.left.band.tag, pair.right.band.tag) for pair in found} == pairs
        assert all(pair.worst_kg < 0.5 for pair in found)
        assert all(hang.band.r_squared > 0.998 for hang in hangs)


def test_a_demo_band_from_the_high_pegs_takes_load_off_the_squat() -> None:
    gym = demo_gym()
    hang = Banded(
        band=gym.stock.band("blue-1").fit(),
        peg=gym.station("rack").peg("high"),
        travel_m=(0.80, 1.44),
    )
    bottom, top = hang.load_kg([0.80, 1.44])
    assert bottom < -10
    assert -1 < top <= 0
