"""What was written down of a lifter, in a gym file."""

from __future__ import annotations

import pytest

from tests.gymfile.samples import problems, read
from topheavy.gym.records import (
    BandsUsed,
    HungLift,
    HungThen,
    LiftedSet,
    MissedRep,
    PinEffort,
    Record,
    SpeedRead,
)
from topheavy.units import KG_PER_LB, M_PER_IN

STOCK = """
[[chain]]
tags = ["A1", "A2"]
size = "5/8 in"
links = 32
[[feeder]]
name = "strap"
form = "rings"
count = 2
rings = ["60 cm", "64 cm"]
labels = ["1", "2"]
mass = "0.3 kg"
whole = "70 cm"
[[connector]]
name = "screw link"
count = 2
mass = "180 g"
length = "7 cm"
rating = "850 kg"
[[band]]
tag = "red-1"
rest = "45 cm"
readings = [{ length = "60 cm", pull = "4.7 kg" }, { length = "80 cm", pull = "10.4 kg" },
  { length = "100 cm", pull = "14.6 kg" }]
[[band]]
tag = "red-2"
rest = "45 cm"
readings = [{ length = "60 cm", pull = "4.7 kg" }, { length = "80 cm", pull = "10.4 kg" },
  { length = "100 cm", pull = "14.6 kg" }]
[[station]]
name = "bench 1"
kind = "bench"
pegs = [{ name = "low", height = "12 cm", offset = "6 cm" },
  { name = "high", height = "1.9 m", offset = "6 cm" }]
[[lifter]]
name = "Osric"
[lifter.lifts.bench]
bottom = "66 cm"
top = "107 cm"
"""
HUNG = 'left = ["A1"], right = ["A2"], feeder = "strap", setting = 2, connector = "screw link"'


def records(rows: str) -> tuple[Record, ...]:
    return read(STOCK + rows).lifter("Osric").lifts["bench press"].records


def test_a_lift_without_records_has_none() -> None:
    assert records("") == ()


def test_sets_from_full_range_and_from_pins() -> None:
    assert records(
        'sets = [{ load = "220 lb", reps = 5, reps_left = 1.5, day = "2026-10-03" }, '
        '{ load = "150 kg", start = "33 in", tried = false }]'
    ) == (
        LiftedSet(load_kg=round(220 * KG_PER_LB, 12), reps=5, reps_left=1.5, day="2026-10-03"),
        LiftedSet(load_kg=150.0, from_m=round(33 * M_PER_IN, 12), tried=False),
    )


def test_efforts_misses_and_speeds() -> None:
    assert records(
        'isometrics = [{ height = "80 cm", effort = "290 kg", rest = "115 kg" }]\n'
        'misses = [{ straight = "147.5 kg", height = "84 cm" }, '
        f'{{ straight = "120 kg", third = "top", hung = {{ {HUNG} }} }}]\n'
        'speeds = [{ load = "100 kg", speed = "45 cm/s", kind = "propulsive" }]'
    ) == (
        PinEffort(height_m=0.8, effort_kg=290.0, rest_kg=115.0),
        MissedRep(straight_kg=147.5, height_m=0.84),
        MissedRep(straight_kg=120.0, third="top", hung=CHAIN),
        SpeedRead(load_kg=100.0, speed_m_per_s=0.45, kind="propulsive"),
    )


CHAIN = HungThen(left=("A1",), right=("A2",), feeder="strap", setting="2", connector="screw link")


def test_bests_with_chain_and_with_bands() -> None:
    assert records(
        f'hung = [{{ straight = "120 kg", {HUNG} }}, '
        '{ straight = "110 kg", bands = [{ left = "red-1", right = "red-2", peg = "low" }] }]'
    ) == (
        HungLift(straight_kg=120.0, hung=CHAIN),
        HungLift(
            straight_kg=110.0,
            hung=HungThen(bands=(BandsUsed(left="red-1", right="red-2", peg="low"),)),
        ),
    )


def test_both_ways_to_write_a_row_are_the_same() -> None:
    in_line = 'sets = [{ load = "100 kg" }, { load = "90 kg", reps = 3 }]'
    long = (
        '[[lifter.lifts.bench.sets]]\nload = "100 kg"\n'
        '[[lifter.lifts.bench.sets]]\nload = "90 kg"\nreps = 3\n'
    )
    assert records(in_line) == records(long)


BENCH = "lifter[1].lifts.bench."
TWICE = '{ straight = "120 kg", left = ["A1"], right = ["A1"], style = "draped" }'
NO_PIECE = (
    'misses = [{ straight = "120 kg", third = "top", '
    'hung = { left = ["A9"], style = "straight" } }]'
)
LONG = '{ straight = "120 kg", bands = [{ left = "red-1", right = "red-2", peg = "high" }] }'


@pytest.mark.parametrize(
    ("rows", "message", "field", "got", "wanted"),
    [
        ('sets = [{ load = "100" }]', "Not a mass", "sets[1].load", '"100"', "kg"),
        ('sets = [{ reps = 3 }]', '"load" is missing', "sets[1].load", "", "120 kg"),
        ('sets = [{ load = "100 kg", reps = 0 }]', "Too small", "sets[1].reps", "0", "1 to 30"),
        ('sets = [{ load = "100 kg", reps = 31 }]', "Too large", "sets[1].reps", "31", "1 to 30"),
        ('sets = [{ load = "100 kg", reps = 2.5 }]', "whole", "sets[1].reps", "2.5", "whole"),
        ('sets = [{ load = "100 kg", reps_left = -1 }]', "Too small", "sets[1].reps_left", "-1",
         "0 to 10"),
        ('sets = [{ load = "100 kg", reps_left = nan }]', "Too large", "sets[1].reps_left", "nan",
         "0 to 10"),
        ('sets = [{ load = "100 kg", reps_left = "two" }]', "Not a number", "sets[1].reps_left",
         "two", "0 to 10"),
        ('sets = [{ load = "100 kg", reps = 25, reps_left = 8 }]', "say nothing of a single",
         "sets[1].reps", "25", "30 or fewer"),
        ('sets = [{ load = "100 kg", start = "66 cm" }]', "outside the lift", "sets[1].start",
         "66 cm", "above 0.66 m"),
        ('sets = [{ load = "100 kg" }, { load = "90 kg", day = "2026-02-30" }]', "Not a day",
         "sets[2].day", "2026-02-30", "2026-09-12"),
        ('sets = [{ load = "100 kg", rep = 3 }]', "Unknown key", "sets[1].rep", "rep", "reps"),
        ('sets = { load = "100 kg" }', "Not a list", "sets", "a table", "sets and singles"),
        ('isometrics = [{ height = "1.2 m", effort = "290 kg", rest = "115 kg" }]',
         "outside the lift", "isometrics[1].height", "1.2 m", "below 1.07 m"),
        ('isometrics = [{ height = "80 cm", effort = "110 kg", rest = "115 kg" }]',
         "more at best effort", "isometrics[1].effort", "110 kg", "above the one at rest"),
        ('misses = [{ straight = "147.5 kg" }]', "Nothing says where", "misses[1].third", "",
         "lower, middle or top"),
        ('misses = [{ straight = "147.5 kg", height = "84 cm", third = "top" }]', "said twice",
         "misses[1].third", "", "a third"),
        ('misses = [{ straight = "147.5 kg", third = "upper" }]', "Not one of the words",
         "misses[1].third", "upper", "lower"),
        ('misses = [{ straight = "120 kg", third = "top", hung = { left = ["A9"] } }]',
         "hung from a feeder", "misses[1].hung", "", "ring strap"),
        (NO_PIECE, "No chain piece 'A9'", "misses[1].hung", "A9", "A1, A2"),
        ('hung = [{ straight = "120 kg" }]', "Nothing says what hung", "hung[1].left", "", "A1"),
        (f"hung = [{TWICE}]", "in two places", "hung[1]", "A1", "once"),
        (f'hung = [{{ straight = "120 kg", {HUNG} }}]'.replace("setting = 2", 'setting = "3"'),
         "no setting '3'", "hung[1]", "3", "1, 2"),
        (f'hung = [{{ straight = "120 kg", {HUNG}, style = "straight" }}]', "Only doubled chain",
         "hung[1].feeder", "strap", "no feeder"),
        (f"hung = [{LONG}]", "red-1", "hung[1]", "1.241 m", ""),
        (f"hung = [{LONG}]".replace("high", "roof"), "no band peg 'roof'", "hung[1]", "roof",
         "low, high"),
        ('speeds = [{ load = "100 kg", speed = "0.45" }]', "Not a speed", "speeds[1].speed",
         "0.45", "m/s"),
        ('speeds = [{ load = "100 kg", speed = 0.45 }]', "without its unit", "speeds[1].speed",
         "0.45", '"0.45 m/s"'),
        ('speeds = [{ load = "100 kg", speed = "45 m/s" }]', "too large to be true",
         "speeds[1].speed", "45 m/s", "5 m/s"),
    ],
)  # fmt: skip
def test_mistakes_are_told_at_their_row(
    rows: str, message: str, field: str, got: str, wanted: str
) -> None:
    (found,) = problems(STOCK + rows)
    assert found[1].startswith(BENCH + field)
    assert "(Osric, line" in found[1]
    for part, text in zip((message, got, wanted), (found[0], *found[2:]), strict=True):
        assert part in text


def test_a_gym_with_another_mistake_is_not_told_off_for_what_hung() -> None:
    rows = f'hung = [{{ straight = "120 kg", {HUNG} }}]'
    (found,) = problems((STOCK + rows).replace('mass = "180 g"', 'mass = "180"'))
    assert found[1].startswith("connector[1].mass")
