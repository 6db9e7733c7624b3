"""The curve panel: axis, ticks, and corners read from the load curve."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.present.picture.reading import SVG, of_class, parse
from tests.present.picture.scenes import BENCH, SCENES, chain, held, rig
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.hang import Doubled
from topheavy.present.picture import draw_rig
from topheavy.present.picture.facts import Facts, facts, read
from topheavy.present.picture.panel import LoadAxis, load_axis, nice_step, ticks
from topheavy.present.picture.plan import plan


def found(name: str) -> Facts:
    return facts(SCENES[name], plan(SCENES[name]))


def test_corners_lie_on_the_curve() -> None:
    curve = BENCH.rig.curve(BENCH.ground, "raising")
    reading = read(curve, 0.6, 1.0)
    assert reading.loads_kg == pytest.approx(tuple(curve.at([0.6, 1.0])))
    for height_m in (0.61, 0.7, 0.85, 0.99):
        assert reading.load_kg(height_m) == pytest.approx(float(curve.at(height_m)))


def test_a_jump_is_two_corners_at_one_height() -> None:
    reading = read(LoadCurve.lump(2.0, 0.5), 0.2, 0.8)
    assert reading.corners == ((0.0, 0.2), (0.0, 0.5), (2.0, 0.5), (2.0, 0.8))


def test_little_chain_gets_an_axis_that_starts_above_zero_and_says_so() -> None:
    axis = load_axis(found("bench"), 0.0, 100.0)
    assert axis.broken
    assert 0 < axis.from_kg < 80.0
    assert all(axis.x(load_kg) > 8 for load_kg, _ in ticks(axis, 1.0, 7.4))


def test_much_chain_gets_an_axis_from_zero() -> None:
    hang = Doubled(chains=(chain(60), chain(60)), suspension=held(0.3))
    scene = replace(BENCH, rig=rig(0.0, hang), straight=None)
    axis = load_axis(facts(scene, plan(scene)), 0.0, 100.0)
    assert axis.from_kg == 0
    assert not axis.broken


def test_each_curve_is_read_the_way_it_is_named() -> None:
    """Raising and lowering differ by the pile; the same chain hung straight is read raising."""
    assert BENCH.straight is not None
    here, ends_m = found("bench"), [BENCH.bottom_m, BENCH.top_m]
    for reading, of, way in (
        (here.raising, BENCH.rig, "raising"),
        (here.lowering, BENCH.rig, "lowering"),
        (here.straight, BENCH.straight, "raising"),
    ):
        assert reading is not None
        curve = of.curve(BENCH.ground, "raising" if way == "raising" else "lowering")
        assert reading.loads_kg == pytest.approx(tuple(curve.at(ends_m)))
    assert here.lowering.loads_kg[1] < here.raising.loads_kg[1]


@pytest.mark.parametrize("name", SCENES)
def test_every_curve_lies_within_the_axis(name: str) -> None:
    here = found(name)
    axis = load_axis(here, 0.0, 100.0)
    for curve in (here.raising, here.lowering, here.straight):
        if curve is not None:
            assert all(0 <= axis.x(load_kg) <= 100 for load_kg, _ in curve.corners)


def test_ticks_are_round_in_the_units_that_are_shown() -> None:
    axis = LoadAxis(0.0, 150.0, 0.0, 100.0)
    assert [words for _, words in ticks(axis, 1.0, 7.4)] == ["0", "20", "40", "60", "80", "100"]
    pounds = ticks(axis, 0.45359237, 7.4)
    assert [words for _, words in pounds] == ["0", "50", "100", "150", "200"]
    assert pounds[1][0] == pytest.approx(22.6796, abs=1e-4)


@pytest.mark.parametrize(
    ("least", "step"), [(0.9, 1.0), (1.0, 1.0), (1.1, 2.0), (2.4, 5.0), (6.0, 10.0), (0.03, 0.05)]
)
def test_steps_are_one_two_or_five(least: float, step: float) -> None:
    assert nice_step(least) == pytest.approx(step)


def test_curves_stand_at_the_heights_of_the_figures() -> None:
    """Bottom and top of the drawn raising curve are one travel apart, at the figures' scale."""
    root = parse(draw_rig(BENCH))
    per_m = float(of_class(root, "figure")[0].attrib["data-per-m"])
    (raising,) = of_class(root, "raising")
    heights = [float(point.split(",")[1]) for point in raising.attrib["points"].split()]
    assert heights[0] - heights[-1] == pytest.approx(0.4 * per_m, abs=0.03)


def test_curves_are_told_apart_without_colour() -> None:
    root = parse(draw_rig(BENCH))
    looks = {
        (line.get("stroke-width"), line.get("stroke-dasharray"))
        for name in ("raising", "lowering", "straight")
        for line in of_class(root, name)
    }
    assert len(looks) == 3


def test_bottom_and_top_are_marked_with_the_load_raising() -> None:
    low_kg, top_kg = BENCH.rig.curve(BENCH.ground, "raising").at([0.6, 1.0])
    (curve,) = of_class(parse(draw_rig(BENCH)), "curve")
    bold = [e.text for e in curve.iter(f"{SVG}text") if e.get("font-weight") == "700"]
    assert bold == [f"{low_kg:.1f} kg", f"{top_kg:.1f} kg"]
    (raising,) = of_class(curve, "raising")
    ends = [raising.attrib["points"].split()[place] for place in (0, -1)]
    marks = [f"{e.attrib['cx']},{e.attrib['cy']}" for e in curve.iter(f"{SVG}circle")]
    assert marks == ends
