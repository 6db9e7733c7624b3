"""What is typed of a lifter's strength, read or refused by its option's name."""

from __future__ import annotations

from typing import Any

import pytest

from tests.services.lifters import measured, place
from topheavy.asked.evidence import evidence_from
from topheavy.errors import BadInputError
from topheavy.lifter.by_speed import best_by_speed
from topheavy.lifter.evidence import Evidence, FullRange, Isometric, Miss, Partial
from topheavy.units import KG_PER_LB, M_PER_IN

PLACE = place({"bench press": measured(best_kg=100.0)})


def one(**typed: Any) -> Evidence:
    (piece,) = evidence_from(PLACE, **typed)
    return piece


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("5x85kg", FullRange(load_kg=85.0, reps=5)),
        ("5 x 85 kg", FullRange(load_kg=85.0, reps=5)),
        ("5X85kg@2", FullRange(load_kg=85.0, reps=5, reps_left=2.0)),
        ("3x90kg@1.5", FullRange(load_kg=90.0, reps=3, reps_left=1.5)),
        ("3x90kg@1,5", FullRange(load_kg=90.0, reps=3, reps_left=1.5)),
        ("1x90kg", FullRange(load_kg=90.0)),
        ("5x80%", FullRange(load_kg=80.0, reps=5)),
        ("3x200lb", FullRange(load_kg=round(200 * KG_PER_LB, 12), reps=3)),
    ],
)
def test_sets(text: str, wanted: FullRange) -> None:
    assert one(sets=[text]) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("95cm=120kg", Partial(height_m=0.95, load_kg=120.0)),
        (" 0.95 m = 120 kg ", Partial(height_m=0.95, load_kg=120.0)),
        ("95cm=3x110kg", Partial(height_m=0.95, load_kg=110.0, reps=3)),
        ("95cm=3x110kg@1", Partial(height_m=0.95, load_kg=110.0, reps=3, reps_left=1.0)),
        ("95cm=110kg@1", Partial(height_m=0.95, load_kg=110.0, reps_left=1.0)),
        ("36in=120%", Partial(height_m=round(36 * M_PER_IN, 12), load_kg=120.0)),
    ],
)
def test_partials(text: str, wanted: Partial) -> None:
    assert one(partial=[text]) == wanted


def test_misses_at_a_height_or_in_a_third() -> None:
    assert one(miss=["84cm=105kg"]) == Miss(height_m=0.84, load_kg=105.0)
    third = one(miss=["Middle=105kg"])
    assert isinstance(third, Miss)
    assert third.height_m == pytest.approx(0.865)
    assert third.height_u_m > 0.03


def test_efforts_are_less_what_the_scale_shows_at_rest() -> None:
    wanted = Isometric.from_scale(height_m=0.8, effort_kg=290.0, rest_kg=115.0)
    assert one(isometric=["80cm=290kg-115kg"]) == wanted
    assert one(isometric=["80cm = 290 kg - 115 kg"]) == wanted


@pytest.mark.parametrize(
    "text", ["100kg=0.4", "100kg=0,40", "100kg=0.4m/s", "100kg = 40 cm/s:mean"]
)
def test_speeds_in_metres_a_second_unless_said_otherwise(text: str) -> None:
    assert one(speed=[text]) == best_by_speed("bench press", 100.0, 0.4)


def test_a_propulsive_speed_counts_with_a_light_load() -> None:
    wanted = best_by_speed("bench press", 60.0, 0.8, "propulsive")
    assert one(speed=["60kg=0.8:propulsive"]) == wanted


def test_a_typed_best_is_what_percentages_are_of() -> None:
    best, a_set = evidence_from(PLACE, best="120kg", sets=["5x50%"])
    assert best == FullRange(load_kg=120.0)
    assert a_set == FullRange(load_kg=60.0, reps=5)


def test_nothing_typed_is_no_evidence() -> None:
    assert evidence_from(PLACE) == ()
    assert evidence_from(PLACE, sets=[], miss=None) == ()


def test_every_option_may_be_given_again() -> None:
    found = evidence_from(PLACE, sets=["5x80kg", "3x85kg"], miss=["top=110kg"])
    assert [type(piece) for piece in found] == [FullRange, FullRange, Miss]


@pytest.mark.parametrize(
    ("option", "text", "said"),
    [
        ("best", "0kg", "above zero"),
        ("best", "-5kg", "negative"),
        ("best", "heavy", "Not a mass"),
        ("sets", "", "Not a set"),
        ("sets", "100kg", "Not a set"),
        ("sets", "5x100kg@two", "repetitions left"),
        ("sets", "5x100kg@", "Not a set"),
        ("sets", "0x100kg", "whole number"),
        ("sets", "99999x100kg", "Not a set"),
        ("sets", "31x100kg", "say nothing of a single"),
        ("sets", "5x100", "Not a mass"),
        ("sets", "5x100kg@11", "reserve"),
        ("partial", "95cm", "Not a partial"),
        ("partial", "=120kg", "Not a partial"),
        ("partial", "95cm=", "Not a partial"),
        ("partial", "95=120kg", "Not a length"),
        ("partial", "65cm=120kg", "outside the lift"),
        ("partial", "107cm=120kg", "outside the lift"),
        ("partial", "95cm=40x100kg", "say nothing of a single"),
        ("miss", "105kg", "Not a miss"),
        ("miss", "upper=105kg", "Not a place where a bar stops"),
        ("miss", "84=105kg", "Not a length"),
        ("miss", "1.2m=105kg", "outside the lift"),
        ("isometric", "80cm=290kg", "Not an isometric effort"),
        ("isometric", "80cm=100kg-115kg", "more at best effort"),
        ("isometric", "2m=290kg-115kg", "outside the lift"),
        ("speed", "100kg", "Not a bar speed"),
        ("speed", "100kg=fast", "Not a speed"),
        ("speed", "100kg=0", "Not a bar speed"),
        ("speed", "100kg=0.4:peak", "Not a bar speed"),
        ("speed", "100kg=5", "does not reach"),
        ("speed", "60kg=0.8", "braked"),
        ("speed", "100kg=nan m/s", "Not a speed"),
    ],
)
def test_what_is_not_understood_is_told_by_its_option(option: str, text: str, said: str) -> None:
    typed: Any = {option: text if option == "best" else [text]}
    with pytest.raises(BadInputError, match=said) as caught:
        evidence_from(PLACE, **typed)
    assert caught.value.field == f"--{'set' if option == 'sets' else option}"
    assert caught.value.wanted


def test_a_lift_without_a_line_is_told_by_its_option() -> None:
    press = place(
        {"overhead press": measured(1.4, 2.1, best_kg=80.0, station="rack")},
        lift="overhead press",
        station="rack",
    )
    with pytest.raises(BadInputError, match="No published line") as caught:
        evidence_from(press, speed=["60kg=0.3"])
    assert caught.value.field == "--speed"
    assert "overhead press" in str(caught.value.got)
