"""The schema's rule for quantities is the reader's rule."""

from __future__ import annotations

import re

import pytest

from topheavy.errors import BadInputError
from topheavy.gymfile.quantities import text_schema
from topheavy.units import UNITS, Dimension, parse_quantity

DIMENSIONS: tuple[Dimension, ...] = ("mass", "length", "linear density", "speed")


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_unit_fits_in_any_case(dimension: Dimension) -> None:
    pattern = text_schema(dimension)["pattern"]
    for unit in UNITS[dimension]:
        for text in (f"1.5 {unit}", f"3/4{unit.upper()}", f" 2 1/2 {unit.lower()} 1e-3{unit}"):
            parse_quantity(text, dimension, field="x")
            assert re.search(pattern, text), text


@pytest.mark.parametrize(
    "text", ["", "1", "kg", "1 stone", "1 kg or so", "1..5 kg", "1 / kg", "- kg", "1 kg/", "kg 1"]
)
def test_what_the_reader_refuses_the_schema_refuses(text: str) -> None:
    with pytest.raises(BadInputError):
        parse_quantity(text, "mass", field="x")
    assert not re.search(text_schema("mass")["pattern"], text)
