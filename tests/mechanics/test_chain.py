"""A chain piece: its length and mass, and what it refuses."""

from __future__ import annotations

import math

import pytest

from topheavy.errors import BadInputError
from topheavy.mechanics.chain import Chain, require_not_negative, require_positive


def test_length_and_mass_count_whole_links() -> None:
    chain = Chain(links=32, pitch_m=0.0475, density_kg_per_m=6.105)
    assert chain.length_m == pytest.approx(1.52)
    assert chain.link_mass_kg == pytest.approx(0.29, abs=1e-4)
    assert chain.mass_kg == pytest.approx(32 * chain.link_mass_kg)
    assert chain.mass_kg == pytest.approx(9.28, abs=0.005)


@pytest.mark.parametrize(
    ("field", "value", "wanted"),
    [
        ("links", 0, "whole number"),
        ("links", -3, "whole number"),
        ("links", 2.5, "whole number"),
        ("links", math.nan, "whole number"),
        ("pitch_m", 0.0, "above 0"),
        ("pitch_m", -0.05, "above 0"),
        ("density_kg_per_m", math.nan, "above 0"),
        ("density_kg_per_m", math.inf, "above 0"),
        ("density_u_kg_per_m", -0.1, "0 or more"),
        ("density_u_kg_per_m", math.nan, "0 or more"),
    ],
)
def test_values_out_of_range_name_the_field(field: str, value: float, wanted: str) -> None:
    values: dict[str, float] = {"links": 20, "pitch_m": 0.05, "density_kg_per_m": 5.0}
    values[field] = value
    with pytest.raises(BadInputError) as caught:
        Chain(**values)  # type: ignore[arg-type]  # wrong values are the point
    assert caught.value.field == field
    assert caught.value.got is value
    assert caught.value.wanted is not None
    assert wanted in caught.value.wanted


def test_zero_is_not_negative_but_not_positive_either() -> None:
    require_not_negative("mass_kg", 0.0)
    with pytest.raises(BadInputError, match="mass_kg must be above zero"):
        require_positive("mass_kg", 0.0)
    with pytest.raises(BadInputError, match="mass_kg must not be negative"):
        require_not_negative("mass_kg", -1e-12)
