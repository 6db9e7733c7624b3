"""A rig whose parts the coach chose is read as a found one is, and refused where it can't be."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from tests.cli.calling import TINY
from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym, read_gym
from topheavy.present.rig.view import view_rig
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.chosen import BandPart, Parts, answer_chosen, parts_of
from topheavy.services.match import Matching
from topheavy.services.rig import Place, RigAnswer, RigQuestion, answer_rig
from topheavy.services.strength import strength_of
from topheavy.units import METRIC

PARTS = Parts(
    left=("A1", "A2"),
    right=("A3", "A4"),
    feeder="strap",
    setting="2",
    connector="screw link",
    plates_kg=(20.0,),
)


def question() -> RigQuestion:
    gym = read_gym(TINY)
    place = Place(
        gym=gym,
        lifter=gym.lifter("Ansa"),
        lift=lift_named("bench press"),
        station=gym.station("the bench"),
    )
    return RigQuestion(place=place, ask=Ask(bottom_kg=65.0, top_kg=85.0))


@cache
def found() -> RigAnswer:
    return answer_rig(question())


def test_the_parts_of_a_found_rig_read_as_the_found_rig() -> None:
    best = found()
    again = answer_chosen(question(), parts_of(best.best))
    assert again.reading == best.reading
    assert again.best.miss_kg == pytest.approx(best.best.miss_kg, abs=1e-9)
    assert again.best.loading == best.best.loading
    assert again.meets == best.meets
    assert again.chosen
    assert not best.chosen


def test_it_does_not_say_that_it_was_searched() -> None:
    view = view_rig(answer_chosen(question(), PARTS), METRIC)
    assert "Proven" not in view.proof
    assert "stock" not in view.verdict


def test_a_miss_is_the_largest_gap_to_what_was_asked() -> None:
    answer = answer_chosen(question(), PARTS)
    gaps = (abs(answer.reading.bottom.load_kg - 65.0), abs(answer.reading.top.load_kg - 85.0))
    assert answer.best.miss_kg == pytest.approx(max(gaps))


def test_a_mean_counts_too() -> None:
    asked = replace(question(), ask=Ask(top_kg=85.0, mean_kg=70.0))
    with pytest.raises(TopheavyError):
        answer_rig(replace(asked, ask=Ask()))
    answer = answer_chosen(asked, PARTS)
    assert answer.best.miss_kg >= abs(answer.reading.mean.load_kg - 70.0) - 1e-9


def test_a_matched_question_says_how_the_rig_fits_the_lifter() -> None:
    asked = question()
    matching = Matching(strength=strength_of(asked.place, ()), effort=0.9)
    answer = answer_chosen(replace(asked, ask=Ask(), matching=matching), PARTS)
    assert answer.fit is not None
    assert "nothing in the stock" not in view_rig(answer, METRIC).verdict


def test_ends_that_differ_are_read_and_told() -> None:
    answer = answer_chosen(question(), replace(PARTS, right=("A3",)))
    assert answer.reading.imbalance_kg > 1.0
    assert "lopsided" in {remark.code for remark in answer.doubts}
    assert "differ" in view_rig(answer, METRIC).cautions[0]


def test_what_must_come_down_is_said_first() -> None:
    answer = answer_chosen(question(), replace(PARTS, connector="toy clip"))
    assert "overloaded" in {remark.code for remark in answer.dangers}
    assert "Take it down" in view_rig(answer, METRIC).cautions[0]
    retired = answer_chosen(question(), replace(PARTS, left=("R1", "A2")))
    assert "retired" in {remark.code for remark in retired.dangers}


def test_no_chain_is_plain_weight() -> None:
    answer = answer_chosen(question(), Parts(left=(), right=(), plates_kg=(20.0, 5.0)))
    assert answer.reading.top.load_kg == answer.reading.bottom.load_kg == 75.0
    assert view_rig(answer, METRIC).steps


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"left": ("A1", "A1")}, "pieces"),
        ({"left": ("A1", "A3")}, "pieces"),
        ({"left": ("Z9",)}, "chain piece"),
        ({"feeder": "rope"}, "feeder"),
        ({"setting": "9"}, "feeder setting"),
        ({"connector": "string"}, "connector"),
        ({"plates_kg": (20.0, 20.0)}, "plates"),
        ({"plates_kg": (21.0,)}, "plates"),
    ],
)
def test_what_the_gym_does_not_have_is_refused(change: dict[str, object], field: str) -> None:
    with pytest.raises((BadInputError, NotInStockError)) as told:
        answer_chosen(question(), replace(PARTS, **change))  # type: ignore[arg-type]  # by name
    assert told.value.field == field
    assert told.value.wanted


def test_plates_that_leave_no_room_on_the_sleeve_are_refused() -> None:
    asked = question()
    stock = asked.place.gym.stock
    wide = tuple(replace(plate, width_m=0.15) for plate in stock.plates)
    gym = replace(asked.place.gym, stock=replace(stock, plates=wide))
    crowded = replace(asked, place=replace(asked.place, gym=gym))
    with pytest.raises(BadInputError, match="no room") as told:
        answer_chosen(crowded, replace(PARTS, plates_kg=(20.0, 10.0, 5.0)))
    assert told.value.field == "plates"


def banded() -> RigQuestion:
    gym, lift = demo_gym(), lift_named("bench press")
    place = Place(gym=gym, lifter=gym.lifter("Osric"), lift=lift, station=gym.station("bench 1"))
    limits = Limits(most_pieces=4, most_bands=1, least_bands=1)
    return RigQuestion(place=place, ask=Ask(bottom_kg=85.0, top_kg=115.0), limits=limits)


def test_a_found_rig_with_bands_reads_the_same_by_its_parts() -> None:
    found = answer_rig(banded())
    again = answer_chosen(banded(), parts_of(found.best))
    assert again.best.bands == found.best.bands
    assert again.best.miss_kg == pytest.approx(found.best.miss_kg, abs=1e-6)
    assert again.reading == found.reading
    assert again.bands == found.bands


@pytest.mark.parametrize(
    ("left", "right", "said"),
    [
        (("red-1", "low"), ("red-1", "low"), "two places"),
        (("red-1", "high"), ("red-3", "low"), "no such peg"),
        (("green-9", "low"), ("red-3", "low"), "green-9"),
    ],
)
def test_bands_that_cannot_hang_are_refused(
    left: tuple[str, str], right: tuple[str, str], said: str
) -> None:
    first, second = (BandPart(tag=tag, peg=peg) for tag, peg in (left, right))
    parts = Parts(left=(), right=(), left_bands=(first,), right_bands=(second,))
    with pytest.raises(TopheavyError, match=said):
        answer_chosen(banded(), parts)


def test_a_retired_band_must_come_down() -> None:
    left, right = (BandPart(tag=tag, peg="low") for tag in ("red-1", "red-5"))
    answer = answer_chosen(
        banded(), Parts(left=(), right=(), left_bands=(left,), right_bands=(right,))
    )
    assert any("red-5" in remark.say(METRIC) for remark in answer.dangers)
