"""The next single, from how the last one went, and in plates."""

from __future__ import annotations

import pytest

from tests.training.stacks import plate
from topheavy.errors import BadInputError, NotInStockError
from topheavy.lifter.velocity import BENCH_LINE
from topheavy.training.attempt_plates import MOST_STEP, load_attempt
from topheavy.training.attempts import MOST_ATTEMPTS, LastAttempt, next_attempt
from topheavy.training.ramp_parts import Gear

PLATES = (plate(25, 4), plate(20, 2), plate(10, 2), plate(5, 2), plate(2.5, 2), plate(1.25, 2))
GEAR = Gear(bar_kg=25.0, plates=PLATES, room_m=0.4)


@pytest.mark.parametrize(
    ("left", "change"), [(0.5, 0.025), (1, 0.025), (2, 0.05), (3, 0.075), (6, 0.075)]
)
def test_the_more_was_left_the_larger_the_step(left: float, change: float) -> None:
    found = next_attempt(LastAttempt(load_kg=100.0, made=True, reps_left=left))
    assert found.load_kg == pytest.approx(100.0 * (1 + change))
    assert 120.0 <= found.rest_s <= 240.0


def test_nothing_left_is_the_max() -> None:
    assert next_attempt(LastAttempt(load_kg=100.0, made=True, reps_left=0)).stops


def test_made_and_nothing_said() -> None:
    assert next_attempt(LastAttempt(load_kg=100.0, made=True)).change == 0.025


def test_misses() -> None:
    """The first costs 5 %, a later one 2.5 %, two in a row end it."""
    first = next_attempt(LastAttempt(load_kg=100.0, made=False))
    later = next_attempt(LastAttempt(load_kg=100.0, made=False, number=3))
    assert (first.change, later.change) == (-0.05, -0.025)
    assert next_attempt(LastAttempt(load_kg=100.0, made=False, number=2, missed_before=True)).stops


@pytest.mark.parametrize("made", [True, False])
def test_enough_is_enough(made: bool) -> None:
    last = LastAttempt(load_kg=100.0, made=made, number=MOST_ATTEMPTS)
    assert next_attempt(last).stops


def test_a_faster_single_leaves_more() -> None:
    speeds = (0.22, 0.25, 0.30, 0.6)
    changes = [
        next_attempt(LastAttempt(load_kg=100.0, made=True, speed_m_per_s=v), BENCH_LINE).change
        for v in speeds
    ]
    assert changes == sorted(changes)
    assert changes[-1] == 0.075
    for speed, change in zip(speeds[:3], changes[:3], strict=True):
        whole = 1 / float(BENCH_LINE.share_at(speed)) - 1
        assert change == pytest.approx(whole / 2)


@pytest.mark.parametrize("speed", [0.05, 0.17, 0.18])
def test_as_slow_as_a_max_is_a_max(speed: float) -> None:
    last = LastAttempt(load_kg=100.0, made=True, speed_m_per_s=speed)
    assert next_attempt(last, BENCH_LINE).stops


def test_a_speed_without_a_line() -> None:
    with pytest.raises(BadInputError, match="load-velocity line"):
        next_attempt(LastAttempt(load_kg=100.0, made=True, speed_m_per_s=0.3))


@pytest.mark.parametrize(
    "wrong",
    [
        {"load_kg": 0.0, "made": True},
        {"load_kg": float("nan"), "made": True},
        {"load_kg": 100.0, "made": True, "number": 0},
        {"load_kg": 100.0, "made": True, "reps_left": -1},
        {"load_kg": 100.0, "made": True, "reps_left": 11},
        {"load_kg": 100.0, "made": True, "speed_m_per_s": -0.2},
        {"load_kg": 100.0, "made": False, "reps_left": 1},
        {"load_kg": 100.0, "made": False, "speed_m_per_s": 0.2},
    ],
)
def test_attempts_that_make_no_sense(wrong: dict[str, float]) -> None:
    with pytest.raises(BadInputError):
        LastAttempt(**wrong)  # type: ignore[arg-type]


def _loaded(straight_kg: float, hung_kg: float = 0.0, **how: object) -> tuple[float | None, str]:
    last = LastAttempt(load_kg=straight_kg + hung_kg, **how)  # type: ignore[arg-type]
    found = load_attempt(next_attempt(last), straight_kg, hung_kg, GEAR)
    return (found.plates.straight_kg if found.plates else None), found.advice.reason.say()


def test_plates_never_make_more_than_was_advised() -> None:
    """2.5 % of 105 kg is 107.6: the plates make 107.5."""
    assert _loaded(105.0, made=True, reps_left=1)[0] == 107.5


def test_the_step_is_of_the_whole_load() -> None:
    """With 20 kg hung, 2.5 % of 105 + 20 is 3.1 kg."""
    assert _loaded(105.0, hung_kg=20.0, made=True, reps_left=1)[0] == 107.5
    assert _loaded(105.0, hung_kg=20.0, made=True, reps_left=2)[0] == 110.0


def test_plates_too_coarse_for_the_step() -> None:
    """2.5 % of 45 kg is 1.1 kg; the smallest step is 2.5 kg, 5.6 %: allowed, and said."""
    found_kg, why = _loaded(45.0, made=True, reps_left=1)
    assert found_kg == 47.5
    assert "smallest step" in why
    coarse = Gear(bar_kg=25.0, plates=(plate(10, 4),), room_m=0.4)
    advice = next_attempt(LastAttempt(load_kg=45.0, made=True, reps_left=1))
    stopped = load_attempt(advice, 45.0, 0.0, coarse)
    assert stopped.plates is None
    assert stopped.advice.stops
    assert MOST_STEP < 20.0 / 45.0


def test_after_a_miss_it_is_lighter() -> None:
    """5 % off 105 is 99.75: the plates make 97.5."""
    assert _loaded(105.0, made=False)[0] == 97.5
    assert _loaded(25.0, made=False)[0] is None


def test_a_last_weight_that_no_plates_make() -> None:
    with pytest.raises(NotInStockError):
        _loaded(104.0, made=True)
