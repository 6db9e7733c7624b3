"""The fit: against an independent least squares, and where there is nothing to fit."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.optimize import curve_fit

from tests.services.weighing.weighed_rigs import FLOOR, STATIONS, Truth
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.scale_fit import fit_readings
from topheavy.mechanics.scale_model import FACTOR, PILES, SHIFT, STRAIGHT, ScaleData, expected_kg
from topheavy.services.weighing.case import Case, Scale

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]


HIGH = Ground(raising_pitches=3.0, lowering_pitches=3.0)
"""Piles far from the floor, where nothing holds them."""


def case_of(name: str, seed: int, ground: Ground = FLOOR) -> Case:
    station = STATIONS[name]
    truth = Truth.draw(seed, station.rig, ground)
    return Case(
        rig=station.rig,
        ground=truth.ground,
        scale=Scale(),
        readings=tuple(truth.read(station.blank())),
    )


def loosened(data: ScaleData, by: float) -> ScaleData:
    return replace(data, stated_u=data.stated_u * by)


@pytest.mark.parametrize("seed", range(3))
def test_hardly_any_statement_is_scipys_curve_fit(seed: int) -> None:
    """Density and two piles free; what shifts the readings as the piles do is held."""
    case = case_of("squat straight", seed, HIGH)
    data = loosened(case.data(), 100.0)
    data.stated_u[[SHIFT, STRAIGHT]] = 0.0
    seen, fit = case.seen(), fit_readings(case.seen(), data)
    places = np.flatnonzero(data.stated_u)

    def model(_: Floats, *free: float) -> Floats:
        values = data.stated.copy()
        values[places] = free
        return expected_kg(seen, data, values)

    start = data.stated[places]
    found, covariance = curve_fit(
        model, data.height_m, data.mass_kg, start, sigma=fit.noise_kg, absolute_sigma=True
    )
    assert fit.values[places] == pytest.approx(found, rel=2e-3)
    own = np.sqrt(np.diag(fit.covariance))[places]
    assert own == pytest.approx(np.sqrt(np.diag(covariance)), rel=0.01)


def test_a_number_stated_as_sure_is_held() -> None:
    case = case_of("bench doubled", 1)
    data = case.data()
    data.stated_u[FACTOR] = 0.0
    fit = fit_readings(case.seen(), data)
    assert fit.values[FACTOR] == 1.0
    assert not fit.covariance[FACTOR].any()


def test_nothing_free_leaves_the_statement() -> None:
    case = case_of("bench doubled", 1)
    data = loosened(case.data(), 0.0)
    fit = fit_readings(case.seen(), data)
    assert fit.values == pytest.approx(data.stated)
    assert (fit.told, fit.condition) == (0, 1.0)
    assert fit.fitted_kg == pytest.approx(fit.predicted_kg)


def test_finds_chain_that_hangs_though_none_should() -> None:
    """As stated every reading is below the floor, where a curve has no slope to follow."""
    case = case_of("bench doubled", 4)
    data = case.data()
    low = replace(data, height_m=np.full_like(data.height_m, 0.6), way=data.way)
    seen = case.seen()
    values = low.stated.copy()
    values[SHIFT] = -0.1
    low = replace(low, mass_kg=expected_kg(seen, low, values))
    low.stated_u[SHIFT] = 0.08
    fit = fit_readings(seen, low)
    assert fit.fitted_kg == pytest.approx(low.mass_kg, abs=0.5)
    assert fit.values[SHIFT] < -0.03


@pytest.mark.parametrize("low_m", [0.05, 0.1, 0.3])
def test_a_pile_is_never_below_the_floor(low_m: float) -> None:
    """Readings as of chain that starts lower than any pile lets it."""
    case = case_of("bench doubled", 4)
    data, seen = case.data(), case.seen()
    values = data.stated.copy()
    values[SHIFT] = -low_m
    data = replace(data, mass_kg=expected_kg(seen, data, values))
    fit = fit_readings(seen, data)
    assert np.all(fit.values[PILES:] > 0)
    assert np.all(fit.values[PILES:] < data.stated[PILES:])
    assert np.all(np.diag(fit.covariance)[PILES:] < data.stated_u[PILES:] ** 2)


def test_a_piles_slope_is_that_of_its_values() -> None:
    data = case_of("bench doubled", 4).data()
    for size in (-3.0, -0.5, 0.5, 2.0):
        steps = np.full(data.stated.size, size)
        rise = (data.values(steps + 1e-6) - data.values(steps - 1e-6)) / 2e-6
        assert data.slopes(steps) == pytest.approx(rise, rel=1e-5, abs=1e-9)


def test_scatter_and_pull_are_the_whole_misfit() -> None:
    checks = [
        (fit, fit.checks())
        for fit in (
            fit_readings(case_of(name, 7).seen(), case_of(name, 7).data()) for name in STATIONS
        )
    ]
    for fit, check in checks:
        assert check.scatter + check.pull == pytest.approx(fit.misfit)
        assert check.scatter_freedom + check.pull_freedom == fit.residual.size
        assert check.scatter >= 0 <= check.pull


def test_studentised_residual_is_the_distance_from_the_fit_to_the_others() -> None:
    """Cook & Weisberg (1982): leaving a reading out gives the same number as the hat matrix."""
    case = case_of("squat straight", 2, HIGH)
    data, seen = loosened(case.data(), 1e3), case.seen()
    data.stated_u[[SHIFT, STRAIGHT]] = 0.0
    whole = fit_readings(seen, data)
    for place in (0, 4, 9):
        others = fit_readings(seen, data.without([place]))
        jacobian = whole.jacobian[place] * whole.noise_kg[place]
        free = data.stated_u > 0
        along = jacobian[free] / data.stated_u[free]
        spread = along @ others.covariance[np.ix_(free, free)] @ along
        distance = data.mass_kg[place] - expected_kg(seen, data, others.values)[place]
        expected = distance / np.sqrt(spread + whole.noise_kg[place] ** 2)
        assert whole.checks().alone[place] == pytest.approx(expected, rel=0.03, abs=0.02)


def test_more_readings_never_make_a_number_less_sure() -> None:
    case = case_of("squat straight", 3)
    data, seen = case.data(), case.seen()
    all_u = np.sqrt(np.diag(fit_readings(seen, data).covariance))
    some_u = np.sqrt(np.diag(fit_readings(seen, data.without([1, 5, 8])).covariance))
    assert np.all(all_u <= some_u * 1.02)
    assert all_u[STRAIGHT] <= data.stated_u[STRAIGHT]
