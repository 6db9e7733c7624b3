"""The gym, connectors, bars, collars, plates, stations and lifters."""

from __future__ import annotations

import pytest

from tests.gymfile.samples import problems, read
from topheavy.gym.lifts import LIFTS
from topheavy.gym.people import Measured, Travel
from topheavy.gym.stock import Bar, Collar, Connector
from topheavy.gymfile import GymFileError
from topheavy.units import KG_PER_LB, M_PER_IN

BAR = '[[bar]]\nname = "bar"\nmass = "20 kg"\nsleeve = "41.5 cm"\n'
PLATE = '[[plate]]\nmass = "45 lb"\nwidth = "1 1/2 in"\ndiameter = "45 cm"\n'
BENCH = '[[station]]\nname = "Bench 1"\nkind = "bench"\npad = "43 cm"\n'
RACK = '[[station]]\nname = "rack"\nkind = "rack"\n'
LIFTER = '[[lifter]]\nname = "Osric"\n'


def lift(name: str, bottom: str = "66 cm", top: str = "107 cm", more: str = "") -> str:
    return f'[lifter.lifts."{name}"]\nbottom = "{bottom}"\ntop = "{top}"\n{more}\n'


def test_an_empty_gym_is_a_gym() -> None:
    gym = read("")
    assert (gym.name, gym.units) == ("The Shed", "kg")
    assert gym.stock.chains == ()
    assert gym.lifters == ()


def test_parts_are_read_in_any_unit() -> None:
    stock = read(
        BAR
        + '[[connector]]\nname = "link"\ncount = 4\nmass = "6 oz"\nlength = "3 in"\n'
        + 'rating = "1000 lb"\n'
        + '[[connector]]\nname = "hook"\ncount = 2\nmass = "90 g"\nlength = "6 cm"\n'
        + '[[collar]]\nname = "collar"\ncount = 2\nmass = "2.5 kg"\nwidth = "5 cm"\n'
    ).stock
    assert stock.bar("bar") == Bar(name="bar", mass_kg=20.0, sleeve_m=0.415)
    assert stock.connector("link").rating_kg == pytest.approx(1000 * KG_PER_LB)
    assert stock.connector("link").mass_kg == pytest.approx(6 / 16 * KG_PER_LB)
    assert stock.connector("hook") == Connector(
        name="hook", mass_kg=0.09, length_m=0.06, rating_kg=None, count=2
    )
    assert stock.collars == (Collar(name="collar", mass_kg=2.5, width_m=0.05, count=2),)


@pytest.mark.parametrize(("line", "count"), [("count = 5", 5), ("pairs = 3", 6)])
def test_plates_are_counted_singly_or_in_pairs(line: str, count: int) -> None:
    (plate,) = read(PLATE + line).stock.plates
    assert plate.count == count
    assert plate.mass_kg == pytest.approx(45 * KG_PER_LB)
    assert plate.width_m == pytest.approx(1.5 * M_PER_IN)


def test_the_surface_is_mat_and_block_less_what_the_lifter_stands_on() -> None:
    station = read(
        BAR + RACK + 'mat = "2 cm"\nblock = "10 cm"\nlifter_raised = "5 cm"\nbar = "bar"'
    ).station("rack")
    assert station.surface_m == pytest.approx(0.07)
    assert station.bar == "bar"
    assert station.pad_m is None


def test_a_lifter_has_heights_by_lift() -> None:
    gym = read(BENCH + LIFTER + lift("bench", more='best = "140 kg"\nstation = "bench 1"'))
    measured = gym.lifter("osric").measured(LIFTS["bench press"])
    assert measured == Measured(
        travel=Travel(bottom_m=0.66, top_m=1.07, height_u_m=0.005),
        station="Bench 1",
        best_kg=140.0,
    )


def test_a_best_has_its_day_and_no_best_has_none() -> None:
    dated = read(LIFTER + lift("bench", more='best = "140 kg"\nbest_day = "2026-10-03"'))
    assert dated.lifters[0].lifts["bench press"].best_day == "2026-10-03"
    for more, message in (
        ('best = "140 kg"\nbest_day = "last week"', "Not a day"),
        ('best_day = "2026-10-03"', "A day, and no best"),
    ):
        with pytest.raises(GymFileError, match=message) as told:
            read(LIFTER + lift("bench", more=more))
        assert "lifter[1].lifts.bench.best_day" in str(told.value.problems[0].field)


def test_heights_may_be_trusted_more_or_less() -> None:
    gym = read(LIFTER + lift("Bench  Press", more='within = "2 cm"'))
    assert gym.lifters[0].lifts["bench press"].travel.height_u_m == 0.02


@pytest.mark.parametrize(
    ("tables", "message", "field", "got", "wanted"),
    [
        (PLATE, "Plates are counted once", "plate[1].count (45 lb, line 3)", "neither",
         "pairs = 2"),
        (PLATE + "count = 2\npairs = 1", "Plates are counted once", "plate[1].count", "both",
         "either"),
        (BAR + BAR, "is listed twice", "bar[1].name (bar, line 3) and bar[2].name (bar, line 7)",
         '"bar"', "once"),
        (BENCH + BENCH.replace("Bench 1", "BENCH 1"),
         "is listed twice", "station[1].name", '"BENCH 1"', "once"),
        (RACK + 'pad = "40 cm"', "Only a bench has a pad", "station[1].pad (rack, line 3)",
         "a rack",
         "no pad"),
        (BENCH.replace("43", "4.3"), "No bench has its pad there", "station[1].pad", "0.043 m",
         "0.43 m"),
        (BAR + RACK + 'bar = "baz"', "No bar of that name", "station[1].bar", '"baz"',
         "one of bar"),
        (RACK + 'bar = "baz"', "No bar of that name", "station[1].bar", '"baz"', "[[bar]]"),
        (LIFTER + LIFTER, "is listed twice", "lifter[2].name", '"Osric"', "once"),
        (LIFTER + lift("bench pres"), "No lift called",
         'lifter[1].lifts."bench pres" (Osric, line 3)',
         "bench pres", "bench press"),
        (LIFTER + lift("squat", "107 cm", "66 cm"), "bottom of the lift must be below its top",
         "lifter[1].lifts.squat", "bottom 1.07 m, top 0.66 m", "bottom < top"),
        (LIFTER + lift("bench", "5 cm"), "No human bench press has its bottom there",
         "lifter[1].lifts.bench.bottom", "0.05 m", "0.35 to 0.95 m"),
        (LIFTER + lift("bench", top="10 ft"), "No human bench press has its top there",
         "lifter[1].lifts.bench.top", "3.048 m", "1.45 m"),
        (LIFTER + lift("bench") + lift("bench press"), "The bench press is listed twice",
         'lifter[1].lifts."bench press"', '"bench" and "bench press"', "once"),
        (BENCH + LIFTER + lift("squat", "84 cm", "144 cm", 'station = "bench 1"'),
         "The squat is not done on a bench", "lifter[1].lifts.squat.station", "Bench 1", "rack"),
        (BENCH + LIFTER + lift("bench", more='station = "bench 2"'), "No station of that name",
         "lifter[1].lifts.bench.station", "bench 2", "one of Bench 1"),
        (BENCH + LIFTER + lift("bench", "40 cm", more='station = "bench 1"'), "inside the bench",
         "lifter[1].lifts.bench.station", "bottom 0.4 m, pad 0.43 m", "above the pad"),
        (LIFTER + lift("bench", more='station = "x"'), "No station of that name",
         "lifter[1].lifts.bench.station", "x", "[[station]]"),
    ],
)  # fmt: skip
def test_contradictions_are_told(
    tables: str, message: str, field: str, got: str, wanted: str
) -> None:
    (found,) = problems(tables)
    for part, text in zip((message, field, got, wanted), found, strict=True):
        assert part in text


def test_a_mistake_in_a_station_does_not_make_its_name_unknown() -> None:
    tables = BENCH.replace("43 cm", "43") + LIFTER + lift("bench", more='station = "bench 1"')
    (found,) = problems(tables)
    assert found[1].startswith("station[1].pad")
