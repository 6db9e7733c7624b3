"""A review put together from a gym and its log."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from tests.store.samples import RIG, a_set
from topheavy.errors import BadInputError
from topheavy.gym.log import LoggedSet, RigThen
from topheavy.gym.people import Lifter
from topheavy.gymfile import demo_gym
from topheavy.logfile.example import example_log
from topheavy.services.review import (
    UNNAMED_RIG,
    LiftAnswer,
    ReviewAnswer,
    ReviewQuestion,
    answer_review,
)

GYM = demo_gym()


def review(*sets: LoggedSet, gym: Any = GYM, since: str = "2026-09-01") -> ReviewAnswer:
    return answer_review(ReviewQuestion(gym=gym, sets=sets, since=since, until="2026-11-25"))


def only(*sets: LoggedSet, gym: Any = GYM) -> LiftAnswer:
    (found,) = review(*sets, gym=gym).lifts
    return found


@cache
def example() -> ReviewAnswer:
    return review(*example_log(), since="2026-07-01")


def codes(answer: LiftAnswer) -> set[str]:
    return {remark.code for remark in answer.remarks}


def test_lifters_come_as_the_gym_has_them_and_lifts_apart() -> None:
    found = review(
        a_set(lifter="Osric", lift="squat"),
        a_set(lifter="Osric"),
        a_set(lifter="Runa"),
        a_set(lifter="Runa", day="2026-08-31"),
    )
    assert [(one.lifter, one.lift) for one in found.lifts] == [
        ("Runa", "bench press"), ("Osric", "bench press"), ("Osric", "squat"),
    ]  # fmt: skip
    assert len(found.lifts[0].log.sets) == 1


def test_chain_stands_beside_straight_weight_by_the_lifters_own_shape() -> None:
    answer = only(a_set(reps_left=0.0), a_set(straight_kg=85.0, rig=RIG, reps_left=0.0))
    plain, hung = (
        next(b for b in answer.bests if bool(b.reading.seen.rig) is with_chain)
        for with_chain in (False, True)
    )
    assert plain.reading.as_hard_kg == 100.0
    assert 85.0 < hung.reading.as_hard_kg < 115.0
    assert hung.low_kg < hung.reading.single_kg < hung.high_kg
    assert answer.work[0].raising_j is not None
    assert answer.proposal is not None
    assert answer.proposal.straight_kg in {100.0, 85.0}


def test_heights_move_with_the_bench() -> None:
    """What hung is kept by height there; the same lift on a bench 2 cm higher is the same work."""
    there = RigThen(
        bottom_kg=RIG.bottom_kg,
        mean_kg=RIG.mean_kg,
        top_kg=RIG.top_kg,
        words=RIG.words,
        curve=tuple((height_m + 0.02, load_kg) for height_m, load_kg in RIG.curve),
    )
    works = [
        only(a_set(straight_kg=85.0, rig=rig, station=bench)).work[0].raising_j
        for rig, bench in ((RIG, "bench 1"), (there, "bench 2"))
    ]
    assert works[0] is not None
    assert works[1] == pytest.approx(works[0])


def test_three_loads_are_told() -> None:
    three = RigThen(bottom_kg=85.0, mean_kg=98.0, top_kg=115.0)
    answer = only(a_set(straight_kg=85.0, rig=three))
    assert answer.work[0].bases == ("loads",)
    assert answer.log.sets[0].rig == UNNAMED_RIG
    assert {"three loads", "reps left"} <= codes(answer)


def test_a_lift_that_was_never_measured_has_no_work_and_no_place_for_chain() -> None:
    answer = only(
        a_set(lift="front squat", reps_left=0.0),
        a_set(lift="front squat", straight_kg=85.0, rig=RIG, reps_left=0.0),
    )
    assert answer.work[0].raising_j is None
    assert [best.reading.seen.rig for best in answer.bests] == [""]
    assert "not measured" in codes(answer)
    assert answer.proposal is not None
    assert answer.loading is None


def test_after_a_long_break_next_week_is_light() -> None:
    sets = (a_set(day="2026-09-10", reps_left=2.0),)
    found = review(*sets).lifts[0].proposal
    assert found is not None
    assert found.kind == "deload"
    late = ReviewQuestion(
        gym=GYM, sets=sets, since="2026-09-01", until="2026-09-10", today="2026-09-12"
    )
    soon = answer_review(late).lifts[0].proposal
    assert soon is not None
    assert soon.kind == "up"


def test_a_lifter_who_left_is_still_reviewed() -> None:
    gym = replace(GYM, lifters=tuple(one for one in GYM.lifters if one.name != "Osric"))
    answer = only(a_set(reps_left=1.0), gym=gym)
    assert answer.lifter == "Osric"
    assert answer.bests
    assert answer.best_kg is None


def test_a_station_that_is_gone_leaves_what_hung_unknown_and_says_so() -> None:
    answer = only(a_set(straight_kg=85.0, rig=RIG, station="bench 9"), a_set())
    assert answer.work[0].unknown == 1
    assert "not placed" in codes(answer)


def test_a_strength_that_contradicts_itself_gives_way_to_the_typical_shape() -> None:
    bench = GYM.lifter("Osric").lifts["bench press"]
    odd = Lifter(name="Osric", lifts={"bench press": replace(bench, best_kg=300.0)})
    answer = only(a_set(straight_kg=85.0, rig=RIG, reps_left=0.0), gym=replace(GYM, lifters=(odd,)))
    assert "strength" in codes(answer)
    assert answer.bests


def test_who_has_no_best_is_reviewed_by_the_typical_shape() -> None:
    answer = only(a_set(lifter="Wren", straight_kg=40.0, rig=None, reps_left=None))
    assert answer.bests[0].reading.told is False
    assert answer.trend.verdict == "few"


@pytest.mark.parametrize(
    ("since", "until", "noise", "field"),
    [
        ("2026-12-01", "2026-11-25", 0.035, "until"),
        ("2026-02-30", "2026-11-25", 0.035, "since"),
        ("2026-09-01", "today", 0.035, "until"),
        ("2026-09-01", "2026-11-25", 0.5, "noise"),
    ],
)
def test_questions_that_make_no_sense_are_refused(
    since: str, until: str, noise: float, field: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        ReviewQuestion(gym=GYM, sets=(), since=since, until=until, noise=noise)
    assert caught.value.field == field


def test_the_example_says_what_was_put_into_it() -> None:
    """Osric, Pip and Wren were made to get stronger, Runa was not; Osric missed his singles."""
    found = {one.lifter: one for one in example().lifts}
    assert {who: one.trend.verdict for who, one in found.items()} == {
        "Runa": "level", "Pip": "up", "Osric": "up", "Wren": "up",
    }  # fmt: skip
    assert found["Osric"].trend.low_kg < 0.0045 * 137.0 < found["Osric"].trend.high_kg
    assert found["Wren"].trend.low_kg < 0.011 * 70.0 < found["Wren"].trend.high_kg
    assert [stop.first for stop in found["Osric"].stops] == [0, 2, 0]
    assert found["Wren"].proposal is not None
    assert found["Wren"].proposal.kind == "deload"
    assert len(found["Osric"].shares.trends) == 2


def test_the_example_is_the_same_each_time_and_passes_for_a_log_of_the_gym() -> None:
    log = example_log()
    example_log.cache_clear()
    assert example_log() == log
    assert len({one.id for one in log}) == len(log) == 220
    for one in log:
        assert one.station in {station.name for station in GYM.stations}
        assert one.lift in GYM.lifter(one.lifter).lifts


def test_the_order_of_a_log_changes_nothing() -> None:
    (there,) = (one for one in example().lifts if one.lifter == "Osric")
    log = [one for one in reversed(example_log()) if one.lifter == "Osric"]
    (other,) = review(*log, since="2026-07-01").lifts
    assert other.trend == there.trend
    assert [best.reading.single_kg for best in other.bests] == [
        best.reading.single_kg for best in there.bests
    ]
    assert other.proposal is not None
    assert there.proposal is not None
    assert other.proposal.straight_kg == there.proposal.straight_kg


def test_a_station_that_was_renamed_leaves_the_typical_shape() -> None:
    bench = GYM.lifter("Osric").lifts["bench press"]
    moved = Lifter(name="Osric", lifts={"bench press": replace(bench, station="bench 7")})
    answer = only(a_set(straight_kg=85.0, rig=RIG), gym=replace(GYM, lifters=(moved,)))
    assert "strength" in codes(answer)
    assert answer.work[0].raising_j is not None
    assert answer.loading is None
