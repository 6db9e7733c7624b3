"""Views of a tiny block, in kg and lb, of everybody, one week and one lifter."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from tests.services.planning import tiny_block
from tests.services.training import TINY
from topheavy.gym.people import Lifter
from topheavy.present.weeks.view import WeeksView, view_weeks
from topheavy.services.weeks import WeeksAnswer, WeeksQuestion, answer_weeks
from topheavy.training.weeks import Change
from topheavy.units import METRIC, UnitSystem

GROUP = replace(TINY, lifters=(TINY.lifters[0], Lifter(name="Bo", lifts=TINY.lifters[0].lifts)))
CHANGES = (
    Change(week=3, lifter="Bo", note="late"),
    Change(week=1, load=1.2),
    Change(week=2, weekday=3, off=True),
)


@cache
def answer() -> WeeksAnswer:
    """Two lifters who are as strong, five weeks and a test."""
    return answer_weeks(WeeksQuestion(gym=GROUP, block=tiny_block(changes=CHANGES)))


def view(lifter: str = "", week: int | None = None, units: UnitSystem = METRIC) -> WeeksView:
    """A part of it."""
    return view_weeks(answer(), units, lifter, week)
