"""Vega-Lite: its published JSON Schema, version 6, as the library Altair packages it.

A. Satyanarayan, D. Moritz, K. Wongsuphasawat, J. Heer, "Vega-Lite: A Grammar of Interactive
Graphics", IEEE Transactions on Visualization and Computer Graphics 23(1), 341 to 350, 2017 (cited
from memory). The schema, https://vega.github.io/schema/vega-lite/v6.1.0.json, is read from the
installed package, which also checks with it.
"""

from __future__ import annotations

import copy

import altair as alt
import pytest
from jsonschema.exceptions import ValidationError

from tests.present.charts.samples import all_charts
from topheavy.present.charts import DARK, LIGHT, OF_PAGE, PAGE, PHONE
from topheavy.present.charts.chart import SCHEMA
from topheavy.present.charts.render import spec_of

NAMES = tuple(all_charts())


def test_the_schema_is_the_one_that_is_named() -> None:
    """The address of the schema: the major version that charts name."""
    assert alt.SCHEMA_URL.startswith(SCHEMA.removesuffix(".json"))


@pytest.mark.parametrize("name", NAMES)
def test_descriptions_are_valid(name: str) -> None:
    """The whole schema: every chart, in every ink, small and large."""
    for inks, size in ((LIGHT, PAGE), (DARK, PHONE), (OF_PAGE, PAGE)):
        spec = spec_of(all_charts()[name], size, inks, titled=True)
        alt.LayerChart.from_dict(copy.deepcopy(spec), validate=True)


def test_a_mistake_would_be_found() -> None:
    """The same check refuses a mark that the language does not have."""
    spec = spec_of(all_charts()["work"], PAGE, LIGHT)
    spec["layer"][0]["mark"]["type"] = "pie"
    with pytest.raises(ValidationError):
        alt.LayerChart.from_dict(spec, validate=True)
