"""One lifter, and the many who might be this one."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.present.answers import place
from topheavy.errors import NotInStockError
from topheavy.gym.records import HungLoads, HungThen, MissedRep, SpeedRead
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.lifter.motion.inputs import OnBar
from topheavy.lifter.plausible import spread_reps
from topheavy.lifter.velocity import LINES
from topheavy.mechanics.curve import LoadCurve
from topheavy.services.reps.who import MANY, Who, who_lifts
from topheavy.services.strength import strength_of

if TYPE_CHECKING:
    from topheavy.gym.records import Record
    from topheavy.services.rig import Place

BENCH = place()


def recorded(where: Place, *records: Record) -> Place:
    name = where.lift.name
    measured = replace(where.measured, records=records)
    return replace(where, lifter=replace(where.lifter, lifts={name: measured}))


def who(where: Place = BENCH) -> Who:
    return who_lifts(where, strength_of(BENCH))


def test_the_many_move_plain_weight_as_measured_lifters_do() -> None:
    one = who()
    assert one.many.count == MANY
    least = np.min(one.each.strength_kg(one.many), axis=1)
    line = LINES["bench press"]
    for share in (0.6, 0.9, 1.0):
        ascents = spread_reps(one.each, OnBar(straight_kg=0.0), one.many, share * least)
        assert ascents.completed.all()
        off = float(np.mean(ascents.propulsive_m_per_s)) - float(line.speed_at(share))
        assert abs(off) < line.error_m_per_s


def test_the_likeliest_moves_its_best_as_the_middle_one_of_the_many() -> None:
    one = who()
    least = np.min(one.each.strength_kg(one.many), axis=1)
    bests = spread_reps(one.each, OnBar(straight_kg=0.0), one.many, least)
    own = spread_reps(one.lifter, OnBar(straight_kg=one.lifter.best_kg), one.motion)
    assert own.completed[0]
    middle = float(np.median(bests.mean_m_per_s))
    assert float(own.mean_m_per_s[0]) == pytest.approx(middle, abs=0.005)


def test_everybody_is_as_strong_as_the_evidence_says() -> None:
    known = (FullRange(load_kg=140.0), Partial(height_m=0.9, load_kg=170.0))
    one = who_lifts(BENCH, strength_of(BENCH, known))
    rows = np.asarray(one.each.strength_kg(one.many))
    grid = one.lifter.grid_m
    above = np.min(rows[:, grid >= 0.9], axis=1)
    assert float(np.min(above)) > 0.93 * 170
    assert float(np.max(above)) < 1.07 * 170


def test_a_missed_rep_narrows_where_the_many_stick() -> None:
    low, high = (
        who(recorded(BENCH, MissedRep(straight_kg=146.0, height_m=at_m))) for at_m in (0.74, 0.84)
    )
    for one in (low, high):
        assert "plausible lifters do that in the model" in one.told[0].say()

    def weakest(one: Who) -> float:
        rows = np.asarray(one.each.strength_kg(one.many))
        return float(np.mean(one.lifter.grid_m[np.argmin(rows, axis=1)]))

    assert weakest(low) < weakest(high) - 0.01


def test_bar_speed_at_a_known_load_narrows_how_fast_they_are() -> None:
    slow, fast = (
        who(recorded(BENCH, SpeedRead(load_kg=98.0, speed_m_per_s=speed))) for speed in (0.55, 0.70)
    )

    def mean(one: Who) -> float:
        return float(np.mean(spread_reps(one.each, OnBar(straight_kg=98.0), one.many).mean_m_per_s))

    assert mean(slow) < mean(fast) - 0.03


def test_what_hardly_anybody_would_do_is_said_and_not_used() -> None:
    one = who(recorded(BENCH, MissedRep(straight_kg=100.0, height_m=0.8)))
    assert one.many.count == MANY
    assert "not used here" in one.told[0].say()


def test_a_record_that_names_what_is_gone_is_said_and_not_used() -> None:
    hung = HungThen(left=("Z1",), right=("Z2",), style="straight")
    one = who(recorded(BENCH, MissedRep(straight_kg=100.0, height_m=0.8, hung=hung)))
    assert "No chain piece 'Z1' in stock" in one.told[0].say()


def test_a_miss_known_by_its_loads_alone_narrows_too() -> None:
    loads = HungLoads(curve=LoadCurve.through([0.66, 1.07], [0.0, 30.0]))
    one = who(recorded(BENCH, MissedRep(straight_kg=136.0, height_m=0.8, hung=loads)))
    assert "plausible lifters do that in the model" in one.told[0].say()


def test_a_lift_without_a_model_is_refused() -> None:
    press = place("overhead press", bottom_m=1.43, top_m=2.12)
    with pytest.raises(NotInStockError) as error:
        who_lifts(press, strength_of(press))
    assert "overhead press" in str(error.value)
