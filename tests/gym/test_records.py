"""Records refuse what can't have happened."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from topheavy.errors import BadInputError
from topheavy.gym.people import Travel
from topheavy.gym.records import (
    THIRDS,
    BandsUsed,
    HungLift,
    HungThen,
    LiftedSet,
    MissedRep,
    PinEffort,
    SpeedRead,
    Third,
)

if TYPE_CHECKING:
    from collections.abc import Callable

TRAVEL = Travel(bottom_m=0.6, top_m=1.2)
BANDS = HungThen(bands=(BandsUsed(left="r1", right="r2", peg="low"),))


@pytest.mark.parametrize(("third", "middle_m"), [("lower", 0.7), ("middle", 0.9), ("top", 1.1)])
def test_a_third_stands_for_its_middle_evenly_spread(third: Third, middle_m: float) -> None:
    at_m, u_m = MissedRep(straight_kg=100.0, third=third).stopped_at(TRAVEL)
    assert at_m == pytest.approx(middle_m)
    assert u_m == pytest.approx(0.2 / math.sqrt(12))


def test_thirds_tile_the_way_up() -> None:
    ats = [MissedRep(straight_kg=1.0, third=third).stopped_at(TRAVEL)[0] for third in THIRDS]
    assert ats == sorted(ats)
    assert sum(ats) / 3 == pytest.approx(0.9)


def test_a_height_stands_for_itself() -> None:
    assert MissedRep(straight_kg=100.0, height_m=0.83).stopped_at(TRAVEL) == (0.83, 0.01)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: LiftedSet(load_kg=0.0), "load_kg"),
        (lambda: LiftedSet(load_kg=math.nan), "load_kg"),
        (lambda: LiftedSet(load_kg=100.0, reps=0), "reps"),
        (lambda: LiftedSet(load_kg=100.0, reps=31), "reps"),
        (lambda: LiftedSet(load_kg=100.0, reps=25, reps_left=6.0), "reps"),
        (lambda: LiftedSet(load_kg=100.0, reps_left=-1.0), "reps_left"),
        (lambda: LiftedSet(load_kg=100.0, reps_left=11.0), "reps"),
        (lambda: LiftedSet(load_kg=100.0, day="yesterday"), "day"),
        (lambda: PinEffort(height_m=0.8, effort_kg=100.0, rest_kg=100.0), "effort"),
        (lambda: PinEffort(height_m=0.8, effort_kg=100.0, rest_kg=-1.0), "effort"),
        (lambda: PinEffort(height_m=0.8, effort_kg=200.0, rest_kg=100.0, day="2026-13-01"), "day"),
        (lambda: MissedRep(straight_kg=100.0), "third"),
        (lambda: MissedRep(straight_kg=100.0, height_m=0.8, third="top"), "third"),
        (lambda: MissedRep(straight_kg=-1.0, third="top"), "straight_kg"),
        (HungThen, "left"),
        (lambda: HungThen(left=("A1",)), "feeder"),
        (lambda: HungThen(left=("A1",), feeder="strap"), "setting"),
        (lambda: HungThen(left=("A1",), style="draped", connector="link"), "connector"),
        (lambda: HungThen(bands=BANDS.bands, feeder="strap"), "feeder"),
        (lambda: HungLift(straight_kg=0.0, hung=BANDS), "straight_kg"),
        (lambda: SpeedRead(load_kg=100.0, speed_m_per_s=0.0), "speed_m_per_s"),
        (lambda: SpeedRead(load_kg=100.0, speed_m_per_s=math.inf), "speed_m_per_s"),
    ],
)
def test_what_cannot_be_is_refused(make: Callable[[], object], field: str) -> None:
    with pytest.raises(BadInputError) as caught:
        make()
    assert caught.value.field == field
