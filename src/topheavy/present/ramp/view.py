"""A ramp as one frozen view."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, length, mass, share
from topheavy.present.ramp.words import (
    between_sets,
    chain_text,
    next_words,
    proof_words,
    protocol_lines,
    rest_text,
    shares_words,
)
from topheavy.present.rig.plate_words import change_text, plate_unit, stack_text
from topheavy.present.rig.steps import ends_text
from topheavy.present.rig.words import verdict

if TYPE_CHECKING:
    from topheavy.services.ramp import RampAnswer
    from topheavy.training.bases import Percent
    from topheavy.training.ramp_parts import RampSet
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class RampRow:
    """One set.

    `share` is of the top set's load at the limiting height, `top_share` of its load at the top.
    """

    number: int
    kind: str
    reps: int
    rest: Figure | None
    chain: str
    change: str
    plates_a_side: str
    straight_weight: Figure
    bottom: Figure
    mean: Figure
    top: Figure
    share: Figure
    top_share: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class PercentRow:
    """A load of the top set, and its percentage of the best."""

    load: str
    mass: Figure
    of_best: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class NextView:
    """The next attempt: empty plates when it is time to stop."""

    stops: bool
    straight_weight: Figure | None
    change: str
    plates_a_side: str
    reason: str
    rest: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RampView:
    """Everything a coach sees of a ramp."""

    title: str
    gym: str
    lifter: str
    lift: str
    station: str
    verdict: str
    hang_left: str
    hang_right: str
    feeder: str
    rows: tuple[RampRow, ...]
    plate_unit: str
    shares: str
    limit_height: Figure
    limited_by: str
    best: Figure | None
    best_is: str
    percents: tuple[PercentRow, ...]
    between: str
    handled: int
    proof: str
    remarks: tuple[str, ...]
    protocol: tuple[str, ...]
    next_attempt: NextView | None
    cautions: tuple[str, ...]


def view_ramp(answer: RampAnswer, units: UnitSystem) -> RampView:
    """Put a ramp into words and figures.

    Parameters
    ----------
    answer : RampAnswer
        From `topheavy.services.ramp.answer_ramp`.
    units : UnitSystem
        What the user wants to see.
    """
    rig, ramp, strong = answer.rig, answer.ramp, answer.strong
    place = rig.question.place
    unit = plate_unit(plate for one in ramp.sets for plate in (*one.plates.on, *one.plates.off))
    ends = ends_text(rig.best)
    rows, before = [], None
    for one in ramp.sets:
        rows.append(_row(one, before, answer, unit, units))
        before = one
    best_kg = strong.best_kg
    return RampView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}: ramp to the top set",
        gym=place.gym.name,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        verdict=verdict(rig, units),
        hang_left=ends.left,
        hang_right=ends.right,
        feeder=ends.feeder,
        rows=tuple(rows),
        plate_unit=unit,
        shares=shares_words(answer, units),
        limit_height=length(units, ramp.limit_m),
        limited_by=ramp.limited_by,
        best=None if best_kg is None else mass(units, best_kg),
        best_is="worked out from records" if strong.reckoned else "straight weight, full range",
        percents=tuple(_percent(one, best_kg or 0.0, units) for one in answer.percents),
        between=between_sets(rig.best, place.lift),
        handled=ramp.handled,
        proof=proof_words(units, exact=ramp.exact),
        remarks=tuple(remark.say(units) for remark in ramp.remarks),
        protocol=protocol_lines() if answer.question.singles else (),
        next_attempt=_next(answer, units),
        cautions=tuple(caution.text for caution in rig.cautions),
    )


def _row(
    one: RampSet, before: RampSet | None, answer: RampAnswer, unit: str, units: UnitSystem
) -> RampRow:
    stop = one.plates
    chain = chain_text(one, before, answer)
    plates = change_text(stop.off, stop.on, unit)
    if before is None:
        plates = plates or "bare bar"
    return RampRow(
        number=one.number,
        kind=one.kind,
        reps=one.reps,
        rest=_rest(one.rest_before_s),
        chain=chain,
        change="; ".join(part for part in (plates, chain) if part) or "nothing",
        plates_a_side=stack_text(stop.stack, unit),
        straight_weight=mass(units, one.loads.straight_kg),
        bottom=mass(units, one.loads.bottom_kg),
        mean=mass(units, one.loads.mean_kg),
        top=mass(units, one.loads.top_kg),
        share=_whole(one.share),
        top_share=_whole(one.top_share),
    )


def _rest(rest_s: float) -> Figure | None:
    return Figure(rest_s, "s", rest_text(rest_s)) if rest_s else None


def _whole(fraction: float) -> Figure:
    return Figure(fraction, "", f"{100 * fraction:.0f} %")


_LOADS = {"straight": "straight weight", "bottom": "bottom", "mean": "mean", "top": "top"}


def _percent(one: Percent, best_kg: float, units: UnitSystem) -> PercentRow:
    return PercentRow(
        load=_LOADS[one.at], mass=mass(units, one.share * best_kg), of_best=share(one.share)
    )


def _next(answer: RampAnswer, units: UnitSystem) -> NextView | None:
    found = answer.next_one
    if found is None:
        return None
    stop = found.plates
    unit = plate_unit(stop.stack) if stop else ""
    return NextView(
        stops=found.advice.stops,
        straight_weight=mass(units, stop.straight_kg) if stop else None,
        change=change_text(stop.off, stop.on, unit) + (f" {unit}" if unit else "") if stop else "",
        plates_a_side=stack_text(stop.stack, unit) + (f" {unit}" if unit else "") if stop else "",
        reason=next_words(found, units),
        rest=_rest(found.advice.rest_s),
    )
