"""Where a rep fails, and the words for lifter and spotters."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.lifter.effort import heaviest_straight_kg
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.outlook import outlook
from topheavy.lifter.plausible import plausible
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve
from topheavy.units import POUNDS

LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
CHAIN = LoadCurve.strand(60.0, 0.6, 0.80)
BAND = LoadCurve.through([0.8, 1.2], [6.0, 30.0])


def test_it_fails_where_a_rep_beyond_the_limit_stops() -> None:
    on_bar = OnBar(straight_kg=110.0)
    out = outlook(LIFTER, on_bar, BENCH.typical())
    limit = float(heaviest_straight_kg(LIFTER, [on_bar], BENCH.typical())[0, 0])
    missed = simulate_batch(RepBatch.of(LIFTER, on_bar, BENCH.typical(), straight_kg=1.02 * limit))
    assert not missed.completed[0]
    at = 0.80 + 0.40 * float(missed.reached_part[0])
    assert out.fails_at_m[1] == pytest.approx(at, abs=1e-3)
    assert out.stops_after_s[1] == pytest.approx(float(missed.duration_s[0]), abs=0.01)
    assert out.spare_kg == pytest.approx(limit - 110.0, abs=0.05)
    assert out.miss_share == 0.0


def test_chain_makes_it_fail_higher_and_leaves_the_bar_as_it_sinks() -> None:
    plain = outlook(LIFTER, OnBar(straight_kg=118.0), BENCH.typical())
    chain = outlook(LIFTER, OnBar(straight_kg=105.0, hung=CHAIN), BENCH.typical())
    assert chain.fails_at_m[1] > plain.fails_at_m[1] + 0.01
    assert plain.lighter_kg == 0.0
    assert chain.lighter_kg == pytest.approx(float(CHAIN.at(chain.fails_at_m[1])), rel=1e-6)
    assert chain.drop_g == pytest.approx(1.0)
    assert any("kg leave the bar" in line.say() for line in chain.words)
    assert not any("leave the bar" in line.say() for line in plain.words)


def test_bands_pull_a_dropped_bar_down() -> None:
    band = outlook(LIFTER, OnBar(straight_kg=100.0, band=BAND), BENCH.typical())
    pull = float(BAND.at(band.fails_at_m[1]))
    assert band.drop_g == pytest.approx(1.0 + pull / 100.0, rel=1e-6)
    assert any("Never let go of a bar with bands" in line.say() for line in band.words)


def test_a_close_call_is_said_to_be_one() -> None:
    lifters = plausible(BENCH, 60)
    sure = outlook(LIFTER, OnBar(straight_kg=100.0), lifters)
    assert sure.miss_share == 0.0
    close = OnBar(straight_kg=105.0, hung=LoadCurve.through([0.8, 1.2], [0.0, 50.0]))
    unsure = outlook(LIFTER, close, lifters)
    assert 0.0 < unsure.miss_share < 1.0
    assert unsure.words[0].say().startswith("Too close to call")
    low, middle, high = unsure.fails_at_m
    assert LIFTER.bottom_m < low < middle < high < LIFTER.top_m


def test_too_much_already_is_told_as_it_stands() -> None:
    out = outlook(LIFTER, OnBar(straight_kg=140.0), BENCH.typical())
    assert out.miss_share == 1.0
    assert out.spare_kg < 0
    ascent = simulate_batch(RepBatch.of(LIFTER, OnBar(straight_kg=140.0), BENCH.typical()))
    assert out.fails_part == pytest.approx(float(ascent.reached_part[0]), abs=1e-6)


def test_a_bar_that_never_starts_is_told_too() -> None:
    out = outlook(LIFTER, OnBar(straight_kg=400.0), BENCH.typical())
    assert out.fails_at_m[1] == pytest.approx(0.80)
    assert np.isfinite(out.drop_g)
    said = [phrase.say() for phrase in out.words]
    assert said[0].startswith("Too heavy: 100 %")
    assert said[1] == "It does not leave the bottom, 80 cm above the floor."


def test_words_are_plain_careful_and_claim_nothing() -> None:
    said = outlook(LIFTER, OnBar(straight_kg=110.0), BENCH.typical()).words
    words = " ".join(phrase.say() for phrase in said)
    for needed in ("Spotters", "Safeties", "collars", "no study found has tested it"):
        assert needed in words
    for forbidden in ("stronger", "gain", "will make"):
        assert forbidden not in words


def test_heights_and_loads_are_said_in_the_units_asked_for() -> None:
    out = outlook(LIFTER, OnBar(straight_kg=105.0, hung=CHAIN), BENCH.typical())
    inches = " ".join(phrase.say(POUNDS) for phrase in out.words)
    assert f"stop {out.fails_at_m[1] / 0.0254:.0f} in above the floor" in inches
    assert f"{out.lighter_kg / 0.45359237:.0f} lb leave the bar" in inches
    metric = " ".join(phrase.say() for phrase in out.words)
    assert f"stop {100 * out.fails_at_m[1]:.0f} cm above the floor" in metric
    for unit in (" m ", " kg ", " cm "):
        assert unit not in inches


def test_nobody_spots_a_deadlift() -> None:
    """Common practice, no source."""
    out = outlook(LIFTER, OnBar(straight_kg=110.0), BENCH.typical())
    words = " ".join(phrase.say() for phrase in out.words_for(spotted=False))
    assert "Nobody spots this lift: hold on to the bar" in words
    for forbidden in ("Spotters", "Safeties"):
        assert forbidden not in words
