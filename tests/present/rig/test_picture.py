"""From an answer to its picture: rig, heights, floor and names as they are."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.present.answers import (
    ANSWERS,
    BENCH,
    DEADLIFT,
    DRAGGED,
    PRESS,
    RINGS,
    SQUAT,
    STRAIGHT,
    answer,
    built,
    pieces,
    place,
    ring,
)
from tests.present.picture.reading import figure, links, parse, words
from topheavy.present.picture import draw_rig, to_png
from topheavy.present.rig.picture import rig_picture, rig_scene
from topheavy.present.rig.view import view_rig
from topheavy.units import METRIC, POUNDS, UnitSystem

if TYPE_CHECKING:
    from topheavy.services.rig import RigAnswer

EACH = pytest.mark.parametrize("given_answer", ANSWERS.values(), ids=ANSWERS)
BOTH = pytest.mark.parametrize("units", [METRIC, POUNDS], ids=["kg", "lb"])


def _texts(svg: str) -> list[str]:
    """Everything that is written in the picture."""
    return words(parse(svg))


@EACH
@BOTH
def test_the_picture_says_the_view_s_loads(given_answer: RigAnswer, units: UnitSystem) -> None:
    view = view_rig(given_answer, units)
    texts = _texts(rig_picture(given_answer, units))
    assert f"{view.lifter}, {view.lift}, {view.station}" in texts
    for row in (view.loads[0], view.loads[-1]):
        assert units.mass(row.raising.value) in texts


@EACH
def test_links_drawn_off_and_down_are_those_of_the_view(given_answer: RigAnswer) -> None:
    """Counted in the drawing: every link a path, in a group of those off or of those down."""
    rows = view_rig(given_answer, METRIC).right
    root = parse(rig_picture(given_answer, METRIC))
    for pose, off, down in (("bottom", "off_bottom", "on_bottom"), ("top", "off_top", "on_top")):
        drawn = figure(root, pose)
        assert len(links(drawn, "off")) == sum(getattr(row, off) for row in rows)
        assert len(links(drawn, "down")) == sum(getattr(row, down) for row in rows)


@EACH
def test_the_scene_is_the_place_and_the_rig(given_answer: RigAnswer) -> None:
    where, scene = given_answer.question.place, rig_scene(given_answer, METRIC)
    assert scene.rig is given_answer.best.rig
    assert (scene.bottom_m, scene.top_m) == (where.travel.bottom_m, where.travel.top_m)
    assert (scene.ground, scene.station_kind) == (where.ground, where.station.kind)
    assert scene.pad_m == where.station.pad_m
    assert (scene.sleeve_m, scene.collar_m) == (0.415, 0.05)
    assert scene.heading == ""


def test_plates_stand_from_the_inside_out_as_loaded() -> None:
    scene = rig_scene(SQUAT, METRIC)
    assert [disc.diameter_m for disc in scene.discs] == [0.45, 0.45, 0.19, 0.16]
    assert scene.plates == "20 + 20 + 2.5 + 1.25 kg"
    assert rig_scene(PRESS, METRIC).discs == ()


def test_the_feeder_keeps_its_form_its_marks_and_its_setting() -> None:
    (rings,) = rig_scene(BENCH, METRIC).notes
    assert (rings.form, rings.feeder) == ("rings", "ring 5")
    assert rings.marks_m == tuple(setting.length_m for setting in RINGS.settings)
    (strap,) = rig_scene(SQUAT, POUNDS).notes
    assert (strap.form, strap.feeder) == ("strap", "75.0 cm")


def test_a_mark_that_is_its_own_length_is_said_once() -> None:
    """A strap set at 75.0 cm is 75.0 cm long: no need to say it twice."""
    (strap,) = rig_scene(SQUAT, METRIC).notes
    assert strap.feeder == ""
    assert not any("75.0 cm, 75.0 cm" in text for text in _texts(rig_picture(SQUAT, METRIC)))


def test_pieces_keep_tag_and_wire() -> None:
    where = place()
    mixed = built(
        where,
        ring("5"),
        (*pieces("A1"), *pieces("C1", 38, "1/2 in")),
        (*pieces("A2"), *pieces("C2", 38, "1/2 in")),
    )
    (note,) = rig_scene(answer(where, mixed), METRIC).notes
    assert note.pieces == ("A2", "C2")
    assert note.wire_m == (0.28 * 0.056, 0.28 * 0.056)


def test_each_straight_piece_has_its_own_hang_and_name() -> None:
    scene = rig_scene(STRAIGHT, METRIC)
    assert [note.pieces for note in scene.notes] == [("A3",), ("A4",)]
    assert scene.straight is None


def test_other_rigs_are_compared_with_the_same_chain_hung_straight() -> None:
    for compared in (BENCH, DEADLIFT, DRAGGED):
        scene = rig_scene(compared, METRIC)
        assert scene.straight is not None
        curve = scene.straight.curve(scene.ground, "raising")
        loads = curve.at((scene.bottom_m, scene.top_m))
        assert loads == pytest.approx(
            [compared.straight.bottom.load_kg, compared.straight.top.load_kg]
        )


def test_a_bitmap_is_made_of_it() -> None:
    data = to_png(draw_rig(rig_scene(BENCH, METRIC)), 600)
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert int.from_bytes(data[16:20]) == 600


def test_names_with_markup_stay_names() -> None:
    odd = place(lifter='<b>"A & B"</b> #1')
    svg = rig_picture(answer(odd, built(odd, ring("5"), pieces("A1"), pieces("A2"))), METRIC)
    assert '<b>"A & B"</b> #1, bench press, the corner' in _texts(svg)
    assert re.search(r"<b>", svg) is None
