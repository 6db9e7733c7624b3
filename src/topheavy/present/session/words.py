"""A session in sentences: when a set ends, how fast a rep should be, whether volume adds up."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from topheavy.services.session import SessionAnswer
    from topheavy.training.days import Day
    from topheavy.training.session import Plan, Session
    from topheavy.training.volume import VolumeCheck
    from topheavy.units import UnitSystem

_TRUSTED = 10


def usual_words(day: Day) -> str:
    """Usual loads of a kind of day."""
    return f"{100 * day.low:.0f} to {100 * day.high:.0f} % of the best, as the mean load"


def left_words(day: Day) -> str:
    """How many reps to leave in reserve."""
    low, high = day.reps_left
    return f"end each set with {low} to {high} reps left in it"


def stop_words(plan: Plan) -> str:
    """When a set ends."""
    if plan.loss is None:
        return "end the set when a rep looks unlike the one before"
    return (
        f"end the set when a rep is {100 * plan.loss:.0f} % slower than the fastest of it; without "
        "a device for speed, when one is seen to be slower"
    )


def speed_words(answer: SessionAnswer) -> str:
    """How fast the first rep should go, and what ends a set then."""
    speed, loss = answer.speed, answer.session.plan.loss
    if loss is None:
        return ""
    if speed is None:
        return "not predicted for this lift and load: take the fastest rep of the first set"
    low, high = speed.low_m_per_s, speed.high_m_per_s
    return (
        f"first rep about {speed.middle_m_per_s:.2f} m/s mean ({low:.2f} to {high:.2f}), so end "
        f"below about {speed.middle_m_per_s * (1 - loss):.2f}. A model's guess: the lifter's own "
        "fastest rep counts"
    )


def effort_words(answer: SessionAnswer, units: UnitSystem) -> str:
    """How much of the lifter's strength the load takes where the lift is hardest."""
    effort, height_m = answer.session.effort, answer.hardest_m
    if effort is None or height_m is None:
        return ""
    form = ", if strength has the usual form" if answer.strong.typical else ""
    return f"{100 * effort:.0f} % of strength at {units.length(height_m)}{form}"


def failure_words(session: Session) -> str:
    """How many reps the formulas expect to failure."""
    if session.reps_to_failure is None:
        return ""
    low, high = session.reps_to_failure
    if high == 0:
        return "none"
    if low > _TRUSTED:
        return f"more than {_TRUSTED}; the formulas are not good for more"
    most = f"{high}" if high <= _TRUSTED else f"more than {_TRUSTED}"
    span = most if low == high else f"{low} to {most}"
    return f"{span}, by formulas made with plain weight; lifters differ widely"


def volume_words(check: VolumeCheck) -> str:
    """Whether sets and reps fit a row of the repetition table."""
    if check.within:
        return "fits"
    words = {"few": "fewer", "many": "more"}
    a_set, in_all = words.get(check.set_verdict), words.get(check.total_verdict)
    if a_set == in_all:
        return f"{a_set} in both"
    said = [f"{word} {where}" for word, where in ((a_set, "a set"), (in_all, "in all")) if word]
    return ", ".join(said)
