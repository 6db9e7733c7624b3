"""The 1RM protocol of Baechle & Earle.

Baechle T. R., Earle R. W. (eds.), Essentials of Strength Training and Conditioning, Human Kinetics
(the book itself from memory). Seen: appendix E, "1 repetition max testing protocol", of a college
textbook (A Christian Guide to Body Stewardship, Diet and Exercise, 3rd ed., Cedarville University,
page 202), which gives its steps: a light warm-up of 5 to 10 reps; 1 min; 3 to 5 reps; 2 min; a
conservative, near-maximal load for 2 to 3 reps; 2 to 4 min; 1RM attempts with 2 to 4 min between,
raised when made and lowered when missed, within 3 to 5 testing sets.
"""

from __future__ import annotations

import pytest

from topheavy.gym.people import Travel
from topheavy.gym.stock import Plate
from topheavy.mechanics.curve import LoadCurve
from topheavy.training.attempts import MOST_ATTEMPTS, LastAttempt, next_attempt
from topheavy.training.protocols import PROTOCOLS
from topheavy.training.ramp import plan_ramp
from topheavy.training.ramp_parts import Gear, Hanging, RampSet, TopSet

STEPS = (((5, 10), (60, 60)), ((3, 5), (120, 120)), ((2, 3), (120, 240)), ((1, 1), (120, 240)))
GEAR = Gear(
    bar_kg=25.0,
    plates=tuple(
        Plate(mass_kg=kg, width_m=0.03, diameter_m=0.45, count=4) for kg in (25, 10, 5, 2.5, 1.25)
    ),
    room_m=0.4,
)
GOALS = (90.0, 120.0, 150.0, 200.0)


def singles(goal_kg: float) -> tuple[RampSet, ...]:
    """Singles up to a goal, a tenth of it chain."""
    travel = Travel(bottom_m=0.8, top_m=1.2)
    chain = Hanging(pieces=2, curve=LoadCurve.through([0.8, 1.2], [0.0, goal_kg / 10]))
    top = TopSet(straight_kg=goal_kg, reps=1, hanging=chain, singles=True)
    return plan_ramp(top, GEAR, travel).sets


def test_the_rows_as_told() -> None:
    """Reps and minutes of rest, exact."""
    told = PROTOCOLS[0]
    assert tuple((one.reps, one.rest_s) for one in told.sets) == STEPS
    assert told.attempts == (3, 5)


@pytest.mark.parametrize("goal_kg", GOALS)
def test_a_ramp_of_singles_has_its_steps(goal_kg: float) -> None:
    """Sets of 5 to 10, of 3 to 5 and of 2 to 3 reps, in that order, then three singles or more."""
    sets = singles(goal_kg)
    reps = [one.reps for one in sets]
    assert reps == sorted(reps, reverse=True)
    assert 5 <= reps[0] <= 10
    assert any(3 <= n <= 5 for n in reps)
    tries = [one for one in sets if one.kind != "warm-up"]
    assert 3 <= len(tries) <= 5
    assert all(one.reps == 1 for one in tries)


@pytest.mark.parametrize("goal_kg", GOALS)
def test_rests_lie_within_its_minutes(goal_kg: float) -> None:
    """At least a minute after the first set; 2 to 4 min before every attempt."""
    sets = singles(goal_kg)
    assert sets[1].rest_before_s >= 60
    assert all(120 <= one.rest_before_s <= 240 for one in sets if one.kind != "warm-up")


def test_attempts_go_up_when_made_and_down_when_missed() -> None:
    """A made attempt is followed by a heavier, a missed one by a lighter, 2 to 4 min later."""
    made = next_attempt(LastAttempt(load_kg=120.0, made=True, reps_left=1))
    missed = next_attempt(LastAttempt(load_kg=120.0, made=False, number=2))
    assert made.load_kg is not None
    assert missed.load_kg is not None
    assert made.load_kg > 120.0 > missed.load_kg
    assert all(120 <= one.rest_s <= 240 for one in (made, missed))


def test_no_more_attempts_than_it_allows() -> None:
    assert MOST_ATTEMPTS == 5
    assert next_attempt(LastAttempt(load_kg=120.0, made=True, reps_left=3, number=5)).stops
