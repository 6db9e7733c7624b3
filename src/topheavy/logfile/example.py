"""The log of the demonstration: eighteen invented weeks of the gym of the demonstration.

Nobody lifted this. Each lifter has a strength that is written down below, in percent a week; each
day it is off by some noise. What the log then shows of repetitions left and misses follows from it
by the shape of the lifter's strength and the published formulas, with numbers drawn from one seed:
the same log each time.
"""

from __future__ import annotations

import random
import uuid
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.gym.lifts import lift_named
from topheavy.gym.log import LoggedSet, RigThen
from topheavy.gym.records import HungThen
from topheavy.gymfile import demo_gym
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.strength import strength_curve
from topheavy.services.hung_then import hung_curve_then
from topheavy.training.bases import Hung
from topheavy.training.review.readings import single_factor
from topheavy.training.review.shapes import shapes_of, straight_as_hard
from topheavy.training.weeks_loads import DELOAD_LOAD

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.people import Travel
    from topheavy.gym.records import Third
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.training.review.shapes import Shapes

FIRST_MONDAY: Final = date(2026, 7, 20)
WEEKS: Final = 18
_SEED: Final = 1825
_NOISE: Final = 0.012
_STEP_KG: Final = 2.5
_SETS: Final = 3
_SINGLES: Final = (1.0, 1.08)
_KNOTS: Final = 41
_BY: Final = "the example"

_BENCH_CHAIN: Final = HungThen(
    left=("A1", "A2", "A3"),
    right=("A4", "A6", "A8"),
    feeder="ring strap",
    setting="7",
    connector="10 mm screw link",
)
_SQUAT_CHAIN: Final = HungThen(
    left=("A1", "A2"),
    right=("A3", "A4"),
    feeder="feeder chain",
    setting="link 30",
    connector="10 mm screw link",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Story:
    """One lifter in one lift: how strong, how much stronger each week, and what is done."""

    lifter: str
    lift: str
    station: str
    weekday: int
    best_kg: float
    per_week: float
    reps: int
    effort: tuple[float, ...]
    """Of the strength of the day, as a single, week by week over and over; the last is lighter."""

    chain: HungThen | None = None
    words: str = ""
    chain_weeks: range = range(0)
    third: Third = "lower"
    singles: tuple[int, ...] = ()
    """Weeks in which two singles at straight weight follow, the second too heavy."""


_STORIES: Final = (
    _Story(
        lifter="Osric",
        lift="bench press",
        station="bench 1",
        weekday=0,
        best_kg=137.0,
        per_week=0.0045,
        reps=3,
        effort=(0.92, 0.935, 0.95, 0.965, 0.975, DELOAD_LOAD),
        chain=_BENCH_CHAIN,
        words="three 5/8 in pieces a side, folded on ring strap 7",
        chain_weeks=range(7, WEEKS),
        third="middle",
        singles=(6, 16),
    ),
    _Story(
        lifter="Runa",
        lift="squat",
        station="rack",
        weekday=1,
        best_kg=176.0,
        per_week=0.0,
        reps=5,
        effort=(0.91, 0.93, 0.945, 0.96, 0.97, DELOAD_LOAD),
        chain=_SQUAT_CHAIN,
        words="two 5/8 in pieces a side, folded on feeder chain link 30",
        chain_weeks=range(2, WEEKS),
        third="lower",
    ),
    _Story(
        lifter="Pip",
        lift="bench press",
        station="bench 2",
        weekday=3,
        best_kg=60.0,
        per_week=0.006,
        reps=5,
        effort=(0.91, 0.93, 0.95, 0.965, DELOAD_LOAD),
    ),
    _Story(
        lifter="Wren",
        lift="squat",
        station="rack",
        weekday=4,
        best_kg=70.0,
        per_week=0.011,
        reps=6,
        effort=(0.92, 0.93, 0.94, 0.95),
    ),
)


@cache
def example_log() -> tuple[LoggedSet, ...]:
    """Make the log of the demonstration.

    Returns
    -------
    tuple of LoggedSet
        By day; for the gym of the demonstration, ids and all the same each time.

    Examples
    --------
    >>> log = example_log()
    >>> log[0].lifter, log[0].day, log[-1].day <= "2026-11-22"
    ('Osric', '2026-07-20', True)
    """
    draws = random.Random(_SEED)  # noqa: S311 - invented numbers, no secret
    found = [one for story in _STORIES for one in _told(story, draws)]
    return tuple(sorted(found, key=lambda one: (one.day, one.lifter, one.number or 0)))


def _told(story: _Story, draws: random.Random) -> Iterator[LoggedSet]:
    gym = demo_gym()
    lift, lifter = lift_named(story.lift), gym.lifter(story.lifter)
    station = gym.station(story.station)
    travel = gym.travel(lifter, lift, station)
    shapes = shapes_of(strength_curve(lift, travel, [FullRange(load_kg=story.best_kg)]))
    hung = None
    if story.chain is not None:
        hung = hung_curve_then(story.chain, gym.stock, station, travel)
    for week in range(WEEKS):
        with_chain = hung if week in story.chain_weeks else None
        strong_kg = story.best_kg * (1 + story.per_week * week) * (1 + _NOISE * _normal(draws))
        planned = story.effort[week % len(story.effort)]
        meant_kg = planned * story.best_kg * (1 + story.per_week * week)
        as_hard_kg = meant_kg / single_factor(float(story.reps))
        straight_kg = _loadable(as_hard_kg, with_chain, shapes)
        rig = _rig(straight_kg, with_chain, travel, story.words)
        hard_kg = straight_as_hard(straight_kg, with_chain, shapes)
        for number in range(1, _SETS + 1):
            can = _reps_to_failure(strong_kg * (1 - 0.004 * (number - 1)), hard_kg)
            yield _logged(story, week, number, story.reps, (straight_kg, rig, can), draws)
        for number, share in enumerate(_SINGLES if week in story.singles else (), _SETS + 1):
            single_kg = _STEP_KG * round(share * story.best_kg / _STEP_KG)
            can = _reps_to_failure(strong_kg, single_kg)
            yield _logged(story, week, number, 1, (single_kg, None, can), draws)


def _logged(
    story: _Story,
    week: int,
    number: int,
    wanted: int,
    done: tuple[float, RigThen | None, float],
    draws: random.Random,
) -> LoggedSet:
    straight_kg, rig, can = done
    missed = can < wanted
    reps = int(can) if missed else wanted
    left = min(round(2 * (can - wanted)) / 2, 6.0)
    return LoggedSet(
        id=str(uuid.UUID(int=draws.getrandbits(128), version=4)),
        lifter=story.lifter,
        lift=story.lift,
        station=story.station,
        day=(FIRST_MONDAY + timedelta(days=7 * week + story.weekday)).isoformat(),
        number=number,
        straight_kg=straight_kg,
        rig=rig,
        reps=reps,
        reps_left=None if missed else left,
        missed=missed,
        third=story.third if missed else None,
        by=_BY,
    )


def _loadable(as_hard_kg: float, hung: LoadCurve | None, shapes: Shapes) -> float:
    """The straight weight in steps of 2.5 kg that makes what hangs about as hard as wanted."""
    straight_kg = as_hard_kg
    for _ in range(3):
        straight_kg += as_hard_kg - straight_as_hard(straight_kg, hung, shapes)
    return _STEP_KG * round(straight_kg / _STEP_KG)


def _rig(straight_kg: float, hung: LoadCurve | None, travel: Travel, words: str) -> RigThen | None:
    if hung is None:
        return None
    loads = Hung.of(hung, travel).under(straight_kg)
    heights_m = np.linspace(travel.bottom_m, travel.top_m, _KNOTS)
    return RigThen(
        bottom_kg=round(loads.bottom_kg, 3),
        mean_kg=round(loads.mean_kg, 3),
        top_kg=round(loads.top_kg, 3),
        words=words,
        curve=tuple(
            (round(height_m, 4), round(load_kg, 3))
            for height_m, load_kg in zip(
                heights_m.tolist(), hung.at(heights_m).tolist(), strict=True
            )
        ),
    )


def _reps_to_failure(strong_kg: float, as_hard_kg: float) -> float:
    """Repetitions that a lifter of this strength does with this load, by the middle formula."""
    low, high = 0.0, 30.0
    if as_hard_kg > strong_kg:
        return 0.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (
            (middle, high) if as_hard_kg * single_factor(middle) <= strong_kg else (low, middle)
        )
    return low


def _normal(draws: random.Random) -> float:
    """A number from about a normal distribution, alike on every version of the language."""
    return sum(draws.random() for _ in range(12)) - 6.0
