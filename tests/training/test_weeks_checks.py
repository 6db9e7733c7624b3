"""What is flagged in a block, and what is not."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from tests.training.blocks import done, loads
from topheavy.phrase import Phrase, Remark
from topheavy.training.days import day_named
from topheavy.training.session import Plan, plan_session
from topheavy.training.weeks_checks import MOST_RISE, MOST_WEEKS_HARD, check_weeks

if TYPE_CHECKING:
    from topheavy.training.weeks_planned import Planned


def codes(*sessions: Planned) -> list[str]:
    return [flag.code for flag in check_weeks(sessions)]


def test_a_plain_week_has_nothing_to_look_at() -> None:
    assert codes(done(), done(week=2, mean_kg=84.0)) == []


def test_a_rise_that_is_too_large_is_told_once_with_both_loads() -> None:
    flags = check_weeks([done(80.0), done(80.0 * (1.01 + MOST_RISE), week=2)])
    assert [flag.code for flag in flags] == ["rise"]
    assert "80.0 kg to 88.8 kg, up 11 % since week 1" in flags[0].phrase.say()
    assert codes(done(80.0), done(80.0 * (1 + MOST_RISE), week=2)) == []


def test_the_way_back_from_a_deload_is_no_rise() -> None:
    easy = done(60.0, week=2, deload=True)
    assert codes(done(80.0), easy, done(84.0, week=3)) == []


def test_kinds_of_day_are_compared_with_their_like() -> None:
    assert codes(done(50.0, kind="speed"), done(85.0, weekday=3)) == []


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.02, "no study"), (0.07, "few studies"), (0.2, ""), (0.4, "few studies"), (0.6, "no study")],
)
def test_shares_are_held_to_those_of_studies(share: float, words: str) -> None:
    flags = check_weeks([done(rig="a", share=share)])
    assert (words in flags[0].phrase.say()) if words else not flags
    assert check_weeks([done(rig="a", share=share, deload=True)]) == ()


@pytest.mark.parametrize(
    ("first", "second", "flagged"),
    [
        ({}, {"weekday": 1}, True),
        ({"weekday": 6}, {"week": 2, "weekday": 0}, True),
        ({}, {"weekday": 2}, False),
        ({}, {"weekday": 1, "kind": "speed"}, False),
        ({}, {"weekday": 1, "lifter": "Runa"}, False),
        ({"deload": True}, {"weekday": 1, "deload": True}, False),
    ],
)
def test_two_hard_days_in_a_row(
    first: dict[str, object], second: dict[str, object], *, flagged: bool
) -> None:
    assert ("hard days" in codes(done(**first), done(**second))) is flagged  # type: ignore[arg-type]


def test_the_same_two_hard_days_stand_once() -> None:
    weeks = [done(week=week, weekday=day) for week in (1, 2, 3) for day in (0, 1)]
    (flag,) = check_weeks(weeks)
    assert flag.weeks == (1, 2, 3)
    assert "Monday (squat) and Tuesday (squat)" in flag.phrase.say()


def test_weeks_without_a_deload() -> None:
    weeks = [done(week=week) for week in range(1, MOST_WEEKS_HARD + 2)]
    assert codes(*weeks) == ["no deload"]
    assert codes(*weeks[:-1]) == []
    eased = [replace(one, slot=replace(one.slot, deload=one.slot.week == 5)) for one in weeks]
    assert codes(*eased) == []
    assert codes(*(one for one in weeks if one.slot.week != 5)) == []


def test_remarks_of_the_session_are_told_but_not_that_a_deload_is_light() -> None:
    light = plan_session(Plan.of(day_named("heavy")), loads(60.0), 100.0, 0.6)
    assert [remark.code for remark in light.remarks] == ["outside"]
    one = replace(done(60.0), session=light)
    assert codes(one) == ["outside"]
    assert codes(replace(one, slot=replace(one.slot, deload=True))) == []
    assert codes(replace(one, remarks=(Remark("plates", Phrase("x")),))) == ["plates", "outside"]
