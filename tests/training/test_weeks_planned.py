"""Numbers of a lifter's week."""

from __future__ import annotations

from dataclasses import replace

from tests.training.blocks import done
from topheavy.training.weeks_planned import numbers_of


def test_sets_reps_and_work_add_up() -> None:
    rows = numbers_of([done(), done(weekday=3, sets=2, reps=8), done(lifter="Runa"), done(week=2)])
    assert [(row.week, row.lifter) for row in rows] == [(1, "Pip"), (1, "Runa"), (2, "Pip")]
    assert (rows[0].sessions, rows[0].sets, rows[0].reps, rows[0].work_j) == (2, 7, 31, 2000.0)


def test_a_rig_change_is_another_rig_than_the_lift_had_before() -> None:
    sessions = [
        done(rig="a"),
        done(rig="a", lift="bench press", weekday=1),
        done(rig="a", weekday=3),
        done(weekday=4),
        done(rig="b", week=2),
        done(rig="a", week=2, weekday=4),
    ]
    assert [row.new_rigs for row in numbers_of(sessions)] == [2, 2]


def test_sessions_by_feel_are_counted() -> None:
    feel = replace(done(), loads=None, work_j=0.0)
    (row,) = numbers_of([feel, done(weekday=3)])
    assert (row.sessions, row.by_feel, row.work_j) == (2, 1, 1000.0)
