"""From rows to sets; everything wrong told by line."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING

import pytest

from tests.logfile.files import GYM, HEAD, mistakes, sets, table
from topheavy.gym.log import RigThen
from topheavy.logfile.mapping import Said, map_file
from topheavy.logfile.read import read_sets

if TYPE_CHECKING:
    from pathlib import Path

ROW = "2026-11-25,osric,bench,100,3"


def test_a_row_becomes_a_set(tmp_path: Path) -> None:
    (one,) = sets(
        tmp_path,
        '25.11.2026;Wren;8:05;"Bench Press";bench 2;Tue;2;185;190;"200,5";211;Ketten;4;"0,5";35;1;'
        "low",
        head="Date;Lifter;Time;Exercise;Station;Session;Set;Weight (lb);Bottom (lb);Mean (lb);"
        "Top (lb);Rig;Reps;Reps left;Speed (cm/s);x;Note",
    )
    assert (one.day, one.time, one.lifter, one.lift) == (
        "2026-11-25",
        "08:05",
        "Wren",
        "bench press",
    )
    assert (one.station, one.session, one.number, one.reps) == ("bench 2", "Tue", 2, 4)
    assert one.straight_kg == pytest.approx(185 * 0.45359237, abs=1e-6)
    assert one.rig is not None
    assert one.rig.mean_kg == pytest.approx(200.5 * 0.45359237, abs=1e-6)
    assert (one.rig.words, one.reps_left, one.speed_m_per_s) == ("Ketten", 0.5, 0.35)
    assert (one.missed, one.note) == (False, "low")


@pytest.mark.parametrize(
    ("cells", "missed", "third"),
    [
        (",", False, None),
        ("yes,", True, None),
        (",middle", True, "middle"),
        ("x,BOTTOM", True, "lower"),
        ("no,", False, None),
    ],
)
def test_misses(tmp_path: Path, cells: str, missed: bool, third: str | None) -> None:
    (one,) = sets(tmp_path, f"{ROW},{cells}", head=f"{HEAD},missed,third")
    assert (one.missed, one.third) == (missed, third)


def test_what_holds_for_every_row(tmp_path: Path) -> None:
    said = Said(always={"lifter": "pip", "lift": "squat", "station": "rack"})
    (one,) = sets(tmp_path, "2026-11-25,60 kg,5", head="day,straight,reps", said=said)
    assert (one.lifter, one.lift, one.station) == ("Pip", "squat", "rack")


def test_the_same_file_gives_the_same_ids_and_sets_alike_differ(tmp_path: Path) -> None:
    first = sets(tmp_path, ROW, ROW, ROW.replace("3", "5"))
    again = sets(tmp_path, ROW, ROW.replace("3", "5"), ROW, ROW)
    assert len({one.id for one in first}) == 3
    assert {one.id for one in first} < {one.id for one in again}


def test_every_mistake_is_told_by_line_and_the_same_ones_together(tmp_path: Path) -> None:
    rows = [
        ROW,
        ROW.replace("osric", "Zed"),
        ROW.replace("2026-11-25", "2026-02-30"),
        ROW.replace("100", "heavy"),
        ROW.replace(",3", ",-3"),
        ROW.replace("osric", "Zed"),
        ROW.replace(",100", ","),
        ROW.replace(",3", ",2.5"),
        ROW.replace("100", "-5"),
        ROW.replace("bench", "yoga"),
        ROW.replace(",3", ",0"),
    ]
    assert mistakes(tmp_path, *rows) == [
        ("No lifter called 'Zed'", "lines 3, 7, lifter", "'Zed'"),
        ("Not a day", "line 4, day", "'2026-02-30'"),
        ("Not a number", "line 5, straight", "'heavy'"),
        ("That can't be so", "line 6, reps", "-3"),
        ("The straight is missing", "line 8, straight", ""),
        ("Not a whole number", "line 9, reps", "'2.5'"),
        ("That can't be so", "line 10, straight", "-5.0"),
        ("No lift called 'yoga'", "line 11, lift", "'yoga'"),
        ("No repetition was done and none missed", "line 12, reps", ""),
    ]


@pytest.mark.parametrize(
    ("head", "cells", "message"),
    [
        ("rig", "A1", "Something hung"),
        ("bottom (kg)", "100", "loads at bottom and top"),
        ("bottom (kg),mean (kg),top (kg)", "100,90,120", "mean load lies outside"),
        ("bottom (kg),top (kg)", "80,120", "below the straight weight"),
        ("third", "knee", "Not a third"),
        ("missed", "perhaps", "Neither yes nor no"),
        ("time", "25:00", "Not a time"),
        ("id", "7", "Not a UUID"),
        ("curve", "up", "Not heights and loads"),
        ("reps left", "12", "repetitions left"),
        ("station", "bench 9", "No station"),
        ("note", "a\x07b", "Not a usable text"),
    ],
)
def test_more_that_can_not_be(tmp_path: Path, head: str, cells: str, message: str) -> None:
    rigged = head if not head.startswith("curve") else "bottom (kg),top (kg),curve"
    cells = cells if not head.startswith("curve") else f"100,120,{cells}"
    ((said, where, _),) = mistakes(tmp_path, f"{ROW},{cells}", head=f"{HEAD},{rigged}")
    assert message in said
    assert where.startswith("line 2")


def test_without_a_mean_the_middle_of_both_ends_is_taken(tmp_path: Path) -> None:
    (one,) = sets(tmp_path, f"{ROW},100,120", head=f"{HEAD},bottom (kg),top (kg)")
    assert one.rig == RigThen(bottom_kg=100, mean_kg=110, top_kg=120)


def test_progress_is_told(tmp_path: Path) -> None:
    rows = table(tmp_path, *[ROW] * 4_500)
    told: list[int] = []
    read_sets(rows, map_file(rows, Said()), GYM, done=told.append)
    assert told == [2_000, 4_000]


def test_ids_are_uuids_of_the_content_as_the_library_makes_them(tmp_path: Path) -> None:
    """RFC 9562 version 5, of a text that must never change: else files would come in twice."""
    head = f"{HEAD},bottom (kg),top (kg),rig,note"
    first, again = sets(tmp_path, *[f"{ROW},100,120,A1,it's"] * 2, head=head)
    said = {
        name: getattr(first, name)
        for name in (
            "lifter", "lift", "station", "day", "time", "session", "number", "straight_kg", "rig",
            "reps", "reps_left", "speed_m_per_s", "missed", "third", "note", "corrects", "struck",
        )
    }  # fmt: skip
    space = uuid.UUID("0b5f2f0e-6c55-4d0e-8a39-2f4f3b0c9d57")
    for number, one in enumerate((first, again), 1):
        assert one.id == str(uuid.uuid5(space, f"{GYM.name.casefold()}|{said!r}|{number}"))
