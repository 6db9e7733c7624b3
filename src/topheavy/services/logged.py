"""What a log of sets tells of strength: the few sets that say most, as records of the lift.

A log holds thousands of sets, nearly all of them far from the limit. Of the last weeks these are
taken: the hard sets at straight weight that stand for the greatest single, singles with chain or
bands on, and misses with the third of the way up where they stopped. What does not agree with the
rest gives way later, when all that is known is gathered. Bar speeds of a log are not taken:
nobody noted whether the bar was moved as fast as it would go.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import TopheavyError
from topheavy.gym.day import day_number
from topheavy.gym.lifts import lift_named
from topheavy.gym.log import MOST_RIG_WORDS, RigThen
from topheavy.gym.records import HungLift, HungLoads, LiftedSet, MissedRep
from topheavy.lifter.one_rm import one_rm
from topheavy.training.review.seen import HARD_LEFT, HARD_REPS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.log import LoggedSet
    from topheavy.gym.people import Lifter, Measured
    from topheavy.gym.records import Record
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.services.reading import Reading

__all__ = [
    "HARD_LEFT", "HARD_REPS", "MOST_OF_A_KIND", "WINDOW_DAYS", "as_known", "hung_by_height",
    "in_window", "records_of", "rig_then", "with_log",
]  # fmt: skip

WINDOW_DAYS: Final = 84
"""How far back the log tells of strength now [days]: twelve weeks, own judgement."""

_DIGITS: Final = 4

MOST_OF_A_KIND: Final = 3
"""How many days of each kind are taken: own judgement."""


def as_known(gym: Gym, logged: LoggedSet) -> LoggedSet:
    """Write the names in a set as the gym does.

    Parameters
    ----------
    gym : Gym
        Whose lifters and stations they are.
    logged : LoggedSet
        With names in upper or lower case, or a short name of the lift.

    Raises
    ------
    NotInStockError
        No such lifter or station in the gym, or no such lift.
    """
    station = gym.station(logged.station).name if logged.station else ""
    lifter, lift = gym.lifter(logged.lifter).name, lift_named(logged.lift).name
    return replace(logged, lifter=lifter, lift=lift, station=station)


def rig_then(reading: Reading, words: str) -> RigThen:
    """Freeze what hung.

    Parameters
    ----------
    reading : Reading
        The rig read over the lift.
    words : str
        Its description.
    """
    straight_kg = reading.straight_weight_kg
    last = len(reading.heights_m) - 1
    pairs = [
        pair
        for number, pair in enumerate(zip(reading.heights_m, reading.raising_kg, strict=True))
        if number % 2 == 0 or number == last
    ]
    return RigThen(
        bottom_kg=round(reading.bottom.load_kg, _DIGITS),
        mean_kg=round(reading.mean.load_kg, _DIGITS),
        top_kg=round(reading.top.load_kg, _DIGITS),
        words=words[:MOST_RIG_WORDS].strip(),
        curve=tuple(
            (round(height_m, _DIGITS), round(load_kg - straight_kg, _DIGITS))
            for height_m, load_kg in pairs
        ),
    )


def in_window(logged: LoggedSet, today: str) -> bool:
    """Whether a set is recent enough to tell of strength today, year-month-day."""
    return 0 <= day_number(today, "today") - day_number(logged.day, "day") <= WINDOW_DAYS


def with_log(gym: Gym, sets: Iterable[LoggedSet], today: str) -> Gym:
    """Give the lifters of a gym what the log tells of their strength.

    Parameters
    ----------
    gym : Gym
        As it stands.
    sets : iterable of LoggedSet
        Those that hold: none that was corrected or struck out.
    today : str
        The day it is, as ``"2026-11-25"``.

    Returns
    -------
    Gym
        The same with `Measured.logged` filled in. Sets of people or lifts that were never
        measured have no heights and tell nothing.
    """
    found: dict[tuple[str, str], list[LoggedSet]] = {}
    for logged in sets:
        if in_window(logged, today):
            key = (logged.lifter.casefold(), lift_named(logged.lift).name)
            found.setdefault(key, []).append(logged)
    lifters = tuple(_with_log(gym, lifter, found) for lifter in gym.lifters)
    return replace(gym, lifters=lifters)


def _with_log(gym: Gym, lifter: Lifter, found: dict[tuple[str, str], list[LoggedSet]]) -> Lifter:
    lifts: dict[str, Measured] = {}
    for name, measured in lifter.lifts.items():
        sets = found.get((lifter.name.casefold(), name), [])
        logged = records_of(gym, lifter, lift_named(name), sets) if sets else ()
        lifts[name] = replace(measured, logged=logged)
    return replace(lifter, lifts=lifts)


def records_of(
    gym: Gym, lifter: Lifter, lift: Lift, sets: Sequence[LoggedSet]
) -> tuple[Record, ...]:
    """Make records of the sets that say most of one lifter's strength in one lift.

    A miss after repetitions is a set to failure, not a miss: the lifter was tired by then.

    Parameters
    ----------
    gym : Gym
        For the heights of its stations.
    lifter, lift : Lifter, Lift
        Who and what; measured.
    sets : sequence of LoggedSet
        Of this lifter in this lift, recent ones.

    Returns
    -------
    tuple of Record
        At most three days of each kind, oldest first.
    """
    plain = [one for one in sets if one.rig is None]
    hung = [one for one in sets if one.rig is not None]
    hard = _best_days([one for one in plain if _is_hard(one)], lambda one: _single_kg(one, lift))
    most = max((one.straight_kg for one in hard), default=0.0)
    easy = [one for one in plain if one.reps and one not in hard and one.straight_kg > most]
    singles = _best_days([one for one in hung if _is_tried_single(one)], _top_kg)
    done = [one for one in hung if one.reps and one not in singles]
    misses = [one for one in sets if one.missed and not one.reps and one.third]
    records = [
        *(_lifted(one) for one in hard),
        *(_lifted(one, tried=False) for one in _best_days(easy, _straight_kg)[-1:]),
        *(_hung_lift(gym, lifter, lift, one) for one in singles),
        *(_hung_lift(gym, lifter, lift, one) for one in _best_days(done, _top_kg)[-1:]),
        *(_miss(gym, lifter, lift, one) for one in sorted(misses, key=_when)[-MOST_OF_A_KIND:]),
    ]
    return tuple(sorted((one for one in records if one is not None), key=lambda one: one.day))


def _best_days(sets: Sequence[LoggedSet], worth: Callable[[LoggedSet], float]) -> list[LoggedSet]:
    """The set that is worth most of each day; of the days the best few, the best last."""
    best: dict[str, LoggedSet] = {}
    for one in sorted(sets, key=lambda one: (worth(one), _when(one))):
        best[one.day] = one
    return sorted(best.values(), key=lambda one: (worth(one), _when(one)))[-MOST_OF_A_KIND:]


def _is_hard(one: LoggedSet) -> bool:
    left = 0.0 if one.missed else one.reps_left
    return (
        bool(one.reps) and left is not None and left <= HARD_LEFT and one.reps + left <= HARD_REPS
    )


def _is_tried_single(one: LoggedSet) -> bool:
    return one.reps == 1 and (one.missed or one.reps_left == 0)


def _single_kg(one: LoggedSet, lift: Lift) -> float:
    left = 0.0 if one.missed else one.reps_left or 0.0
    return one_rm(one.straight_kg, one.reps, reps_left=left, lift=lift.name).middle_kg


def _straight_kg(one: LoggedSet) -> float:
    return one.straight_kg


def _top_kg(one: LoggedSet) -> float:
    return one.rig.top_kg if one.rig else one.straight_kg


def _when(one: LoggedSet) -> tuple[str, str, int]:
    return one.day, one.time, one.number or 0


def _lifted(one: LoggedSet, *, tried: bool = True) -> LiftedSet | None:
    left = one.reps_left if tried and not one.missed else 0.0
    try:
        return LiftedSet(
            load_kg=one.straight_kg,
            reps=one.reps if tried else 1,
            reps_left=left or 0.0,
            tried=tried,
            day=one.day,
        )
    except TopheavyError:
        return None


def _hung_lift(gym: Gym, lifter: Lifter, lift: Lift, one: LoggedSet) -> HungLift | None:
    hung = _hung(gym, lifter, lift, one)
    if hung is None:
        return None
    tried = _is_tried_single(one)
    return HungLift(straight_kg=one.straight_kg, hung=hung, tried=tried, day=one.day)


def _miss(gym: Gym, lifter: Lifter, lift: Lift, one: LoggedSet) -> MissedRep | None:
    hung = None if one.rig is None else _hung(gym, lifter, lift, one)
    if one.rig is not None and hung is None:
        return None
    return MissedRep(straight_kg=one.straight_kg, third=one.third, hung=hung, day=one.day)


def _hung(gym: Gym, lifter: Lifter, lift: Lift, one: LoggedSet) -> HungLoads | None:
    curve = hung_by_height(gym, lifter, lift, one)
    return None if curve is None else HungLoads(curve=curve)


def hung_by_height(gym: Gym, lifter: Lifter, lift: Lift, one: LoggedSet) -> LoadCurve | None:
    """What hung in a set, by heights where the lifter was measured [kg over m].

    Parameters
    ----------
    gym : Gym
        For the heights of its stations.
    lifter, lift : Lifter, Lift
        Who and what; measured.
    one : LoggedSet
        Theirs.

    Returns
    -------
    LoadCurve or None
        None where nothing hung, or where it can't be told by height.
    """
    if one.rig is None:
        return None
    measured = lifter.measured(lift).travel
    try:
        there = gym.travel(lifter, lift, gym.station(one.station)) if one.station else measured
    except TopheavyError:
        return None
    curve = one.rig.hung_curve(one.straight_kg, there)
    return curve.raised(measured.bottom_m - there.bottom_m)
