"""What the log tells of strength: the few sets that say most, beside what else is known."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from tests.store.samples import RIG, a_set
from topheavy.errors import NotInStockError
from topheavy.gym.lifts import lift_named
from topheavy.gym.records import HungLift, HungLoads, LiftedSet, MissedRep
from topheavy.gymfile import demo_gym
from topheavy.lifter.evidence import FullRange, HungBest, Miss
from topheavy.services.gathered import Gathered, gather
from topheavy.services.logged import as_known, records_of, with_log
from topheavy.services.rig import Place
from topheavy.services.strength import strength_of

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

GYM = demo_gym()
TODAY = "2026-11-25"
BENCH = lift_named("bench press")


def place(gym: Gym, who: str = "Runa") -> Place:
    lifter = gym.lifter(who)
    station = gym.station(lifter.measured(BENCH).station)
    return Place(gym=gym, lifter=lifter, lift=BENCH, station=station)


def runa(**values: Any) -> Any:
    return a_set(lifter="Runa", **values)


def known(*sets: Any) -> Gathered:
    return gather(place(with_log(GYM, sets, TODAY)))


def test_a_hard_set_counts_beside_the_best() -> None:
    found = known(runa(straight_kg=100.0, reps=5, reps_left=1.0))
    assert [(type(one.piece), one.origin) for one in found.used] == [
        (FullRange, "best in the gym file"),
        (FullRange, f"logged {TODAY}"),
    ]
    assert not found.left_out


@pytest.mark.parametrize(
    "values",
    [
        {"reps_left": 4.0},  # far from failure
        {"reps": 11, "reps_left": 0.0},  # many repetitions
        {"reps_left": 0.0, "day": "2026-09-01"},  # 85 days ago
        {"reps_left": 0.0, "day": "2026-11-26"},  # after today
        {"reps_left": 0.0, "lift": "squat"},
        {"reps_left": 0.0, "lifter": "Pip"},
    ],
)
def test_sets_that_tell_nothing_more_than_was_lifted(values: dict[str, Any]) -> None:
    found = known(a_set(**{"lifter": "Runa", "straight_kg": 60.0, **values}))
    assert not [one for one in found.used if one.logged and getattr(one.piece, "maximal", True)]


def test_a_miss_after_repetitions_is_a_set_to_failure_and_no_miss() -> None:
    (record,) = records_of(GYM, GYM.lifter("Runa"), BENCH, [runa(reps=2, missed=True, third="top")])
    assert record == LiftedSet(load_kg=100.0, reps=2, reps_left=0.0, day=TODAY)


def test_a_miss_at_once_says_where_strength_falls_short() -> None:
    (used,) = [
        one
        for one in known(runa(straight_kg=125.0, reps=0, missed=True, third="middle")).used
        if one.logged
    ]
    assert isinstance(used.piece, Miss)
    travel = place(GYM).travel
    assert used.piece.height_m == pytest.approx((travel.bottom_m + travel.top_m) / 2)
    assert used.piece.load_kg == 125.0


def test_a_single_with_chain_on_counts_with_the_loads_of_that_day() -> None:
    stripped = replace(GYM, stock=replace(GYM.stock, chains=(), feeders=(), connectors=()))
    single = runa(rig=RIG, straight_kg=85.0, reps=1, reps_left=0.0)
    (used,) = [one for one in gather(place(with_log(stripped, [single], TODAY))).used if one.logged]
    assert isinstance(used.piece, HungBest)
    assert (used.piece.straight_kg, used.piece.maximal) == (85.0, True)
    assert float(used.piece.hung.at(1.07)) == pytest.approx(30.0)


def test_a_set_with_chain_on_is_a_lower_bound_only() -> None:
    (record,) = records_of(GYM, GYM.lifter("Runa"), BENCH, [runa(rig=RIG, straight_kg=85.0)])
    assert isinstance(record, HungLift)
    assert not record.tried


def test_hung_loads_move_with_the_pad_of_the_bench() -> None:
    there = runa(rig=RIG, straight_kg=85.0, station="bench 2", reps=1, reps_left=0.0)
    (record,) = records_of(GYM, GYM.lifter("Runa"), BENCH, [there])
    assert isinstance(record, HungLift)
    assert isinstance(record.hung, HungLoads)
    shift_m = 0.45 - 0.43  # pads of bench 2 and bench 1, where Runa was measured
    heights = np.array([0.66, 0.87, 1.07])
    assert np.allclose(record.hung.curve.at(heights - shift_m), [0.0, 11.0, 30.0])


def test_more_than_the_best_replaces_it() -> None:
    found = known(runa(straight_kg=130.0, reps=1, reps_left=0.0))
    assert [one.origin for one in found.used] == [f"logged {TODAY}"]
    assert "more than that was logged since" in found.left_out[0].say()
    assert strength_of(place(with_log(GYM, [runa(straight_kg=130.0, reps=1, reps_left=0.0)], TODAY))
                       ).full_range_kg == pytest.approx(130.0)  # fmt: skip


def test_an_off_day_gives_way_and_is_named() -> None:
    """Missing 90 kg half-way up does not agree with a best of 120 kg; the best stays."""
    off = runa(straight_kg=90.0, reps=0, missed=True, third="middle")
    found = known(off)
    assert [one.origin for one in found.used] == ["best in the gym file"]
    (left,) = found.left_out
    assert left.origin == f"logged {TODAY}"
    assert "an off day, or a slip" in left.say()
    assert strength_of(place(with_log(GYM, [off], TODAY))).full_range_kg == pytest.approx(120.0)


def test_of_many_sets_few_count() -> None:
    days = [f"2026-11-{day:02d}" for day in range(1, 21)]
    sets = [runa(day=day, straight_kg=90.0 + 0.1 * n, reps=5, reps_left=1.0, number=1 + n % 9)
            for n, day in enumerate(days * 5)]  # fmt: skip
    sets += [runa(day=day, straight_kg=125.0, reps=0, missed=True, third="lower") for day in days]
    records = records_of(GYM, GYM.lifter("Runa"), BENCH, sets)
    assert [type(one) for one in records].count(LiftedSet) == 3
    misses = [one for one in records if isinstance(one, MissedRep)]
    assert [one.day for one in misses] == ["2026-11-18", "2026-11-19", "2026-11-20"]
    assert [one.day for one in records] == sorted(one.day for one in records)


def test_names_are_written_as_the_gym_does() -> None:
    found = as_known(GYM, a_set(lifter="RUNA", lift="bench", station="Bench 1"))
    assert (found.lifter, found.lift, found.station) == ("Runa", "bench press", "bench 1")
    for wrong in ({"lifter": "Zed"}, {"lift": "yoga"}, {"station": "roof"}):
        with pytest.raises(NotInStockError):
            as_known(GYM, a_set(**wrong))
