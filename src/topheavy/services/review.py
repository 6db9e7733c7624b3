"""What a log says of training: each lifter in each lift, over some months."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import BadInputError, TopheavyError
from topheavy.gym.day import day_number
from topheavy.gym.lifts import lift_named
from topheavy.lifter.evidence import FullRange
from topheavy.lifter.strength import strength_curve
from topheavy.phrase import Phrase, Remark, literal
from topheavy.rigging.limits import LOOP_WIDTH_M
from topheavy.rigging.plates import loadings
from topheavy.services.logged import hung_by_height, with_log
from topheavy.services.rig import Place
from topheavy.services.strength import strength_of
from topheavy.services.top_set import gear_under
from topheavy.training.review.bests import best_of_days, bests_of
from topheavy.training.review.proposal import Ground, next_week
from topheavy.training.review.readings import read_sets, sampled_singles, spread_of
from topheavy.training.review.seen import LiftLog, SeenSet
from topheavy.training.review.shapes import shapes_of
from topheavy.training.review.shares import Shares, shares_of
from topheavy.training.review.stops import stops_of, unplaced_misses
from topheavy.training.review.trend import NOISE_WOMEN, check_noise, trend_of
from topheavy.training.review.work import days_work

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.lifts import Lift
    from topheavy.gym.log import LoggedSet, RigThen
    from topheavy.gym.people import Lifter, Travel
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.rigging.plates import Loading
    from topheavy.training.review.bests import Best
    from topheavy.training.review.proposal import Proposal
    from topheavy.training.review.readings import Reading
    from topheavy.training.review.shapes import Shapes
    from topheavy.training.review.stops import Stop
    from topheavy.training.review.trend import Trend
    from topheavy.training.review.work import DayWork

UNNAMED_RIG = "chain or bands, not described"
_TYPICAL_KG = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewQuestion:
    """A question for a review.

    Parameters
    ----------
    gym : Gym
        Stock, stations and lifters as they stand.
    sets : tuple of LoggedSet
        Those that hold: none that was corrected or struck out.
    since, until : str
        First and last day that count, such as ``"2026-11-25"``; `until` is the day the lifters'
        strength is taken of.
    noise : float
        How well a single repeats [-], 0.014 to 0.121.
    today : str
        The day from which next week is looked at; empty: `until`.

    Raises
    ------
    BadInputError
        A noise that no study found, no day, or a last day before the first.
    """

    gym: Gym
    sets: tuple[LoggedSet, ...]
    since: str
    until: str
    noise: float = NOISE_WOMEN
    today: str = ""

    def __post_init__(self) -> None:
        check_noise(self.noise)
        if day_number(self.since, "since") > day_number(self.until, "until"):
            raise BadInputError(
                "The last day lies before the first",
                field="until",
                got=f"{self.since} to {self.until}",
                wanted="a first day, and a last one that is no earlier",
            )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LiftAnswer:
    """What the log says of one lifter in one lift.

    Parameters
    ----------
    lifter, lift : str
        Who and what.
    log : LiftLog
        The sets.
    best_kg : float or None
        Straight-weight best of the gym file [kg].
    work : tuple of DayWork
        Work, day by day.
    bests : tuple of Best
        The best set with each rig, the greatest first.
    days : tuple of Reading
        The best set of each day that tells, by day.
    spreads_kg : tuple of (float, float)
        Between which 95 of 100 readings of each lie [kg].
    trend : Trend
        The line through them.
    stops : tuple of Stop
        Misses by thirds.
    unplaced : int
        Misses that say nothing of where.
    shares : Shares
        Which share went with which trend.
    proposal : Proposal or None
        Next week.
    loading : Loading or None
        Its plates; None when they are not known.
    remarks : tuple of Remark
        What it rests on, and what is missing.
    """

    lifter: str
    lift: str
    log: LiftLog
    best_kg: float | None
    work: tuple[DayWork, ...]
    bests: tuple[Best, ...]
    days: tuple[Reading, ...]
    spreads_kg: tuple[tuple[float, float], ...]
    trend: Trend
    stops: tuple[Stop, ...]
    unplaced: int
    shares: Shares
    proposal: Proposal | None
    loading: Loading | None
    remarks: tuple[Remark, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReviewAnswer:
    """What the log says.

    Parameters
    ----------
    question : ReviewQuestion
        What was asked.
    lifts : tuple of LiftAnswer
        By lifter in the order of the gym, then by lift.
    """

    question: ReviewQuestion
    lifts: tuple[LiftAnswer, ...]


def answer_review(question: ReviewQuestion) -> ReviewAnswer:
    """Review a log.

    Parameters
    ----------
    question : ReviewQuestion
        Whose, and from when to when.
    """
    gym = with_log(question.gym, question.sets, question.until)
    found: dict[tuple[str, str], list[LoggedSet]] = {}
    for one in question.sets:
        if question.since <= one.day <= question.until:
            found.setdefault((one.lifter, lift_named(one.lift).name), []).append(one)
    order = {lifter.name: place for place, lifter in enumerate(gym.lifters)}
    keys = sorted(found, key=lambda key: (order.get(key[0], len(order)), *key))
    return ReviewAnswer(
        question=question,
        lifts=tuple(_lift(gym, key, found[key], question) for key in keys),
    )


def _lift(
    gym: Gym, key: tuple[str, str], sets: Sequence[LoggedSet], question: ReviewQuestion
) -> LiftAnswer:
    who, lift = key[0], lift_named(key[1])
    lifter = next((one for one in gym.lifters if one.name == who), None)
    measured = lifter.lifts.get(lift.name) if lifter else None
    travel = measured.travel if measured else None
    log = LiftLog.of(_seen(gym, lifter, lift, sets), travel)
    place = _place(gym, lifter, lift)
    shapes, remarks = _shapes(place, lift, log)
    readings = read_sets(log.sets, shapes)
    days = best_of_days(readings)
    trend = trend_of(
        np.array([one.seen.at for one in days], dtype=np.float64),
        np.array([one.single_kg for one in days]),
        sampled_singles(days, shapes),
        question.noise,
    )
    gear = _gear(place, log)
    ground = Ground(
        readings=readings,
        trend=trend,
        travel=travel,
        makes_kg=tuple(gear),
        idle_days=_idle_days(log, question),
    )
    proposal = next_week(ground)
    return LiftAnswer(
        lifter=who,
        lift=lift.name,
        log=log,
        best_kg=measured.best_kg if measured else None,
        work=days_work(log),
        bests=bests_of(readings, shapes),
        days=days,
        spreads_kg=tuple(spread_of(day, shapes) for day in days),
        trend=trend,
        stops=stops_of(log),
        unplaced=unplaced_misses(log),
        shares=shares_of(days, travel, shapes, question.noise),
        proposal=proposal,
        loading=_loading(proposal, gear),
        remarks=(*remarks, *_missing(log, readings)),
    )


def _seen(gym: Gym, lifter: Lifter | None, lift: Lift, sets: Iterable[LoggedSet]) -> list[SeenSet]:
    """Set what hung against the heights of the lift; the same rig is worked out once."""
    known: dict[tuple[RigThen, float, str], LoadCurve | None] = {}
    found = []
    whose = lifter if lifter and lift.name in lifter.lifts else None
    for one in sets:
        hung = None
        if one.rig is not None:
            key = (one.rig, one.straight_kg, one.station)
            if key not in known:
                known[key] = hung_by_height(gym, whose, lift, one) if whose else None
            hung = known[key]
        found.append(
            SeenSet(
                day=one.day,
                straight_kg=one.straight_kg,
                reps=one.reps,
                reps_left=0.0 if one.missed else one.reps_left,
                missed=one.missed,
                third=one.third,
                hung=hung,
                rig=(one.rig.words or UNNAMED_RIG) if one.rig else "",
                exact=one.rig is None or bool(one.rig.curve),
            )
        )
    return found


def _place(gym: Gym, lifter: Lifter | None, lift: Lift) -> Place | None:
    """Where the lifter was measured; None when there is no such place any more."""
    if lifter is None or lift.name not in lifter.lifts:
        return None
    try:
        where = lifter.measured(lift).station
        station = gym.station(where) if where else gym.station_for(lift)
    except TopheavyError:
        return None
    return Place(gym=gym, lifter=lifter, lift=lift, station=station)


def _shapes(
    place: Place | None, lift: Lift, log: LiftLog
) -> tuple[Shapes | None, tuple[Remark, ...]]:
    """The shape of the lifter's strength; the typical one where nothing usable is known.

    None where nothing hung: straight weight stands for itself.
    """
    if log.travel is None:
        words = (
            "Bottom and top of this lift were never measured, so no work is known, and sets with "
            "chain or bands can't stand beside others. Measure them."
        )
        return None, (Remark("not measured", Phrase(words)),)
    if not any(one.hung is not None for one in log.sets):
        return None, ()
    if place is None:
        gone = TopheavyError("The station where the heights were measured is gone")
        return _typical(lift, log.travel, gone)
    try:
        curve = strength_of(place)
    except TopheavyError as error:
        return _typical(lift, log.travel, error)
    if len(curve.evidence) > 1:
        return shapes_of(curve), ()
    said = "One number alone is known of the lifter's strength: its shape is typical."
    return shapes_of(curve), (Remark("one number", Phrase(said)),)


def _typical(
    lift: Lift, travel: Travel, why: TopheavyError
) -> tuple[Shapes | None, tuple[Remark, ...]]:
    """The typical shape of a lift, with why it is taken; None for a lift that has none."""
    doubt = Remark("strength", Phrase(literal(f"{why.message}: the typical shape is taken.")))
    try:
        typical = strength_curve(lift, travel, [FullRange(load_kg=_TYPICAL_KG)])
    except TopheavyError as error:
        return None, (Remark("strength", Phrase(literal(f"{error.message}."))),)
    return shapes_of(typical), (doubt,)


def _gear(place: Place | None, log: LiftLog) -> dict[float, Loading]:
    """Straight weights [kg] that bar, collars and plates make, with their plates."""
    if place is None:
        return {}
    hung = any(one.rig for one in log.sets[-1:])
    try:
        gear = gear_under(place.setup, LOOP_WIDTH_M, int(hung))
    except TopheavyError:
        return {}
    return {
        gear.bar_kg + loading.total_kg: loading for loading in loadings(gear.plates, gear.room_m)
    }


def _loading(proposal: Proposal | None, gear: dict[float, Loading]) -> Loading | None:
    return None if proposal is None else gear.get(proposal.straight_kg)


def _idle_days(log: LiftLog, question: ReviewQuestion) -> int:
    """Days from the last set to the day from which next week is looked at."""
    return day_number(question.today or question.until, "today") - log.sets[-1].at


def _missing(log: LiftLog, readings: Sequence[Reading]) -> tuple[Remark, ...]:
    """What the log does not say, and what would help."""
    found = []
    untold = sum(one.reps > 0 and one.reps_left is None for one in log.sets)
    if untold:
        words = (
            f"{untold} of {len(log.sets)} sets do not say how many repetitions were left: they "
            "stand for that much at least, and no trend is drawn from them."
        )
        found.append(Remark("reps left", Phrase(words)))
    lost = sum(not one.placed for one in log.sets)
    if lost and log.travel is not None:
        words = f"{lost} sets with chain or bands can't be set against the lifter's heights."
        found.append(Remark("not placed", Phrase(words)))
    if any(not one.exact for one in log.sets):
        words = "Some rigs are known by bottom, mean and top alone: the load between is a guess."
        found.append(Remark("three loads", Phrase(words)))
    if not readings:
        found.append(Remark("nothing done", Phrase("No repetition was done in these sets.")))
    return tuple(found)
