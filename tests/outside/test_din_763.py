"""DIN 763, Tested, non-calibrated, long-link round steel chains (edition valid from 1990-12-01).

Seen: rows d x t with mass read in a table printed by a chain maker (the package's table); the
masses of 6, 7, 10, 13 and 16 mm and the widths, inside >= 1.8 d and outside <= 4.2 d, read in
part of the standard's own table 1.
"""

from __future__ import annotations

import statistics

import pytest

from topheavy.catalogue.table import ChainRow, find_rows
from topheavy.catalogue.widths import usual_width
from topheavy.mechanics.link import LinkShape, link_density_kg_per_m

ROWS = find_rows(standard="DIN 763")
IN_THE_STANDARD = {6: 0.63, 7: 0.86, 10: 1.75, 13: 2.95, 16: 4.45}


def geometry_kg_per_m(row: ChainRow, width_ratio: float | None = None) -> float:
    assert row.pitch_m is not None
    ratio = width_ratio or usual_width(row.pitch_m, row.wire_diameter_m).ratio
    return link_density_kg_per_m(
        LinkShape(
            wire_diameter_m=row.wire_diameter_m,
            pitch_m=row.pitch_m,
            inside_width_m=ratio * row.wire_diameter_m,
        )
    )


def test_the_table_prints_what_the_standard_prints() -> None:
    """Table 1, masses to the last digit."""
    table = {round(row.wire_diameter_m * 1e3): row.mass_kg_per_m for row in ROWS}
    assert {size: table[size] for size in IN_THE_STANDARD} == IN_THE_STANDARD


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_geometry_gives_the_printed_mass(row: ChainRow) -> None:
    """Each row within 5 %: wire tolerance 4 to 10 %, mass printed to two or three digits."""
    assert geometry_kg_per_m(row) == pytest.approx(row.mass_kg_per_m, rel=0.05)


def test_geometry_has_no_bias() -> None:
    """Mean of the eight rows within 2 %."""
    errors = [geometry_kg_per_m(row) / (row.mass_kg_per_m or 0) - 1 for row in ROWS]
    assert abs(statistics.fmean(errors)) < 0.02


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_the_width_used_is_inside_what_the_standard_allows(row: ChainRow) -> None:
    """Table 1: inside >= 1.8 d, outside <= 4.2 d, so 1.8 to 2.2 d; moves the mass by under 3 %."""
    assert row.pitch_m is not None
    assert 1.8 <= usual_width(row.pitch_m, row.wire_diameter_m).ratio <= 2.2
    narrow, wide = geometry_kg_per_m(row, 1.8), geometry_kg_per_m(row, 2.2)
    assert 0 < wide / narrow - 1 < 0.03


def test_long_links_weigh_0_0175_times_the_wire_squared() -> None:
    """Mean of the seven rows from 5 mm within 1 %; 4 x 32 mm is left out, its links are longer."""
    ratios = [
        geometry_kg_per_m(row) / (row.wire_diameter_m * 1e3) ** 2
        for row in ROWS
        if row.wire_diameter_m >= 0.005
    ]
    assert len(ratios) == 7
    assert statistics.fmean(ratios) == pytest.approx(0.0175, rel=0.01)
