"""Equal effort: limits are limits, and rigs compared by them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from topheavy.errors import BadInputError
from topheavy.lifter.effort import compare, effort_of, heaviest_straight_kg, limit_reserve
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter, StrengthRows
from topheavy.lifter.motion_model import BENCH, MODELS, Motion, MotionModel
from topheavy.lifter.plausible import plausible
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve

LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
STRAIGHT = LoadCurve.strand(16.0, 1.4, 0.0)
DOUBLED = LoadCurve.strand(50.0, 0.7, 0.80)
BAND = LoadCurve.through([0.8, 1.2], [4.0, 24.0])
RIGS = (
    OnBar(straight_kg=0.0),
    OnBar(straight_kg=0.0, hung=STRAIGHT, name="chain straight"),
    OnBar(straight_kg=0.0, hung=DOUBLED, name="chain doubled"),
    OnBar(straight_kg=0.0, band=BAND, name="band"),
)


def made(on_bar: OnBar, motion: Motion, straight_kg: float) -> bool:
    batch = RepBatch.of(LIFTER, on_bar, motion, straight_kg=straight_kg)
    return bool(simulate_batch(batch).completed[0])


@pytest.mark.parametrize("rig", RIGS, ids=lambda r: r.name)
def test_the_heaviest_straight_weight_is_the_limit(rig: OnBar) -> None:
    motion = BENCH.typical()
    most = float(heaviest_straight_kg(LIFTER, [rig], motion)[0, 0])
    assert made(rig, motion, most - 0.01 * 1.2)
    assert not made(rig, motion, most + 0.02 * 1.2)


def test_several_rigs_and_lifters_at_once_are_each_with_each() -> None:
    motion = BENCH.drawn(3, seed=1)
    found = heaviest_straight_kg(LIFTER, RIGS, motion)
    assert found.shape == (4, 3)
    alone = heaviest_straight_kg(LIFTER, [RIGS[2]], motion.taken([1]))
    assert found[2, 1] == pytest.approx(float(alone[0, 0]), abs=0.02)


def test_what_hangs_may_be_too_much_by_itself() -> None:
    heavy = OnBar(straight_kg=0.0, hung=LoadCurve.constant(400.0))
    assert np.isnan(heaviest_straight_kg(LIFTER, [heavy], BENCH.typical())[0, 0])
    with pytest.raises(BadInputError) as error:
        compare(LIFTER, [RIGS[0], heavy], BENCH.typical())
    assert error.value.field == "rigs"


@pytest.mark.parametrize("model", tuple(MODELS.values()), ids=lambda m: m.pattern)
def test_a_1rm_leaves_something(model: MotionModel) -> None:
    """Weaker than the lifter is, someone just makes the same rep."""
    plain = OnBar(straight_kg=LIFTER.best_kg)
    limit = float(limit_reserve(LIFTER, plain, model.typical())[0])
    assert limit > float(np.asarray(model.typical().reserve))
    assert made(plain, replace(model.typical(), reserve=limit * 0.9999), 120.0)
    assert not made(plain, replace(model.typical(), reserve=limit * 1.0003), 120.0)


@pytest.mark.parametrize("effort", [1.0, 0.85, 0.6])
def test_equal_effort_gives_plain_weight_back(effort: float) -> None:
    plain = compare(LIFTER, [RIGS[0]], BENCH.typical(), effort)[0]
    assert plain.straight_kg == pytest.approx(effort * 120.0, rel=2e-3)
    assert plain.static_kg == pytest.approx(effort * 120.0, rel=1e-4)
    assert plain.low_kg == plain.straight_kg == plain.high_kg


def test_the_more_chain_the_less_plates_and_the_more_load_on_top() -> None:
    rigs = [
        OnBar(straight_kg=0.0, hung=LoadCurve.through([0.8, 1.2], [0.0, top]))
        for top in (0, 20, 60)
    ]
    found = compare(LIFTER, rigs, BENCH.typical())
    assert found[0].straight_kg > found[1].straight_kg > found[2].straight_kg
    assert found[0].top_kg < found[1].top_kg < found[2].top_kg
    assert found[0].bottom_kg > found[1].bottom_kg > found[2].bottom_kg


def test_motion_allows_a_little_more_than_strength_alone() -> None:
    """Near a limit the bar creeps, so the simulated limit lies close to the least of S - C."""
    for one in compare(LIFTER, RIGS, BENCH.typical()):
        assert -0.001 * 120 < one.straight_kg - one.static_kg < 0.03 * 120


def test_the_rep_shown_is_the_one_that_was_found() -> None:
    doubled = compare(LIFTER, RIGS, BENCH.typical())[2]
    ascent = doubled.rep.ascent
    assert ascent.completed[0]
    assert float(ascent.top_load_kg[0]) == pytest.approx(doubled.top_kg)
    assert doubled.on_bar.straight_kg == doubled.straight_kg
    assert doubled.mean_kg == pytest.approx(doubled.straight_kg + DOUBLED.mean(0.8, 1.2), rel=1e-4)


def test_plausible_lifters_widen_the_answer_for_heavy_chain_only() -> None:
    """The line does not tell the strength at lockout: plain weight is sure, heavy chain is not."""
    many = plausible(BENCH, 40, seed=1)
    heavy = OnBar(straight_kg=0.0, hung=LoadCurve.through([0.8, 1.2], [0.0, 60.0]))
    plain, chain = compare(LIFTER, [RIGS[0], heavy], BENCH.typical(), plausible=many)
    assert plain.high_kg - plain.low_kg < 0.005 * 120.0
    assert chain.high_kg - chain.low_kg > 0.03 * 120.0
    assert chain.low_kg < chain.straight_kg < chain.high_kg


def test_sampled_strength_curves_can_be_compared() -> None:
    heights = np.array([0.8, 0.95, 1.2])
    rows = StrengthRows(heights, np.array([[140.0, 120.0, 140.0], [140.0, 120.0, 200.0]]))
    lifter = replace(LIFTER, strength=rows)
    both = BENCH.typical().spread(2)
    tired = replace(both, reserve=limit_reserve(lifter, OnBar(straight_kg=120.0), both))
    found = heaviest_straight_kg(lifter, [RIGS[0], RIGS[2]], tired)
    assert found[0] == pytest.approx([120.0, 120.0], rel=2e-3)
    assert found[1, 1] > found[1, 0]


@pytest.mark.parametrize("effort", [0.0, -0.5, 1.2, float("nan")])
def test_effort_is_a_share_of_the_1rm(effort: float) -> None:
    with pytest.raises(BadInputError) as error:
        compare(LIFTER, RIGS, BENCH.typical(), effort)
    assert error.value.field == "effort"


def test_a_rep_beyond_reason_has_no_limit() -> None:
    with pytest.raises(BadInputError) as error:
        limit_reserve(LIFTER, OnBar(straight_kg=400.0), BENCH.typical())
    assert error.value.field == "on_bar"


@pytest.mark.parametrize("effort", [0.7, 0.95])
def test_the_effort_of_a_rig_leads_back_to_it(effort: float) -> None:
    """Plain weight that is as hard as a rig, and the rig that is as hard as that plain weight."""
    doubled = compare(LIFTER, [RIGS[2]], BENCH.typical(), effort)[0].on_bar
    plain_kg = float(effort_of(LIFTER, doubled, BENCH.typical())[0])
    assert plain_kg == pytest.approx(effort * 120.0, rel=1e-3)
    assert float(effort_of(LIFTER, OnBar(straight_kg=90.0), BENCH.typical())[0]) == pytest.approx(
        90.0, rel=1e-3
    )


def test_a_rig_beyond_the_lifter_takes_more_than_the_1rm() -> None:
    heavy = replace(RIGS[2], straight_kg=125.0)
    assert float(effort_of(LIFTER, heavy, BENCH.typical())[0]) > 120.0


def test_ranges_follow_the_strength_curves_that_were_drawn() -> None:
    heights = np.array([0.8, 0.95, 1.2])
    rows = StrengthRows(heights, np.array([[140.0, 120.0, 125.0], [140.0, 120.0, 200.0]] * 10))
    many = BENCH.typical().spread(20)
    known = replace(LIFTER, strength=StrengthRows(heights, np.array([[140.0, 120.0, 150.0]])))
    drawn = replace(LIFTER, strength=rows)
    heavy = [OnBar(straight_kg=0.0, hung=LoadCurve.through([0.8, 1.2], [0.0, 60.0]))]
    (alone,) = compare(known, heavy, BENCH.typical(), 1.0, many)
    (apart,) = compare(known, heavy, BENCH.typical(), 1.0, many, drawn)
    assert alone.high_kg - alone.low_kg < 0.5
    assert apart.low_kg < alone.low_kg - 2.0
    assert apart.high_kg > alone.high_kg + 2.0
