"""Planning as a coach meets it: laws that every plan keeps, planning anew, and why not."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.room.rooms import RACK, STEPS, pieces, room, squat
from topheavy.errors import BadInputError
from topheavy.room.blocked import why_not
from topheavy.room.by_hand import first_plan
from topheavy.room.draft import made_whole
from topheavy.room.hung import pair_kinds
from topheavy.room.model import places_each
from topheavy.room.offers import offers_for
from topheavy.room.pace import Work, round_lengths
from topheavy.room.plan import key_of, turns
from topheavy.room.solve import Effort, plan_room
from topheavy.room.validate import breaches

SOME = st.lists(
    st.tuples(
        st.sampled_from([60.0, 80.0, 100.0]),
        st.sampled_from([12.0, 20.0, 24.0]),
        st.integers(2, 4),
        st.sampled_from([0, 0, 40]),
        st.integers(0, 2),
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=25, deadline=None)
@given(some=SOME, pairs=st.integers(3, 6), feeders=st.sampled_from([2, 4]))
def test_a_plan_by_hand_breaks_no_rule(
    some: list[tuple[float, float, int, int, int]], pairs: int, feeders: int
) -> None:
    asked = room(
        *(
            squat(f"L{n}", low, low + rise, sets=sets, arrives=late, spotters=hands)
            for n, (low, rise, sets, late, hands) in enumerate(some)
        ),
        pairs=pairs,
        feeders=feeders,
        length=5000,
        spotters=2,
    )
    offers = offers_for(asked)
    drafts = first_plan(asked, offers)
    if not all(offers.serves(n) for n in range(len(asked.bookings))):
        assert drafts is None
    elif drafts is not None:
        assert breaches(made_whole(asked, offers, drafts)) == ()


def test_planning_is_never_worse_than_by_hand_and_says_the_same_twice() -> None:
    asked = room(
        *(squat(f"L{n}", 60 + 20 * (n % 3), 80 + 20 * (n % 3), spotters=1) for n in range(8)),
        length=900,
    )
    one, other = (plan_room(asked, STEPS) for _ in range(2))
    assert one.plan is not None
    assert one.first is not None
    assert one.plan.cost <= one.first.cost
    assert one.bound <= one.cost
    assert (one.plan.groups, one.bound) == ((other.plan or one.plan).groups, other.bound)
    assert breaches(one.plan) == ()


def test_a_broken_piece_moves_as_few_as_can_be() -> None:
    asked = room(squat("A", 120, 140), squat("B", 60, 80), squat("C", 60, 80), pairs=5)
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    former = {
        key_of(booking): (plan.of(n).station, plan.of(n).starts)
        for n, booking in enumerate(asked.bookings)
    }
    broken = replace(asked, broken=(plan.groups[0].tags[0],))
    anew = plan_room(broken, STEPS, former=former)
    assert anew.plan is not None
    assert breaches(anew.plan) == ()
    assert anew.plan.disturbance(former) == 0
    assert all(plan.groups[0].tags[0] not in group.tags for group in anew.plan.groups)


def test_what_is_locked_stays() -> None:
    asked = room(squat("A", 80, 100, station="rack 2", starts=60), squat("B", 80, 100))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    assert (plan.of(0).station, plan.of(0).starts) == ("rack 2", 60)


def test_late_comers_start_when_they_are_there() -> None:
    asked = room(squat("A", 80, 100, arrives=100), squat("B", 80, 100, leaves=100))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    assert plan.of(0).starts >= 100
    assert plan.of(1).ends <= 100


def test_too_short_a_session_says_how_much_longer() -> None:
    bookings = (squat("A", 80, 104), squat("B", 120, 132))
    long_enough = plan_room(room(*bookings, stations=(RACK,)), STEPS).plan
    assert long_enough is not None
    asked = room(*bookings, stations=(RACK,), length=long_enough.finish - 5)
    assert plan_room(asked, STEPS).possible is False
    blocked = why_not(asked, STEPS)
    assert (blocked.longer, blocked.longer_is_least) == (5, True)
    assert len(blocked.leave_out) == 1
    assert blocked.more == ()


def test_too_few_feeders_are_named_and_one_more_pair_would_do() -> None:
    bookings = (squat("A", 80, 104), squat("B", 120, 132))
    plenty = plan_room(room(*bookings), STEPS).plan
    assert plenty is not None
    asked = room(*bookings, feeders=2, length=plenty.finish)
    assert plan_room(asked, STEPS).possible is False
    blocked = why_not(asked, STEPS)
    assert (("feeder", "strap"), 1) in blocked.more
    assert blocked.longer is not None


def test_what_no_chain_serves_is_named() -> None:
    asked = room(squat("A", 80, 81, tolerance_kg=0.5))
    assert plan_room(asked, STEPS).possible is False
    (one,) = why_not(asked, STEPS).unserved
    assert one.booking == 0
    assert one.nearest_kg > one.tolerance_kg == 0.5


def test_pairs_are_neighbours_in_weight_and_an_odd_one_is_left() -> None:
    chain = [
        replace(one, chain=replace(one.chain, density_kg_per_m=5.3 + 0.01 * weight))
        for one, weight in zip(pieces(3)[:5], (4, 1, 3, 0, 2), strict=True)
    ]
    (kind,) = pair_kinds(chain)
    assert [pair.tags for pair in kind.pairs] == [("P4", "P2"), ("P5", "P3")]


def test_rounds_take_all_turns_or_the_longest_rest() -> None:
    short, long = Work(sets=2, turn=5, cycle=16), Work(sets=3, turn=6, cycle=16)
    assert round_lengths([long]) == [16, 16, 16]
    assert round_lengths([long, short, short, short]) == [21, 21, 16]


def test_everyone_rests_between_sets_and_lifts_each_set() -> None:
    asked = room(*(squat(f"L{n}", 80, 100, sets=2 + n % 2) for n in range(4)), stations=(RACK,))
    plan = plan_room(asked, STEPS).plan
    assert plan is not None
    counts = dict.fromkeys(range(4), 0)
    for group in plan.groups:
        for turn in turns(asked, group):
            counts[turn.booking] += 1
    assert counts == {0: 2, 1: 3, 2: 2, 3: 3}


@pytest.mark.parametrize(("field", "value"), [("sets", 0), ("reps", 31), ("arrives", -1)])
def test_senseless_sessions_are_refused(field: str, value: int) -> None:
    with pytest.raises(BadInputError):
        squat("A", 80, 100, **{field: value})


def test_every_small_room_has_a_place_for_each_booking() -> None:
    asked = room(squat("A", 80, 100), squat("B", 80, 100))
    assert places_each(asked, "rack") == 2
    assert Effort().workers >= 2
