"""Mass of a link and its uncertainty."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from topheavy.errors import BadInputError
from topheavy.mechanics.link import (
    GEOMETRY_U,
    LinkReadings,
    LinkShape,
    density_budget,
    link_density_kg_per_m,
    link_mass_budget,
    link_mass_kg,
    pitch_from_outside_m,
)

MIDDLE = LinkShape(wire_diameter_m=0.016, pitch_m=0.056, inside_width_m=0.022)


def shape_of(wire_m: float, pitch_ratio: float, width_ratio: float) -> LinkShape:
    return LinkShape(
        wire_diameter_m=wire_m, pitch_m=pitch_ratio * wire_m, inside_width_m=width_ratio * wire_m
    )


def test_a_link_as_wide_as_long_is_a_torus() -> None:
    """Pappus: volume of a torus is 2 pi R times its section."""
    ring = shape_of(0.01, 3.0, 3.0)
    section_m2 = math.pi * 0.01**2 / 4
    assert link_mass_kg(ring) == pytest.approx(7850 * section_m2 * 2 * math.pi * 0.02, rel=1e-12)


@given(
    wire_m=st.floats(0.002, 0.04),
    pitch=st.floats(2.5, 12.0),
    width=st.floats(1.1, 2.4),
    factor=st.floats(0.2, 5.0),
)
def test_mass_goes_with_the_cube_and_density_with_the_square(
    wire_m: float, pitch: float, width: float, factor: float
) -> None:
    small, large = shape_of(wire_m, pitch, width), shape_of(factor * wire_m, pitch, width)
    assert link_mass_kg(large) == pytest.approx(factor**3 * link_mass_kg(small))
    assert link_density_kg_per_m(large) == pytest.approx(factor**2 * link_density_kg_per_m(small))


@given(pitch=st.floats(2.5, 12.0), longer=st.floats(1.01, 1.2))
def test_longer_links_make_lighter_chain(pitch: float, longer: float) -> None:
    short, long = shape_of(0.016, pitch, 1.3), shape_of(0.016, pitch * longer, 1.3)
    assert link_density_kg_per_m(long) < link_density_kg_per_m(short)
    assert link_mass_kg(long) > link_mass_kg(short)


@pytest.mark.parametrize(
    ("sizes", "field"),
    [
        ((0.0, 0.05, 0.02), "wire_diameter_m"),
        ((0.016, -0.05, 0.02), "pitch_m"),
        ((0.016, 0.056, math.nan), "inside_width_m"),
        ((0.016, 0.032, 0.02), "pitch_m"),
        ((0.016, 0.56, 0.02), "pitch_m"),
        ((0.016, 0.056, 0.016), "inside_width_m"),
        ((0.016, 0.056, 0.057), "inside_width_m"),
    ],
)
def test_sizes_no_chain_has_are_refused(sizes: tuple[float, float, float], field: str) -> None:
    with pytest.raises(BadInputError) as error:
        LinkShape(wire_diameter_m=sizes[0], pitch_m=sizes[1], inside_width_m=sizes[2])
    assert error.value.field == field


@pytest.mark.parametrize("links", [1, 2, 10, 25])
def test_pitch_comes_back_from_the_outside_length(links: int) -> None:
    outside_m = links * 0.056 + 2 * 0.016
    assert pitch_from_outside_m(outside_m, links, 0.016) == pytest.approx(0.056, rel=1e-12)


@pytest.mark.parametrize(
    ("outside_m", "links", "field"),
    [(0.5, 0, "links"), (0.03, 10, "outside_m"), (-1.0, 10, "outside_m")],
)
def test_an_outside_length_without_pitch_is_refused(
    outside_m: float, links: int, field: str
) -> None:
    with pytest.raises(BadInputError) as error:
        pitch_from_outside_m(outside_m, links, 0.016)
    assert error.value.field == field


def test_crude_calipers_give_about_five_percent_and_the_wire_rules() -> None:
    readings = LinkReadings(
        shape=MIDDLE, wire_u_m=3e-4, pitch_u_m=2e-4, width_u_m=5e-4, pitch_per_wire=-0.2
    )
    budget = density_budget(readings)
    assert budget.total == pytest.approx(0.05, abs=0.005)
    assert budget.wire > max(budget.pitch, budget.width, budget.geometry)
    assert budget.geometry == GEOMETRY_U


def test_the_wire_counts_a_little_more_than_twice() -> None:
    readings = LinkReadings(shape=MIDDLE, wire_u_m=0.016 * 0.01, pitch_u_m=0.0, width_u_m=0.0)
    assert density_budget(readings).wire == pytest.approx(0.0227, abs=0.0001)


@pytest.mark.parametrize(("pitch_per_wire", "width_per_wire"), [(0.0, 0.0), (-0.2, 1.34)])
def test_budget_agrees_with_monte_carlo(pitch_per_wire: float, width_per_wire: float) -> None:
    """100 000 draws; the sample's own scatter is 0.2 %, the curvature of d squared adds less."""
    readings = LinkReadings(
        shape=MIDDLE,
        wire_u_m=2e-4,
        pitch_u_m=5e-4,
        width_u_m=8e-4,
        pitch_per_wire=pitch_per_wire,
        width_per_wire=width_per_wire,
    )
    rng = np.random.default_rng(7)
    wire_off, pitch_off, width_off = rng.normal(size=(3, 100_000)) * [[2e-4], [5e-4], [8e-4]]
    d = 0.016 + wire_off
    p = 0.056 + pitch_off + pitch_per_wire * wire_off
    w = 0.022 + width_off + width_per_wire * wire_off
    mass = 7850 * np.pi * d**2 / 4 * (2 * (p - w) + np.pi * (w + d))
    for budget, drawn in (
        (density_budget(readings), mass / p),
        (link_mass_budget(readings), mass),
    ):
        from_readings = math.hypot(budget.wire, budget.pitch, budget.width)
        assert from_readings == pytest.approx(drawn.std() / drawn.mean(), rel=0.015)
