"""Bands in the picture: from peg to sleeve, to scale, and named for those who can't see them."""

from __future__ import annotations

import pytest

from tests.present.picture.reading import boxes, figure, of_class, parse
from tests.present.picture.scenes import BENCH, SCENES, banded, with_bands
from topheavy.present.picture import Scene, draw_rig
from topheavy.present.picture.facts import facts
from topheavy.present.picture.plan import plan
from topheavy.present.picture.words import description

BANDED = ("banded", "bands alone", "band from above")
ROUNDED = 0.02


def said(scene: Scene) -> str:
    return description(scene, facts(scene, plan(scene)))


@pytest.mark.parametrize("pose", ["bottom", "top"])
@pytest.mark.parametrize("name", BANDED)
def test_a_band_reaches_from_its_peg_to_the_sleeve(name: str, pose: str) -> None:
    scene = SCENES[name]
    part = figure(parse(draw_rig(scene)), pose)
    per_m, bar_m = float(part.attrib["data-per-m"]), getattr(scene, f"{pose}_m")
    groups = of_class(part, "band")
    assert [group.attrib["data-band"] for group in groups] == [
        band.band.tag for band in scene.drawn_end.bands
    ]
    for group, band in zip(groups, scene.drawn_end.bands, strict=True):
        strips = [box for element, box in boxes(group) if not element.tag.endswith("rect")]
        rise_m = abs(bar_m - band.peg.height_m)
        for strip in strips:
            assert (strip.low - strip.top) / per_m == pytest.approx(
                rise_m, abs=ROUNDED / per_m + 1e-3
            )


def test_a_doubled_band_has_two_strands() -> None:
    part = figure(parse(draw_rig(SCENES["bands alone"])), "top")
    places = [
        {round(box.left, 1) for element, box in boxes(group) if not element.tag.endswith("rect")}
        for group in of_class(part, "band")
    ]
    assert [len(some) for some in places] == [1, 2]


def test_a_band_thins_as_it_is_stretched() -> None:
    root = parse(draw_rig(SCENES["banded"]))
    widths = []
    for pose in ("bottom", "top"):
        (group,) = of_class(figure(root, pose), "band")
        strokes = [
            e.get("stroke-width") for e in group.iter() if not e.tag.endswith(("rect", "}g"))
        ]
        widths.append(max(float(width) for width in strokes if width))
    assert widths[1] < widths[0]


def test_the_pegs_of_a_bench_stand_on_the_floor() -> None:
    part = figure(parse(draw_rig(SCENES["banded"])), "top")
    (peg,) = of_class(part, "peg")
    assert len(list(boxes(peg))) == 3


def test_the_description_names_band_peg_length_and_pull() -> None:
    words = said(SCENES["banded"])
    assert "Band red-1, single, on peg low, 12.0 cm up." in words
    assert "band red-1 48.4 cm long, pulls" in words
    assert "Band b, doubled, on a peg, 12.0 cm up." in said(SCENES["bands alone"])


def test_a_band_from_above_lifts() -> None:
    assert "lifts" in said(SCENES["band from above"])


def test_a_slack_band_says_so() -> None:
    scene = with_bands(BENCH, banded(peg_m=0.5, scene_m=(0.6, 1.0)))
    assert "slack" not in said(scene)
    slack = with_bands(BENCH, banded(scene_m=(0.9, 1.4)))
    assert "slack, pulls 0.0 kg" in said(slack)
    draw_rig(slack)
