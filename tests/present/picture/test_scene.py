"""A scene refuses what can't be drawn, and fills in what was not told."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from tests.present.picture.scenes import BENCH, DEADLIFT, chain, rig
from topheavy.errors import BadInputError
from topheavy.mechanics.ground import Ground
from topheavy.present.picture import Disc, HangNote

if TYPE_CHECKING:
    from topheavy.present.picture import Scene


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"bottom_m": 1.0}, "bottom_m"),
        ({"bottom_m": float("nan")}, "bottom_m"),
        ({"top_m": float("inf")}, "top_m"),
        ({"ground": Ground(surface_m=0.6)}, "surface_m"),
        ({"pad_m": -0.1}, "pad_m"),
        ({"collar_m": -0.1}, "collar_m"),
        ({"sleeve_m": 0.0}, "sleeve_m"),
        ({"plate_m": 0.0}, "plate_m"),
    ],
)
def test_what_cannot_be_drawn_is_refused(change: dict[str, Any], field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        replace(BENCH, **change)
    assert caught.value.field == field


def test_sizes_of_parts_are_positive() -> None:
    with pytest.raises(BadInputError):
        Disc(width_m=0.0, diameter_m=0.45)
    with pytest.raises(BadInputError):
        HangNote(marks_m=(0.3, 0.0))
    with pytest.raises(BadInputError):
        HangNote(wire_m=(-0.01,))


def test_a_wire_is_never_thicker_than_a_link_has_room_for() -> None:
    assert HangNote(wire_m=(0.016,)).wire_of(0, chain(4)) == 0.016
    assert HangNote(wire_m=(0.05,)).wire_of(0, chain(4)) == pytest.approx(0.45 * 0.056)
    assert HangNote().wire_of(3, chain(4)) == pytest.approx(0.016)


def test_plates_not_listed_are_one_big_plate() -> None:
    scene = replace(BENCH, discs=())
    assert scene.drawn_discs() == (Disc(width_m=0.06, diameter_m=0.45),)
    assert replace(scene, rig=rig(0.0)).drawn_discs() == ()


def test_no_plate_goes_through_the_floor() -> None:
    scene: Scene = replace(DEADLIFT, bottom_m=0.2)
    assert scene.drawn_discs()[0].diameter_m == pytest.approx(0.4)


def test_each_end_can_be_drawn() -> None:
    assert replace(BENCH, end="left").drawn_end is BENCH.rig.left
    assert BENCH.drawn_end is BENCH.rig.right


def test_the_lowest_floor_is_where_the_chain_lies_beside_a_platform() -> None:
    assert BENCH.low_m == 0.0
    assert replace(BENCH, ground=Ground(surface_m=-0.2)).low_m == -0.2
