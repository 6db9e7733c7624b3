"""The usual inside width of a link, and the geometry's own error over the whole table."""

from __future__ import annotations

import math

import pytest

from topheavy.catalogue.table import all_rows
from topheavy.catalogue.widths import link_form, usual_width
from topheavy.mechanics.link import GEOMETRY_U, LinkShape, link_density_kg_per_m


def test_each_form_takes_its_mean_from_published_links() -> None:
    widths = {usual_width(pitch, 1.0).form: usual_width(pitch, 1.0) for pitch in (3.0, 3.5, 7.0)}
    assert set(widths) == {"short", "medium", "long"}
    counted = sum(width.rows for width in widths.values())
    assert counted == sum(row.inside_width_m is not None for row in all_rows())
    assert widths["short"].ratio < widths["medium"].ratio < widths["long"].ratio
    assert all(0.05 < width.spread < 0.15 for width in widths.values())


def test_the_words_name_how_many_links_stand_behind_it() -> None:
    width = usual_width(0.048, 0.016)
    assert f"{width.rows} published short links" in width.words


@pytest.mark.parametrize(("pitch", "form"), [(3.24, "short"), (3.25, "medium"), (5.0, "long")])
def test_forms_meet_at_their_bounds(pitch: float, form: str) -> None:
    assert link_form(pitch) == form


def test_the_error_of_the_geometry_is_what_the_table_shows() -> None:
    """Root mean square over every row with a printed mass is the figure the budget uses."""
    errors = []
    for row in all_rows():
        if row.mass_kg_per_m is None or row.pitch_m is None:
            continue
        width_m = row.inside_width_m
        if width_m is None:
            ratio = usual_width(row.pitch_m, row.wire_diameter_m).ratio
            width_m = ratio * row.wire_diameter_m
        shape = LinkShape(
            wire_diameter_m=row.wire_diameter_m, pitch_m=row.pitch_m, inside_width_m=width_m
        )
        errors.append(link_density_kg_per_m(shape) / row.mass_kg_per_m - 1)
    assert len(errors) == 39
    assert abs(math.fsum(errors) / len(errors)) < 0.005
    rms = math.sqrt(math.fsum(error**2 for error in errors) / len(errors))
    assert rms == pytest.approx(GEOMETRY_U, abs=0.001)
