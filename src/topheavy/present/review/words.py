"""Sentences of a review, modest ones: what the log says and what it can't."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Final

from topheavy.present.weeks import dates
from topheavy.training.review.trend import LEAST_DAYS, LEAST_SPAN_DAYS, NOISE_MEN, NOISE_WOMEN

if TYPE_CHECKING:
    from topheavy.present.review.rows import StopRow
    from topheavy.services.review import LiftAnswer
    from topheavy.training.review.readings import Reading
    from topheavy.training.review.seen import SeenSet
    from topheavy.training.review.shares import Shares, ShareTrend
    from topheavy.training.review.stops import Stop
    from topheavy.training.review.trend import Trend
    from topheavy.units import UnitSystem

STRAIGHT: Final = "straight weight"
_FEW_MISSES: Final = 3

SOURCES: Final = (
    (
        "As a straight single: the straight weight that would use the lifter's strength as much "
        "where it is hardest, and seven published formulas from repetitions to a single; their "
        "spread is in the range."
    ),
    (
        f"Noise: an all-chain bench single repeats with a coefficient of variation of "
        f"{100 * NOISE_MEN:g} % in trained men and {100 * NOISE_WOMEN:g} % in women (McCurdy et "
        "al. 2008, abstract). The wider one holds unless you say another."
    ),
    (
        "The line through the days: by Theil and Sen, the middle slope of all pairs of days; its "
        "interval holds the true slope 95 times in 100 if nothing else changed."
    ),
    (
        "Steps of 2 to 10 %: ACSM 2009 (summary read). A light week every 5.6 weeks, SD 2.3: "
        "Rogerson et al. 2024 (abstract). How many reps left allow which step: common practice, "
        "no source."
    ),
)

EMPTY: Final = (
    "The log has no sets of these days. Look further back: --since DAY.",
    "Log one: topheavy log add --lifter NAME --lift LIFT --straight 100kg --reps 5 --reps-left 2.",
    "Bring an old log in: topheavy log import FILE.",
    "See what a review looks like: topheavy log example, with the built-in gym.",
)
"""What to do when there is nothing to review."""

PROMISE: Final = (
    "A review looks back. Sleep, food, age and everything else are in these numbers too; what "
    "comes next nobody can promise. Change the plan as the lifter comes along."
)


def day_words(day: str, *, year: bool = False) -> str:
    """Write a day as people say it.

    >>> day_words("2026-11-02"), day_words("2026-11-02", year=True)
    ('2 Nov', '2 Nov 2026')
    """
    return dates.said(dt.date.fromisoformat(day), year=year)


def span_words(first: str, last: str) -> str:
    """Write the first and the last day, the year once where it is the same.

    >>> span_words("2026-07-20", "2026-11-16"), span_words("2025-12-30", "2026-01-02")
    ('20 Jul to 16 Nov 2026', '30 Dec 2025 to 2 Jan 2026')
    """
    return f"{day_words(first, year=first[:4] != last[:4])} to {day_words(last, year=True)}"


def lifted_words(reading: Reading, units: UnitSystem) -> str:
    """Say what was lifted, and how near to its end it was."""
    seen = reading.seen
    return f"{seen.reps} x {units.mass(seen.straight_kg)}{_end(seen)}"


def _end(seen: SeenSet) -> str:
    if seen.missed:
        return ", then a miss"
    return "" if seen.reps_left is None else f", {seen.reps_left:g} left"


def trend_words(trend: Trend, units: UnitSystem) -> str:
    """Say what the line through the days may be called, and why."""
    if not trend.known:
        return (
            f"{_days(trend.days)} told of strength. A line is drawn from {LEAST_DAYS} of them, "
            f"{LEAST_SPAN_DAYS // 7} weeks from first to last: note the reps left of hard sets."
        )
    noise = f"the noise of a single ({100 * trend.noise:g} %, {units.mass(trend.noise_kg)})"
    moved = (
        f"{units.mass(abs(trend.change_kg))} {'up' if trend.change_kg >= 0 else 'down'} in "
        f"{trend.weeks:.0f} weeks"
    )
    slope = (
        f"{_signed(trend.per_week_kg, units)} a week, "
        f"from {_signed(trend.low_kg, units)} to {_signed(trend.high_kg, units)}"
    )
    if trend.verdict == "level":
        return f"No change that counts: {moved}, within {noise}. Neither progress nor loss."
    if trend.verdict == "unsure":
        why = (
            "rigs or reps changed on the way, and how those compare is not known well enough"
            if trend.by_terms
            else "the days scatter too much"
        )
        return f"Not called progress or loss: {moved}, more than {noise}, but {why} ({slope})."
    name = "Progress" if trend.verdict == "up" else "Loss"
    return f"{name}: {moved}, more than {noise}; {slope}."


def _signed(load_kg: float, units: UnitSystem) -> str:
    text = units.mass(load_kg, 2)
    return text if text.startswith("-") else f"+{text}"


def _days(count: int) -> str:
    return {0: "No day", 1: "1 day"}.get(count, f"{count} days")


def stop_words(stop: Stop, units: UnitSystem) -> str:
    """Say how many lifts stopped in a third, with which load, and what hung there."""
    if not (stop.first or stop.tired):
        return "none"
    said = [
        f"{count} {what}"
        for count, what in (
            (stop.straight, STRAIGHT),
            (stop.hung, "with chain or bands"),
            (stop.tired, "after other reps"),
        )
        if count
    ]
    words = ", ".join(said)
    if stop.load_kg is not None and stop.height_m is not None:
        words += f"; about {units.mass(stop.load_kg)} there, at {units.length(stop.height_m)}"
    if stop.hung_there_kg is not None and stop.hung_top_kg is not None:
        words += (
            f", {units.mass(stop.hung_there_kg)} of it hung (of {units.mass(stop.hung_top_kg)} at "
            "the top)"
        )
    return words


def stops_words(answer: LiftAnswer, rows: tuple[StopRow, ...]) -> str:
    """Say where lifts fail, if the log has misses enough to say it."""
    unplaced = ""
    if answer.unplaced:
        missed = _counted(answer.unplaced, "miss", "misses")
        unplaced = f" {missed} without a word of where: log the third."
    first = {row.third: row.straight + row.hung for row in rows}
    total = sum(first.values())
    if not rows:
        return f"No miss with its third in the log.{unplaced}"
    if total < _FEW_MISSES:
        return (
            f"{_counted(total, 'first repetition', 'first repetitions')} missed: too few to say "
            f"where the lift fails.{unplaced}"
        )
    third = max(first, key=lambda name: first[name])
    if 2 * first[third] <= total:
        return f"Lifts stop in more than one place: no one height to blame.{unplaced}"
    return f"Mostly in the {third} third. {_ADVICE[third]}{unplaced}"


_ADVICE: Final = {
    "lower": (
        "Folded chain is hardly on the bar there, so plates decide it. Chain trains what is above; "
        "pauses and plain weight train this."
    ),
    "middle": "A feeder setting tells how much chain is on there: see topheavy rig --match.",
    "top": "Chain asks most there. If plain weight stops there too, hang less of it.",
}
"""Common practice, no source."""


def share_words(one: ShareTrend) -> str:
    """Name a share of the top load."""
    return f"about {100 * one.share:.0f} %" if one.share else STRAIGHT


def shares_words(shares: Shares) -> str:
    """Say which share served this lifter, as far as one log can tell."""
    if not shares.trends:
        return (
            "The log can't tell which share serves this lifter: it takes two stretches with "
            f"different shares, each of {LEAST_DAYS} days that tell or more over "
            f"{LEAST_SPAN_DAYS // 7} weeks."
        )
    if not shares.apart:
        return "Their slopes can't be told apart: no share served this lifter better than another."
    name = share_words(shares.trends[0])
    what = name if name == STRAIGHT else f"{name} of the top load from chain or bands"
    return (
        f"The line rose fastest with {what}. What came first, sleep, food and volume are in it "
        "too: a hint, no proof, and trials that compare them disagree."
    )


def _counted(count: int, one: str, many: str) -> str:
    return f"1 {one}" if count == 1 else f"{count} {many}"
