"""Typical shapes: one a lift, inside their own spans, and the spans' edges are edges."""

from __future__ import annotations

import numpy as np
import pytest

from topheavy.errors import NotInStockError
from topheavy.gym.lifts import LIFTS
from topheavy.lifter.typical import OPEN, TYPICAL, Shape, TypicalShape, curve_of, typical_for

SHARES = np.linspace(0.0, 1.0, 101)


def test_every_lift_has_a_typical_shape_and_no_other() -> None:
    assert set(TYPICAL) == set(LIFTS)


def test_unknown_lift_lists_those_there_are() -> None:
    with pytest.raises(NotInStockError, match="bench press"):
        typical_for("snatch")


@pytest.mark.parametrize("typical", [*TYPICAL.values(), OPEN])
def test_spans_rise_and_say_what_they_lean_on(typical: TypicalShape) -> None:
    spans = (typical.weakest, typical.bottom_surplus, typical.lockout_surplus, typical.rise)
    for span in spans:
        assert 0 <= span.low <= span.typical <= span.high
    assert typical.rise.low > 0
    assert typical.weakest.high <= 1
    assert typical.basis.endswith(".")


@pytest.mark.parametrize("typical", [*TYPICAL.values(), OPEN])
def test_edges_of_the_spans_hold_every_shape_within(typical: TypicalShape) -> None:
    random = np.random.default_rng(5)
    for _ in range(50):
        weakest = random.uniform(typical.weakest.low, typical.weakest.high)
        b, c, w = (
            random.uniform(span.low, span.high)
            for span in (typical.bottom_surplus, typical.lockout_surplus, typical.rise)
        )
        values = curve_of(SHARES, weakest, b, c, w)
        assert np.all(values >= typical.least(SHARES, weakest) - 1e-12)
        assert np.all(values <= typical.greatest(SHARES, weakest) + 1e-12)


def test_shape_is_one_at_its_weakest_and_has_its_surpluses_at_the_ends() -> None:
    shape = Shape(weakest=0.3, bottom_surplus=0.25, lockout_surplus=0.6, rise=0.1)
    assert shape.at([0.0, 0.3, 1.0]).tolist() == pytest.approx([1.25, 1.0, 1.6])
    assert shape.at(0.3).shape == ()


def test_weakest_at_the_bottom_has_no_falling_part() -> None:
    shape = Shape(weakest=0.0, bottom_surplus=0.5, lockout_surplus=0.6, rise=0.3)
    values = shape.at(SHARES)
    assert values[0] == 1.0
    assert np.all(np.diff(values) >= 0)


@pytest.mark.parametrize("name", ["bench press", "squat", "deadlift", "overhead press"])
def test_slope_is_the_steepest_rise_of_the_typical_shape(name: str) -> None:
    typical = typical_for(name)
    fine = np.linspace(0.0, 1.0, 20001)
    steepest = np.max(np.diff(typical.shape.at(fine))) * 20000
    assert typical.slope == pytest.approx(steepest, rel=1e-3)


@pytest.mark.parametrize(
    ("partial", "whole"),
    [
        ("board press", "bench press"),
        ("half squat", "squat"),
        ("rack pull", "deadlift"),
        ("overhead pin press", "overhead press"),
    ],
)
def test_a_lift_that_starts_higher_may_be_weakest_at_its_start(partial: str, whole: str) -> None:
    assert typical_for(partial).weakest.low == 0.0
    assert typical_for(partial).weakest.typical < typical_for(whole).weakest.typical


@pytest.mark.parametrize("partial", ["board press", "pin press", "half squat", "rack pull"])
def test_from_pins_strength_does_not_leap_at_the_start(partial: str) -> None:
    shape = typical_for(partial).shape
    assert 1.0 <= float(shape.at(0.0)) < 1.03
    assert float(shape.at(0.5)) > float(shape.at(0.0))
