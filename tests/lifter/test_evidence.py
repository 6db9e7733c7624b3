"""What a coach knows: values, their words, and what each refuses by itself."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.lifter.evidence import (
    FullRange,
    HungBest,
    Isometric,
    Miss,
    Partial,
    best_of,
    best_u_kg,
    day_u_kg,
)
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from collections.abc import Callable

CHAIN = LoadCurve.strand(20.0, 2.0, 0.8)


def test_words_name_kind_load_and_height() -> None:
    assert FullRange(load_kg=100).words == "full-range best of 100 kg"
    assert FullRange(load_kg=90, reps=5).words == "full-range set of 5 with 90 kg"
    assert FullRange(load_kg=90, reps=5, reps_left=1).words == (
        "full-range set of 5 with 90 kg, 1 left"
    )
    assert FullRange(load_kg=90, maximal=False).words == "full-range lift of 90 kg"
    assert Partial(height_m=1.1, load_kg=120).words == "partial best of 120 kg from 1.1 m"
    assert Miss(height_m=0.9, load_kg=105).words == "miss of 105 kg at 0.9 m"
    assert HungBest(straight_kg=80, hung=CHAIN).words == "best of 80 kg under hung load"
    assert HungBest(straight_kg=80, hung=CHAIN, maximal=False).words.startswith("lift of 80 kg")


def test_uncertainty_is_the_day_unless_given() -> None:
    assert best_u_kg(FullRange(load_kg=100)) == pytest.approx(2.0)
    assert best_u_kg(FullRange(load_kg=100, load_u_kg=0.5)) == 0.5
    assert best_u_kg(FullRange(load_kg=100, reps=5)) == best_of(FullRange(load_kg=100, reps=5)).u_kg
    assert day_u_kg(None, 150.0) == pytest.approx(3.0)
    assert day_u_kg(0.0, 150.0) == 0.0


def test_force_on_a_scale_becomes_a_load() -> None:
    pull = Isometric.from_scale(height_m=0.6, effort_kg=280.0, rest_kg=90.0)
    assert pull.force_n == pytest.approx(190.0 * STANDARD_GRAVITY_M_PER_S2)
    assert pull.load_kg == pytest.approx(190.0)


@pytest.mark.parametrize(("effort", "rest"), [(90.0, 90.0), (80.0, 90.0), (80.0, -1.0)])
def test_refuses_a_scale_that_shows_no_effort(effort: float, rest: float) -> None:
    with pytest.raises(BadInputError, match="more at best effort"):
        Isometric.from_scale(height_m=0.6, effort_kg=effort, rest_kg=rest)


@pytest.mark.parametrize(
    "shares", [(0.0, 0.9, 1.2), (0.9, 0.6, 1.2), (0.6, 0.9, 0.8), (0.6, 0.9, math.inf)]
)
def test_refuses_shares_that_do_not_rise(shares: tuple[float, float, float]) -> None:
    low, likely, high = shares
    with pytest.raises(BadInputError, match="must rise"):
        Isometric(height_m=0.6, force_n=1000, share_low=low, share=likely, share_high=high)


@pytest.mark.parametrize("load_kg", [0.0, -5.0, math.nan, math.inf])
def test_refuses_loads_that_are_none(load_kg: float) -> None:
    makers: list[Callable[[], object]] = [
        lambda: FullRange(load_kg=load_kg),
        lambda: Partial(height_m=1.0, load_kg=load_kg),
        lambda: Miss(height_m=1.0, load_kg=load_kg),
        lambda: HungBest(straight_kg=load_kg, hung=CHAIN),
        lambda: Isometric(height_m=1.0, force_n=load_kg),
    ]
    for make in makers:
        with pytest.raises(BadInputError, match="above zero"):
            make()


@pytest.mark.parametrize("u", [-0.1, math.nan, math.inf])
def test_refuses_uncertainties_that_are_none(u: float) -> None:
    makers: list[Callable[[], object]] = [
        lambda: FullRange(load_kg=100, load_u_kg=u),
        lambda: Partial(height_m=1.0, load_kg=100, load_u_kg=u),
        lambda: Partial(height_m=1.0, load_kg=100, height_u_m=u),
        lambda: Miss(height_m=1.0, load_kg=100, load_u_kg=u),
        lambda: HungBest(straight_kg=100, hung=CHAIN, load_u_kg=u),
    ]
    for make in makers:
        with pytest.raises(BadInputError, match="must not be negative"):
            make()


def test_refuses_a_height_that_is_none() -> None:
    with pytest.raises(BadInputError, match="height is a number"):
        Partial(height_m=math.nan, load_kg=100)


def test_refuses_a_hung_load_that_falls() -> None:
    with pytest.raises(BadInputError, match="must not fall"):
        HungBest(straight_kg=80, hung=LoadCurve.through([0.8, 1.2], [20.0, 0.0]))


def test_a_set_is_checked_like_any_set() -> None:
    with pytest.raises(BadInputError, match="whole number"):
        FullRange(load_kg=100, reps=0)
    with pytest.raises(BadInputError, match="say nothing"):
        Partial(height_m=1.0, load_kg=100, reps=40)
