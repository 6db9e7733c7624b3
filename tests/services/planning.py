"""Blocks of weeks on a gym with next to nothing in it: Ansa squats 140 kg and benches 100 kg."""

from __future__ import annotations

from typing import Any

from tests.services.training import TINY
from topheavy.services.weeks import WeeksAnswer, WeeksQuestion, answer_weeks
from topheavy.training.weeks import Block, TrainingDay, Wave

BENCH = TrainingDay(weekday=0, lifts=("bench press",), begins_min=18 * 60 + 30, lasts_min=75)
SPEED = TrainingDay(weekday=3, lifts=("bench press",), kind="speed")
CHAIN = Wave(hang="chain", weeks=3, deload=True)


def tiny_block(*days: TrainingDay, **more: Any) -> Block:
    """Bench presses of two kinds, two weeks straight and three with chain."""
    waves = (Wave(hang="straight", weeks=2), CHAIN)
    usual: dict[str, Any] = {
        "name": "Tiny block",
        "start": "2026-11-30",
        "days": days or (BENCH, SPEED),
        "waves": waves,
        "time_zone": "Europe/Vienna",
    }
    return Block(**(usual | more))


_ANSWERS: dict[str, WeeksAnswer] = {}


def tiny(*days: TrainingDay, **more: Any) -> WeeksAnswer:
    """Its answer, worked out once."""
    block = tiny_block(*days, **more)
    if repr(block) not in _ANSWERS:
        _ANSWERS[repr(block)] = answer_weeks(WeeksQuestion(gym=TINY, block=block))
    return _ANSWERS[repr(block)]
