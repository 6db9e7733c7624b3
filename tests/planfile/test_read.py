"""Plan files: what they mean, and every mistake told with line and column."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING

import jsonschema
import pytest

from tests.services.training import TINY
from topheavy.errors import FileError
from topheavy.gymfile import demo_gym
from topheavy.planfile import (
    PlanFileError,
    demo_plan,
    demo_plan_text,
    parse_plan,
    plan_schema,
    read_plan,
)
from topheavy.training.weeks import USUAL_WAVES, Change, TrainingDay, Wave

if TYPE_CHECKING:
    from pathlib import Path

LEAST = """\
[plan]
start = "2026-11-30"
[[day]]
weekday = "monday"
lift = "squat"
"""
"""The least that makes a plan: five lines."""

WAVE = '[[wave]]\nhang = "chain"\nweeks = 2\n'


def told(text: str) -> list[str]:
    with pytest.raises(PlanFileError) as error:
        parse_plan(text, TINY)
    return [str(problem) for problem in error.value.problems]


def test_five_lines_make_a_plan() -> None:
    block = parse_plan(LEAST, TINY)
    assert len(LEAST.splitlines()) == 5
    assert block.days == (TrainingDay(weekday=0, lifts=("squat",)),)
    assert block.waves == USUAL_WAVES
    assert (block.name, block.lifters, block.test_week) == ("Weeks", (), True)


def test_everything_that_can_be_said() -> None:
    block = parse_plan(
        """
        [plan]
        name = "Block"
        start = 2026-12-02
        lifters = "ansa"
        test_week = false
        time_zone = "Europe/Vienna"

        [[day]]
        weekday = "friday"
        lift = ["bench", "squat"]
        kind = "speed"
        sets = 6
        reps = 2
        lifters = ["Ansa"]
        hang = "straight"
        time = 18:30:00
        minutes = 75

        [[wave]]
        hang = "mixed"
        weeks = 3
        share = ["10 %", "15 %", "20 %"]
        of = "best"
        load_at = "top"
        heavy = ["80 %", "85 %"]
        speed = "55 %"
        deload = true

        [[change]]
        week = 2
        lifter = "ANSA"
        lift = "bench"
        weekday = "friday"
        load = "220.462 lb"
        sets = 2
        note = "short of time"

        [[change]]
        week = 1
        load = "82 %"
        """,
        TINY,
    )
    assert (block.start, block.first_weekday, block.lifters) == ("2026-12-02", 2, ("Ansa",))
    assert (block.test_week, block.time_zone) == (False, "Europe/Vienna")
    assert block.days[0] == TrainingDay(
        weekday=4,
        lifts=("bench press", "squat"),
        kind="speed",
        sets=6,
        reps=2,
        lifters=("Ansa",),
        hang="straight",
        begins_min=1110,
        lasts_min=75,
    )
    assert block.waves == (
        Wave(
            hang="mixed",
            weeks=3,
            share=(0.1, 0.15, 0.2),
            of="best",
            at="top",
            loads={"heavy": (0.8, 0.85), "speed": (0.55,)},
            deload=True,
        ),
    )
    by_mass, by_share = block.changes
    assert by_mass.load_kg == pytest.approx(100.0, abs=1e-3)
    assert (by_mass.lifter, by_mass.lift, by_mass.weekday) == ("Ansa", "bench press", 4)
    assert by_share == Change(week=1, load=0.82)


@pytest.mark.parametrize(
    ("text", "where", "words"),
    [
        (LEAST.replace("11-30", "02-30"), "plan.start (line 2, column 1)", "no such day"),
        (LEAST.replace("2026-11-30", "soon"), "plan.start (line 2, column 1)", "year-month-day"),
        (LEAST.replace('"monday"', '"mon"'), "day[1].weekday (line 4, column 1)", "Not one of"),
        (LEAST.replace('"squat"', '"squatt"'), "day[1].lift (line 5, column 1)", "squat"),
        (LEAST + 'kind = "easy"\n', "day[1].kind (line 6, column 1)", "heavy"),
        (LEAST + "  sets = 99\n", "day[1].sets (line 6, column 3)", "1 to 20"),
        (LEAST + "sets = 2.5\n", "day[1].sets (line 6, column 1)", "whole number"),
        (LEAST + 'lifters = "Bo"\n', "day[1].lifters (line 6, column 1)", "one of Ansa"),
        (LEAST + 'station = "the bench"\n', "day[1].station (line 6, column 1)", "not done on"),
        (LEAST + 'station = "cellar"\n', "day[1].station (line 6, column 1)", "No station"),
        (LEAST + 'time = "18:30"\n', "day[1].time (line 6, column 1)", "time zone"),
        (LEAST + 'time = "25:00"\n', "day[1].time (line 6, column 1)", "hours and minutes"),
        (LEAST + "tme = 1\n", "day[1].tme (line 6, column 1)", '"time"?'),
        (LEAST.replace("[[day]]", "name = 3\n[[day]]"), "plan.name (line 3, column 1)", "quotes"),
        (
            LEAST.replace("[[day]]", 'time_zone = "Mars/Base"\n[[day]]'),
            "plan.time_zone (line 3, column 1)",
            "no such time zone",
        ),
        (LEAST + WAVE.replace("2", "5"), "wave[1].weeks (line 8, column 1)", "1 to 4"),
        (LEAST + WAVE.replace("chain", "rope"), "wave[1].hang (line 7, column 1)", "straight"),
        (LEAST + WAVE + "share = 20\n", "wave[1].share (line 9, column 1)", "20 %"),
        (LEAST + WAVE + 'share = "95 %"\n', "wave[1].share (line 9, column 1)", "too large"),
        (LEAST + WAVE + 'heavy = ["8 %", "9 %", "9 %"]\n', "wave[1].heavy (line 9", "each week"),
        (
            LEAST + WAVE + 'match = true\nshare = "20 %"\n',
            "wave[1].match (line 9, column 1)",
            "not both",
        ),
        (
            LEAST + WAVE + 'match = true\nheavy = "120 %"\n',
            "wave[1].heavy (line 10, column 1)",
            "at most 100 %",
        ),
        (
            LEAST + WAVE.replace("chain", "straight") + 'share = "20 %"\n',
            "wave[1].share (line 9, column 1)",
            "nothing hangs",
        ),
        (LEAST + "[[change]]\nweek = 2\n", "change[1] (line 6)", "changes nothing"),
        (LEAST + "[[change]]\nweek = 0\noff = true\n", "change[1].week (line 7", "1 to 52"),
        (LEAST + "[[change]]\nweek = 2\nload = 80\n", "change[1].load (line 8", "without its unit"),
        (LEAST + '[[change]]\nweek = 2\nload = "80 m"\n', "change[1].load (line 8", "mass"),
        (LEAST + '[[change]]\nweek = 2\nnote = "a\\nb"\n', "change[1].note (line 8", "one line"),
        (LEAST + "[weeks]\n", "weeks", "Unknown key"),
        (LEAST.replace("[plan]", "[[plan]]"), "plan", "single brackets"),
        (LEAST.replace("[[day]]", "[day]"), "day", "double brackets"),
        ("[[day]]\nweekday = 'monday'\nlift = 'squat'\n", "plan", "is missing"),
        ("[plan]\nstart = '2026-11-30'\n", "plan", "[[day]]"),
    ],
)
def test_a_mistake_is_told_where_it_is(text: str, where: str, words: str) -> None:
    (problem,) = told(text)
    assert f"where: {where}" in problem
    assert words in problem


def test_all_mistakes_are_told_at_once_in_order() -> None:
    text = LEAST.replace("monday", "moonday") + WAVE.replace("2", "9") + "[[change]]\nweek = 99\n"
    problems = told(text)
    assert [problem.split("where: ")[1].split(" ")[0] for problem in problems] == [
        "day[1].weekday",
        "wave[1].weeks",
        "change[1].week",
    ]


def test_broken_toml_is_told_with_line_and_column() -> None:
    with pytest.raises(FileError) as error:
        parse_plan(LEAST.replace('"monday"', "monday"), TINY, "mine.toml")
    assert error.value.field == "mine.toml, line 4, column 11"
    assert "[[day]]" in str(error.value.wanted)


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such file"):
        read_plan(tmp_path / "none.toml", TINY)
    with pytest.raises(FileError, match="directory"):
        read_plan(tmp_path, TINY)
    (tmp_path / "bad.toml").write_bytes(b"\xff\xfe[plan]")
    with pytest.raises(FileError, match="not UTF-8"):
        read_plan(tmp_path / "bad.toml", TINY)
    (tmp_path / "good.toml").write_text(LEAST, encoding="utf-8")
    assert read_plan(tmp_path / "good.toml", TINY) == parse_plan(LEAST, TINY)


def test_more_weeks_than_a_year_are_refused() -> None:
    (problem,) = told(LEAST + WAVE.replace("2", "4") * 13)
    assert "no more than a year" in problem


def test_the_example_is_a_plan_of_the_built_in_gym_and_fits_the_schema() -> None:
    block = demo_plan(demo_gym())
    assert {wave.hang for wave in block.waves} == {"straight", "chain"}
    assert block.changes
    jsonschema.validate(tomllib.loads(demo_plan_text()), plan_schema())


def test_the_schema_refuses_what_the_reader_refuses() -> None:
    jsonschema.Draft202012Validator.check_schema(plan_schema())
    raw = tomllib.loads(LEAST)
    jsonschema.validate(raw, plan_schema())
    for key, value in (("weekday", "mon"), ("sets", 99), ("tme", 1)):
        wrong = {**raw, "day": [{**raw["day"][0], key: value}]}
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(wrong, plan_schema())
