"""DIN 766:1986, Calibrated and tested grade 3 round steel link chains (short link).

Seen: rows read in tables printed by two chain makers (the package's table holds both, so some
sizes stand twice), and again in a third maker's table with inside width >= 1.2 d and outside
width <= 3.4 d.
"""

from __future__ import annotations

import statistics

import pytest

from topheavy.catalogue.table import ChainRow, find_rows
from topheavy.catalogue.widths import usual_width
from topheavy.mechanics.link import LinkShape, link_density_kg_per_m

ROWS = find_rows(standard="DIN 766")
OUTLIERS = {(7, 1.15)}
"""The second maker prints 1.15 kg/m for 7 x 22 mm, the first and third 1.1: 9 % above geometry.
It stays in the table, since a coach may hold that very chain, and is what the 10 % of a size
name is for."""
THIRD_MAKER = {  # d: pitch, kg/m
    4: (16, 0.32),
    5: (18.5, 0.5),
    6: (18.5, 0.8),
    7: (22, 1.1),
    8: (24, 1.4),
    9: (27, 1.8),
    10: (28, 2.2),
    11: (31, 2.7),
    12: (36, 3.1),
    13: (36, 3.8),
    14: (41, 4.4),
    16: (45, 5.7),
    18: (50, 7.3),
    19: (53, 7.97),
    20: (56, 9.0),
    23: (64, 12.0),
}

SHORT = [size for size, (pitch, _) in THIRD_MAKER.items() if pitch < 3.25 * size]


def geometry_kg_per_m(wire_m: float, pitch_m: float) -> float:
    width_m = usual_width(pitch_m, wire_m).ratio * wire_m
    return link_density_kg_per_m(
        LinkShape(wire_diameter_m=wire_m, pitch_m=pitch_m, inside_width_m=width_m)
    )


def error_of(row: ChainRow) -> float:
    assert row.pitch_m is not None
    assert row.mass_kg_per_m is not None
    return geometry_kg_per_m(row.wire_diameter_m, row.pitch_m) / row.mass_kg_per_m - 1


def is_outlier(row: ChainRow) -> bool:
    return (round(row.wire_diameter_m * 1e3), row.mass_kg_per_m) in OUTLIERS


@pytest.mark.parametrize(
    "row", [row for row in ROWS if not is_outlier(row)], ids=lambda row: row.name
)
def test_geometry_gives_the_printed_mass(row: ChainRow) -> None:
    """Each row within 5 %, but for the named outlier."""
    assert abs(error_of(row)) < 0.05


def test_the_outlier_is_the_only_one_and_still_inside_ten_percent() -> None:
    outside = [row for row in ROWS if abs(error_of(row)) >= 0.05]
    assert len(outside) == 1
    assert is_outlier(outside[0])
    assert abs(error_of(outside[0])) < 0.10


def test_geometry_has_no_bias() -> None:
    """Mean of all sixteen rows, outlier counted, within 2 %."""
    assert len(ROWS) == 16
    assert abs(statistics.fmean(error_of(row) for row in ROWS)) < 0.02


def test_a_third_maker_agrees() -> None:
    """Sixteen sizes, 12 and 18 to 23 mm not in the package's table: each 5 %, mean 1 %."""
    errors = [
        geometry_kg_per_m(size / 1e3, pitch_mm / 1e3) / mass - 1
        for size, (pitch_mm, mass) in THIRD_MAKER.items()
    ]
    assert max(map(abs, errors)) < 0.05
    assert abs(statistics.fmean(errors)) < 0.01


@pytest.mark.parametrize("size", [8, 9, 10, 11, 13, 14, 16])
def test_short_links_weigh_0_0217_to_0_0235_times_the_wire_squared(size: int) -> None:
    """Range, from 8 mm: thinner rows have longer links or masses printed to one digit."""
    pitch_mm, _ = THIRD_MAKER[size]
    ratio = geometry_kg_per_m(size / 1e3, pitch_mm / 1e3) / size**2
    assert 0.0217 <= ratio <= 0.0235


@pytest.mark.parametrize("size", SHORT)
def test_the_width_used_is_inside_what_the_standard_allows(size: int) -> None:
    """Third maker: inside >= 1.2 d, outside <= 3.4 d, so 1.2 to 1.4 d."""
    pitch_mm, _ = THIRD_MAKER[size]
    assert 1.2 <= usual_width(pitch_mm / 1e3, size / 1e3).ratio <= 1.4
