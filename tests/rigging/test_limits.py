"""Limits out of range are refused, with their field."""

from __future__ import annotations

import math
from typing import Any

import pytest

from topheavy.errors import BadInputError
from topheavy.rigging.limits import Limits

PRICES_AND_ROOMS = (
    "most_imbalance_kg",
    "piece_price_kg",
    "kind_price_kg",
    "fold_price_kg_per_m",
    "loop_width_m",
    "alternatives_within_kg",
)


@pytest.mark.parametrize("field", PRICES_AND_ROOMS)
@pytest.mark.parametrize("value", [-0.1, math.nan])
def test_negative_limits_are_refused(field: str, value: float) -> None:
    wrong: dict[str, Any] = {field: value}
    with pytest.raises(BadInputError) as caught:
        Limits(**wrong)
    assert caught.value.field == field


@pytest.mark.parametrize("field", PRICES_AND_ROOMS)
def test_zero_is_a_limit(field: str) -> None:
    free: dict[str, Any] = {field: 0.0}
    assert getattr(Limits(**free), field) == 0.0


@pytest.mark.parametrize("pieces", [0, -2])
def test_no_pieces_is_no_limit(pieces: int) -> None:
    with pytest.raises(BadInputError) as caught:
        Limits(most_pieces=pieces)
    assert caught.value.field == "most_pieces"


@pytest.mark.parametrize("factor", [0.99, 0.0, -4.0, math.nan, math.inf])
def test_a_design_factor_that_overloads_is_refused(factor: float) -> None:
    with pytest.raises(BadInputError) as caught:
        Limits(design_factor=factor)
    assert caught.value.field == "design_factor"


@pytest.mark.parametrize("styles", [(), ("tripled",), ("doubled", "Straight")])
def test_unknown_ways_of_hanging_are_refused(styles: Any) -> None:
    with pytest.raises(BadInputError) as caught:
        Limits(styles=styles)
    assert caught.value.field == "styles"
    assert "doubled, straight, draped" in str(caught.value.wanted)
