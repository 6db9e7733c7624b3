"""A day's work made of a rig: what it holds, what is on the bar, and what comes after a set."""

from __future__ import annotations

import uuid
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest

from tests.services.training import TINY, rig
from topheavy.errors import BadInputError
from topheavy.gym.log import LoggedSet
from topheavy.phrase import Phrase, Remark
from topheavy.services.after_attempt import after_attempt, left_at
from topheavy.services.at_the_rack import left_on, stand
from topheavy.services.ramp import RampQuestion, Tried, answer_ramp
from topheavy.services.rig import answer_rig
from topheavy.services.work import WorkAsk, with_straight, work_of, work_with
from topheavy.training.bar_changes import apply, changes
from topheavy.training.days import day_named
from topheavy.training.on_bar import BARE
from topheavy.training.session import Plan

if TYPE_CHECKING:
    from topheavy.training.work import Step, Work


@cache
def found() -> Any:
    """The rig of the tiny gym."""
    return answer_rig(rig())


def ask(kind: str = "heavy") -> WorkAsk:
    """What is wanted of a day; singles up to a max for ``test``."""
    plan = None if kind == "test" else Plan.of(day_named(kind))
    return WorkAsk(id=str(uuid.uuid4()), day="2026-11-25", plan=plan)


def logged(work: Work, step: Step, **values: Any) -> LoggedSet:
    """A set of the work as it is logged."""
    how = {"reps": step.reps, **values}
    return LoggedSet(
        id=str(uuid.uuid4()),
        lifter=work.lifter,
        lift=work.lift,
        station=work.station,
        day=work.day,
        session=work.session,
        number=step.number,
        straight_kg=step.straight_kg,
        rig=step.rig,
        **how,
    )


def test_ramp_first_then_the_sets_of_the_day() -> None:
    work = work_of(found(), ask())
    ramp = answer_ramp(RampQuestion(rig=rig(), reps=3)).ramp
    heavy = day_named("heavy")
    warm_ups = [step for step in work.steps if step.kind == "warm-up"]
    sets = [step for step in work.steps if step.kind == "work set"]
    assert len(warm_ups) == len(ramp.sets) - 1
    assert len(sets) == heavy.sets
    for step, one in zip(work.steps, ramp.sets, strict=False):
        assert step.straight_kg == pytest.approx(one.loads.straight_kg)
        assert step.top_kg == pytest.approx(one.loads.top_kg, abs=1e-4)
        assert step.bar.plates_kg == tuple(plate.mass_kg for plate in one.plates.stack)
        assert step.rest_s == one.rest_before_s
    assert {(one.reps, one.reps_left, one.bar) for one in sets} == {
        (heavy.reps, heavy.reps_left, sets[0].bar)
    }


def test_the_top_set_is_the_rig_that_was_found() -> None:
    answer = found()
    last = work_of(answer, ask()).steps[-1]
    reading = answer.reading
    assert last.straight_kg == pytest.approx(reading.straight_weight_kg)
    assert last.bottom_kg == pytest.approx(reading.bottom.load_kg, abs=1e-3)
    assert last.top_kg == pytest.approx(reading.top.load_kg, abs=1e-3)
    hung = last.bar.hung
    assert hung is not None
    assert set(hung.left) == {piece.tag for piece in answer.best.left}
    assert set(hung.right) == {piece.tag for piece in answer.best.right}
    assert last.rig is not None
    assert all(tag in last.rig.words for tag in hung.left)


def test_every_change_of_the_day_can_be_done() -> None:
    bar = BARE
    for step in work_of(found(), ask("test")).steps:
        bar = apply(bar, changes(bar, step.bar))
        assert bar == step.bar


def test_a_rig_of_a_plan_makes_the_same_work() -> None:
    answer, wanted = found(), ask()
    best = answer.best
    made = work_with(
        answer.question.place, best, best.rig.straight_weight_kg, wanted, answer.cautions
    )
    whole = work_of(answer, wanted)
    assert [step.bar for step in made.steps] == [step.bar for step in whole.steps]
    assert [step.top_kg for step in made.steps] == [step.top_kg for step in whole.steps]


def test_straight_weight_alone() -> None:
    work = work_with(found().question.place, None, 65.0, ask("repetition"))
    assert all(step.rig is None and step.bar.hung is None for step in work.steps)
    assert work.steps[-1].straight_kg == 65.0


def test_no_work_with_what_must_come_down() -> None:
    bad = replace(found(), dangers=(Remark("rating", Phrase("The clip bends.")),))
    with pytest.raises(BadInputError, match="must come down"):
        work_of(bad, ask())


def test_other_plates_move_every_load_alike() -> None:
    step = work_of(found(), ask()).steps[-1]
    other = with_straight(step, step.straight_kg - 10)
    for name in ("bottom_kg", "mean_kg", "top_kg"):
        assert getattr(other, name) == pytest.approx(getattr(step, name) - 10, abs=1e-3)


def test_where_the_lifter_stands() -> None:
    work = work_of(found(), ask())
    first, second = work.steps[0], work.steps[1]
    assert stand(work, []).next_number == 1
    assert stand(work, [logged(work, first)]).next_number == 2
    # Whoever leaves one out goes on behind it, and other people's sets are not counted.
    strange = replace(logged(work, work.steps[-1]), lifter="Somebody")
    assert stand(work, [logged(work, second), strange]).next_number == 3
    everything = [logged(work, step) for step in work.steps]
    assert stand(work, everything).next_number is None


def test_what_the_one_before_left_on_the_bar() -> None:
    work = work_of(found(), ask())
    other = replace(work, id=str(uuid.uuid4()), lifter="Somebody")
    heavy = logged(work, work.steps[-1])
    assert left_on([work, other], [], work.station) is None
    light = logged(other, other.steps[0])
    left = left_on([work, other], [heavy, light], work.station)
    assert left is not None
    assert (left.lifter, left.bar) == ("Somebody", other.steps[0].bar)
    assert left_on([work, other], [heavy, light], "another") is None
    more = replace(heavy, straight_kg=heavy.straight_kg - 5, rig=None)
    unknown = left_on([work], [more], work.station)
    assert unknown is not None
    assert unknown.bar is None


def test_the_next_attempt_is_the_one_that_ramp_tells() -> None:
    work = work_of(found(), ask("test"))
    last = work.steps[-1]
    sets = [logged(work, step) for step in work.steps[:-1]]
    done = [*sets, logged(work, last, reps=1, reps_left=1.0)]
    advice = after_attempt(work, TINY, done)
    attempts = sum(step.kind != "warm-up" for step in work.steps)
    told = answer_ramp(
        RampQuestion(
            rig=rig(),
            reps=1,
            singles=True,
            tried=Tried(straight_kg=last.straight_kg, made=True, number=attempts, reps_left=1.0),
        )
    ).next_one
    assert advice is not None
    assert told is not None
    assert advice.reason == told.advice.reason
    assert (advice.step is None) == (told.plates is None)
    if advice.step is not None and told.plates is not None:
        assert advice.step.straight_kg == pytest.approx(told.plates.straight_kg)


def test_an_advised_attempt_is_known_on_the_bar() -> None:
    work = work_of(found(), ask("test"))
    last = work.steps[-1]
    first = logged(work, last, reps=0, missed=True)
    advice = after_attempt(work, TINY, [first])
    assert advice is not None
    assert advice.step is not None
    second = logged(work, advice.step, reps=1, reps_left=1.0)
    left = left_at([work], [first, second], work.station, TINY)
    assert left is not None
    assert left.bar == advice.step.bar
    by_hand = replace(second, straight_kg=second.straight_kg + 0.5, rig=None)
    unknown = left_at([work], [first, by_hand], work.station, TINY)
    assert unknown is not None
    assert unknown.bar is None


def test_a_second_miss_ends_the_day_and_warm_ups_have_no_advice() -> None:
    work = work_of(found(), ask("test"))
    last = work.steps[-1]
    miss = logged(work, last, reps=0, missed=True)
    advice = after_attempt(work, TINY, [miss, replace(miss, id=str(uuid.uuid4()))])
    assert advice is not None
    assert advice.step is None
    assert after_attempt(work, TINY, [logged(work, work.steps[0])]) is None
    assert after_attempt(work_of(found(), ask()), TINY, [miss]) is None


def test_a_session_has_a_name_the_log_can_hold() -> None:
    work = replace(work_of(found(), ask()), lift="overhead press")
    assert len(work.session) <= 60
