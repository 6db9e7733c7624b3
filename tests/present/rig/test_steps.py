"""Set-up steps and signs: which pieces, which link, and what to see."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import (
    ANSWERS,
    BENCH,
    DEADLIFT,
    DRAGGED,
    ODD,
    PRESS,
    SQUAT,
    STRAIGHT,
    answer,
    built,
    piece,
    pieces,
    place,
    ring,
    strap,
)
from topheavy.gym.stock import FeederSetting, Plate
from topheavy.present.rig.steps import (
    both_ends_text,
    ends_text,
    pieces_text,
    plates_text,
    setting_text,
    signs,
    steps,
)
from topheavy.rigging.plates import Loading
from topheavy.units import M_PER_IN, METRIC, POUNDS

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer

EACH = pytest.mark.parametrize("given_answer", ANSWERS.values(), ids=ANSWERS)


def _step(lines: tuple[str, ...], word: str) -> str:
    return next(line for line in lines if word in line)


@EACH
def test_steps_name_every_piece_on_its_end(given_answer: RigAnswer) -> None:
    line = _step(steps(given_answer, METRIC), "Left end: ")
    left, right = line.split("Right end: ")
    for tags, side in ((given_answer.best.left, left), (given_answer.best.right, right)):
        assert all(re.search(rf"\b{one.tag}\b", side) for one in tags)
    assert not any(re.search(rf"\b{one.tag}\b", left) for one in given_answer.best.right)


@EACH
def test_one_line_tells_each_end_s_pieces(given_answer: RigAnswer) -> None:
    best = given_answer.best
    left: list[str] = []
    right: list[str] = []
    for kind in both_ends_text(best).split("; "):
        assert kind.endswith(" links)")
        for tags, end in re.findall(r"((?:\S+ \+ )*\S+) (left|right)", kind):
            (left if end == "left" else right).extend(tags.split(" + "))
    assert sorted(left) == sorted(one.tag for one in best.left)
    assert sorted(right) == sorted(one.tag for one in best.right)


@pytest.mark.parametrize("links", [2, 3, 4, 7, 20, 31, 32, 33, 60, 61])
def test_the_middle_goes_on_the_connector(links: int) -> None:
    """As many links before what the connector holds as after it, whatever end one counts from."""
    where = place()
    one = answer(where, built(where, ring("5"), (piece("L", links),), (piece("R", links),)))
    *held, of = map(int, re.findall(r"\d+", _step(steps(one, METRIC), "Fold")))
    assert of == links
    assert len(held) == 2 - links % 2
    assert held[0] - 1 == links - held[-1]
    assert held[-1] - held[0] == len(held) - 1


def test_each_length_of_chain_is_folded_once() -> None:
    line = _step(steps(SQUAT, METRIC), "Fold")
    assert line.endswith("On the connector: links 16 and 17 of 32, links 19 and 20 of 38.")
    assert _step(steps(ODD, METRIC), "Fold").endswith("On the connector: link 16 of 31.")


def test_a_single_link_is_not_folded() -> None:
    where = place()
    one = answer(where, built(where, ring("5"), (piece("L", 1),), (piece("R", 1),)))
    assert "the one link of 1" in _step(steps(one, METRIC), "Fold")


def test_the_feeder_is_set_by_its_name_and_its_length() -> None:
    assert "A ring strap on each sleeve, at ring 5: 58.0 cm from" in _step(
        steps(BENCH, METRIC), "sleeve,"
    )
    assert "at ring 5: 22.8 in from" in _step(steps(BENCH, POUNDS), "sleeve,")
    assert "ratchet strap on each sleeve, at 75.0 cm from" in _step(steps(SQUAT, METRIC), "sleeve,")
    assert "at 75.0 cm: 29.5 in from" in _step(steps(SQUAT, POUNDS), "sleeve,")


def test_without_a_feeder_nothing_is_clipped() -> None:
    for lines in (steps(DEADLIFT, METRIC), steps(STRAIGHT, METRIC)):
        assert not any("Clip" in line or "Fold" in line for line in lines)
    assert any("across" in line for line in steps(DEADLIFT, METRIC))
    assert any("straight down" in line for line in steps(STRAIGHT, METRIC))


def test_a_mat_and_a_raised_lifter_are_steps() -> None:
    assert "A mat or block of 2.0 cm under the chain, both sides." in steps(SQUAT, METRIC)
    where = place("deficit deadlift", bottom_m=0.125, top_m=0.7, surface_m=-0.1)
    low = answer(where, built(where, ring("5"), pieces("A1"), pieces("A2")))
    assert "Stand 10.0 cm higher than the chain lies." in steps(low, METRIC)
    assert not any("mat" in line or "Stand" in line for line in steps(BENCH, METRIC))


def test_the_slack_is_laid_as_the_loads_were_worked_out() -> None:
    assert "Pile the slack" in steps(BENCH, METRIC)[-1]
    assert "straight to the side" in steps(DRAGGED, METRIC)[-1]


def test_plates_are_said_as_marked() -> None:
    assert plates_text(SQUAT.best) == "20 + 20 + 2.5 + 1.25 kg"
    assert plates_text(PRESS.best) == "no plates"
    assert steps(PRESS, METRIC)[0] == "No plates."
    disc = Plate(mass_kg=45 * 0.45359237, width_m=0.03, diameter_m=0.45, count=2)
    mixed = Loading(per_side=((disc, 1), *BENCH.best.loading.per_side))
    assert plates_text(replace(BENCH.best, loading=mixed)) == "45 lb + 20 kg + 5 kg"


def test_settings_and_pieces_by_name() -> None:
    assert [setting_text(label) for label in ("7", "B", "link 21", "66.5 cm")] == [
        "ring 7",
        "ring B",
        "link 21",
        "66.5 cm",
    ]
    assert pieces_text((*pieces("A1 A2"), *pieces("C1", 38, "1/2 in"))) == (
        "A1 + A2 (5/8 in, 32 links), C1 (1/2 in, 38 links)"
    )
    assert ends_text(BENCH.best).feeder == "ring strap, ring 5"
    assert ends_text(DEADLIFT.best).feeder == ends_text(DEADLIFT.best).connector == ""


@pytest.mark.parametrize(
    ("bottom_m", "said"),
    [
        (0.722 + 0.05, "the fold hangs 5.0 cm above the floor"),
        (0.722 + 0.009, "the connector just meets the floor"),
        (0.722 - 0.009, "the connector just meets the floor"),
        (0.722 - 0.05, "the connector rests on the floor, all chain on the floor"),
        (0.65 - 0.005, "the connector rests on the floor, all chain on the floor"),
        (0.65 - 0.04, "the connector lies on the floor, the feeder 4.0 cm slack, all chain"),
    ],
)
def test_the_connector_at_the_bottom(bottom_m: float, said: str) -> None:
    """Strap at 0.65 m, connector 0.072 m: from 0.722 m down it rests, from 0.65 m it lies."""
    where = place(bottom_m=bottom_m)
    found = answer(where, built(where, strap("65.0 cm"), pieces("A1"), pieces("A2")))
    assert said in signs(found, METRIC)[0]


@EACH
def test_links_at_lockout_are_those_counted(given_answer: RigAnswer) -> None:
    line = _step(signs(given_answer, METRIC), "Locked out")
    for one, count in zip(given_answer.best.left, given_answer.reading.left, strict=True):
        assert f"{count.top.off} of {one.chain.links} links of {one.size} chain off the " in line
        assert count.top.down == 0 or f", {count.top.down} still down" in line


def test_chain_lies_on_the_mat_where_there_is_one() -> None:
    assert "mat" in signs(SQUAT, METRIC)[1]
    assert "floor" not in "".join(signs(SQUAT, METRIC))
    assert "none left on it" in _step(signs(PRESS, METRIC), "Locked out")


def test_links_that_hang_at_the_bottom_are_counted() -> None:
    """Bar 0.225 m up: 4.02 pitches of 56 mm a tail, so five tops are off on each of two."""
    assert "10 of 32 links of 5/8 in chain off the floor" in signs(DEADLIFT, METRIC)[0]


def test_a_setting_named_by_its_length_is_not_said_in_another_rounding() -> None:
    setting = FeederSetting(label="28.75 in", length_m=28.75 * M_PER_IN)
    fixture = replace(BENCH.best.fixture, setting=setting)
    told = replace(BENCH, best=replace(BENCH.best, fixture=fixture))
    inches, metric = ("\n".join(steps(told, units)) for units in (POUNDS, METRIC))
    assert "at 28.75 in from the middle" in inches
    assert "28.8 in" not in inches
    assert "at 28.75 in: 73.0 cm from the middle" in metric
