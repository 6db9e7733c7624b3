"""A block of weeks with the gym's rigs."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.services.planning import BENCH, CHAIN, SPEED, tiny, tiny_block
from tests.services.training import TINY
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import NotInStockError
from topheavy.gym.people import Lifter
from topheavy.services.weeks import Laid, WeeksQuestion, answer_weeks
from topheavy.training.weeks import Change, Wave


def test_straight_weight_is_the_nearest_that_bar_and_plates_make() -> None:
    first = tiny().sessions[0]
    assert first.planned.loads is not None
    assert first.planned.loads.straight_kg == pytest.approx(80.0, abs=5.0)
    assert first.built is None
    assert first.planned.share is None


def test_work_of_straight_weight_is_weight_times_travel_times_reps() -> None:
    first = tiny().sessions[0]
    assert first.planned.loads is not None
    one_j = first.planned.loads.top_kg * STANDARD_GRAVITY_M_PER_S2 * first.place.travel.travel_m
    assert first.planned.work_j == pytest.approx(15 * one_j)


def test_work_with_chain_comes_from_the_real_curve() -> None:
    with_chain = next(one for one in tiny().sessions if one.built)
    assert with_chain.built is not None
    travel = with_chain.place.travel
    curve = with_chain.built.rig.curve(with_chain.place.ground, "raising")
    reps = with_chain.planned.slot.sets * with_chain.planned.slot.reps
    work_j = reps * curve.work_j(travel.bottom_m, travel.top_m)
    assert with_chain.planned.work_j == pytest.approx(work_j)


def test_a_rig_is_held_over_its_wave() -> None:
    heavy = [one for one in tiny().sessions if one.built and one.planned.slot.kind == "heavy"]
    assert len(heavy) == 3
    assert len({one.planned.rig for one in heavy}) == 1


def test_the_rig_with_its_plates_has_the_loads_of_the_session() -> None:
    for one in tiny().sessions:
        if one.built is None:
            continue
        assert one.planned.loads is not None
        travel = one.place.travel
        curve = one.built.rig.curve(one.place.ground, "raising")
        assert float(curve.at(travel.top_m)) == pytest.approx(one.planned.loads.top_kg)
        assert curve.mean(travel.bottom_m, travel.top_m) == pytest.approx(one.planned.loads.mean_kg)


def test_a_later_wave_keeps_the_rig_that_will_do() -> None:
    waves = (CHAIN, Wave(hang="straight", weeks=1), replace(CHAIN, share=(0.21,)))
    answer = tiny(BENCH, waves=waves, test_week=False)
    rigs = {one.planned.rig for one in answer.sessions if one.built}
    assert len(rigs) == 1
    assert [row.new_rigs for row in answer.numbers] == [1, 0, 0, 0, 0, 0, 0]


def test_another_share_is_another_rig() -> None:
    answer = tiny(BENCH, waves=(CHAIN, replace(CHAIN, share=(0.1,))), test_week=False)
    assert len({one.planned.rig for one in answer.sessions}) == 2


def test_loads_stay_as_planned_whatever_is_flagged() -> None:
    """180 % of the best: told, planned as near as plates go, and not refused."""
    answer = tiny(BENCH, changes=(Change(week=1, load=1.8), Change(week=9, off=True)))
    flags = {(flag.code, flag.kind): flag.weeks for flag in answer.flags}
    assert {("plates", "heavy"), ("idle", ""), ("to failure", "heavy")} <= set(flags)
    assert flags["plates", "heavy"] == (1,)
    assert flags["plates", "test"] == (6,)  # 95 kg is all there is, and the best is 100 kg
    first = answer.sessions[0]
    assert first.planned.slot.load == 1.8
    assert first.planned.loads is not None
    assert first.planned.loads.straight_kg == pytest.approx(25.0 + 70.0)


def test_less_than_the_bar_is_told() -> None:
    answer = tiny(BENCH, changes=(Change(week=1, load=0.1),))
    assert "bar" in {flag.code for flag in answer.flags if 1 in flag.weeks}


def test_bands_that_a_gym_has_not_are_replaced_and_told() -> None:
    answer = tiny(BENCH, waves=(Wave(hang="bands", weeks=2),))
    (flag,) = (flag for flag in answer.flags if flag.code == "stock")
    assert "bands" in flag.phrase.say()
    assert "chain stands in the plan instead" in flag.phrase.say()
    assert all(one.built for one in answer.sessions if one.planned.slot.kind != "test")


def test_a_gym_without_chain_plans_straight_weight_and_says_so() -> None:
    bare = replace(TINY, stock=replace(TINY.stock, chains=()))
    answer = answer_weeks(WeeksQuestion(gym=bare, block=tiny_block(BENCH, waves=(CHAIN,))))
    assert all(one.built is None for one in answer.sessions)
    assert "straight weight stands in the plan" in answer.flags[0].phrase.say()


def test_a_lifter_without_a_best_has_no_load_and_is_told() -> None:
    ansa = TINY.lifters[0]
    lifts = {name: replace(one, best_kg=None) for name, one in ansa.lifts.items()}
    gym = replace(TINY, lifters=(Lifter(name=ansa.name, lifts=lifts),))
    answer = answer_weeks(WeeksQuestion(gym=gym, block=tiny_block()))
    assert all(one.planned.loads is None for one in answer.sessions)
    assert [flag.code for flag in answer.flags] == ["no best"]


def test_who_was_not_measured_is_left_out_and_told_when_named() -> None:
    pull = replace(BENCH, lifts=("deadlift",))
    assert tiny(BENCH, replace(pull, weekday=4)).flags == tiny(BENCH).flags
    named = tiny(BENCH, replace(pull, weekday=4, lifters=("Ansa",)))
    assert "not measured" in {flag.code for flag in named.flags}
    assert {one.planned.slot.lift for one in named.sessions} == {"bench press"}


def test_a_matched_wave_uses_strength_nowhere_more_than_planned() -> None:
    wave = Wave(hang="chain", weeks=2, match=True, loads={"heavy": (0.7, 0.8)})
    answer = tiny(BENCH, waves=(wave,), test_week=False)
    for one, most in zip(answer.sessions, (0.7, 0.8), strict=True):
        assert one.planned.effort is not None
        assert most - 0.1 < one.planned.effort <= most + 1e-6


def test_a_load_in_kilograms_is_of_the_place_that_percentages_speak_of() -> None:
    wave = replace(CHAIN, at="top")
    answer = tiny(BENCH, waves=(wave,), changes=(Change(week=2, load_kg=90.0),), test_week=False)
    loads = answer.sessions[1].planned.loads
    assert loads is not None
    assert loads.top_kg == pytest.approx(90.0, abs=5.0)


def test_the_test_week_counts_its_singles() -> None:
    test = tiny().sessions[-1]
    assert test.planned.slot.kind == "test"
    assert test.planned.session is None
    assert test.planned.loads is not None
    one_j = test.planned.loads.top_kg * STANDARD_GRAVITY_M_PER_S2 * test.place.travel.travel_m
    assert test.planned.work_j == pytest.approx((1 + 0.95 + 0.9) * one_j)


def test_one_lifter_alone_has_the_same_numbers() -> None:
    gym = replace(TINY, lifters=(TINY.lifters[0], Lifter(name="Bo", lifts=TINY.lifters[0].lifts)))
    block = tiny_block(BENCH, waves=(CHAIN,))
    both = answer_weeks(WeeksQuestion(gym=gym, block=block))
    alone = answer_weeks(WeeksQuestion(gym=gym, block=block, lifter="Bo"))
    told = [_told(one) for one in both.sessions if one.planned.slot.lifter == "Bo"]
    assert told == [_told(one) for one in alone.sessions]
    assert alone.lifters == ("Bo",)


def _told(one: Laid) -> tuple[object, ...]:
    return one.planned.slot, one.planned.loads, one.planned.rig, one.planned.work_j


def test_cautions_go_with_what_hangs() -> None:
    answer = tiny()
    straight = {one.code for one in answer.sessions[0].cautions}
    hung = {one.code for session in answer.sessions if session.built for one in session.cautions}
    test = {one.code for one in answer.sessions[-1].cautions}
    assert {"spotter", "collars", "defer"} <= straight & hung & test
    assert "ratings" in hung - straight
    assert "pins" in test - straight


def test_a_lifter_nobody_knows_is_refused() -> None:
    with pytest.raises(NotInStockError, match="No lifter called 'Nobody'"):
        answer_weeks(WeeksQuestion(gym=TINY, block=tiny_block(lifters=("Nobody",))))


def test_speed_days_have_their_own_rig_or_keep_the_heavy_one() -> None:
    """Whatever it is, its share is within reach of what is wanted, or that is told."""
    answer = tiny(BENCH, SPEED, waves=(CHAIN,), test_week=False)
    told = {(flag.kind, flag.code) for flag in answer.flags}
    for one in answer.sessions:
        if one.planned.share is not None and not one.planned.slot.deload:
            near = abs(one.planned.share - 0.2) < 0.05
            assert near or (one.planned.slot.kind, "nearest") in told
