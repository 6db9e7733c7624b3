"""Reading a described rig: points, what is reached, and what may be asked."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.present.answers import pieces, plain, ring
from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.mechanics.ground import Ground
from topheavy.services.curve import CurveAnswer, CurveQuestion, answer_curve
from topheavy.services.described import DescribedRig, Hanging
from topheavy.services.reading import hung_straight

RIG = DescribedRig(
    bar_kg=25,
    plates_kg=60,
    left=(Hanging(fixture=ring("5"), pieces=pieces("A1 A2")),),
    right=(Hanging(fixture=ring("5"), pieces=pieces("A3 A4")),),
)
BENCH = Travel(bottom_m=0.66, top_m=1.07, height_u_m=0.003)


def ask(**words: Any) -> CurveAnswer:
    return answer_curve(CurveQuestion(**{"described": RIG, "ground": Ground(), **words}))


def test_points_are_the_rigs_own_curve() -> None:
    answer = ask(travel=BENCH, heights_m=(0.9, 0.8, 0.9))
    assert [point.height_m for point in answer.points] == [0.8, 0.9]
    assert answer.bottom is not None
    assert answer.top is not None
    for point in (*answer.points, answer.bottom, answer.top):
        up, down = (float(RIG.rig.curve(way=w).at(point.height_m)) for w in ("raising", "lowering"))
        straight = float(hung_straight(RIG.rig).curve().at(point.height_m))
        assert point.raising.load_kg == pytest.approx(up)
        assert point.lowering.load_kg == pytest.approx(down)
        assert point.straight_kg == pytest.approx(straight)
        assert point.raising.u_kg > 0
        assert point.lowering.u_kg > 0


def test_a_surer_height_makes_a_surer_load() -> None:
    crude = ask(travel=Travel(bottom_m=0.66, top_m=1.07, height_u_m=0.02))
    fine = ask(travel=BENCH)
    assert crude.top is not None
    assert fine.top is not None
    assert crude.top.raising.u_kg > fine.top.raising.u_kg


def test_a_load_is_reached_where_the_curve_says() -> None:
    """The uncertainty of the height is that of the load over the slope."""
    (found,) = ask(travel=BENCH, loads_kg=(95.0,)).reached
    assert found.found == "at a height"
    assert found.raising_m is not None
    assert float(RIG.rig.curve().at(found.raising_m)) == pytest.approx(95.0)
    (point,) = ask(heights_m=(found.raising_m,)).points
    slope = float(RIG.rig.curve().slope_at(found.raising_m))
    assert found.raising_u_m == pytest.approx(point.raising.u_kg / slope, rel=0.05)
    assert found.lowering_m is not None
    assert found.lowering_m > found.raising_m


def test_loads_that_no_height_or_every_height_carries() -> None:
    light, heavy = ask(travel=BENCH, loads_kg=(50.0, 500.0)).reached
    assert (light.found, heavy.found) == ("everywhere", "never")
    whole_kg = 85 + RIG.rig.left.mass_kg + RIG.rig.right.mass_kg
    assert heavy.most_kg == pytest.approx(whole_kg)
    (most,) = ask(travel=BENCH, loads_kg=(math.nextafter(whole_kg, 0),)).reached
    assert most.found == "at a height"


def test_without_a_lift_only_heights_are_read() -> None:
    answer = ask(heights_m=(0.9,))
    assert (answer.bottom, answer.top, answer.reading, answer.straight) == (None,) * 4
    codes = {caution.code for caution in answer.cautions}
    assert "collars" in codes
    assert not codes & {"spotter", "swing", "nothing lifts"}


def test_a_lift_brings_its_cautions() -> None:
    answer = ask(travel=BENCH, lift=lift_named("bench press"))
    assert answer.cautions[0].code == "spotter"


def test_cautions_look_at_both_ends() -> None:
    """Only the right end is short enough to leave the floor."""
    short = DescribedRig(
        bar_kg=25,
        plates_kg=0,
        left=(Hanging(fixture=ring("5"), pieces=pieces("A1", 60)),),
        right=(Hanging(fixture=plain("straight"), pieces=pieces("A2", 4)),),
    )
    codes = {caution.code for caution in ask(described=short, travel=BENCH).cautions}
    assert "swing" in codes


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({}, "Nothing says at which heights"),
        ({"travel": Travel(bottom_m=1.0, top_m=1.0)}, "must be below its top"),
        ({"travel": Travel(bottom_m=1.0, top_m=3.0)}, "No human holds a bar"),
        ({"travel": Travel(bottom_m=-0.1, top_m=1.0)}, "No human holds a bar"),
        ({"heights_m": (0.8, 2.91)}, "No human holds a bar"),
        ({"heights_m": (math.nan,)}, "No human holds a bar"),
        ({"travel": BENCH, "lift": lift_named("overhead press")}, "No human overhead"),
        ({"heights_m": (0.8,), "loads_kg": (0.0,)}, "above zero"),
        ({"heights_m": (0.8,), "best_kg": -1.0}, "above zero"),
    ],
)
def test_questions_that_are_none(words: dict[str, Any], said: str) -> None:
    with pytest.raises(BadInputError, match=said):
        ask(**words)
