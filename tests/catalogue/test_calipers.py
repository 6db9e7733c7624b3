"""Mass from caliper readings."""

from __future__ import annotations

import math

import numpy as np
import pytest

from topheavy.catalogue.calipers import CaliperReadings, measured_chain
from topheavy.catalogue.widths import usual_width
from topheavy.errors import BadInputError


def test_crude_readings_of_working_chain_are_good_to_about_five_percent() -> None:
    chain = measured_chain(CaliperReadings(wire_diameter_m=0.016, outside_m=0.592))
    assert chain.density_u_kg_per_m / chain.density_kg_per_m == pytest.approx(0.05, abs=0.005)
    assert chain.link_mass_kg == pytest.approx(chain.density_kg_per_m * chain.shape.pitch_m)


def test_the_same_calipers_are_worse_on_thin_chain_and_finer_ones_better() -> None:
    thick = measured_chain(CaliperReadings(wire_diameter_m=0.016, pitch_m=0.056))
    thin = measured_chain(CaliperReadings(wire_diameter_m=0.006, pitch_m=0.021))
    fine = measured_chain(CaliperReadings(wire_diameter_m=0.006, pitch_m=0.021, wire_u_m=2e-5))
    assert thin.budget.total > 2 * thick.budget.total
    assert fine.budget.total < 0.04


def test_a_measured_width_is_taken_and_a_missing_one_is_told() -> None:
    measured = measured_chain(
        CaliperReadings(wire_diameter_m=0.016, pitch_m=0.056, inside_width_m=0.023)
    )
    guessed = measured_chain(CaliperReadings(wire_diameter_m=0.016, pitch_m=0.056))
    assert measured.shape.inside_width_m == 0.023
    assert not measured.width_note
    assert "not measured" in guessed.width_note
    assert guessed.budget.width > measured.budget.width


def test_the_whole_chain_of_readings_agrees_with_monte_carlo() -> None:
    """Wire error enters the section, the pitch (through the outside length) and the width."""
    chain = measured_chain(CaliperReadings(wire_diameter_m=0.016, outside_m=0.592, wire_u_m=2e-4))
    rng = np.random.default_rng(11)
    wire, outside, ratio = rng.normal(size=(3, 200_000))
    usual = usual_width(0.056, 0.016)
    d = 0.016 + 2e-4 * wire
    p = (0.592 + 2e-3 * outside - 2 * d) / 10
    w = (usual.ratio + usual.spread * ratio) * d
    density = 7850 * np.pi * d**2 / 4 * (2 * (p - w) + np.pi * (w + d)) / p
    budget = chain.budget
    from_readings = math.hypot(budget.wire, budget.pitch, budget.width)
    assert from_readings == pytest.approx(density.std() / density.mean(), rel=0.015)
    assert chain.pitch_u_m == pytest.approx(p.std(), rel=0.01)


@pytest.mark.parametrize(
    ("wire_m", "outside_m", "pitch_m", "field"),
    [
        (16.0, 0.592, None, "wire_diameter_m"),
        (0.0, 0.592, None, "wire_diameter_m"),
        (math.nan, 0.592, None, "wire_diameter_m"),
        (0.016, None, None, "pitch_m"),
        (0.016, 0.592, 0.056, "pitch_m"),
        (0.016, 0.03, None, "outside_m"),
        (0.016, None, 0.03, "pitch_m"),
    ],
)
def test_readings_no_chain_has_are_refused(
    wire_m: float, outside_m: float | None, pitch_m: float | None, field: str
) -> None:
    with pytest.raises(BadInputError) as error:
        measured_chain(
            CaliperReadings(wire_diameter_m=wire_m, outside_m=outside_m, pitch_m=pitch_m)
        )
    assert error.value.field == field
