"""The picture of a weighing: every reading in its place, the one that is off marked, words too."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End, Rig
from topheavy.present.weigh.picture import weighing_svg
from topheavy.services.weighing.weigh import ScaleReading, Weighing, weigh
from topheavy.units import METRIC, POUNDS

SVG = "{http://www.w3.org/2000/svg}"
HEIGHTS = (0.3, 0.5, 0.7, 0.9, 1.1, 1.3)


def weighed(off_kg: float = 0.0, way: str = "raising", number: int = 4) -> Weighing:
    chain = Chain(links=32, pitch_m=0.056, density_kg_per_m=5.3, density_u_kg_per_m=0.05)
    end = End((Straight(chain=chain, drop_m=0.05),))
    rig = Rig(20.0, 60.0, end, end)
    curve = rig.curve(Ground(), "raising")
    masses = [float(curve.at(height)) for height in HEIGHTS]
    masses[number - 1] += off_kg
    readings = [
        ScaleReading(height_m=height, mass_kg=mass, way=way)  # type: ignore[arg-type]  # one of them
        for height, mass in zip(HEIGHTS, masses, strict=True)
    ]
    return weigh(rig, Ground(), readings)


def test_readings_rise_to_the_right_and_upwards() -> None:
    drawn = ET.fromstring(weighing_svg(weighed(), METRIC))  # noqa: S314 - our own drawing
    corners = [one.get("points", "").split()[0] for one in drawn.iter(f"{SVG}polygon")]
    places = [tuple(map(float, corner.split(","))) for corner in corners]
    assert len(places) == len(HEIGHTS)
    assert places == sorted(places, key=lambda place: (place[0], -place[1]))
    gaps = [one[1] - other[1] for one, other in pairwise(places)]
    assert gaps == pytest.approx([gaps[0]] * 5, abs=0.05)


def test_the_reading_that_is_off_is_ringed_and_named() -> None:
    answer = weighed(off_kg=6.0)
    assert [row.off for row in answer.rows] == [False] * 3 + [True] + [False] * 2
    text = weighing_svg(answer, METRIC)
    assert "4 is off" in text
    assert "is off" not in weighing_svg(weighed(), METRIC)
    said = f"at 90.0 cm {answer.rows[3].reading.mass_kg:.1f} kg, predicted"
    assert said in text
    assert ", off;" in text


@pytest.mark.parametrize("number", [1, 6])
def test_the_name_of_the_one_that_is_off_stays_on_the_sheet(number: int) -> None:
    """Some 70 wide at the size it is set in, left of its place or right of it."""
    drawn = ET.fromstring(weighing_svg(weighed(8.0, number=number), METRIC))  # noqa: S314 - our own
    said = next(one for one in drawn.iter(f"{SVG}text") if one.text == f"{number} is off")
    wide = float(drawn.get("viewBox", "").split()[2])
    x = float(said.get("x", ""))
    low, high = (x - 70, x) if said.get("text-anchor") == "end" else (x, x + 70)
    assert 0 <= low < high <= wide


def test_a_disc_stands_for_a_way_that_nobody_said() -> None:
    drawn = ET.fromstring(weighing_svg(weighed(way="unsaid"), POUNDS))  # noqa: S314 - our own
    assert len(list(drawn.iter(f"{SVG}circle"))) == len(HEIGHTS)
    assert "on the scale [lb]" in "".join(drawn.itertext())
