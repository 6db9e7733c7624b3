"""The model's numbers: ranges, shapes, draws, refusals."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.motion_model import (
    BENCH,
    MODELS,
    SQUAT,
    Motion,
    MotionModel,
    Ranged,
    model_for,
)

ALL = tuple(MODELS.values())


@pytest.mark.parametrize("model", ALL, ids=lambda m: m.pattern)
def test_every_number_has_a_range_and_a_source(model: MotionModel) -> None:
    assert set(model.numbers) == {field.name for field in fields(Motion)}
    for number in (*model.numbers.values(), model.travel_m):
        assert number.low <= number.value <= number.high
        assert number.source


def test_a_number_outside_its_range_is_refused() -> None:
    with pytest.raises(BadInputError):
        Ranged(2.0, 0.0, 1.0, "assumed")


@given(
    dip=st.floats(0.05, 0.9),
    bottom=st.floats(0.0, 1.0),
    top=st.floats(0.0, 2.0),
    width=st.floats(0.1, 1.0),
)
def test_strength_is_least_at_the_dip(dip: float, bottom: float, top: float, width: float) -> None:
    motion = replace(
        BENCH.typical(), dip_at=dip, bottom_surplus=bottom, top_surplus=top, top_width=width
    )
    shape = motion.shape_at(np.linspace(0.0, 1.0, 101))[0]
    assert motion.shape_at([dip])[0, 0] == pytest.approx(1.0)
    assert np.all(shape >= 1.0)
    assert shape[0] == pytest.approx(1.0 + bottom)
    assert shape[-1] <= 1.0 + top


def test_a_dip_at_the_very_bottom_has_no_surplus_below() -> None:
    shape = replace(BENCH.typical(), dip_at=0.0).shape_at(np.linspace(0.0, 1.0, 11))[0]
    assert shape[0] == pytest.approx(1.0)
    assert np.all(np.diff(shape) >= 0)


def test_lighter_bars_are_slowed_harder_but_not_without_bound() -> None:
    motion = BENCH.typical()
    eased = motion.ease_at([1.2, 1.0, 0.8, 0.6, 0.3])
    assert eased[0] == eased[1] == pytest.approx(BENCH.numbers["ease_m_per_s2"].value)
    assert np.all(np.diff(eased) >= 0)
    assert eased[-1] == pytest.approx(2.5 * G)


@pytest.mark.parametrize("model", ALL, ids=lambda m: m.pattern)
def test_draws_stay_in_range_and_repeat(model: MotionModel) -> None:
    drawn, again, other = model.drawn(500, seed=3), model.drawn(500, seed=3), model.drawn(500)
    for name, number in model.numbers.items():
        values = np.asarray(getattr(drawn, name))
        assert values.shape == (500,)
        assert np.all((values >= number.low) & (values <= number.high))
        assert np.array_equal(values, getattr(again, name))
    assert not np.array_equal(drawn.hill, other.hill)


def test_spread_and_taken() -> None:
    motion = SQUAT.typical()
    assert motion.count == 1
    many = motion.spread(4)
    assert many.count == 4
    drawn = SQUAT.drawn(5)
    some = drawn.taken([4, 0])
    assert np.asarray(some.reserve).tolist() == [
        np.asarray(drawn.reserve)[4],
        np.asarray(drawn.reserve)[0],
    ]
    assert drawn.taken(np.asarray(drawn.hill) > 0).count == 5


def test_only_lifts_with_a_line_have_a_model() -> None:
    assert model_for("bench press") is BENCH
    for lift in ("overhead press", "block pull", "paused bench press", ""):
        with pytest.raises(NotInStockError) as error:
            model_for(lift)
        assert error.value.wanted == "bench press, squat, deadlift"
