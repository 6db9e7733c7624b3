"""A band's law from its readings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from scipy.integrate import quad

from tests.mechanics.bands import LENGTHS_M, REST_M, pull_kg, read
from topheavy.errors import BadInputError
from topheavy.mechanics.band import (
    BEYOND_U,
    fit_band,
    rest_length_effect,
    rest_length_sensitivity,
)
from topheavy.mechanics.band_law import BandLaw
from topheavy.mechanics.band_readings import BandReadings

if TYPE_CHECKING:
    from collections.abc import Mapping

FIT = fit_band(read())
GRID = np.linspace(0.3, 1.15, 60)


def test_exact_readings_of_a_second_order_law_give_it_back() -> None:
    assert FIT.law.degree == 2
    assert FIT.tension_kg(GRID) == pytest.approx(pull_kg(GRID), abs=1e-9)
    assert FIT.r_squared == pytest.approx(1.0, abs=1e-12)


def test_slack_pulls_nothing_and_is_sure_up_to_the_rest_length_itself() -> None:
    assert FIT.tension_kg([0.0, 0.2, REST_M]).tolist() == [0.0, 0.0, 0.0]
    assert float(FIT.tension_u_kg(0.2)) == 0.0
    assert float(FIT.tension_u_kg(REST_M)) > 0.0


def test_an_s_shaped_band_gets_a_higher_degree() -> None:
    x = np.linspace(0.1, 0.7, 10)
    tension = 30 * x - 60 * x**2 + 60 * x**3
    readings = BandReadings(
        tag="b",
        rest_m=0.5,
        length_m=tuple(0.5 + x),
        tension_kg=tuple(tension),
        rest_u_m=0.001,
        length_u_m=0.001,
        tension_u_kg=0.02,
    )
    fit = fit_band(readings)
    assert fit.law.degree >= 3
    assert fit.tension_kg(0.5 + x) == pytest.approx(tension, abs=0.1)


def test_readings_that_waver_still_give_a_tension_that_never_falls() -> None:
    wavering = replace(read(), tension_kg=(3.3, 3.2, 7.0, 6.9, 7.1, 7.0, 7.2), tension_u_kg=0.2)
    fit = fit_band(wavering)
    assert np.all(np.diff(fit.tension_kg(GRID)) >= -1e-12)
    assert fit.scatter > 1


def test_slope_and_energy_are_derivative_and_integral() -> None:
    lengths, step = np.array([0.5, 0.8, 1.1]), 1e-6
    law = FIT.law
    rise = (law.tension_kg(lengths + step) - law.tension_kg(lengths - step)) / (2 * step)
    assert law.slope_kg_per_m(lengths) == pytest.approx(rise, rel=1e-6)
    for length in (0.4, 0.8, 1.15):
        area = quad(lambda x: float(law.tension_kg(x)), 0.3, length, points=[REST_M])[0]
        assert float(FIT.energy_kg_m(length)) == pytest.approx(area, abs=1e-9)
    beyond = quad(lambda x: float(law.tension_kg(x)), REST_M, 1.4, points=[1.15])[0]
    assert float(FIT.energy_kg_m(1.4, beyond=True)) == pytest.approx(beyond, rel=1e-9)


def test_beyond_the_readings_only_when_asked_and_then_unsure() -> None:
    with pytest.raises(BadInputError, match="never read that long") as caught:
        FIT.tension_kg([0.6, 1.3])
    assert caught.value.got == "1.300 m, longest reading 1.150 m"
    with pytest.raises(BadInputError):
        FIT.tension_u_kg(1.3)
    last, more = FIT.tension_kg([1.15, 1.3], beyond=True)
    slope = float(FIT.law.slope_kg_per_m(1.2))
    third = 0.7 / 3
    assert slope == pytest.approx((last - float(FIT.tension_kg(1.15 - third))) / third)
    assert more - last == pytest.approx(0.15 * slope)
    assert float(FIT.tension_u_kg(1.3, beyond=True)) > BEYOND_U * 0.15 * slope


def test_uncertainty_is_the_spread_of_fits_to_readings_drawn_anew() -> None:
    """Monte Carlo: 600 bands read with the stated errors give a spread that is good to 3 %."""
    dice = np.random.default_rng(5)
    lengths = np.array([0.5, 0.6, 0.8, 1.0, 1.14])
    drawn = np.array([fit_band(read(dice=dice)).law.tension_kg(lengths) for _ in range(600)])
    said = FIT.tension_u_kg(lengths)
    assert drawn.mean(axis=0) == pytest.approx(pull_kg(lengths), abs=0.02)
    assert drawn.std(axis=0) == pytest.approx(said, rel=0.12)


def test_the_interval_holds_the_true_tension_as_often_as_it_says() -> None:
    dice = np.random.default_rng(6)
    held = []
    for _ in range(400):
        low, high = fit_band(read(dice=dice)).interval_kg(0.9, 0.9)
        held.append(low <= pull_kg(np.array(0.9)) <= high)
    # 90 % of 400, give or take three standard deviations of 1.5 %; scatter only ever widens it.
    assert 0.855 <= np.mean(held) <= 0.97


def test_scatter_beyond_what_was_said_widens_the_interval() -> None:
    rough = replace(read(), tension_kg=(3.9, 5.6, 9.9, 11.0, 14.8, 15.3, 18.3))
    fit = fit_band(rough)
    assert fit.scatter > 1.5
    assert float(fit.tension_u_kg(0.9)) > 1.5 * float(FIT.tension_u_kg(0.9))
    low, high = fit.interval_kg(0.9)
    assert high - low > 2 * 1.96 * fit.tension_u_kg(0.9)


def test_a_longer_rest_length_pulls_less() -> None:
    effect = rest_length_effect(FIT, [0.6, 0.8, 1.1], 0.04)
    assert np.all(effect < 0)
    assert np.all(np.diff(effect) > 0)
    other = fit_band(read("b"))
    same_rubber = other.tension_kg(np.array([0.6, 0.8, 1.1]) / 1.04)
    assert effect == pytest.approx(same_rubber / FIT.tension_kg([0.6, 0.8, 1.1]) - 1)


def test_for_a_straight_law_the_effect_is_the_closed_form() -> None:
    straight = replace(FIT, law=BandLaw(0.5, 1.5, (5.0, 5.0)))
    small = 1e-6
    effect = rest_length_effect(straight, [0.7, 0.9], small) / small
    assert -effect == pytest.approx(rest_length_sensitivity([1.4, 1.8]), rel=1e-5)


@pytest.mark.parametrize(
    ("change", "message", "got"),
    [
        ({"length_m": (0.6, 0.8), "tension_kg": (4.0, 8.0)}, "needs more readings", "2 stretched"),
        ({"length_m": (0.45, 0.6, 0.8), "tension_kg": (0.0, 4.0, 8.0)}, "needs more readings",
         "2 stretched"),
        ({"length_m": (0.6, 0.8, 1.0), "tension_kg": (4.0, 8.0)}, "needs its tension", "3 lengths"),
        ({"length_m": (0.6, 0.9, 0.8), "tension_kg": (4.0, 9.0, 8.0)}, "out of order",
         "readings 2 and 3"),
        ({"length_m": (0.4, 0.6, 0.8, 1.0), "tension_kg": (0.0, 4.0, 8.0, 9.0)},
         "less than its rest length", "reading 1: 0 kg at 0.4 m, rest length 0.45 m"),
        ({"length_m": (0.6, 0.8, 1.0), "tension_kg": (-0.1, 4.0, 8.0)}, "never pushes",
         "reading 1: -0.1 kg"),
        ({"length_m": (0.6, 0.8, 1.0), "tension_kg": (4.0, 9.0, 8.0)}, "pulls more",
         "readings 2 and 3: 9 kg at 0.8 m, then 8 kg at 1 m"),
        ({"length_m": (0.6, 0.8, float("nan")), "tension_kg": (4.0, 9.0, 8.0)}, "not a number",
         "reading 3"),
        ({"length_m": (0.6, 0.8, 1.0), "tension_kg": (0.0, 0.0, 0.0)}, "pulls nothing", "0 kg"),
        ({"rest_u_m": 0.3}, "too uncertain", "0.3 m uncertain"),
        ({"length_u_m": 0.0, "tension_u_kg": 0.0}, "never exact", "none"),
    ],
)  # fmt: skip
def test_readings_that_cannot_be_are_refused(
    change: Mapping[str, Any], message: str, got: str
) -> None:
    with pytest.raises(BadInputError, match=message) as caught:
        replace(read(), **change)
    assert caught.value.field == "readings"
    assert got in str(caught.value.got)
    assert caught.value.message.startswith("Band red-1")


def test_a_small_fall_within_what_the_readings_may_be_off_is_taken() -> None:
    readings = replace(read(), tension_kg=(3.0, 6.0, 9.0, 11.0, 13.0, 14.2, 14.1))
    assert fit_band(readings).freedom == len(LENGTHS_M) - fit_band(readings).law.degree


@pytest.mark.parametrize(
    "call",
    [
        lambda: FIT.interval_kg(0.8, 1.0),
        lambda: FIT.tension_kg(-0.1),
        lambda: FIT.tension_kg(float("nan")),
        lambda: rest_length_sensitivity(1.0),
        lambda: rest_length_effect(FIT, 0.4, 0.05),
        lambda: rest_length_effect(FIT, 0.8, -1.0),
        lambda: rest_length_effect(FIT, 1.1, -0.2),
        lambda: replace(read(), rest_m=0.0),
    ],
)
def test_refusals(call: Any) -> None:
    with pytest.raises(BadInputError):
        call()
