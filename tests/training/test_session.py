"""A session: loads in percent, volume, reps to failure, warnings, bad input."""

from __future__ import annotations

import itertools

import pytest

from topheavy.errors import BadInputError
from topheavy.training.bases import Hung
from topheavy.training.days import DAYS, MOST_LOSS, day_named, stop_speed_m_per_s
from topheavy.training.session import Plan, plan_session, reps_to_failure

LOADS = Hung(bottom_kg=0.0, mean_kg=14.0, top_kg=30.0).under(85.0)
HEAVY = Plan.of(day_named("heavy"))


def test_every_load_has_its_percentage() -> None:
    session = plan_session(HEAVY, LOADS, best_kg=120.0)
    shares = {one.at: one.share for one in session.percents}
    assert shares == pytest.approx(
        {"straight": 85 / 120, "bottom": 85 / 120, "mean": 99 / 120, "top": 115 / 120}
    )
    assert {at: check.zone.name for at, check in session.volume.items()} == {
        "bottom": "70s",
        "mean": "80s",
        "top": "90 % and up",
    }


def test_without_a_best_there_is_no_percentage_and_no_check() -> None:
    session = plan_session(HEAVY, LOADS)
    assert (session.percents, session.volume, session.reps_to_failure) == ((), {}, None)
    assert [r.code for r in session.remarks] == ["no best"]


def test_what_is_asked_for_is_kept_and_warned_of() -> None:
    light = plan_session(HEAVY, LOADS, best_kg=180.0)
    assert [r.code for r in light.remarks] == ["outside"]
    assert "lighter than a heavy day" in light.remarks[0].say()
    assert "144.0 kg to 162.0 kg" in light.remarks[0].say()
    heavy = plan_session(Plan.of(day_named("speed")), LOADS, best_kg=110.0)
    assert "heavier than a speed day" in heavy.remarks[0].say()


def test_a_load_beyond_the_lifter_comes_first() -> None:
    session = plan_session(HEAVY, LOADS, best_kg=115.0, effort=1.08)
    assert session.remarks[0].code == "too heavy"
    assert session.reps_to_failure == (0, 0)


def test_more_reps_than_the_formulas_expect() -> None:
    five = Plan.of(day_named("heavy"), reps=8)
    session = plan_session(five, LOADS, best_kg=120.0, effort=0.85)
    assert [r.code for r in session.remarks] == ["to failure"]


def test_reps_to_failure_shrink_with_effort() -> None:
    spans = [reps_to_failure(effort / 100) for effort in range(40, 100)]
    assert all(a[0] >= b[0] and a[1] >= b[1] for a, b in itertools.pairwise(spans))
    assert all(low <= high for low, high in spans)
    with pytest.raises(BadInputError):
        reps_to_failure(0.0)


@pytest.mark.parametrize("day", DAYS.values(), ids=DAYS)
def test_each_day_is_in_order(day: object) -> None:
    plan = Plan.of(day)  # type: ignore[arg-type]
    assert plan.day.low < plan.day.high <= 1
    assert plan.day.reps_left[0] <= plan.day.reps_left[1]
    assert plan.day.rest_s[0] <= plan.day.rest_s[1]
    assert (plan.sets, plan.reps, plan.loss) == (plan.day.sets, plan.day.reps, plan.day.loss)


def test_what_is_said_goes_before_what_is_usual() -> None:
    plan = Plan.of(day_named(" Speed "), sets=6, reps=2, loss=0.15)
    assert (plan.sets, plan.reps, plan.loss) == (6, 2, 0.15)


def test_where_a_set_ends() -> None:
    assert stop_speed_m_per_s(1.0, 0.2) == pytest.approx(0.8)
    for speed, loss in ((0.0, 0.1), (12.0, 0.1), (float("nan"), 0.1), (0.5, 0.0), (0.5, 0.6)):
        with pytest.raises(BadInputError):
            stop_speed_m_per_s(speed, loss)


@pytest.mark.parametrize(
    "wrong", [{"sets": 0}, {"sets": 21}, {"reps": -1}, {"reps": 31}, {"loss": MOST_LOSS + 0.01}]
)
def test_plans_that_make_no_sense(wrong: dict[str, float]) -> None:
    with pytest.raises(BadInputError):
        Plan.of(day_named("heavy"), **wrong)  # type: ignore[arg-type]


def test_no_such_day() -> None:
    with pytest.raises(BadInputError, match="kind of day") as caught:
        day_named("leg")
    assert caught.value.wanted == "heavy, speed, repetition, technique"
