"""The single that is said to tell most does."""

from __future__ import annotations

import numpy as np
import pytest

from tests.services.lifters import measured, place
from topheavy.lifter.evidence import Evidence, FullRange, Partial
from topheavy.lifter.strength import StrengthCurve, strength_curve
from topheavy.services.strength import answer_strength, strength_of
from topheavy.services.strength_advice import MOST_OF_BEST, SAMPLES, tells_most


def spread_kg(curve: StrengthCurve) -> float:
    """How far plausible curves differ, root mean square over the height."""
    return float(np.sqrt(np.mean(np.var(curve.samples(SAMPLES), axis=0))))


def left_after(curve: StrengthCurve, start_m: float | None) -> float:
    """Spread once that single is known, mean over what it may turn out to be."""
    drawn = curve.samples(SAMPLES)
    at = 0 if start_m is None else int(np.argmin(np.abs(curve.height_m - start_m)))
    singles = np.quantile(np.min(drawn[:, at:], axis=1), (0.2, 0.5, 0.8))
    found = []
    for load_kg in singles:
        more: Evidence = FullRange(load_kg=float(load_kg))
        if start_m is not None:
            more = Partial(height_m=start_m, load_kg=float(load_kg))
        pieces = (*curve.evidence, more)
        again = strength_curve(PLACE.lift, curve.travel, pieces)
        found.append(spread_kg(again))
    return float(np.mean(found))


PLACE = place({"bench press": measured(best_kg=100.0)})
BY_SET = place({"bench press": measured()})


def test_it_narrows_the_curve_about_as_foretold_and_more_than_others_do() -> None:
    """Held against the curve made anew with that single, and with others from elsewhere."""
    curve = strength_of(PLACE)
    advice = tells_most(curve, curve.samples(SAMPLES))
    assert advice.from_m is not None
    told = left_after(curve, advice.from_m)
    assert told < 0.75 * advice.spread_kg
    assert advice.left_kg == pytest.approx(told, rel=0.35)
    for other_m in (None, 0.72, 0.80):
        assert told < left_after(curve, other_m)


def test_after_the_single_there_is_less_to_tell() -> None:
    before = answer_strength(PLACE).advice
    more = Partial(height_m=before.from_m or 0.0, load_kg=before.likely_kg)
    after = answer_strength(PLACE, [more]).advice
    assert after.spread_kg < before.spread_kg
    assert after.share < before.share


def test_a_vague_best_is_worth_testing_first() -> None:
    """Where the upper part is well known and the best is not, the best tells most."""
    pieces: list[Evidence] = [
        FullRange(load_kg=70.0, reps=15),
        Partial(height_m=0.95, load_kg=130.0),
        Partial(height_m=1.0, load_kg=132.0),
        Partial(height_m=0.85, load_kg=112.0),
    ]
    advice = answer_strength(BY_SET, pieces).advice
    assert advice.from_m is None or advice.from_m < 0.75


def test_what_it_may_be_holds_what_is_likeliest() -> None:
    pieces: list[list[Evidence]] = [[], [Partial(height_m=0.9, load_kg=120.0)]]
    for evidence in pieces:
        advice = answer_strength(PLACE, evidence).advice
        assert advice.low_kg <= advice.likely_kg <= advice.high_kg
        assert 0.0 <= advice.left_kg <= advice.spread_kg
        assert 0.0 <= advice.share <= 1.0


def test_nobody_is_sent_to_a_load_far_above_the_best() -> None:
    squat = place(
        {"squat": measured(0.84, 1.44, best_kg=190.0, station="rack")}, lift="squat", station="rack"
    )
    for answer in (answer_strength(PLACE), answer_strength(squat)):
        best_kg = answer.curve.full_range_kg
        assert best_kg <= answer.advice.likely_kg <= MOST_OF_BEST * best_kg + 1e-6


def test_curves_all_alike_leave_nothing_to_tell() -> None:
    curve = strength_of(PLACE)
    advice = tells_most(curve, np.tile(curve.best_kg, (10, 1)))
    assert advice.share == 0.0
    assert not advice.is_worth_it
