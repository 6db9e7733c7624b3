"""Laws of the strength curve and of the heaviest weight under a hung load, for any lifter.

A lifter is made up: a curve of the typical form with parameters from anywhere within the spans.
What a coach would see of that lifter is worked out from the curve itself, exactly.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from topheavy.gym.lifts import LIFTS, lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evenness import evenest_straight, evenness, heaviest_straight
from topheavy.lifter.evidence import Evidence, FullRange, HungBest, Isometric, Miss, Partial
from topheavy.lifter.match import match
from topheavy.lifter.model import CELLS
from topheavy.lifter.strength import StrengthCurve, strength_curve
from topheavy.lifter.typical import TYPICAL, Shape
from topheavy.mechanics.curve import LoadCurve

Floats = NDArray[np.float64]
FULL_LIFTS = ("bench press", "squat", "deadlift", "overhead press")
STEPS = np.linspace(0.0, 1.0, CELLS + 1)


@dataclass(frozen=True)
class Lifter:
    """A made-up lifter: strength = best x shape, on the equal steps of the travel."""

    lift: str
    travel: Travel
    best_kg: float
    shape: Shape

    @property
    def height_m(self) -> Floats:
        return np.linspace(self.travel.bottom_m, self.travel.top_m, CELLS + 1)

    @property
    def strength_kg(self) -> Floats:
        return self.best_kg * self.shape.at(STEPS)

    def full(self) -> FullRange:
        return FullRange(load_kg=self.best_kg)

    def partial(self, step: int) -> Partial:
        least_kg = float(np.min(self.strength_kg[step:]))
        return Partial(height_m=float(self.height_m[step]), load_kg=least_kg)

    def miss(self, step: int, over: float) -> Miss:
        load_kg = float(self.strength_kg[step]) * (1 + over)
        return Miss(height_m=float(self.height_m[step]), load_kg=load_kg)

    def pull(self, step: int, share: float) -> Isometric:
        force_n = float(self.strength_kg[step]) / share * 9.80665
        return Isometric(height_m=float(self.height_m[step]), force_n=force_n)

    def hung(self, curve: LoadCurve) -> HungBest | None:
        straight_kg = float(np.min(self.strength_kg - curve.at(self.height_m)))
        return HungBest(straight_kg=straight_kg, hung=curve) if straight_kg > 1 else None


def within(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


@st.composite
def lifters(draw: st.DrawFn) -> Lifter:
    lift = draw(st.sampled_from(FULL_LIFTS))
    spans = TYPICAL[lift]
    bottom_m = draw(within(0.2, 1.2))
    low, high = round(spans.weakest.low / 0.02), round(spans.weakest.high / 0.02 - 0.49)
    shape = Shape(
        weakest=draw(st.integers(low, high).filter(lambda n: n * 0.02 >= spans.weakest.low)) * 0.02,
        bottom_surplus=draw(within(spans.bottom_surplus.low, spans.bottom_surplus.high)),
        lockout_surplus=draw(within(spans.lockout_surplus.low, spans.lockout_surplus.high)),
        rise=draw(within(spans.rise.low, spans.rise.high)),
    )
    travel = Travel(bottom_m=bottom_m, top_m=bottom_m + draw(within(0.25, 0.8)))
    return Lifter(lift, travel, draw(within(30.0, 300.0)), shape)


@st.composite
def chains(draw: st.DrawFn, lifter: Lifter) -> LoadCurve:
    """A strand that leaves the floor somewhere on the way, its knots on the equal steps."""
    first = draw(st.integers(0, CELLS // 2))
    top_kg = draw(within(0.05, 0.6)) * lifter.best_kg
    offset_m = float(lifter.height_m[first])
    length_m = float(lifter.height_m[-1]) - offset_m
    return LoadCurve.strand(top_kg / length_m, length_m, offset_m)


@st.composite
def known(draw: st.DrawFn) -> tuple[Lifter, list[Evidence]]:
    """A lifter, and true evidence: a full-range best first, then up to five more pieces."""
    lifter = draw(lifters())
    pieces: list[Evidence] = [lifter.full()]
    for _ in range(draw(st.integers(0, 5))):
        step = draw(st.integers(0, CELLS - 1))
        kind = draw(st.sampled_from(["partial", "miss", "pull", "hung"]))
        if kind == "partial":
            pieces.append(lifter.partial(step))
        elif kind == "miss":
            pieces.append(lifter.miss(step, draw(within(0.0, 0.1))))
        elif kind == "pull":
            pieces.append(lifter.pull(step, draw(within(0.65, 1.15))))
        else:
            best = lifter.hung(draw(chains(lifter)))
            pieces += [best] if best else []
    return lifter, pieces


def fitted(lifter: Lifter, pieces: list[Evidence]) -> StrengthCurve:
    return strength_curve(lift_named(lifter.lift), lifter.travel, pieces)


def falls_then_rises(curve: Floats) -> bool:
    at = int(np.argmin(curve))
    off = 1e-9 * float(np.max(curve))
    return bool(np.all(np.diff(curve[: at + 1]) <= off) and np.all(np.diff(curve[at:]) >= -off))


@given(known())
@settings(max_examples=60)
def test_range_holds_the_best_curve_and_the_truth_and_is_never_below_zero(
    case: tuple[Lifter, list[Evidence]],
) -> None:
    lifter, pieces = case
    curve = fitted(lifter, pieces)
    low, high = curve.range_at(lifter.height_m)
    assert np.all(curve.low_kg >= 0)
    assert np.all(curve.low_kg <= curve.best_kg)
    assert np.all(curve.best_kg <= curve.high_kg)
    assert np.all(np.isfinite(curve.high_kg))
    assert np.all(low <= lifter.strength_kg * (1 + 1e-9))
    assert np.all(lifter.strength_kg <= high * (1 + 1e-9))
    assert falls_then_rises(curve.best_kg)


@given(known())
@settings(max_examples=40)
def test_every_best_is_honoured(case: tuple[Lifter, list[Evidence]]) -> None:
    """The full-range best exactly; the others too when alone with it, else within their 2 u."""
    lifter, pieces = case
    curve = fitted(lifter, pieces)
    assert curve.full_range_kg == pytest.approx(lifter.best_kg, rel=1e-9)
    exact = 1e-6 if len(pieces) <= 2 else 0.06
    for piece in pieces:
        if isinstance(piece, Partial):
            least_kg = float(np.min(curve.best_kg[curve.height_m >= piece.height_m - 1e-9]))
            assert least_kg == pytest.approx(piece.load_kg, rel=exact)
        elif isinstance(piece, HungBest):
            load_kg = piece.straight_kg + piece.hung.at(piece.hung.height_m[-1])
            off_kg = 0.04 * float(load_kg) if len(pieces) > 2 else 1e-6 * lifter.best_kg
            assert match(curve, piece.hung).straight_kg == pytest.approx(
                piece.straight_kg, abs=off_kg
            )
        elif isinstance(piece, Miss):
            assert float(curve.at(piece.height_m)) <= piece.load_kg * 1.2


@given(known())
@settings(max_examples=40)
def test_more_evidence_never_widens_the_range(case: tuple[Lifter, list[Evidence]]) -> None:
    lifter, pieces = case
    low, high = fitted(lifter, pieces[:1]).range_at(lifter.height_m)
    for count in range(2, len(pieces) + 1):
        narrower_low, narrower_high = fitted(lifter, pieces[:count]).range_at(lifter.height_m)
        assert np.all(narrower_low >= low * (1 - 1e-9))
        assert np.all(narrower_high <= high * (1 + 1e-9))
        low, high = narrower_low, narrower_high


@given(known(), st.integers(0, 2**31))
@settings(max_examples=25)
def test_samples_fill_the_range_and_repeat(case: tuple[Lifter, list[Evidence]], seed: int) -> None:
    lifter, pieces = case
    curve = fitted(lifter, pieces)
    drawn = curve.samples(12, seed=seed)
    assert drawn.shape == (12, curve.height_m.size)
    assert np.all(drawn >= curve.low_kg * (1 - 1e-9))
    assert np.all(drawn <= curve.high_kg * (1 + 1e-9))
    assert all(falls_then_rises(row) for row in drawn)
    assert np.array_equal(drawn, curve.samples(12, seed=seed))


@given(known(), st.floats(0.2, 5.0))
@settings(max_examples=20)
def test_a_lifter_twice_as_strong_has_a_curve_twice_as_high(
    case: tuple[Lifter, list[Evidence]], factor: float
) -> None:
    lifter, pieces = case
    scaled: list[Evidence] = []
    for piece in pieces:
        if isinstance(piece, HungBest):
            more = replace(piece, straight_kg=factor * piece.straight_kg, hung=factor * piece.hung)
            scaled.append(more)
        elif isinstance(piece, Isometric):
            scaled.append(replace(piece, force_n=factor * piece.force_n))
        else:
            scaled.append(replace(piece, load_kg=factor * piece.load_kg))
    one, other = fitted(lifter, pieces), fitted(lifter, scaled)
    assert other.low_kg == pytest.approx(factor * one.low_kg, rel=1e-6)
    assert other.high_kg == pytest.approx(factor * one.high_kg, rel=1e-6)


@given(lifters())
@settings(max_examples=20)
def test_without_hung_load_the_heaviest_is_the_full_range_best(lifter: Lifter) -> None:
    plain = match(fitted(lifter, [lifter.full()]))
    assert plain.straight_kg == pytest.approx(lifter.best_kg, rel=1e-9)
    assert np.max(plain.effort) == pytest.approx(1.0, rel=1e-9)
    assert plain.low_kg <= lifter.best_kg <= plain.high_kg


STRENGTHS = st.lists(within(20.0, 300.0), min_size=3, max_size=30).map(np.array)


@given(STRENGTHS, st.data())
def test_more_hung_load_never_leaves_more_straight_weight(
    strength: Floats, data: st.DataObject
) -> None:
    size = strength.size
    loads = st.lists(within(0.0, 100.0), min_size=size, max_size=size).map(np.array)
    hung, more = data.draw(loads), data.draw(loads)
    less_kg, _ = heaviest_straight(strength, hung)
    both_kg, _ = heaviest_straight(strength, hung + more)
    assert both_kg <= less_kg
    assert both_kg >= less_kg - np.max(more) - 1e-9


@given(STRENGTHS, st.data())
def test_only_the_least_strength_from_each_height_up_matters(
    strength: Floats, data: st.DataObject
) -> None:
    """With a hung load that never falls, partial bests tell all that counts."""
    steps = data.draw(
        st.lists(within(0.0, 20.0), min_size=strength.size, max_size=strength.size).map(np.array)
    )
    partials = np.minimum.accumulate(strength[::-1])[::-1]
    hung = np.cumsum(steps)
    assert heaviest_straight(partials, hung)[0] == pytest.approx(
        float(heaviest_straight(strength, hung)[0]), abs=1e-9
    )


@given(STRENGTHS, st.data())
def test_effort_is_never_above_the_one_allowed_and_reached_once(
    strength: Floats, data: st.DataObject
) -> None:
    effort = data.draw(within(0.3, 1.0))
    hung = np.linspace(0.0, data.draw(within(0.0, 50.0)), strength.size)
    straight, limit = heaviest_straight(strength, hung, effort=effort)
    used = (straight + hung) / strength
    assert np.max(used) == pytest.approx(effort, rel=1e-9)
    assert used[limit] == pytest.approx(effort, rel=1e-9)


@given(STRENGTHS, st.data())
def test_evenest_weight_beats_its_neighbours(strength: Floats, data: st.DataObject) -> None:
    heights = np.linspace(0.5, 1.0, strength.size)
    hung = np.linspace(0.0, data.draw(within(0.0, 15.0)), strength.size)
    wanted = data.draw(within(0.4, 1.0))
    best = float(evenest_straight(strength, hung, heights, wanted=wanted))
    heaviest = float(heaviest_straight(strength, hung)[0])
    assert best <= heaviest
    off = float(evenness(strength, best + hung, heights, wanted=wanted).off)
    for other in (best - 1.0, best + 1.0):
        if 0 <= other <= heaviest:
            assert off <= evenness(strength, other + hung, heights, wanted=wanted).off + 1e-12


@given(st.sampled_from(sorted(LIFTS)), within(30.0, 300.0))
@settings(max_examples=25)
def test_every_lift_has_a_curve_from_one_number(lift: str, best_kg: float) -> None:
    curve = strength_curve(
        lift_named(lift), Travel(bottom_m=0.8, top_m=1.2), [FullRange(load_kg=best_kg)]
    )
    assert curve.full_range_kg == pytest.approx(best_kg, rel=1e-9)
    assert np.all(curve.low_kg <= curve.high_kg)
