"""The demonstration's gym: readable, realistic, and with something to be told off about."""

from __future__ import annotations

import math

import pytest

from topheavy.gym.lifts import LIFTS
from topheavy.gymfile import demo_gym, demo_text
from topheavy.units import KG_PER_LB

GYM = demo_gym()


def test_every_kind_of_table_is_there_and_explained() -> None:
    text = demo_text()
    for table in (
        "chain", "feeder", "connector", "bar", "collar", "plate", "band", "station", "lifter",
    ):  # fmt: skip
        assert f"[[{table}]]" in text
    comments = [line for line in text.splitlines() if line.startswith("#")]
    assert len(comments) > 40
    assert max(map(len, text.splitlines())) <= 100
    assert {feeder.form for feeder in GYM.stock.feeders} == {"rings", "links", "strap"}


def test_working_pieces_are_about_21_lb_and_weighed_one_by_one() -> None:
    working = [piece for piece in GYM.stock.fit_chains if piece.tag.startswith("A")]
    assert len(working) == 8
    assert all(piece.weighed for piece in working)
    assert len({piece.chain.mass_kg for piece in working}) == 8
    for piece in working:
        assert piece.chain.mass_kg / KG_PER_LB == pytest.approx(21, abs=0.4)
        assert piece.chain.known_by == f"scale, {piece.tag}"


def test_one_piece_is_retired_and_one_connector_unmarked() -> None:
    assert [piece.tag for piece in GYM.stock.chains if piece.retired] == ["A9"]
    assert [c.name for c in GYM.stock.connectors if c.rating_kg is None] == ["shiny snap hook"]


def test_parts_to_be_hung_at_both_ends_come_in_twos() -> None:
    stock = GYM.stock
    parts = [
        *[feeder.count for feeder in stock.feeders],
        *[connector.count for connector in stock.connectors],
        *[collar.count for collar in stock.collars],
        *[plate.count for plate in stock.plates],
    ]
    assert all(count >= 2 and count % 2 == 0 for count in parts)


@pytest.mark.parametrize("lifter", [lifter.name for lifter in GYM.lifters])
def test_some_feeder_lets_the_fold_meet_the_floor_at_the_bottom(lifter: str) -> None:
    reach_m = 0.02
    for name, measured in GYM.lifter(lifter).lifts.items():
        lift = LIFTS[name]
        if lift.station == "platform":
            continue
        station = GYM.station(measured.station) if measured.station else GYM.station_for(lift)
        drop_m = measured.travel.bottom_m - station.surface_m
        misses = [
            abs(setting.length_m + connector.length_m - drop_m)
            for feeder in GYM.stock.feeders
            for setting in feeder.settings
            for connector in GYM.stock.connectors
            if connector.rating_kg
        ]
        assert min(misses) < reach_m, name


def test_working_pieces_still_reach_the_floor_at_lockout() -> None:
    half_m = GYM.stock.piece("A1").chain.length_m / 2
    for lifter in GYM.lifters:
        for measured in lifter.lifts.values():
            assert measured.travel.travel_m < half_m


def test_lifters_differ_and_one_is_new() -> None:
    tops = {name: GYM.lifter(name).lifts["squat"].travel.top_m for name in ("Runa", "Pip")}
    assert tops["Runa"] - tops["Pip"] > 0.25
    assert all(measured.best_kg is None for measured in GYM.lifter("Wren").lifts.values())
    assert {lift for lifter in GYM.lifters for lift in lifter.lifts} >= {
        "bench press", "squat", "deadlift", "overhead press", "pin press", "paused squat",
    }  # fmt: skip


def test_heights_move_with_the_pad() -> None:
    lift, pip = LIFTS["bench press"], GYM.lifter("Pip")
    here = GYM.travel(pip, lift, GYM.station("bench 2"))
    there = GYM.travel(pip, lift, GYM.station("bench 1"))
    assert here.bottom_m - there.bottom_m == pytest.approx(0.02)
    assert math.isclose(here.travel_m, there.travel_m)
