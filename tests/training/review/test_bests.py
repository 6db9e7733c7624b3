"""Bests on equal terms: what is added lowers none, and order does not matter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.training.review.samples import read, seen, shapes
from topheavy.training.review.bests import best_of_days, bests_of

if TYPE_CHECKING:
    from topheavy.training.review.seen import SeenSet

SETS = st.builds(
    seen,
    at=st.integers(0, 40),
    straight_kg=st.sampled_from([60.0, 80.0, 100.0, 102.5]),
    reps=st.integers(0, 12),
    reps_left=st.sampled_from([None, 0.0, 1.0, 4.0]),
    rig=st.sampled_from(["", "one a side", "two a side"]),
)


def greatest(sets: list[SeenSet]) -> dict[str, float]:
    return {b.reading.seen.rig: b.reading.single_kg for b in bests_of(read(sets), shapes())}


@settings(max_examples=40)
@given(sets=st.lists(SETS, max_size=8), more=SETS)
def test_one_more_set_never_lowers_a_best(sets: list[SeenSet], more: SeenSet) -> None:
    before, after = greatest(sets), greatest([*sets, more])
    assert all(after[rig] >= load_kg for rig, load_kg in before.items())


@settings(max_examples=40)
@given(data=st.data(), sets=st.lists(SETS, max_size=8))
def test_the_order_of_sets_does_not_matter(data: st.DataObject, sets: list[SeenSet]) -> None:
    shuffled = data.draw(st.permutations(sets))
    assert greatest(shuffled) == greatest(sets)
    days, again = (best_of_days(read(some)) for some in (sets, shuffled))
    assert [(one.seen.day, one.single_kg) for one in days] == [
        (one.seen.day, one.single_kg) for one in again
    ]


def test_rigs_stand_apart_the_greatest_first() -> None:
    found = bests_of(
        read([seen(0, 100.0, 1), seen(1, 110.0, 1, rig="chain"), seen(2, 90.0, 1)]), shapes(1.2)
    )
    assert [(best.reading.seen.rig, best.reading.seen.straight_kg) for best in found] == [
        ("chain", 110.0),
        ("", 100.0),
    ]


def test_of_equals_the_first_counts() -> None:
    (best,) = bests_of(read([seen(7, 100.0, 1), seen(0, 100.0, 1)]), None)
    assert best.reading.seen.day == "2026-06-01"


def test_a_day_counts_by_its_best_set_that_tells() -> None:
    sets = [
        seen(0, 100.0, 3, reps_left=1.0),
        seen(0, 95.0, 5, reps_left=1.0),
        seen(0, 140.0, 1, reps_left=None),
        seen(1, 90.0, 3, reps_left=None),
    ]
    (one,) = best_of_days(read(sets))
    assert (one.seen.straight_kg, one.seen.reps) == (95.0, 5)
