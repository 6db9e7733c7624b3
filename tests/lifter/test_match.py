"""A rig against a lifter: exact limits, jumps, ranges, comparison, and what it refuses."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.lifter.match import PLAIN, compare, heights_for, match
from topheavy.lifter.strength import strength_curve
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.rig import End, Rig

TRAVEL = Travel(bottom_m=0.8, top_m=1.2)
STRENGTH = strength_curve(
    lift_named("bench"),
    TRAVEL,
    [FullRange(load_kg=100.0), Partial(height_m=1.1, load_kg=130.0)],
)
PIECE = Chain(links=32, pitch_m=0.05, density_kg_per_m=6.0)


def hung_on(end: End) -> LoadCurve:
    return Rig(20.0, 0.0, end, end).hung_curve(way="still")


STRAIGHT = hung_on(End((Straight(chain=PIECE),)))
DOUBLED = hung_on(End((Doubled(chains=(PIECE, PIECE), suspension=Suspension(feeder_m=0.8)),)))
BAND = LoadCurve.through([0.8, 1.0, 1.2], [10.0, 22.0, 30.0])


@pytest.mark.parametrize("hung", [PLAIN, STRAIGHT, DOUBLED, BAND])
def test_exact_on_a_grid_two_hundred_times_finer(hung: LoadCurve) -> None:
    fine = np.linspace(0.8, 1.2, 40001)
    wanted = float(np.min(STRENGTH.at(fine) - hung.at(fine)))
    found = match(STRENGTH, hung)
    assert found.straight_kg <= wanted + 1e-9
    assert found.straight_kg == pytest.approx(wanted, abs=1e-3)
    assert np.max(found.effort) == pytest.approx(1.0)
    assert float(STRENGTH.at(found.limited_at_m)) - float(hung.at(found.limited_at_m)) == (
        pytest.approx(found.straight_kg)
    )


def test_a_jump_counts_with_the_load_just_above_it() -> None:
    lump = LoadCurve.lump(30.0, 0.9713)
    found = match(STRENGTH, lump)
    assert found.limited_at_m == pytest.approx(0.9713)
    assert found.straight_kg == pytest.approx(float(STRENGTH.at(0.9713)) - 30.0)


def test_what_lifts_off_only_at_the_top_is_never_carried() -> None:
    assert match(STRENGTH, LoadCurve.lump(500.0, 1.2)).straight_kg == pytest.approx(100.0)
    at_bottom = match(STRENGTH, LoadCurve.lump(5.0, 0.8)).straight_kg
    assert at_bottom == pytest.approx(95.0)


def test_effort_lowers_the_weight_and_is_reached_nowhere_else() -> None:
    found = match(STRENGTH, DOUBLED, effort=0.85)
    assert np.max(found.effort) == pytest.approx(0.85)
    assert found.straight_kg < match(STRENGTH, DOUBLED).straight_kg
    assert found.off == pytest.approx(
        np.sqrt(np.trapezoid((found.effort - 0.85) ** 2, found.height_m) / 0.4)
    )


def test_effort_of_plain_weight_is_best_over_strength() -> None:
    found = match(STRENGTH)
    assert found.effort == pytest.approx(100.0 / found.strength_kg)
    assert found.least_effort == pytest.approx(100.0 / float(np.max(STRENGTH.best_kg)))


def test_doubled_chain_uses_this_lifter_more_evenly_than_straight_and_plain() -> None:
    found = compare(STRENGTH, {"straight": STRAIGHT, "doubled": DOUBLED, "band": BAND})
    assert list(found) == ["plain weight", "straight", "doubled", "band"]
    assert found["doubled"].off < found["straight"].off < found["plain weight"].off
    assert found["doubled"].mean_effort > found["plain weight"].mean_effort
    assert found["straight"].straight_kg == match(STRENGTH, STRAIGHT).straight_kg


def test_range_is_narrower_where_strength_was_measured() -> None:
    guess = strength_curve(lift_named("bench"), TRAVEL, [FullRange(load_kg=100.0)])
    known, unknown = match(STRENGTH, 4 * DOUBLED), match(guess, 4 * DOUBLED)
    assert known.low_kg < known.straight_kg < known.high_kg
    assert known.high_kg - known.low_kg < 0.7 * (unknown.high_kg - unknown.low_kg)


def test_too_much_chain_is_said_not_clipped() -> None:
    found = match(STRENGTH, LoadCurve.through([0.8, 1.2], [0.0, 400.0]))
    assert found.straight_kg < 0
    assert not found.liftable
    assert [remark.code for remark in found.remarks] == ["too much hung"]
    assert "400.0 kg" in found.remarks[0].say()


def test_chain_that_may_be_too_much_is_said() -> None:
    guess = strength_curve(lift_named("bench"), TRAVEL, [FullRange(load_kg=100.0)])
    found = match(guess, LoadCurve.through([0.8, 1.2], [0.0, 128.0]))
    assert found.liftable
    assert [remark.code for remark in found.remarks] == ["perhaps too much hung"]


def test_heights_hold_every_knot_within_the_lift_once() -> None:
    heights = heights_for(STRENGTH, STRAIGHT, LoadCurve.lump(1.0, 0.9), LoadCurve.lump(1.0, 2.0))
    assert np.all(np.diff(heights) > 0)
    assert heights[0] == 0.8
    assert heights[-1] == 1.2
    assert 0.9 in heights


def test_refuses_a_hung_load_that_falls_and_an_effort_that_is_none() -> None:
    with pytest.raises(BadInputError, match="must not fall"):
        match(STRENGTH, LoadCurve.through([0.8, 1.2], [20.0, 0.0]))
    with pytest.raises(BadInputError, match="share of strength"):
        match(STRENGTH, effort=0.0)
