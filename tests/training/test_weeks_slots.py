"""Sessions of a block, changes by hand applied."""

from __future__ import annotations

from dataclasses import replace

from tests.training.blocks import SQUAT, block
from topheavy.training.weeks import Change, TrainingDay, Wave
from topheavy.training.weeks_slots import slots_of

CHAIN = (Wave(hang="chain", weeks=2),)
WHO = ("Osric", "Pip")


def test_every_lifter_every_day_every_week_then_the_test() -> None:
    bench = TrainingDay(weekday=3, lifts=("bench press",), kind="speed", lifters=("Pip",))
    slots, idle = slots_of(block(SQUAT, bench, waves=CHAIN), WHO)
    assert idle == ()
    assert [(one.week, one.weekday, one.lifter, one.kind) for one in slots] == [
        (1, 0, "Osric", "heavy"),
        (1, 0, "Pip", "heavy"),
        (1, 3, "Pip", "speed"),
        (2, 0, "Osric", "heavy"),
        (2, 0, "Pip", "heavy"),
        (2, 3, "Pip", "speed"),
        (3, 0, "Osric", "test"),
        (3, 0, "Pip", "test"),
        (3, 3, "Pip", "test"),
    ]
    assert all(one.hang == "straight" for one in slots if one.kind == "test")


def test_a_lift_is_tested_once_on_its_heavy_day() -> None:
    speed = replace(SQUAT, kind="speed")
    heavy = replace(SQUAT, weekday=4)
    tests = [one for one in slots_of(block(speed, heavy, waves=CHAIN), WHO)[0] if one.week == 3]
    assert [(one.weekday, one.lifter) for one in tests] == [(4, "Osric"), (4, "Pip")]


def test_lifts_rotate_from_wave_to_wave() -> None:
    day = TrainingDay(weekday=0, lifts=("squat", "paused squat"))
    slots, _ = slots_of(block(day, waves=CHAIN * 3, test_week=False), ("Pip",))
    assert [one.lift for one in slots] == ["squat"] * 2 + ["paused squat"] * 2 + ["squat"] * 2


def test_a_day_may_hang_other_than_its_wave() -> None:
    slots, _ = slots_of(block(replace(SQUAT, hang="straight"), waves=CHAIN), ("Pip",))
    assert {one.hang for one in slots} == {"straight"}
    assert {one.share for one in slots} == {0.0}


def test_nothing_is_planned_before_the_start() -> None:
    wednesday = replace(SQUAT, weekday=2)
    slots, _ = slots_of(block(SQUAT, wednesday, waves=CHAIN, first_weekday=1), ("Pip",))
    assert [(one.week, one.weekday) for one in slots][:2] == [(1, 2), (2, 0)]


def test_a_deload_has_fewer_sets_and_less_load() -> None:
    slots, _ = slots_of(block(waves=(Wave(hang="chain", weeks=3, deload=True),)), ("Pip",))
    first, last = slots[0], slots[2]
    assert last.deload
    assert not first.deload
    assert (last.sets, last.reps) == (3, first.reps)
    assert last.load < first.load


def test_changes_reach_what_they_speak_of_and_no_more() -> None:
    changes = (
        Change(week=1, lifter="Pip", load=0.7, sets=2, note="tired"),
        Change(week=2, weekday=0, load_kg=120.0, share=0.1),
        Change(week=2, lifter="Osric", off=True),
        Change(week=1, lift="deadlift", off=True),
        Change(week=9, off=True),
    )
    slots, idle = slots_of(block(waves=CHAIN, changes=changes, test_week=False), WHO)
    osric, pip, pip_2 = slots
    assert (osric.load, osric.sets, osric.note) == (0.8, 5, "")
    assert (pip.load, pip.sets, pip.reps, pip.note) == (0.7, 2, 3, "tired")
    assert (pip_2.load_kg, pip_2.share) == (120.0, 0.1)
    assert idle == changes[3:]


def test_the_later_of_two_changes_holds() -> None:
    changes = (Change(week=1, load_kg=90.0), Change(week=1, load=0.6))
    slots, _ = slots_of(block(waves=CHAIN, changes=changes), ("Pip",))
    assert (slots[0].load, slots[0].load_kg) == (0.6, None)


def test_off_stays_off_whatever_follows() -> None:
    changes = (Change(week=1, off=True), Change(week=1, sets=2))
    slots, idle = slots_of(block(waves=CHAIN, changes=changes, test_week=False), ("Pip",))
    assert [one.week for one in slots] == [2]
    assert idle == ()
