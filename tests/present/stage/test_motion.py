"""The drawing that a page moves is the drawing itself, at any height, within a millimetre."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from tests.present.picture.scenes import SCENES
from topheavy.mechanics.ground import Ground
from topheavy.present.picture.plan import counts_at, plan
from topheavy.present.stage.motion import CHANGE_M, WITHIN_M
from topheavy.present.stage.poses import hung_straight_scene, moving, pose_at
from topheavy.present.stage.steps import NEAR_M, link_steps
from topheavy.present.stage.tracing import PER_M
from topheavy.services.counting import links_of

if TYPE_CHECKING:
    from topheavy.present.stage.motion import Stretch
    from topheavy.present.stage.tracing import Shape

NAMES = ["bench", "squat", "deadlift", "mixed", "slack", "lump", "mat", "dragged", "banded", "bare"]
HEIGHTS = 23


@cache
def lift(name: str) -> list[Stretch]:
    return moving(SCENES[name])


@pytest.mark.parametrize("name", NAMES)
def test_between_the_heights_that_were_asked_shapes_are_where_the_drawing_puts_them(
    name: str,
) -> None:
    scene = SCENES[name]
    found = lift(name)
    checked = 0
    for step in range(HEIGHTS):
        # Uneven steps, so that they fall on none of the heights that were asked.
        bar_m = scene.bottom_m + (scene.top_m - scene.bottom_m) * (step + 0.37) / HEIGHTS
        stretch = [one for one in found if one.heights_m[0] <= bar_m][-1]
        if _off_m(pose_at(scene, bar_m), stretch, bar_m) <= 2.5 * WITHIN_M:
            checked += 1
            continue
        # Something changes at once just here: a hair lower or higher it must fit.
        near = (bar_m - CHANGE_M, bar_m + CHANGE_M)
        assert min(_off_m(pose_at(scene, at_m), stretch, at_m) for at_m in near) <= 3 * WITHIN_M
    assert checked > 0.9 * HEIGHTS


def _off_m(drawn: tuple[Shape, ...], stretch: Stretch, bar_m: float) -> float:
    """Farthest that a moved shape is from where it is drawn [m]; endless for another shape."""
    if [s.sort for s in drawn] != [s.sort for s in stretch.poses[0]]:
        return math.inf
    pairs = zip(drawn, stretch.at(bar_m), strict=True)
    return (
        max(abs(a - b) for shape, n in pairs for a, b in zip(shape.numbers, n, strict=True)) / PER_M
    )


@pytest.mark.parametrize("name", NAMES)
def test_links_drawn_off_the_floor_are_the_links_that_are_counted(name: str) -> None:
    scene = SCENES[name]
    placed, found = plan(scene), lift(name)
    for step in range(HEIGHTS):
        bar_m = scene.bottom_m + (scene.top_m - scene.bottom_m) * (step + 0.37) / HEIGHTS
        stretch = [one for one in found if one.heights_m[0] <= bar_m][-1]
        off = sum(shape.look[0] == "off" and bool(shape.look[3]) for shape in stretch.poses[0])
        near = (bar_m - CHANGE_M, bar_m, bar_m + CHANGE_M)
        assert off in {sum(c.off for c in counts_at(scene, placed, at_m)) for at_m in near}


@pytest.mark.parametrize("name", NAMES)
def test_stretches_follow_one_another_from_bottom_to_top(name: str) -> None:
    scene = SCENES[name]
    found = lift(name)
    assert found[0].heights_m[0] == scene.bottom_m
    assert found[-1].heights_m[-1] == pytest.approx(scene.top_m, abs=1e-5)
    heights = [height for stretch in found for height in stretch.heights_m]
    assert heights == sorted(heights)
    assert all(len(s.heights_m) == len(s.poses) >= 2 for s in found)


@pytest.mark.parametrize("lay", ["piled", "dragged"])
def test_links_leave_the_floor_at_the_heights_of_the_count(lay: str) -> None:
    scene = SCENES["mixed"]
    ground = Ground(lay="piled" if lay == "piled" else "dragged")
    for hang in scene.drawn_end.hangs:
        for chain in hang.chains:
            steps = link_steps(hang, chain, (scene.bottom_m, scene.top_m), ground)
            offs = [off for _, off in steps]
            assert offs == sorted(set(offs))
            for (_, before), (height_m, after) in pairwise(steps):
                assert links_of(hang, chain, height_m, ground).off == after
                assert links_of(hang, chain, height_m - 2 * NEAR_M, ground).off == before


def test_the_same_chain_hung_straight_has_every_piece_on_its_own() -> None:
    scene = SCENES["bench"]
    other = hung_straight_scene(scene)
    assert other is not None
    bare = moving(other, bare=True)
    parts = {shape.look[0] for shape in bare[0].poses[0]}
    assert parts <= {"off", "down", "grip"}
    assert hung_straight_scene(other) is None
