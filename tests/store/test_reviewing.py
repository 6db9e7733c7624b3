"""Which sets a review looks at."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tests.store.samples import START, a_set, put
from topheavy.errors import BadInputError
from topheavy.gymfile import demo_gym
from topheavy.store.gyms import load_gym
from topheavy.store.reviewing import review_question
from topheavy.store.sets import Wanted, add_sets

if TYPE_CHECKING:
    from topheavy.services.review import ReviewQuestion
    from topheavy.store.opening import Store

TODAY = "2026-11-25"


def asked(store: Store, *sets: Any, wanted: Wanted | None = None) -> ReviewQuestion:
    put(store)
    gym_id = load_gym(store, "").id
    add_sets(store, gym_id, sets, at=START)
    return review_question(store, gym_id, demo_gym(), wanted or Wanted(), today=TODAY, noise=0.035)


def test_half_a_year_up_to_the_last_set(store: Store) -> None:
    found = asked(
        store,
        a_set(day="2026-01-09"),
        a_set(day="2026-01-10"),
        a_set(day="2026-07-11"),
        a_set(day="2026-11-26"),  # not yet
    )
    assert (found.since, found.until) == ("2026-01-10", "2026-07-11")
    assert [one.day for one in found.sets] == ["2026-01-10", "2026-07-11"]
    assert found.today == TODAY


def test_an_empty_log_is_looked_at_up_to_today(store: Store) -> None:
    found = asked(store)
    assert (found.since, found.until, found.sets) == ("2026-05-27", TODAY, ())


def test_only_whose_and_what_was_asked_for_and_what_holds(store: Store) -> None:
    wrong = a_set(lifter="Osric", reps=5)
    found = asked(
        store,
        wrong,
        a_set(corrects=wrong.id, reps=4),
        a_set(lifter="Runa", day="2026-11-24"),
        a_set(lift="squat"),
        wanted=Wanted(lifter="Osric", lift="bench press"),
    )
    assert [(one.lifter, one.lift, one.reps) for one in found.sets] == [("Osric", "bench press", 4)]


def test_days_as_typed(store: Store) -> None:
    sets = [a_set(day=f"2026-11-0{day}") for day in range(1, 8)]
    found = asked(store, *sets, wanted=Wanted(since="2026-11-03", until="2026-11-05"))
    assert [one.day[-1] for one in found.sets] == ["3", "4", "5"]
    assert found.today == "2026-11-05"


@pytest.mark.parametrize(
    "wanted", [Wanted(until="2026-13-01"), Wanted(since="2026-11-30", until="2026-11-01")]
)
def test_days_that_make_no_sense_are_refused(store: Store, wanted: Wanted) -> None:
    with pytest.raises(BadInputError):
        asked(store, wanted=wanted)
