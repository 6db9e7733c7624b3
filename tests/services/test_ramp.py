"""The ramp with the rig of the day: what hangs, what is known, the next attempt."""

from __future__ import annotations

import pytest

from tests.services.training import TINY, ramp, rig
from topheavy.errors import BadInputError
from topheavy.services.ramp import RampQuestion, Tried
from topheavy.services.rig import answer_rig
from topheavy.services.top_set import gear_of, hanging_of, lighter_of, loads_of, strong_of


def test_the_top_set_is_the_rig() -> None:
    answer = ramp()
    last = answer.ramp.sets[-1]
    reading = answer.rig.reading
    assert last.loads.straight_kg == pytest.approx(reading.straight_weight_kg)
    assert last.loads.bottom_kg == pytest.approx(reading.bottom.load_kg, abs=1e-6)
    assert last.loads.mean_kg == pytest.approx(reading.mean.load_kg, abs=1e-6)
    assert last.loads.top_kg == pytest.approx(reading.top.load_kg, abs=1e-6)


def test_percentages_are_of_the_best() -> None:
    answer = ramp()
    loads = loads_of(answer.rig)
    assert {one.at: one.share for one in answer.percents} == pytest.approx(
        {at: loads.at(at) / 100.0 for at in ("straight", "bottom", "mean", "top")}
    )


def test_nobody_knows_how_strong_the_lifter_is() -> None:
    answer = ramp(best_kg=None)
    assert answer.percents == ()
    assert answer.ramp.limited_by == "bottom"
    assert answer.strong.best_kg is None


def test_a_best_that_was_typed_goes_before_the_file() -> None:
    strong = strong_of(answer_rig(rig(typed_kg=110.0)))
    assert strong.best_kg == 110.0
    assert not strong.reckoned
    assert strong.curve is not None
    assert strong.curve.full_range_kg == pytest.approx(110.0)


def test_plates_collar_and_loop_share_the_sleeve() -> None:
    gear = gear_of(answer_rig(rig()))
    assert gear.bar_kg == 25.0
    assert gear.room_m == pytest.approx(0.41 - 0.05 - 0.025)
    assert gear.plates == TINY.stock.plates


def test_lighter_hangings_lose_a_piece_on_each_end() -> None:
    answer = answer_rig(rig())
    whole, fewer = hanging_of(answer), lighter_of(answer)
    assert [one.pieces for one in fewer] == list(range(whole.pieces - 2, 0, -2))
    top_m = answer.question.place.travel.top_m
    loads = [float(one.curve.at(top_m)) for one in (whole, *fewer)]
    assert len(loads) > 1
    assert loads == sorted(loads, reverse=True)
    assert loads[-1] > 0


def test_the_next_attempt_counts_chain_at_the_limiting_height() -> None:
    """Plates of 5 kg a side: 10 kg steps are too coarse for 2.5 %, so it is time to stop."""
    stop = ramp(singles=True, tried=Tried(straight_kg=65.0, made=True, reps_left=1)).next_one
    assert stop is not None
    assert stop.advice.stops
    lighter = ramp(singles=True, tried=Tried(straight_kg=65.0, made=False)).next_one
    assert lighter is not None
    assert lighter.plates is not None
    assert lighter.plates.straight_kg == 55.0
    hung_kg = float(hanging_of(ramp(singles=True).rig).curve.at(ramp(singles=True).ramp.limit_m))
    assert lighter.advice.load_kg == pytest.approx(55.0 + hung_kg)


def test_an_attempt_lighter_than_the_bar() -> None:
    with pytest.raises(BadInputError, match="bar and its collars"):
        ramp(singles=True, tried=Tried(straight_kg=20.0, made=True))


def test_attempts_belong_to_singles() -> None:
    with pytest.raises(BadInputError, match="singles"):
        RampQuestion(rig=rig(), tried=Tried(straight_kg=65.0, made=True))
