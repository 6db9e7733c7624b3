"""Feeder tables: every working length, whatever the form."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from tests.gymfile.samples import problems, read
from topheavy.errors import BadInputError
from topheavy.gymfile.feeders import loop_drop_m
from topheavy.units import M_PER_IN

RINGS = (
    '[[feeder]]\nname = "rings"\nform = "rings"\ncount = 2\nmass = "0.3 kg"\n'
    'rings = ["60 cm", "40 cm", "50 cm"]\n'
)
LINKS = (
    '[[feeder]]\nname = "light"\nform = "links"\ncount = 2\ndensity = "0.9 kg/m"\n'
    'links = 40\npitch = "26 mm"\nloop = 8\n'
)
STRAP = (
    '[[feeder]]\nname = "strap"\nform = "strap"\ncount = 4\nmass = "0.5 kg"\n'
    'shortest = "35 cm"\nlongest = "36.2 cm"\n'
)


def test_rings_stand_shortest_first_under_their_own_labels() -> None:
    feeder = read(RINGS).stock.feeder("rings")
    assert [(s.label, s.length_m) for s in feeder.settings] == [
        ("ring 2", 0.40), ("ring 3", 0.50), ("ring 1", 0.60),
    ]  # fmt: skip
    assert feeder.whole_m == 0.6
    assert feeder.density_kg_per_m == pytest.approx(0.5)
    assert feeder.rating_kg is None
    assert (feeder.form, feeder.count, feeder.setting_u_m) == ("rings", 2, 0.003)


def test_rings_take_labels_a_tail_and_a_rating() -> None:
    tables = RINGS + 'labels = ["c", "a", "b"]\nwhole = "75 cm"\nrating = "250 kg"\nwithin = "1 cm"'
    feeder = read(tables).stock.feeder("rings")
    assert feeder.setting("a").length_m == 0.4
    assert feeder.whole_m == 0.75
    assert feeder.density_kg_per_m == pytest.approx(0.4)
    assert (feeder.rating_kg, feeder.setting_u_m) == (250.0, 0.01)


def test_every_link_below_the_loop_is_a_setting() -> None:
    feeder = read(LINKS).stock.feeder("light")
    lengths = [setting.length_m for setting in feeder.settings]
    assert len(lengths) == 32
    assert np.diff(lengths) == pytest.approx(0.026)
    assert lengths[0] == pytest.approx(loop_drop_m(8 * 0.026) + 0.026)
    assert feeder.whole_m == pytest.approx(40 * 0.026)
    assert feeder.density_kg_per_m == 0.9
    assert feeder.setting_u_m == 0.005


def test_a_measured_loop_is_taken_as_measured_and_is_surer() -> None:
    feeder = read(LINKS + 'loop_drop = "6 cm"').stock.feeder("light")
    assert feeder.settings[0].length_m == pytest.approx(0.086)
    assert feeder.setting_u_m == 0.002


@pytest.mark.parametrize("drop_m", [0.026, 0.05, 0.2, 1.0])
def test_loop_drop_matches_a_taut_loop_drawn_by_points(drop_m: float) -> None:
    """Against the perimeter of a convex hull (scipy.spatial), a taut loop being just that."""
    angles = np.linspace(0, 2 * np.pi, 20001)
    sleeve = 0.025 * np.column_stack([np.cos(angles), np.sin(angles)])
    hull = ConvexHull(np.vstack([sleeve, [0.0, -drop_m]]))
    assert loop_drop_m(float(hull.area)) == pytest.approx(drop_m, abs=1e-6)


def test_loop_drop_refuses_what_does_not_go_round() -> None:
    with pytest.raises(BadInputError, match="does not go round"):
        loop_drop_m(0.157)


def test_a_strap_has_a_setting_at_each_mark() -> None:
    feeder = read(STRAP).stock.feeder("strap")
    assert [(s.label, s.length_m) for s in feeder.settings] == [
        ("35.0 cm", 0.35), ("35.5 cm", 0.355), ("36.0 cm", 0.36),
    ]  # fmt: skip
    assert feeder.whole_m == 0.362
    assert feeder.setting_u_m == 0.005


def test_a_strap_reaches_its_longest_when_it_falls_on_a_mark() -> None:
    tables = STRAP.replace("36.2 cm", "130 cm") + 'whole = "2 m"'
    feeder = read(tables).stock.feeder("strap")
    assert len(feeder.settings) == 191
    assert feeder.settings[-1].length_m == pytest.approx(1.30)
    assert feeder.whole_m == 2.0


def test_a_strap_is_labelled_in_the_gyms_units() -> None:
    tables = (
        'units = "lb"\n[[feeder]]\nname = "strap"\nform = "strap"\ncount = 2\nmass = "1 lb"\n'
        'shortest = "14 in"\nlongest = "15 in"\nmarks = "1/4 in"\n'
    )
    feeder = read(tables).stock.feeder("strap")
    assert [s.label for s in feeder.settings] == [
        "14.00 in", "14.25 in", "14.50 in", "14.75 in", "15.00 in",
    ]  # fmt: skip
    assert feeder.settings[1].length_m == pytest.approx(14.25 * M_PER_IN)


@pytest.mark.parametrize(
    ("tables", "message", "field", "got", "wanted"),
    [
        (RINGS.replace("50 cm", "40 cm"), "Two rings alike", "rings", "0.4 m", "once"),
        (RINGS + 'labels = ["a", "b"]', "Not one label for each", "labels", "2 labels, 3",
         "as many"),
        (RINGS + 'labels = ["a", "b", "a"]', "Two labels alike", "labels", "a", "once"),
        (RINGS + 'whole = "55 cm"', "can't work longer than it is", "whole", "0.55 m", "0.6 m"),
        (RINGS + 'density = "1 kg/m"', "is weighed once", "mass", "both", "either"),
        (RINGS.replace('mass = "0.3 kg"\n', ""), "is weighed once", "mass", "neither", "0.4 kg"),
        (RINGS.replace('"rings"\ncount', '"rope"\ncount'), "Not a form of feeder", "form", '"rope"',
         '"strap" (any length)'),
        (RINGS.replace('form = "rings"\n', ""), '"form" is missing', "form", "", '"links"'),
        (RINGS.replace('form = "rings"\n', "form = 3\n"), "Not a form", "form", "3", '"links"'),
        (RINGS.replace("[\"60 cm\", \"40 cm\", \"50 cm\"]", "[]"), "Too short a list", "rings",
         "a list of 0", "bar centre to where"),
        (RINGS + 'ring = "3 cm"', 'Unknown key "ring"', "ring", "", '"rings"?'),
        (LINKS.replace("loop = 8", "loop = 40"), "leaves no link", "loop", "40 of 40",
         "fewer than 40"),
        (LINKS.replace("loop = 8", "loop = 4"), "does not go round the sleeve", "loop", "104 mm",
         "157 mm"),
        (LINKS + 'loop_drop = "60 cm"', "can't drop by more than half", "loop_drop", "600 mm",
         "104 mm"),
        (STRAP.replace("36.2 cm", "30 cm"), "above its longest", "shortest", "longest 0.3 m", "<="),
        (STRAP.replace("36.2 cm", "3 m") + 'marks = "1 mm"', "marks are too close", "marks",
         "2651 settings", "at most 2000"),
        (STRAP + 'marks = "0.01 mm"', "marks are too close", "marks", "0.01 mm", "1 mm"),
    ],
)  # fmt: skip
def test_contradictions_are_told(
    tables: str, message: str, field: str, got: str, wanted: str
) -> None:
    (found,) = problems(tables)
    assert found[1].startswith(f"feeder[1].{field} (")
    assert "line 3" in found[1]
    for part, text in zip((message, got, wanted), (found[0], *found[2:]), strict=True):
        assert part in text


def test_a_name_that_stands_twice_names_both_places() -> None:
    ((message, field, _, _),) = problems(RINGS + STRAP.replace('"strap"\nform', '"Rings"\nform'))
    assert message == 'The feeder "Rings" is listed twice'
    assert field == "feeder[1].name (rings, line 3) and feeder[2].name (Rings, line 9)"
