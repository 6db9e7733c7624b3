"""The stage carries the library's own numbers, and survives being sent."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.cli.calling import TINY
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import read_gym
from topheavy.present.rig.picture import scene_of
from topheavy.present.stage import Stage, encode_motion, encode_stage, moving, view_stage
from topheavy.rigging.target import Ask
from topheavy.services.chosen import Parts, build_chosen, choose
from topheavy.services.rig import Place, RigQuestion, target_of
from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.present.picture.scene import Scene
    from topheavy.rigging.built import BuiltRig


@cache
def staged() -> tuple[Scene, BuiltRig, Stage]:
    gym = read_gym(TINY)
    place = Place(
        gym=gym,
        lifter=gym.lifter("Ansa"),
        lift=lift_named("bench press"),
        station=gym.station("the bench"),
    )
    question = RigQuestion(place=place, ask=Ask(bottom_kg=65.0, top_kg=85.0))
    parts = Parts(
        left=("A1", "A2"),
        right=("A3", "A4"),
        feeder="strap",
        setting="2",
        connector="screw link",
        plates_kg=(20.0,),
    )
    best = build_chosen(question, choose(place, parts))
    scene = scene_of(place, best, METRIC)
    return scene, best, view_stage(scene, best, target_of(question), 0.9)


@pytest.mark.parametrize("way", ["raising", "lowering"])
def test_corners_make_the_library_s_curve(way: str) -> None:
    scene, best, stage = staged()
    heights_m = np.linspace(scene.bottom_m, scene.top_m, 101)
    corners = stage.raising if way == "raising" else stage.lowering
    at_m, loads_kg = np.array(corners).T
    read = np.interp(heights_m, at_m, loads_kg)
    curve = best.rig.curve(scene.ground, "raising" if way == "raising" else "lowering")
    jumps = curve.height_m[curve.above_kg != curve.below_kg]
    away = np.abs(heights_m[:, None] - jumps[None, :]).min(axis=1, initial=1.0) > 1e-9
    assert read[away] == pytest.approx(curve.at(heights_m)[away], abs=1e-9)


def test_kinds_count_pieces_of_the_drawn_end() -> None:
    _, _, stage = staged()
    assert [(kind.size, kind.links, kind.pieces) for kind in stage.kinds] == [("5/8 in", 32, 2)]
    assert stage.kinds[0].steps[0] == (0.66, 0)


def test_the_first_pose_is_where_it_was_asked_and_never_outside_the_lift() -> None:
    scene, best, stage = staged()
    assert stage.bar_m == 0.9
    target = target_of(RigQuestion(place=_place(scene), ask=Ask(bottom_kg=65.0, top_kg=85.0)))
    assert view_stage(scene, best, target, 99.0).bar_m == scene.top_m
    assert view_stage(scene, best, target).bar_m == scene.bottom_m


def _place(scene: Scene) -> Place:
    gym = read_gym(TINY)
    assert scene.station_kind == "bench"
    return Place(
        gym=gym,
        lifter=gym.lifter("Ansa"),
        lift=lift_named("bench press"),
        station=gym.station("the bench"),
    )


def test_it_can_be_sent_and_every_look_is_named() -> None:
    scene, _, stage = staged()
    sent = json.loads(json.dumps(encode_stage(stage), allow_nan=False))
    assert len(sent["looks"]) > max(shape[1] for shape in [*sent["pose"], *sent["still"]])
    assert {name for look in sent["looks"] for name in look[1:3]} <= {
        "ink", "slate", "steel", "bright", "pale", "faint", "rubber", "chalk", "none",
    }  # fmt: skip
    motion = json.loads(json.dumps(encode_motion(moving(scene)), allow_nan=False))
    for stretch in motion["stretches"]:
        tracks = [t for shape in stretch["shapes"] for t in shape[2:] if isinstance(t, list)]
        assert {len(track) for track in tracks} <= {len(stretch["heights_m"])}
