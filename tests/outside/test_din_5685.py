"""DIN 5685, Commercial round steel chains, type A (semi-short link, pitch 4 d).

Seen: rows with outside width and mass of 100 m read in a table printed by a chain maker. The
package's own rows of type C print no mass. None of these rows was used to make the geometry or
its usual widths.
"""

from __future__ import annotations

import statistics

import pytest

from topheavy.mechanics.link import LinkShape, link_density_kg_per_m

ROWS_MM_KG = [  # d, inside length, outside width, kg per 100 m
    (2.0, 12, 8, 7.0),
    (2.5, 14, 10, 11.0),
    (3.0, 16, 12, 16.5),
    (3.5, 18, 14, 22.5),
    (4.0, 19, 16, 30.0),
    (4.5, 20, 18, 39.5),
    (5.0, 21, 20, 50.0),
    (5.5, 23, 22, 60.5),
    (6.0, 24, 24, 73.0),
    (6.5, 26, 26, 86.0),
    (7.0, 28, 28, 100.0),
    (8.0, 32, 32, 130.0),
    (8.5, 34, 34, 149.0),
    (9.0, 36, 36, 165.0),
    (10.0, 40, 40, 205.0),
    (11.0, 44, 44, 250.0),
    (12.0, 48, 48, 290.0),
    (13.0, 52, 52, 345.0),
]


def error_of(row: tuple[float, float, float, float]) -> float:
    wire_mm, pitch_mm, outside_mm, per_100_m = row
    shape = LinkShape(
        wire_diameter_m=wire_mm / 1e3,
        pitch_m=pitch_mm / 1e3,
        inside_width_m=(outside_mm - 2 * wire_mm) / 1e3,
    )
    return link_density_kg_per_m(shape) / (per_100_m / 100) - 1


@pytest.mark.parametrize("row", ROWS_MM_KG, ids=lambda row: f"{row[0]:g} mm")
def test_geometry_gives_the_printed_mass(row: tuple[float, float, float, float]) -> None:
    """Each within 5 %; the printed width is the greatest allowed, so geometry errs upwards."""
    assert -0.01 < error_of(row) < 0.05


def test_geometry_is_high_by_no_more_than_the_widest_link_explains() -> None:
    """Mean within 2.5 %: a link 0.2 d narrower than the greatest allowed weighs 2 % less."""
    assert 0 < statistics.fmean(map(error_of, ROWS_MM_KG)) < 0.025
