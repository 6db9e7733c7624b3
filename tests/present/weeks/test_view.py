"""What a view of a block holds, and what a part of it leaves out."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tests.present.weeks.views import answer, view
from topheavy.present.weeks.view import view_weeks
from topheavy.units import KG_PER_LB, METRIC, POUNDS


def test_all_of_it() -> None:
    whole = view()
    assert whole.title == "Tiny block, 30 Nov 2026 to 10 Jan 2027"
    assert whole.lifters == ("Ansa", "Bo")
    assert len(whole.sessions) == len(answer().sessions) == 2 * (5 * 2 - 1) + 2
    assert [week.wave for week in whole.weeks] == [
        *["straight weight"] * 2,
        *["chain, 20 % of the top load"] * 3,
        "test week: singles up to a max, straight weight",
    ]
    assert [week.week_of_wave for week in whole.weeks][-2:] == ["3 of 3, deload", ""]
    assert whole.flags_elsewhere == 0


def test_a_week_of_a_lifter() -> None:
    part = view("Bo", 3)
    assert {(row.lifter, row.week) for row in part.sessions} == {("Bo", 3)}
    assert [row.note for row in part.sessions] == ["late", "late"]
    assert {(row.lifter, row.week) for row in part.numbers} == {("Bo", 3)}
    assert all(3 in flag.weeks for flag in part.flags)
    everything = view("Bo")
    assert part.flags_elsewhere == len(everything.flags) - len(part.flags)


def test_days_are_days_of_the_calendar() -> None:
    for row in view().sessions:
        day = dt.date.fromisoformat(row.date)
        assert day.strftime("%A") == row.weekday
        assert (day - dt.date(2026, 11, 30)).days // 7 + 1 == row.week


def test_tables_of_one_weekday_are_counted() -> None:
    assert {row.of_weekday for row in view().sessions} == {1}


def test_pounds_are_the_same_loads() -> None:
    for metric, pounds in zip(view().sessions, view(units=POUNDS).sessions, strict=True):
        assert metric.top is not None
        assert pounds.top is not None
        assert pounds.top.value == metric.top.value
        shown_kg = float(pounds.top.text.removesuffix(" lb")) * KG_PER_LB
        assert shown_kg == pytest.approx(metric.top.value, abs=0.05)


def test_cautions_are_those_of_what_is_shown() -> None:
    straight, hung = " ".join(view(week=1).cautions), " ".join(view(week=3).cautions)
    assert "rated connectors" in hung
    assert "rated connectors" not in straight
    assert "Never bench alone" in straight
    assert len(set(view().cautions)) == len(view().cautions)


def test_a_rig_says_its_pieces_setting_and_share() -> None:
    row = next(row for row in view().sessions if row.rig)
    assert "left" in row.rig
    assert "ring" in row.rig
    assert row.share is not None
    assert row.share_of == "of the top load"
    assert row.bottom is not None
    assert row.top is not None
    assert row.share.value == pytest.approx(1 - row.bottom.value / row.top.value)


def test_work_that_nobody_knows_is_not_shown_as_none() -> None:
    whole = answer()
    few = [replace(row, by_feel=1) for row in whole.numbers[:1]]
    none = [replace(row, by_feel=row.sessions) for row in whole.numbers[:1]]
    shown = view_weeks(replace(whole, numbers=(*few, *none)), METRIC).numbers
    assert shown[0].work.text.endswith(" kJ and more")
    assert shown[1].work.text == "not known"
