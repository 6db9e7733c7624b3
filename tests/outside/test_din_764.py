"""DIN 764, Calibrated and tested round steel chains, pitch 3.5 d.

Seen: rows read in a table printed by a chain maker (the package's table), and again in a second
maker's table with tolerances, inside and outside widths and the same masses.
"""

from __future__ import annotations

import statistics

import pytest

from topheavy.catalogue.calipers import CaliperReadings, measured_chain
from topheavy.catalogue.nearest import WIRE_TOLERANCE
from topheavy.catalogue.sizes import NAMED_STANDARD_U
from topheavy.catalogue.table import ChainRow, find_rows
from topheavy.mechanics.link import (
    LinkReadings,
    LinkShape,
    density_budget,
    link_density_kg_per_m,
    link_mass_kg,
)

ROWS = find_rows(standard="DIN 764")
SECOND_MAKER = {  # d: wire tolerance, pitch, inside and outside width, gauge of 11 links, kg/m
    10: (0.4, 35, 14, 36, 385, 2.1),
    13: (0.5, 45, 18, 47, 495, 3.5),
    16: (0.6, 56, 22, 58, 616, 5.3),
    18: (0.9, 63, 24, 65, 693, 6.7),
    20: (1.0, 70, 27, 72, 770, 8.3),
    23: (1.2, 80, 31, 83, 880, 11.0),
    26: (1.3, 91, 35, 94, 1001, 14.0),
}


def shape_of(row: ChainRow) -> LinkShape:
    assert row.pitch_m is not None
    assert row.inside_width_m is not None
    return LinkShape(
        wire_diameter_m=row.wire_diameter_m,
        pitch_m=row.pitch_m,
        inside_width_m=row.inside_width_m,
    )


def test_two_makers_print_the_same_rows() -> None:
    """All sizes, pitches, widths and masses, to the last digit."""
    ours = {
        round(row.wire_diameter_m * 1e3): (
            round((row.pitch_m or 0) * 1e3),
            round((row.inside_width_m or 0) * 1e3),
            row.mass_kg_per_m,
        )
        for row in ROWS
    }
    theirs = {d: (pitch, width, mass) for d, (_, pitch, width, _, _, mass) in SECOND_MAKER.items()}
    assert ours == theirs


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_geometry_gives_the_printed_mass(row: ChainRow) -> None:
    """Each row within 5 %."""
    assert link_density_kg_per_m(shape_of(row)) == pytest.approx(row.mass_kg_per_m, rel=0.05)


def test_geometry_has_no_bias() -> None:
    """Mean of the seven rows within 2 %."""
    errors = [link_density_kg_per_m(shape_of(row)) / (row.mass_kg_per_m or 0) - 1 for row in ROWS]
    assert abs(statistics.fmean(errors)) < 0.02


def test_links_of_3_5_d_weigh_0_0208_times_the_wire_squared() -> None:
    """Mean of the seven rows within 1 %."""
    ratios = [
        link_density_kg_per_m(shape_of(row)) / (row.wire_diameter_m * 1e3) ** 2 for row in ROWS
    ]
    assert statistics.fmean(ratios) == pytest.approx(0.0208, rel=0.01)


def test_the_link_of_16_mm_weighs_0_297_kg() -> None:
    """5.3 kg/m x 56 mm; 1 %, since 5.3 has two digits."""
    (row,) = find_rows(standard="DIN 764", trade_size_m=0.016)
    assert link_mass_kg(shape_of(row)) == pytest.approx(0.297, rel=0.01)


@pytest.mark.parametrize("size", SECOND_MAKER)
def test_calipers_on_a_gauge_length_give_the_printed_mass(size: int) -> None:
    """The gauge of 11 links is 11 pitches inside; outside it two wires more. Width not told."""
    _, _, _, _, gauge_mm, mass = SECOND_MAKER[size]
    outside_m = (gauge_mm + 2 * size) / 1e3
    chain = measured_chain(
        CaliperReadings(wire_diameter_m=size / 1e3, outside_m=outside_m, links=11)
    )
    assert chain.density_kg_per_m == pytest.approx(mass, rel=0.025)


def test_the_wire_tolerance_is_what_a_named_standard_leaves_open() -> None:
    """Second maker: 3.75 to 5.2 % of d; as a uniform band it moves 16 mm chain by about 5 %."""
    shares = [tolerance / size for size, (tolerance, *_) in SECOND_MAKER.items()]
    assert max(shares) == pytest.approx(WIRE_TOLERANCE, abs=0.0025)
    (row,) = find_rows(standard="DIN 764", trade_size_m=0.016)
    readings = LinkReadings(
        shape=shape_of(row), wire_u_m=0.6e-3 / 3**0.5, pitch_u_m=0.0, width_u_m=0.0
    )
    assert density_budget(readings).wire == pytest.approx(NAMED_STANDARD_U, abs=0.002)
