"""Room files: the example, what is read of one, and every mistake told with its place."""

from __future__ import annotations

import json
import tomllib
from typing import TYPE_CHECKING

import jsonschema
import pytest

from topheavy.errors import BadInputError, FileError, NotInStockError
from topheavy.gymfile import demo_gym
from topheavy.room.week import Week
from topheavy.roomfile import (
    RoomFileError,
    demo_room,
    demo_room_text,
    parse_asked,
    parse_room,
    read_room,
    room_schema,
)
from topheavy.roomfile.kept import read_kept
from topheavy.roomfile.today import arrivals

if TYPE_CHECKING:
    from pathlib import Path

HEAD = '[room]\nopens = "18:00"\ncloses = "19:00"\n'
ONE = '[[session]]\nlifter = "Osric"\nlift = "squat"\nbottom = "110 kg"\ntop = "150 kg"\n'


def test_the_example_fits_its_schema_and_the_schema_is_sound() -> None:
    jsonschema.Draft202012Validator.check_schema(room_schema())
    jsonschema.validate(tomllib.loads(demo_room_text()), room_schema())


def test_what_the_example_says_is_read() -> None:
    room = demo_room()
    assert (room.name, room.opens_s, room.length) == ("Tuesday", 18 * 3600, 135 * 4)
    assert (room.spotters, len(room.bookings), len(room.stations)) == (2, 9, 4)
    squat = next(b for b in room.bookings if b.name == "Osric, squat")
    assert squat.ask.bottom_kg == pytest.approx(0.58 * 190)
    late = next(b for b in room.bookings if b.name == "Pip, squat")
    assert (late.arrives, late.rest_s, late.tolerance_kg) == (40, 150.0, 2.5)
    assert not next(b for b in room.bookings if b.name == "Wren, squat").may_spot


def test_after_midnight_is_later() -> None:
    text = HEAD.replace("18:00", "23:30").replace("19:00", "00:45") + ONE + 'arrive = "00:05"\n'
    room = parse_room(text, demo_gym())
    assert (room.length, room.bookings[0].arrives) == (75 * 4, 35 * 4)


def test_matched_rigs_are_asked_for_without_loads() -> None:
    text = HEAD + '[[session]]\nlifter = "Osric"\nlift = "squat"\nmatch = true\neffort = "85 %"\n'
    (booking,) = parse_room(text, demo_gym()).bookings
    assert booking.effort == pytest.approx(0.85)


MISTAKES = {
    "closes = 5": ("Not a time of day", "room.closes", "line 3, column 1"),
    'closes = "18:00"': ("It closes as it opens", "room.closes"),
    'closes = "25:00"': ("Not a time of day", "room.closes"),
    'stations = ["bench 9"]': ("No station called 'bench 9'", "room.stations"),
    'stations = ["bench 1"]': ("no station in use suits", "room.stations"),
    'broken = ["Z9"]': ("No chain piece 'Z9' in stock", "room"),
    'rep = "4"': ("Not a length of time", "room.rep", "line 4"),
    "spotters = -1": ("Too small", "room.spotters"),
    'within = "2.5"': ("Not a mass", "room.within"),
    'wihtin = "2 kg"': ('Unknown key "wihtin"', '"within"?'),
}


@pytest.mark.parametrize("line", MISTAKES)
def test_a_mistake_in_the_room_is_told_with_its_place(line: str) -> None:
    head = (
        HEAD.replace('closes = "19:00"\n', f"{line}\n")
        if line.startswith("closes")
        else (HEAD + line + "\n")
    )
    with pytest.raises(RoomFileError) as caught:
        parse_room(head + ONE, demo_gym())
    said = "\n".join(caught.value.lines())
    for words in MISTAKES[line]:
        assert words in said, said


SESSIONS = {
    ONE.replace("Osric", "Osrik"): ("No lifter called 'Osrik'", "session[1].lifter"),
    ONE.replace("squat", "sqat"): ("No lift called 'sqat'", "squat"),
    ONE.replace('top = "150 kg"\n', ""): ("just two of", "session[1].bottom"),
    ONE.replace("110 kg", "160 kg"): ("Chain makes the top heavier",),
    ONE.replace("110 kg", "110"): ("Not a mass", "session[1].bottom (Osric, line 7, column 1)"),
    ONE + "sets = 0\n": ("Too small", "session[1].sets"),
    ONE + 'arrive = "17:00"\n': ("A time when the room is closed", "session[1].arrive"),
    ONE + 'arrive = "18:30"\nleave = "18:20"\n': ("Nobody leaves before coming",),
    ONE + 'station = "bench 1"\n': ("no station in use suits",),
    ONE + "match = true\n": ("matched to the lifter or to loads", "session[1].match"),
    ONE + 'effort = "80 %"\n': ("counts only when the rig is matched", "session[1].effort"),
    ONE + ONE: ("is listed twice", "session[1].lift", "session[2].lift"),
    ONE.replace("Osric", "Wren").replace("110 kg", "60 %"): ("no best is known",),
    "": ("Nobody lifts",),
    "[session]\n": ("There can be several of session",),
}


@pytest.mark.parametrize("session", SESSIONS)
def test_a_mistake_in_a_session_is_told_with_its_place(session: str) -> None:
    with pytest.raises(RoomFileError) as caught:
        parse_room(HEAD + session, demo_gym())
    said = "\n".join(caught.value.lines())
    for words in SESSIONS[session]:
        assert words in said, said


def test_all_mistakes_are_told_at_once() -> None:
    with pytest.raises(RoomFileError, match="2 mistakes"):
        parse_room(HEAD + ONE + "reps = 99\n" + ONE.replace("squat", "sqat"), demo_gym())


def test_files_that_are_none(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such file"):
        read_room(tmp_path / "none.toml", demo_gym())
    broken = tmp_path / "broken.toml"
    broken.write_text("[room\n")
    with pytest.raises(FileError, match="Not valid TOML"):
        read_room(broken, demo_gym())


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("Pip", BadInputError),
        ("Pip=25:00", BadInputError),
        ("Pip=23:00", BadInputError),
        ("Nobody=18:30", NotInStockError),
    ],
)
def test_late_lifters_that_make_no_sense_are_refused(text: str, error: type[Exception]) -> None:
    with pytest.raises(error):
        arrivals(demo_room(), [text])


@pytest.mark.parametrize(
    "text", ["", "{}", "[]", '{"topheavy": "room plan", "lifts": [{"lifter": 5}]}']
)
def test_a_kept_plan_that_is_none_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "plan.json"
    path.write_text(text)
    with pytest.raises(FileError, match="Not a plan that was kept"):
        read_kept(path)


def test_the_schema_is_json() -> None:
    assert json.loads(json.dumps(room_schema())) == room_schema()


WEEK = (
    HEAD
    + 'broken = ["A3"]\na_day = 2\n[[day]]\nname = "Monday"\n'
    + '[[day]]\nname = "Thursday"\nopens = "17:30"\ncloses = "20:00"\nstations = ["rack"]\n'
    + 'spotters = 3\nbroken = ["A4"]\n'
    + ONE
)


def test_a_week_has_days_and_each_lift_as_asked_for_on_its_days() -> None:
    week = parse_asked(WEEK + 'arrive = "18:10"\n' + ONE + 'days = ["thursday"]\n', demo_gym())
    assert isinstance(week, Week)
    monday, thursday = week.days
    assert (monday.opens_s, monday.length, monday.broken) == (18 * 3600, 240, ("A3",))
    assert (thursday.length, thursday.spotters, thursday.broken) == (600, 3, ("A3", "A4"))
    assert [one.name for one in thursday.stations] == ["rack"]
    first, second = week.wishes
    assert {day: booking.arrives for day, booking in first.on.items()} == {0: 40, 1: 160}
    assert list(second.on) == [1]
    assert week.a_day == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (WEEK + 'days = ["Friday"]\n', "No such day"),
        (WEEK + 'arrive = "19:30"\n', "when the room is closed"),
        (WEEK.replace('name = "Thursday"', 'name = "monday"'), "listed twice"),
        (WEEK.replace('"A4"', '"Z9"'), "Z9"),
        (WEEK.replace('["rack"]', '["attic"]'), "attic"),
        (WEEK.replace('["rack"]', '["bench 1"]'), "no station in use suits"),
        ("day = 3\n" + HEAD + ONE, "A week has 1 to 14 days"),
        (HEAD + ONE + 'days = ["Monday"]\n', "Only a week has several days"),
        (HEAD + "a_day = 2\n" + ONE, "Only a week has several days"),
    ],
)
def test_mistakes_in_a_week_are_told(text: str, said: str) -> None:
    with pytest.raises(RoomFileError) as caught:
        parse_asked(text, demo_gym())
    assert said in str(caught.value)


def test_where_one_session_is_wanted_a_week_is_refused() -> None:
    with pytest.raises(RoomFileError, match="one session is wanted"):
        parse_room(WEEK, demo_gym())
    assert not isinstance(parse_asked(HEAD + ONE, demo_gym()), Week)
