"""A review put into words and figures: for screen, page, paper and JSON alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.gym.lifts import lift_named
from topheavy.present.figure import Figure, length, mass, share
from topheavy.present.review import words
from topheavy.present.review.rows import (
    BestRow,
    LiftReview,
    NextRow,
    PointRow,
    ReviewView,
    ShareRow,
    StopRow,
    TrendRow,
    WorkRow,
)
from topheavy.present.rig.steps import loading_text
from topheavy.present.weeks.view import energy
from topheavy.services.cautions import cautions_by_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.services.review import LiftAnswer, ReviewAnswer
    from topheavy.training.bases import LoadName
    from topheavy.training.review.bests import Best
    from topheavy.training.review.proposal import Proposal
    from topheavy.training.review.shares import ShareTrend
    from topheavy.training.review.stops import Stop
    from topheavy.training.review.trend import Trend
    from topheavy.training.review.work import DayWork
    from topheavy.units import UnitSystem

_BASES: Final = {
    "straight": "straight weight",
    "curve": "the load at every height",
    "loads": "bottom, mean and top",
}

WORK_WORDS: Final = (
    "Work is load times height, over the whole way of each finished repetition; lowering is "
    "reckoned with the same loads."
)

_PLACES: Final[tuple[LoadName, ...]] = ("bottom", "mean", "top")

_KINDS: Final = {
    "up": "A small step up",
    "same": "The same again",
    "down": "A little less",
    "deload": "A light week",
}


def view_review(answer: ReviewAnswer, units: UnitSystem) -> ReviewView:
    """Put a review into words and figures.

    Parameters
    ----------
    answer : ReviewAnswer
        From `topheavy.services.review.answer_review`.
    units : UnitSystem
        What the user wants to see.
    """
    question = answer.question
    lifts = tuple(_lift(one, units) for one in answer.lifts)
    return ReviewView(
        title=f"Review, {words.span_words(question.since, question.until)}",
        gym=question.gym.name,
        since=question.since,
        until=question.until,
        mass_unit=units.mass_unit,
        lifts=lifts,
        quiet=() if lifts else words.EMPTY,
        sources=words.SOURCES,
        cautions=_cautions(answer),
        promise=words.PROMISE,
    )


def _cautions(answer: ReviewAnswer) -> tuple[str, ...]:
    """Each caution once, in the order of the lifts."""
    found: dict[str, None] = {}
    for one in answer.lifts:
        hung = one.proposal.reading.seen.rig if one.proposal else ""
        found |= {each.text: None for each in cautions_by_words(lift_named(one.lift), hung)}
    return tuple(found)


def _lift(answer: LiftAnswer, units: UnitSystem) -> LiftReview:
    stops = tuple(_stop(stop, units) for stop in answer.stops)
    days = [one.day for one in answer.work]
    return LiftReview(
        title=f"{answer.lifter}, {answer.lift}",
        lifter=answer.lifter,
        lift=answer.lift,
        sets=len(answer.log.sets),
        first_day=days[0],
        last_day=days[-1],
        work=tuple(_work(one) for one in answer.work),
        work_words=_work_words(answer),
        bests=tuple(_best(one, units) for one in answer.bests),
        points=_points(answer, units),
        trend=_trend(answer.trend, days, units),
        stops=stops,
        stops_words=words.stops_words(answer, stops),
        shares=tuple(_share(one, units) for one in answer.shares.trends),
        shares_words=words.shares_words(answer.shares),
        next=_next(answer, answer.proposal, units) if answer.proposal else None,
        remarks=tuple(remark.say(units) for remark in answer.remarks),
    )


def _work(one: DayWork) -> WorkRow:
    raising = None if one.raising_j is None else energy(one.raising_j)
    lowering = None if one.lowering_j is None else energy(one.lowering_j)
    return WorkRow(
        day=one.day,
        sets=one.sets,
        reps=one.reps,
        raising=raising,
        lowering=lowering,
        basis=", ".join(_BASES[basis] for basis in one.bases),
        unknown=one.unknown,
    )


def _work_words(answer: LiftAnswer) -> str:
    said = [WORK_WORDS]
    if any("loads" in one.bases for one in answer.work):
        said.append("Where only bottom, mean and top were logged, it is reckoned from those.")
    unknown = sum(one.unknown for one in answer.work)
    if unknown:
        said.append(f"{unknown} sets are not in it: what hung can't be told by height.")
    return " ".join(said)


def _best(one: Best, units: UnitSystem) -> BestRow:
    reading = one.reading
    return BestRow(
        rig=reading.seen.rig or words.STRAIGHT,
        hung=bool(reading.seen.rig),
        day=reading.seen.day,
        lifted=words.lifted_words(reading, units),
        equals=mass(units, reading.single_kg),
        low=mass(units, one.low_kg),
        high=mass(units, one.high_kg),
        told=reading.told,
    )


def _points(answer: LiftAnswer, units: UnitSystem) -> tuple[PointRow, ...]:
    return tuple(
        PointRow(
            day=reading.seen.day,
            equals=mass(units, reading.single_kg),
            low=mass(units, low_kg),
            high=mass(units, high_kg),
            lifted=words.lifted_words(reading, units),
            hung=bool(reading.seen.rig),
            rig=reading.seen.rig or words.STRAIGHT,
        )
        for reading, (low_kg, high_kg) in zip(answer.days, answer.spreads_kg, strict=True)
    )


def _trend(trend: Trend, days: Sequence[str], units: UnitSystem) -> TrendRow:
    said = words.trend_words(trend, units)
    noise = share(trend.noise)
    if not trend.known:
        return TrendRow(
            verdict=trend.verdict,
            words=said,
            first_day=days[0],
            last_day=days[-1],
            noise=noise,
        )
    return TrendRow(
        verdict=trend.verdict,
        words=said,
        first_day=trend.ends[0],
        last_day=trend.ends[1],
        noise=noise,
        first=mass(units, trend.first_kg),
        last=mass(units, trend.last_kg),
        band_low=mass(units, trend.first_kg - trend.noise_kg),
        band_high=mass(units, trend.first_kg + trend.noise_kg),
        per_week=_per_week(trend.per_week_kg, units),
        per_week_low=_per_week(trend.low_kg, units),
        per_week_high=_per_week(trend.high_kg, units),
    )


def _per_week(load_kg: float, units: UnitSystem) -> Figure:
    return Figure(load_kg, "kg", units.mass(load_kg, 2))


def _stop(stop: Stop, units: UnitSystem) -> StopRow:
    height, load, there, top = (
        None if value is None else show(units, value)
        for show, value in (
            (length, stop.height_m),
            (mass, stop.load_kg),
            (mass, stop.hung_there_kg),
            (mass, stop.hung_top_kg),
        )
    )
    return StopRow(
        third=stop.third,
        straight=stop.straight,
        hung=stop.hung,
        tired=stop.tired,
        height=height,
        load=load,
        hung_there=there,
        hung_top=top,
        words=words.stop_words(stop, units),
    )


def _share(one: ShareTrend, units: UnitSystem) -> ShareRow:
    trend = one.trend
    return ShareRow(
        share=words.share_words(one),
        first_day=trend.ends[0],
        last_day=trend.ends[1],
        days=trend.days,
        per_week=_per_week(trend.per_week_kg, units),
        low=_per_week(trend.low_kg, units),
        high=_per_week(trend.high_kg, units),
    )


def _next(answer: LiftAnswer, proposal: Proposal, units: UnitSystem) -> NextRow:
    loads = proposal.loads
    bottom, mean, top = (None if loads is None else mass(units, loads.at(name)) for name in _PLACES)
    return NextRow(
        kind=_KINDS[proposal.kind],
        work=f"{proposal.sets} x {proposal.reps}",
        rig=proposal.reading.seen.rig or words.STRAIGHT,
        straight=mass(units, proposal.straight_kg),
        bottom=bottom,
        mean=mean,
        top=top,
        change=share(proposal.change),
        of_best=_of_best(answer, proposal),
        plates_a_side=loading_text(answer.loading) if answer.loading else "",
        reasons=tuple(reason.say(units) for reason in proposal.reasons),
    )


def _of_best(answer: LiftAnswer, proposal: Proposal) -> str:
    """What the loads are of the best in the gym file, each load named."""
    best_kg, loads = answer.best_kg, proposal.loads
    if best_kg is None:
        return ""
    if loads is None or not proposal.reading.seen.rig:
        return f"{100 * proposal.straight_kg / best_kg:.0f} % of the straight-weight best"
    said = ", ".join(f"{name} {100 * loads.at(name) / best_kg:.0f} %" for name in _PLACES)
    return f"{said} of the straight-weight best"
