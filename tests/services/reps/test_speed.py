"""Speed work: loads are equal where said, and plates make them."""

from __future__ import annotations

import pytest

from tests.services.reps.cases import MANY, found, heavier, place_for, speed_of
from topheavy.errors import BadInputError
from topheavy.services.reps.speed import ENDS, SpeedQuestion, answer_speed
from topheavy.services.strength import strength_of


def test_each_table_is_equal_where_it_says() -> None:
    answer = speed_of()
    for line in answer.lines["top"]:
        assert line.row.top_kg == pytest.approx(line.row.plain_kg)
    for line in answer.lines["mean"]:
        assert line.row.straight_kg + answer.hung_mean_kg == pytest.approx(line.row.plain_kg)
        assert line.row.bottom_kg < line.row.plain_kg < line.row.top_kg


def test_with_the_top_equal_everybody_is_faster_with_chain() -> None:
    """Lighter below and as heavy above: no other outcome is possible."""
    for line in speed_of().lines["top"]:
        assert line.mean_gain[0] > 0.0


def test_the_two_tables_answer_different_questions() -> None:
    answer = speed_of()
    for top, mean in zip(answer.lines["top"], answer.lines["mean"], strict=True):
        assert top.mean_gain[1] > mean.mean_gain[1] + 0.02


def test_ranges_hold_the_likeliest() -> None:
    for lines in speed_of().lines.values():
        for line in lines:
            for low, likely, high in (line.plain_mean, line.chain_mean, line.mean_gain):
                assert low <= likely <= high
                assert low < high


def test_plates_are_the_nearest_that_the_gym_has() -> None:
    answer = speed_of()
    bar_kg = answer.question.place.setup.bar_kg
    for lines in answer.lines.values():
        for line in lines:
            assert bar_kg + line.plain.loading.total_kg - line.plain.off_kg == pytest.approx(
                line.row.plain_kg
            )
            assert bar_kg + line.chain.loading.total_kg - line.chain.off_kg == pytest.approx(
                line.row.straight_kg
            )
            assert abs(line.plain.off_kg) <= 1.25
            assert abs(line.chain.off_kg) <= 1.25


def test_loads_lighter_than_the_bar_are_left_out_by_name() -> None:
    answer = speed_of("bench", (0.1, 0.7))
    for equal_at in ENDS:
        assert answer.too_light[equal_at] == (0.1,)
        assert [line.row.share for line in answer.lines[equal_at]] == [0.7]


def test_loads_come_once_and_in_order() -> None:
    answer = speed_of("bench", (0.7, 0.5, 0.7))
    assert [line.row.share for line in answer.lines["top"]] == [0.5, 0.7]


def test_the_rigs_own_plates_do_not_matter() -> None:
    place, rig = place_for("bench"), heavier(found("bench").best.rig, 10.0)
    strength = strength_of(place)
    asked = SpeedQuestion(place=place, rig=rig, strength=strength, shares=(0.4, 0.5), many=MANY)
    assert answer_speed(asked).lines["top"][1] == speed_of().lines["top"][1]


def test_all_loads_too_light_is_a_mistake() -> None:
    with pytest.raises(BadInputError) as error:
        speed_of("bench", (0.05, 0.1))
    assert error.value.field == "share"


@pytest.mark.parametrize("shares", [(), (0.0,), (0.5, 1.2), (-0.1,), (float("nan"),)])
def test_shares_out_of_range_are_refused(shares: tuple[float, ...]) -> None:
    place = place_for("bench")
    with pytest.raises(BadInputError) as error:
        SpeedQuestion(
            place=place,
            rig=found("bench").best.rig,
            strength=strength_of(place),
            shares=shares,
        )
    assert error.value.field == "share"
