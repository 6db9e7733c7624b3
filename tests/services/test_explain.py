"""What a lifter should know of a rig: every number is the library's own."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.present.answers import ANSWERS, BENCH, answer, built, pieces, place, ring
from topheavy.errors import BadInputError
from topheavy.gym.people import Lifter, Measured, StationPeg
from topheavy.gymfile import demo_gym
from topheavy.lifter.evidence import FullRange, Miss, Partial
from topheavy.lifter.match import compare
from topheavy.mechanics.banded import Peg
from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.hung_band import HungBand
from topheavy.services.counting import links_of
from topheavy.services.explain import Explained, explain_rig
from topheavy.services.match import Matching
from topheavy.services.strength import strength_of

if TYPE_CHECKING:
    from topheavy.lifter.evidence import Evidence
    from topheavy.services.rig import RigAnswer

EACH = pytest.mark.parametrize("name", ANSWERS)


@cache
def _explained(name: str) -> Explained:
    return explain_rig(ANSWERS[name])


def unknown(found: RigAnswer) -> RigAnswer:
    """The same rig for a lifter of whom only the heights are known."""
    where = found.question.place
    travel = where.measured.travel
    nobody = Lifter(name=where.lifter.name, lifts={where.lift.name: Measured(travel=travel)})
    question = replace(found.question, place=replace(where, lifter=nobody))
    return replace(found, question=question)


def known(found: RigAnswer, *evidence: Evidence) -> RigAnswer:
    """The same rig, asked with something that is known of the lifter's strength."""
    return replace(found, question=replace(found.question, evidence=evidence))


def with_bands(found: RigAnswer) -> RigAnswer:
    """The same rig in a gym with bands, on a bench with pegs."""
    gym = demo_gym()
    where = found.question.place
    station = replace(where.station, pegs=gym.station("bench 1").pegs)
    stock = replace(where.gym.stock, bands=gym.stock.bands)
    there = replace(where, station=station, gym=replace(where.gym, stock=stock))
    return replace(found, question=replace(found.question, place=there))


def on_bands(found: RigAnswer, height_m: float, *, chain: bool = False) -> RigAnswer:
    """The same bar and plates on a pair of bands from a peg, with the rig's chain or without."""
    where, best = found.question.place, found.best
    peg = StationPeg(name="the peg", peg=Peg(height_m=height_m, offset_m=0.06))
    bands = {band.tag: band for band in demo_gym().stock.bands}
    left, right = (HungBand(band=bands[tag], peg=peg) for tag in ("red-1", "red-3"))
    span_m = where.travel.bottom_m, where.travel.top_m
    ends = [
        End(end.hangs if chain else (), bands=(hung.over(span_m),))
        for end, hung in ((best.rig.left, left), (best.rig.right, right))
    ]
    banded = replace(
        best,
        rig=Rig(best.rig.bar_kg, best.rig.plates_kg, *ends),
        left=best.left if chain else (),
        right=best.right if chain else (),
        left_bands=(left,),
        right_bands=(right,),
    )
    return answer(where, banded)


@EACH
def test_stands_read_the_rig_at_bottom_middle_and_top(name: str) -> None:
    found, rig = _explained(name), ANSWERS[name].best.rig
    where = ANSWERS[name].question.place
    bottom, middle, top = found.stands
    assert middle.height_m == pytest.approx((bottom.height_m + top.height_m) / 2)
    for stand in found.stands:
        for way, load_kg in (("raising", stand.raising_kg), ("lowering", stand.lowering_kg)):
            curve = rig.curve(where.ground, way)  # type: ignore[arg-type]
            assert load_kg == pytest.approx(float(curve.at(stand.height_m)))
        off = [
            sum(
                links_of(hang, chain, stand.height_m, where.ground).off
                for hang in end.hangs
                for chain in hang.chains
            )
            for end in (rig.left, rig.right)
        ]
        assert list(stand.links_off) == off
    assert bottom.raising_kg == pytest.approx(ANSWERS[name].reading.bottom.load_kg)
    assert top.raising_kg == pytest.approx(ANSWERS[name].reading.top.load_kg)


@EACH
def test_use_is_load_over_strength(name: str) -> None:
    found = _explained(name)
    strength = strength_of(ANSWERS[name].question.place)
    for stand in found.stands:
        assert stand.use is not None
        low, high = strength.range_at(stand.height_m)
        likely = float(strength.at(stand.height_m))
        assert stand.use.likely == pytest.approx(stand.raising_kg / likely)
        assert stand.use.least == pytest.approx(stand.raising_kg / float(high))
        assert stand.use.most == pytest.approx(stand.raising_kg / float(low))


@EACH
def test_everything_beside_the_rig_is_as_hard_where_it_is_hardest(name: str) -> None:
    """Load over strength, looked at on a fine grid: the greatest is the rig's own everywhere."""
    found = _explained(name)
    assert found.strength is not None
    assert found.effort is not None
    travel = ANSWERS[name].question.place.travel
    heights = np.linspace(travel.bottom_m, travel.top_m, 4001)
    assert found.effort < 1
    for side in found.sides:
        effort = (side.straight_kg + side.hung.at(heights)) / found.strength.at(heights)
        assert float(np.max(effort)) == pytest.approx(found.effort, abs=2e-3), side.name
    assert found.chosen.straight_kg == ANSWERS[name].best.rig.straight_weight_kg
    assert found.plain.straight_kg == pytest.approx(
        found.effort * found.strength.full_range_kg, abs=1e-6
    )


@EACH
def test_chain_never_comes_down_faster_than_it_falls(name: str) -> None:
    """Free fall through the travel: v = sqrt(2 g h), g = 9.80665 m/s2."""
    found, travel = _explained(name), ANSWERS[name].question.place.travel
    falls = (2 * 9.80665 * travel.travel_m) ** 0.5
    for side in found.sides:
        assert side.start_g == pytest.approx(1.0)
        assert side.end_m_per_s == pytest.approx(falls, rel=1e-3)


def test_a_band_pulls_the_bar_down_faster_than_it_falls() -> None:
    """(1 + pull / weight) g at lockout, by Newton's second law."""
    given = with_bands(BENCH)
    found = explain_rig(given)
    (band,) = [side for side in found.sides if side.bands]
    pull_kg = float(band.hung.at(given.question.place.travel.top_m))
    assert band.start_g == pytest.approx(1 + pull_kg / band.straight_kg, rel=1e-3)
    assert band.start_g > 1.05
    assert band.end_m_per_s > found.plain.end_m_per_s
    assert set(band.bands) < {one.tag for one in demo_gym().stock.bands}


@pytest.mark.parametrize("chain", [False, True], ids=["bands alone", "with chain"])
def test_a_rig_on_bands_is_pulled_down_itself(chain: bool) -> None:
    """Bands on the rig: m a = m g + pull at lockout, chain going slack (Newton's second law)."""
    given = on_bands(BENCH, 0.12, chain=chain)
    found = explain_rig(given)
    pull_kg = found.stands[2].band_kg
    assert pull_kg == pytest.approx(
        float(given.best.rig.band_curve().at(given.question.place.travel.top_m))
    )
    assert found.chosen.start_g == pytest.approx(1 + pull_kg / found.chosen.straight_kg, rel=1e-3)
    assert sum(found.stands[0].links) == (128 if chain else 0)


def test_bands_from_above_carry_part_of_the_bar_and_never_speed_it_up() -> None:
    found = explain_rig(on_bands(BENCH, 1.70))
    bottom, _, top = found.stands
    assert bottom.band_kg < top.band_kg < 0
    assert bottom.raising_kg == pytest.approx(
        found.answer.best.rig.straight_weight_kg + bottom.band_kg
    )
    assert found.chosen.start_g <= 1.0


def test_straight_weights_are_those_of_the_match() -> None:
    found = explain_rig(with_bands(BENCH))
    assert found.strength is not None
    assert found.effort is not None
    hung = {side.name: side.hung for side in found.sides if side.name != "plain weight"}
    for name, matched in compare(found.strength, hung, effort=found.effort).items():
        (side,) = [side for side in found.sides if side.name == name]
        assert side.straight_kg == pytest.approx(matched.straight_kg, abs=1e-6)


def test_a_lifter_of_whom_nothing_is_known_gets_loads_and_nothing_invented() -> None:
    found = explain_rig(unknown(BENCH))
    assert found.strength is None
    assert (found.effort, found.effort_at_m, found.at_most) == (None, None, None)
    assert all(stand.use is None for stand in found.stands)
    assert all(side.top_use is None for side in found.sides)
    own_kg = BENCH.best.rig.straight_weight_kg
    assert [side.straight_kg for side in found.sides] == [own_kg] * len(found.sides)
    assert not found.hardly_stronger


def test_evidence_given_with_the_question_counts() -> None:
    found = explain_rig(known(unknown(BENCH), FullRange(load_kg=120.0)))
    assert found.strength is not None
    assert found.strength.full_range_kg == pytest.approx(120.0)


def test_a_single_given_with_the_question_replaces_the_best_of_the_file() -> None:
    found = explain_rig(known(BENCH, FullRange(load_kg=150.0)))
    assert found.strength is not None
    assert found.strength.full_range_kg == pytest.approx(150.0)


def test_a_matched_rig_is_explained_with_the_strength_it_was_matched_to() -> None:
    strength = strength_of(BENCH.question.place, [Partial(height_m=0.95, load_kg=175.0)])
    asked = replace(BENCH.question, matching=Matching(strength=strength))
    found = explain_rig(replace(BENCH, question=asked))
    assert found.strength is strength


def test_evidence_that_contradicts_itself_is_refused() -> None:
    with pytest.raises(BadInputError):
        explain_rig(known(BENCH, Miss(height_m=0.8, load_kg=60.0)))


def test_a_rig_that_is_too_heavy_is_set_beside_the_most_that_can_be_lifted() -> None:
    weak = explain_rig(known(unknown(BENCH), FullRange(load_kg=75.0)))
    assert weak.effort is not None
    assert weak.effort > 1
    assert weak.plain.straight_kg == pytest.approx(75.0)
    assert weak.chosen.straight_kg == BENCH.best.rig.straight_weight_kg
    assert weak.at_most is not None
    assert weak.at_most > weak.effort


def test_a_lifter_for_whom_the_bar_alone_is_too_heavy() -> None:
    """Bar and collars are 25 kg: plain weight still says what could be lifted."""
    child = explain_rig(known(unknown(BENCH), FullRange(load_kg=15.0)))
    assert child.plain.straight_kg == pytest.approx(15.0)
    assert child.effort is not None
    assert child.effort > 4
    assert child.too_heavy == ("chain straight",)


def test_what_is_too_heavy_with_an_empty_bar_is_left_out_and_named() -> None:
    """Much chain, few plates: straight, half of it is on the bar at the bottom already."""
    where = place()
    much = answer(
        where,
        built(where, ring("5"), pieces("A1 A2 A3 A4"), pieces("B1 B2 B3 B4"), ()),
    )
    found = explain_rig(much)
    assert found.too_heavy == ("chain straight",)
    assert {side.name for side in found.sides} == {"plain weight", "chain doubled"}
