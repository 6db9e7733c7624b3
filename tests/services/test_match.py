"""A rig for a lifter's strength: what is aimed at, and what is read off the rig that is found."""

from __future__ import annotations

import functools
from dataclasses import replace

import numpy as np
import pytest

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.lifter.match import compare
from topheavy.rigging.limits import Limits
from topheavy.rigging.target import Ask
from topheavy.services.match import Matching, limits_kg, match_target
from topheavy.services.rig import Place, RigAnswer, RigQuestion, answer_rig
from topheavy.services.strength import strength_of

CASES = (
    ("Osric", "bench press", 0.9),
    ("Pip", "bench press", 0.75),
    ("Runa", "squat", 0.8),
    ("Pip", "deadlift", 0.7),
    ("Osric", "overhead press", 0.85),
)


@functools.cache
def place_of(who: str, what: str) -> Place:
    gym, lift = demo_gym(), lift_named(what)
    lifter = gym.lifter(who)
    named = lifter.measured(lift).station
    station = gym.station(named) if named else gym.station_for(lift)
    return Place(gym=gym, lifter=lifter, lift=lift, station=station)


@functools.cache
def answer_of(who: str, what: str, effort: float) -> RigAnswer:
    place = place_of(who, what)
    matching = Matching(strength=strength_of(place), effort=effort)
    limits = Limits(most_pieces=4, alternatives_within_kg=0.0)
    question = RigQuestion(
        place=place, ask=Ask(), limits=limits, matching=matching, tolerance_kg=60.0
    )
    return answer_rig(question)


@pytest.mark.parametrize("case", CASES)
def test_nowhere_more_than_the_effort_that_was_wanted(case: tuple[str, str, float]) -> None:
    answer = answer_of(*case)
    fit, rig, ground = answer.fit, answer.best.rig, answer.question.place.ground
    assert fit is not None
    heights_m = np.linspace(*(_travel(answer)), 2000)
    effort = rig.curve(ground, "raising").at(heights_m) / fit.matching.strength.at(heights_m)
    assert np.max(effort) <= case[2] + 1e-3
    assert fit.most == pytest.approx(np.max(effort), abs=1e-3)
    assert fit.most_at_m == pytest.approx(heights_m[np.argmax(effort)], abs=0.02)
    above = heights_m >= fit.matching.strength.weakest_m
    assert fit.least == pytest.approx(np.min(effort[above]), abs=2e-3)


@pytest.mark.parametrize("case", CASES)
def test_no_more_plates_fit_and_the_chain_evens_the_effort(case: tuple[str, str, float]) -> None:
    answer = answer_of(*case)
    fit = answer.fit
    assert fit is not None
    mine = fit.sides[fit.name]
    rig = answer.best.rig
    assert rig.straight_weight_kg <= mine.straight_kg + 0.05
    assert mine.straight_kg - rig.straight_weight_kg < 2.6
    assert fit.least > fit.least_plain
    assert mine.mean_effort > fit.sides["plain weight"].mean_effort


@pytest.mark.parametrize("case", CASES)
def test_the_miss_is_the_greatest_lack_of_effort(case: tuple[str, str, float]) -> None:
    """Against the least strength from each height to the top, read off the curve itself."""
    answer = answer_of(*case)
    matching = answer.question.matching
    assert matching is not None
    strength = matching.strength
    heights_m = np.array(answer.target.heights_m)
    above = [strength.best_kg[strength.height_m >= h - 1e-12].min() for h in heights_m]
    load_kg = answer.best.rig.curve(answer.question.place.ground, "raising").at(heights_m)
    lack = case[2] - load_kg / np.minimum(above, strength.at(heights_m))
    share = answer.best.miss_kg / (strength.full_range_kg)
    assert share == pytest.approx(np.max(lack), abs=2e-3)


def test_everything_beside_the_rig_is_matched_like_the_rig() -> None:
    answer = answer_of(*CASES[0])
    fit, ground = answer.fit, answer.question.place.ground
    assert fit is not None
    assert next(iter(fit.sides)) == "plain weight"
    hung = answer.best.rig.added_curve(ground, "raising")
    again = compare(fit.matching.strength, {"mine": hung}, effort=0.9)["mine"]
    assert fit.sides[fit.name].straight_kg == pytest.approx(again.straight_kg)
    assert {"chain straight", "band"} <= set(fit.sides)


def test_more_effort_takes_more_weight() -> None:
    place = place_of("Pip", "bench press")
    strength = strength_of(place)
    loads = [limits_kg(Matching(strength=strength, effort=e))[1] for e in (0.6, 0.8, 1.0)]
    assert np.all(np.diff(loads, axis=0) > 0)
    assert np.all(np.diff(loads[2]) >= 0)
    assert loads[2][0] == pytest.approx(65.0, abs=0.2)


def test_a_straight_weight_that_was_fixed_is_kept() -> None:
    place = place_of("Pip", "bench press")
    matching = Matching(strength=strength_of(place), effort=0.8)
    question = RigQuestion(
        place=place, ask=Ask(straight_kg=45.0), matching=matching, tolerance_kg=60.0
    )
    question = replace(question, limits=Limits(most_pieces=4, alternatives_within_kg=0.0))
    answer = answer_rig(question)
    assert answer.best.rig.straight_weight_kg == pytest.approx(45.0)
    assert answer.fit is not None
    assert answer.fit.most <= 0.8 + 1e-3


@pytest.mark.parametrize("effort", [0.0, -0.1, 1.01, float("nan")])
def test_an_effort_out_of_range(effort: float) -> None:
    strength = strength_of(place_of("Pip", "bench press"))
    with pytest.raises(BadInputError) as caught:
        Matching(strength=strength, effort=effort)
    assert caught.value.field == "effort"


def test_a_bar_too_heavy_for_the_effort() -> None:
    matching = Matching(strength=strength_of(place_of("Pip", "bench press")), effort=0.3)
    with pytest.raises(BadInputError, match="bar with its collars") as caught:
        match_target(matching, 25.0, None)
    assert caught.value.field == "effort"
    with pytest.raises(BadInputError, match="straight weight") as caught:
        match_target(matching, 15.0, 40.0)
    assert caught.value.field == "straight weight"


def test_a_lifter_of_whom_nothing_is_known() -> None:
    with pytest.raises(NotInStockError, match="Nothing says how strong"):
        strength_of(place_of("Wren", "bench press"))


def test_a_partial_best_that_is_typed_shifts_the_aim() -> None:
    place = place_of("Pip", "bench press")
    weak = strength_of(place, [FullRange(load_kg=65.0), Partial(height_m=0.85, load_kg=68.0)])
    strong = strength_of(place, [FullRange(load_kg=65.0), Partial(height_m=0.85, load_kg=85.0)])
    tops = [limits_kg(Matching(strength=s))[1][-1] for s in (weak, strong)]
    assert tops[0] < tops[1]


def _travel(answer: RigAnswer) -> tuple[float, float]:
    travel = answer.question.place.travel
    return travel.bottom_m, travel.top_m
