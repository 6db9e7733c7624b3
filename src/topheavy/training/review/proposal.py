"""Next week, from what the last weeks say: a small step, the same, or a lighter week; and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.phrase import Amount, Phrase
from topheavy.training.bases import Hung
from topheavy.training.review.readings import single_factor
from topheavy.training.weeks_checks import MOST_WEEKS_HARD
from topheavy.training.weeks_loads import DELOAD_LOAD, deload_sets

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from topheavy.gym.people import Travel
    from topheavy.training.bases import Loads
    from topheavy.training.review.readings import Reading
    from topheavy.training.review.trend import Trend

Kind = Literal["up", "same", "down", "deload"]

RECENT_DAYS: Final = 14
"""The heaviest day of the last two weeks is gone on from: a light week in between is no measure."""

SAME_LOAD: Final = 0.01
"""Loads this close are the same load [-]."""

LONG_BREAK_DAYS: Final = 21
"""After so many days without a set one begins light: common practice, no source."""

LIGHT: Final = 0.90
"""A week whose hardest load is below this part of the hardest of the four weeks before it is a
light one [-]: a deload of `DELOAD_LOAD` is, the steps of a wave are not. Own judgement."""

_STEPS: Final = ((3.0, 0.05), (1.0, 0.025))
"""Repetitions left, and the step up that they allow [-]: inside the 2 to 10 % of the ACSM's
position stand of 2009 (summary read); which of it at how many left is own judgement."""

_MOST_STEP: Final = 0.05
"""The largest step up [-], when the plates make no finer one."""

_AFTER_A_MISS: Final = -0.05
"""What comes off after a miss [-]: as after a first attempt (see `training.attempts`)."""

_BEFORE: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """What to do next week in one lift.

    Parameters
    ----------
    kind : {'up', 'same', 'down', 'deload'}
        Which way.
    sets, reps : int
        To be done.
    reading : Reading
        The work that it goes on from; the rig stays.
    loads : Loads or None
        On the bar [kg]; None where the heights were never measured and something hangs.
    straight_kg : float
        Bar, collars and plates [kg].
    change : float
        Of the mean load over the way up, or of straight weight alone, over the last [-].
    reasons : tuple of Phrase
        Why.
    """

    kind: Kind
    sets: int
    reps: int
    reading: Reading
    loads: Loads | None
    straight_kg: float
    change: float
    reasons: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What a proposal stands on.

    Parameters
    ----------
    readings : sequence of Reading
        All sets, by day.
    trend : Trend
        Their line.
    travel : Travel or None
        Bottom and top [m].
    makes_kg : tuple of float
        Straight weights that bar, collars and plates make [kg], rising; empty when nobody knows.
    idle_days : int
        Days since the last set [d].
    """

    readings: Sequence[Reading]
    trend: Trend
    travel: Travel | None
    makes_kg: tuple[float, ...] = ()
    idle_days: int = 0


def next_week(ground: Ground) -> Proposal | None:
    """Propose the next week's hard day; the other days stay as they are.

    Parameters
    ----------
    ground : Ground
        What is known.

    Returns
    -------
    Proposal or None
        None without a set that can be gone on from.
    """
    if not ground.readings:
        return None
    work = _work(ground.readings)
    kind, wanted, reasons = _decided(ground, work)
    return _made(ground, work, kind, wanted, reasons)


def weeks_without_rest(readings: Sequence[Reading]) -> int:
    """Count the weeks up to the last that have no light week among them.

    Parameters
    ----------
    readings : sequence of Reading
        Sets of one lifter in one lift, by day.

    Notes
    -----
    A week begins with Monday. One without a set is light, and so is one whose hardest load, as
    straight weight, is below nine tenths of the hardest of the four weeks before.
    """
    if not readings:
        return 0
    hardest: dict[int, float] = {}
    for one in readings:
        week = (one.seen.at + 3) // 7  # 1 January 1970 was a Thursday
        hardest[week] = max(hardest.get(week, 0.0), one.as_hard_kg)
    last, count = max(hardest), 0
    while last - count in hardest and not _is_light(hardest, last - count):
        count += 1
    return count


def _is_light(hardest: dict[int, float], week: int) -> bool:
    before = [hardest[other] for other in range(week - _BEFORE, week) if other in hardest]
    return bool(before) and hardest[week] < LIGHT * max(before)


@dataclass(frozen=True, slots=True, eq=False)
class _Work:
    """The sets of the hard day that next week goes on from, all with one load."""

    sets: tuple[Reading, ...]
    before: tuple[Reading, ...]
    """Sets of the last day before it with the same load and repetitions."""

    @property
    def first(self) -> Reading:
        return self.sets[0]

    @property
    def reps(self) -> int:
        """What most sets had; the more of equals."""
        counts = [one.seen.reps for one in self.sets]
        return max(counts, key=lambda reps: (counts.count(reps), reps))

    @property
    def missed(self) -> bool:
        return any(one.seen.missed for one in self.sets)


def _work(readings: Sequence[Reading]) -> _Work:
    last = readings[-1].seen.at
    recent = [one for one in readings if last - one.seen.at < RECENT_DAYS]
    worked = [one for one in recent if one.seen.reps > 1] or recent  # a max is no work to repeat
    hardest = max(worked, key=lambda one: (one.as_hard_kg, one.seen.at, one.seen.reps))
    sets = tuple(
        one for one in recent if one.seen.day == hardest.seen.day and _same_load(one, hardest)
    )
    earlier = [
        one for one in readings if one.seen.at < hardest.seen.at and _same_load(one, hardest)
    ]
    alike = [one for one in earlier if one.seen.reps == _Work(sets, ()).reps]
    day = alike[-1].seen.day if alike else ""
    return _Work(sets, tuple(one for one in alike if one.seen.day == day))


def _same_load(one: Reading, other: Reading) -> bool:
    near = abs(one.seen.straight_kg / other.seen.straight_kg - 1) <= SAME_LOAD
    return one.seen.rig == other.seen.rig and near


def _left(sets: Sequence[Reading]) -> float | None:
    """Fewest repetitions left that were noted of some sets."""
    told = [one.seen.reps_left for one in sets if one.seen.reps_left is not None]
    return min(told, default=None)


def _decided(ground: Ground, work: _Work) -> tuple[Kind, float, tuple[Phrase, ...]]:
    rest = tuple(_reasons_to_rest(ground, work))
    if rest:
        return "deload", DELOAD_LOAD - 1, rest
    if work.missed:
        off = Phrase(f"A repetition was missed at this load: {-100 * _AFTER_A_MISS:.0f} % off.")
        return "down", _AFTER_A_MISS, (off,)
    left = _left(work.sets)
    if left is None:
        said = "Nobody noted how many repetitions were left: the same again, and note them."
        return "same", 0.0, (Phrase(said),)
    for least, step in _STEPS:
        if left >= least:
            why = f"{_reps(left)} left at this load: up by {100 * step:g} %, a small step."
            return "up", step, (Phrase(why),)
    why = f"{_reps(left)} left: the same again, until there is at least one."
    return "same", 0.0, (Phrase(why),)


def _reps(left: float) -> str:
    if not left:
        return "No repetition was"
    return "1 repetition was" if left == 1 else f"{left:g} repetitions were"


def _reasons_to_rest(ground: Ground, work: _Work) -> Iterator[Phrase]:
    if ground.idle_days >= LONG_BREAK_DAYS:
        yield Phrase(f"The last set is {ground.idle_days} days ago: begin light again.")
    weeks = weeks_without_rest(ground.readings)
    if weeks >= MOST_WEEKS_HARD:
        yield Phrase(
            f"{weeks} weeks without a light one. Lifters in a survey had one every 5.6 weeks, give "
            "or take 2.3 (Rogerson et al. 2024)."
        )
    left, before = _left(work.sets), _left(work.before)
    if left is not None and before is not None and before - left >= 1:
        yield Phrase(
            f"The same load is harder than it was: {left:g} left now, {before:g} left on "
            f"{work.before[0].seen.day}."
        )
    days = list(dict.fromkeys(one.seen.day for one in ground.readings))[-2:]
    missed = sum(one.seen.missed for one in ground.readings if one.seen.day in days)
    if missed >= 2:
        yield Phrase(f"{missed} sets of the last two days ended with a miss.")
    if ground.trend.verdict == "down":
        yield Phrase("The trend goes down by more than noise.")


def _made(
    ground: Ground, work: _Work, kind: Kind, wanted: float, reasons: tuple[Phrase, ...]
) -> Proposal:
    """Put a wanted change into plates; the chain stays on, so it is a change of the mean load."""
    seen = work.first.seen
    hung = _hung(work.first, ground.travel)
    hung_kg = 0.0 if hung is None else hung.mean_kg
    now_kg = seen.straight_kg + hung_kg
    exact_kg = seen.straight_kg if kind == "same" else (1 + wanted) * now_kg - hung_kg
    straight_kg, said = _by_plates(exact_kg, seen.straight_kg, now_kg, kind, ground.makes_kg)
    if kind == "up" and straight_kg > seen.straight_kg:
        kind, straight_kg, too_much = _within_the_log(ground, work, straight_kg)
        said += too_much
    elif kind == "up":
        kind = "same"
    return Proposal(
        kind=kind,
        sets=deload_sets(len(work.sets)) if kind == "deload" else len(work.sets),
        reps=work.reps,
        reading=work.first,
        loads=None if hung is None and seen.rig else (hung or _NOTHING).under(straight_kg),
        straight_kg=straight_kg,
        change=(straight_kg + hung_kg) / now_kg - 1,
        reasons=reasons + said,
    )


_NOTHING: Final = Hung(bottom_kg=0.0, mean_kg=0.0, top_kg=0.0)


def _hung(reading: Reading, travel: Travel | None) -> Hung | None:
    if reading.seen.hung is None or travel is None:
        return None
    return Hung.of(reading.seen.hung, travel)


def _by_plates(
    exact_kg: float, before_kg: float, now_kg: float, kind: Kind, makes_kg: Sequence[float]
) -> tuple[float, tuple[Phrase, ...]]:
    """The straight weight that plates make: up at least by the smallest step, never by a jump."""
    if not makes_kg:
        return exact_kg, (Phrase("What bar and plates make is not known: round it yourself."),)
    nearest_kg = min(makes_kg, key=lambda one_kg: abs(one_kg - exact_kg))
    if kind == "up" and nearest_kg <= before_kg + _HAIR_KG:
        nearest_kg = min((kg for kg in makes_kg if kg > before_kg + _HAIR_KG), default=before_kg)
    if kind == "up" and nearest_kg - before_kg > _MOST_STEP * now_kg + _HAIR_KG:
        words = "The plates make no smaller step than {}: the same again."
        return before_kg, (Phrase(words, (Amount(nearest_kg - before_kg, "mass"),)),)
    if exact_kg < makes_kg[0] - _HAIR_KG:
        words = "Bar and collars alone are {}: hang less to go lighter."
        return nearest_kg, (Phrase(words, (Amount(makes_kg[0], "mass"),)),)
    return nearest_kg, ()


_HAIR_KG: Final = 1e-3


def _within_the_log(
    ground: Ground, work: _Work, straight_kg: float
) -> tuple[Kind, float, tuple[Phrase, ...]]:
    """Hold back where the step is more than the log says the lifter can do."""
    before_kg = work.first.seen.straight_kg
    # At most so much: what is added weighs less than that where the lifter is stronger.
    as_hard_kg = work.first.as_hard_kg + straight_kg - before_kg
    most_kg = max(one.single_kg for one in ground.readings)
    if as_hard_kg * single_factor(float(work.reps)) <= (1 + ground.trend.noise) * most_kg:
        return "up", straight_kg, ()
    words = "A step up would be more than anything in the log stands for ({}): the same again."
    return "same", before_kg, (Phrase(words, (Amount(most_kg, "mass"),)),)
