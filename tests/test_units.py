"""Quantities that look right and are not."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.units import parse_quantity


@pytest.mark.parametrize("text", ["25 kN", "25kn", "25 KN"])
def test_a_breaking_load_is_no_rating(text: str) -> None:
    with pytest.raises(BadInputError) as caught:
        parse_quantity(text, "mass", field="rating")
    assert "breaks" in caught.value.message
    assert "WLL" in str(caught.value.wanted)
