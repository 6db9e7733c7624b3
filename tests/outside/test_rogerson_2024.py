"""How often lifters deload, and what they change.

Rogerson D, Nolan D, Androulakis Korakakis P, Immonen V, Wolf M, Bell L. Deloading practices in
strength and physique sports: a cross-sectional survey. Sports Medicine - Open 10: 26, 2024. doi
10.1186/s40798-024-00691-y. Seen: abstract. 246 athletes: a deload of 6.4 +- 1.7 days, every 5.6 +-
2.3 weeks; volume goes down by fewer reps and sets, load goes down, reps in reserve go up, the
number of sessions and the choice of lifts stay. That is what people do; no trial of what is best.
"""

from __future__ import annotations

from collections import Counter

from tests.training.blocks import block
from topheavy.present.weeks.words import reserve_words
from topheavy.training.weeks import USUAL_WAVES, TrainingDay, Wave
from topheavy.training.weeks_checks import MOST_WEEKS_HARD
from topheavy.training.weeks_slots import slots_of

DAYS = (
    TrainingDay(weekday=0, lifts=("squat",)),
    TrainingDay(weekday=2, lifts=("bench press",), kind="speed"),
    TrainingDay(weekday=4, lifts=("deadlift",), kind="repetition"),
)
WAVE = Wave(hang="chain", weeks=4, deload=True)


def test_volume_and_load_go_down_sessions_and_lifts_stay() -> None:
    """In words, each a finding of the abstract."""
    slots, _ = slots_of(block(*DAYS, waves=(WAVE,), test_week=False), ("Pip",))
    first = [slot for slot in slots if slot.week == 1]
    deload = [slot for slot in slots if slot.week == 4]
    assert Counter(slot.lift for slot in deload) == Counter(slot.lift for slot in first)
    for usual, easy in zip(first, deload, strict=True):
        assert easy.sets * easy.reps < usual.sets * usual.reps
        assert easy.load < usual.load
        assert reserve_words(easy) != reserve_words(usual)


def test_a_deload_lasts_a_week() -> None:
    """6.4 +- 1.7 days: seven lie within."""
    slots, _ = slots_of(block(*DAYS, waves=(WAVE,), test_week=False), ("Pip",))
    weeks = {slot.week for slot in slots if slot.deload}
    assert len(weeks) == 1
    assert 6.4 - 1.7 <= 7 * len(weeks) <= 6.4 + 1.7


def test_the_flag_comes_within_a_standard_deviation_of_the_mean() -> None:
    """5.6 + 2.3 = 7.9 weeks from one deload to the next; seven hard weeks and the deload are 8."""
    assert abs(MOST_WEEKS_HARD + 1 - (5.6 + 2.3)) < 0.5


def test_the_usual_waves_deload_about_as_often() -> None:
    """Every sixth week; 5.6 +- 2.3."""
    assert abs(sum(wave.weeks for wave in USUAL_WAVES) - 5.6) <= 2.3
    assert USUAL_WAVES[-1].deload
