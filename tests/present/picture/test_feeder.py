"""Feeder and connector: working length to scale when taut, all of it on the floor when slack."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.present.picture.scenes import BENCH, DEADLIFT, chain, held, rig
from topheavy.mechanics.hang import Doubled, Suspension
from topheavy.present.picture import HangNote, Scene
from topheavy.present.picture.feeder import Course, Hardware, down_and_along, hardware
from topheavy.present.picture.plan import plan


def placed(scene: Scene, bar_m: float) -> Hardware:
    (hung,) = plan(scene).hangs
    ware = hardware(hung, scene.note(0), bar_m, scene.ground.surface_m)
    assert ware is not None
    return ware


def feeding(suspension: Suspension, note: HangNote | None = None) -> Scene:
    hang = Doubled(chains=(chain(20),), suspension=suspension)
    return replace(BENCH, rig=rig(60.0, hang), notes=(note,) if note else ())


def test_a_taut_feeder_reaches_its_working_length_down() -> None:
    ware = placed(feeding(held(0.5)), 1.0)
    top, low = ware.connector
    assert ware.runs[-1].course.length_m == pytest.approx(0.5)
    assert top[1] == pytest.approx(0.5)
    assert low == pytest.approx((top[0], 0.415))


def test_a_slack_feeder_keeps_its_length_and_lies_on_the_floor() -> None:
    ware = placed(feeding(held(0.9)), 0.6)
    course = ware.runs[-1].course
    assert course.length_m == pytest.approx(0.9)
    assert min(height for _, height in course.points) > 0
    assert max(height for _, height in course.points[2:]) < 0.2
    (_, top), (_, low) = ware.connector
    assert 0 < low <= top < 0.2


def test_a_connector_just_on_the_floor_leans() -> None:
    (x, top), (foot_x, low) = placed(feeding(held(0.55)), 0.6).connector
    assert foot_x > x
    assert top == pytest.approx(0.05)
    assert (foot_x - x) ** 2 + (top - low) ** 2 == pytest.approx(0.085**2)


def test_rings_sit_at_every_setting() -> None:
    marks = (0.2, 0.3, 0.4, 0.5, 0.6, 0.9)
    ware = placed(feeding(held(0.5, 0.7), HangNote(marks_m=marks)), 1.0)
    tail, feeder = ware.runs
    assert feeder.rings_m == (0.2, 0.3, 0.4, 0.5)
    assert tail.rings_m == pytest.approx((0.1,))
    assert [feeder.course.at(ring)[1] for ring in feeder.rings_m] == pytest.approx(
        [0.8, 0.7, 0.6, 0.5]
    )


def test_the_tail_hangs_aside_with_the_length_that_is_left() -> None:
    tail, feeder = placed(feeding(held(0.5, 0.8)), 1.0).runs
    assert tail.course.points[0] == feeder.course.points[-1]
    assert tail.course.length_m == pytest.approx(0.3)
    assert tail.course.points[-1][0] < feeder.course.points[-1][0]


def test_links_of_a_feeder_are_as_long_as_its_steps() -> None:
    note = HangNote(form="links", marks_m=(0.3, 0.328, 0.356))
    assert placed(feeding(held(0.5), note), 1.0).step_m == pytest.approx(0.028)
    coarse = HangNote(form="links", marks_m=(0.3, 0.4))
    assert placed(feeding(held(0.5), coarse), 1.0).step_m == pytest.approx(0.05)


def test_a_connector_without_length_is_a_lump() -> None:
    ware = placed(feeding(Suspension(feeder_m=0.5, connector_kg=0.3)), 1.0)
    assert ware.connector_m == 0
    assert ware.connector[0] == ware.connector[1]


def test_other_hangs_have_no_feeder() -> None:
    (hung,) = plan(DEADLIFT).hangs
    assert hardware(hung, HangNote(), 0.8, 0.0) is None


def test_a_course_is_walked_by_its_length() -> None:
    course = Course(((0.0, 1.0), (0.0, 0.0), (1.0, 0.0)))
    assert course.at(-1.0) == (0.0, 1.0)
    assert course.at(0.25) == (0.0, 0.75)
    assert course.at(1.5) == (0.5, 0.0)
    assert course.at(9.0) == (1.0, 0.0)
    assert course.part(0.5, 1.5).points == ((0.0, 0.5), (0.0, 0.0), (0.5, 0.0))
    assert course.places(0.5)[0] == (0.0, 1.0)
    assert len(course.places(0.5)) == 5


@pytest.mark.parametrize("aside_m", [0.0, -0.08])
@pytest.mark.parametrize("length_m", [0.01, 0.3, 2.0])
def test_what_runs_down_and_along_keeps_its_length(length_m: float, aside_m: float) -> None:
    course = down_and_along((0.5, 0.6), length_m, 0.1, aside_m)
    assert course.length_m == pytest.approx(length_m)
    assert min(height for _, height in course.points) > 0.1
