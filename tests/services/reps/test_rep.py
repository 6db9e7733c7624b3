"""The rep with a rig, and rigs of equal effort beside it."""

from __future__ import annotations

from math import inf, isfinite, nan

import numpy as np
import pytest

from tests.services.reps.cases import found, place_for, rep_of
from topheavy.errors import BadInputError
from topheavy.lifter.effort import limit_reserve
from topheavy.services.reps.rep import RepQuestion, Side, moved, quickest_s
from topheavy.services.strength import strength_of

LIFTS = ("bench", "squat", "deadlift")


def beside(name: str) -> Side:
    return next(one for one in rep_of().sides if one.beside.name == name)


@pytest.mark.parametrize("name", LIFTS)
def test_the_rep_is_of_the_rig_as_it_is(name: str) -> None:
    answer, rig = rep_of(name), found(name)
    travel = answer.question.place.travel
    low_kg, high_kg = answer.moved.on_bar.load_at([travel.bottom_m, travel.top_m])
    assert float(low_kg) == pytest.approx(rig.reading.bottom.load_kg, abs=1e-6)
    assert float(high_kg) == pytest.approx(rig.reading.top.load_kg, abs=1e-6)
    assert answer.moved.verdict == "made"
    path = answer.moved.rep.path
    assert path.height_m[0] == pytest.approx(travel.bottom_m)
    assert path.height_m[-1] == pytest.approx(travel.top_m)


@pytest.mark.parametrize("name", LIFTS)
def test_energy_adds_up_in_every_rep_within_a_thousandth(name: str) -> None:
    answer = rep_of(name)
    for one in (answer.moved, *(side.moved for side in answer.sides)):
        assert abs(float(one.rep.ascent.energy.imbalance[0])) < 1e-3
        assert np.max(np.abs(one.many.energy.imbalance)) < 1e-3


@pytest.mark.parametrize("name", LIFTS)
def test_effort_is_equal_for_all(name: str) -> None:
    """Whoever just lifts one just lifts all: the same limit of strength."""
    answer = rep_of(name)
    who = answer.who
    limits = [
        float(limit_reserve(who.lifter, one.equal.on_bar, who.motion)[0]) for one in answer.sides
    ]
    assert max(limits) / min(limits) - 1.0 < 1e-3


def test_left_to_itself_the_comparison_leads_back_to_the_rig() -> None:
    answer = rep_of()
    mine = next(one for one in answer.sides if one.beside.found)
    assert mine.equal.straight_kg == pytest.approx(found("bench").best.rig.straight_weight_kg, 2e-3)
    assert answer.as_hard_kg is not None
    low, likely, high = answer.as_hard_kg
    assert low <= likely <= high
    assert answer.effort == pytest.approx(likely / answer.who.lifter.best_kg)
    plain = answer.sides[0].equal
    assert plain.straight_kg == pytest.approx(likely, rel=2e-3)


def test_a_wanted_effort_is_kept() -> None:
    answer = rep_of(effort=0.9)
    assert answer.effort == 0.9
    assert answer.sides[0].equal.straight_kg == pytest.approx(0.9 * 140.0, rel=2e-3)
    assert answer.moved.on_bar.straight_kg == rep_of().moved.on_bar.straight_kg


def test_bands_pull_the_bar_down_faster_than_it_falls_and_chain_does_not() -> None:
    for name in ("plain weight", "chain straight", "chain doubled"):
        assert beside(name).moved.dropped.peak_g == pytest.approx(1.0)
    pulled = beside("band").moved
    pull = float(pulled.on_bar.band.at(1.07)) if pulled.on_bar.band else nan
    assert pulled.dropped.peak_g == pytest.approx(1.0 + pull / pulled.on_bar.straight_kg, rel=1e-6)
    assert pulled.dropped.end_m_per_s > beside("plain weight").moved.dropped.end_m_per_s


def test_shares_of_the_work_belong_to_what_hangs() -> None:
    assert float(beside("plain weight").moved.rep.ascent.energy.chain_share[0]) == 0.0
    assert float(beside("chain doubled").moved.rep.ascent.energy.chain_share[0]) > 0.02
    assert float(beside("chain doubled").moved.rep.ascent.energy.band_j[0]) == 0.0
    assert float(beside("band").moved.rep.ascent.energy.band_j[0]) > 0.0


def test_ranges_hold_the_likeliest() -> None:
    answer = rep_of()
    for figure in ("mean_m_per_s", "peak_m_per_s", "duration_s", "energy.work_j"):
        low, likely, high = answer.moved.span(figure)
        assert low <= likely <= high
        assert low < high
    for one in answer.sides:
        assert one.equal.low_kg <= one.equal.straight_kg <= one.equal.high_kg
    low, likely, high = answer.moved.span("sticking.start_part")
    assert isfinite(likely) or low != low or low <= high  # noqa: PLR0124 - nan where none sticks


def test_a_rig_too_heavy_on_the_way_up_is_a_miss() -> None:
    answer = rep_of(plates_kg=115.0)
    assert answer.moved.verdict == "missed"
    assert 0.01 < float(answer.moved.rep.ascent.reached_part[0]) < 1.0
    assert answer.moved.made_share < 0.5
    assert answer.as_hard_kg is not None
    assert answer.as_hard_kg[1] > 140.0
    assert answer.effort == 1.0
    assert answer.outlook.spare_kg < 0.0


def test_a_rig_that_stays_down_is_told_apart() -> None:
    answer = rep_of(plates_kg=300.0)
    assert answer.moved.verdict == "stays down"
    assert answer.moved.made_share == 0.0


def test_a_rig_beyond_any_strength_is_told_too() -> None:
    answer = rep_of(plates_kg=2000.0)
    assert answer.as_hard_kg is None
    assert answer.plain is None
    assert answer.moved.verdict == "stays down"
    assert answer.sides[0].beside.name == "plain weight"


def test_chain_too_heavy_for_the_effort_is_left_out_by_name() -> None:
    answer = rep_of("bench", effort=0.05)
    assert "chain straight" in answer.too_much
    assert answer.sides[0].beside.name == "plain weight"


@pytest.mark.parametrize("effort", [0.0, -0.5, 1.01, inf, nan])
def test_an_effort_out_of_range_is_refused(effort: float) -> None:
    place = place_for("bench")
    with pytest.raises(BadInputError) as error:
        RepQuestion(
            place=place,
            rig=found("bench").best.rig,
            strength=strength_of(place),
            effort=effort,
        )
    assert error.value.field == "effort"


@pytest.mark.parametrize("lower_s", [0.0, -1.0, 0.48, 31.0, nan, inf])
def test_a_descent_faster_than_a_fall_or_endless_is_refused(lower_s: float) -> None:
    place = place_for("bench")
    with pytest.raises(BadInputError) as error:
        RepQuestion(
            place=place,
            rig=found("bench").best.rig,
            strength=strength_of(place),
            lower_s=lower_s,
        )
    assert error.value.field == "lower_s"


def test_the_way_down_takes_the_time_that_was_asked() -> None:
    one = rep_of()
    slow, quick = (moved(one.who, one.moved.on_bar, seconds) for seconds in (3.0, 1.2))
    assert one.moved.lowered.duration_s == pytest.approx(2.0)
    assert slow.lowered.duration_s == pytest.approx(3.0)
    assert slow.lowered.peak_g < quick.lowered.peak_g < 1.0


def test_the_quickest_descent_just_does_not_pull_the_bar_down() -> None:
    one = rep_of()
    quick = moved(one.who, one.moved.on_bar, quickest_s(one.who.lifter.travel_m)).lowered
    assert quick.peak_g == pytest.approx(1.0, abs=1e-3)
    assert float(np.min(quick.force_n)) >= -1.0
