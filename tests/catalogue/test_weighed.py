"""The wire of chain that was weighed and taped, against the published tables."""

from __future__ import annotations

import math

import pytest

from topheavy.catalogue.table import all_rows
from topheavy.catalogue.weighed import wire_of_weighed_m
from topheavy.errors import BadInputError

PRINTED = [row for row in all_rows() if row.mass_kg_per_m is not None and row.pitch_m is not None]


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: row.name)
def test_printed_mass_and_pitch_give_the_printed_wire(row: object) -> None:
    """Rows of DIN 763, 764, 766 and EN 818-2: 4 %, where a standard lets the wire miss by 4 to 5.

    Mass goes with the square of the wire, so the 1.7 % of the DIN rows make under 1 % here.
    """
    wire_m, pitch_m, mass = row.wire_diameter_m, row.pitch_m, row.mass_kg_per_m  # type: ignore[attr-defined]
    assert wire_of_weighed_m(10 * mass * pitch_m, 10, pitch_m=pitch_m) == pytest.approx(
        wire_m, rel=0.04
    )


def test_the_printed_rows_scatter_by_about_one_percent() -> None:
    misses = [
        wire_of_weighed_m(row.mass_kg_per_m * row.pitch_m, 1, pitch_m=row.pitch_m)
        / row.wire_diameter_m
        - 1
        for row in PRINTED
        if row.mass_kg_per_m and row.pitch_m
    ]
    assert len(misses) == 39
    assert abs(sum(misses) / len(misses)) < 0.005
    assert math.sqrt(sum(miss**2 for miss in misses) / len(misses)) < 0.015


@pytest.mark.parametrize("over", [5, 10, 20])
def test_length_over_links_and_pitch_say_the_same(over: int) -> None:
    wire_m = wire_of_weighed_m(9.5, 32, pitch_m=0.056)
    outside_m = over * 0.056 + 2 * wire_m
    again_m = wire_of_weighed_m(9.5, 32, outside_m=outside_m, over=over)
    assert again_m == pytest.approx(wire_m, rel=1e-4)


@pytest.mark.parametrize(
    ("mass_kg", "outside_m"), [(95, 0.593), (0.2, 0.593), (9.5, 0.001), (9.5, 60), (5000, 3)]
)
def test_masses_that_no_steel_has(mass_kg: float, outside_m: float) -> None:
    with pytest.raises(BadInputError, match="No steel chain"):
        wire_of_weighed_m(mass_kg, 32, outside_m=outside_m)


def test_no_mass_is_refused() -> None:
    with pytest.raises(BadInputError, match="mass_kg must be above zero"):
        wire_of_weighed_m(0, 32, pitch_m=0.056)
