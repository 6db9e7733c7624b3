"""A session as one frozen view."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.figure import Figure, length, mass, share
from topheavy.present.ramp.words import rest_text
from topheavy.present.rig.steps import ends_text, plates_text
from topheavy.present.rig.words import verdict
from topheavy.present.session.words import (
    effort_words,
    failure_words,
    left_words,
    speed_words,
    stop_words,
    usual_words,
    volume_words,
)
from topheavy.training.bases import chain_share
from topheavy.training.days import VELOCITY_LOSS
from topheavy.training.volume import SOURCE, WEAKNESS

if TYPE_CHECKING:
    from topheavy.services.session import SessionAnswer
    from topheavy.training.bases import LoadName
    from topheavy.training.volume import VolumeCheck
    from topheavy.units import UnitSystem

_PLACES: Final[dict[LoadName, str]] = {
    "straight": "straight weight",
    "bottom": "bottom",
    "mean": "mean",
    "top": "top",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionLoad:
    """A load of the rig; its percentage of the best when that is known."""

    load: str
    mass: Figure
    of_best: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class VolumeRow:
    """The repetition table, entered with one load."""

    entered_with: str
    of_best: Figure
    row: str
    set_reps: str
    total: str
    verdict: str
    within: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareRow:
    """The accommodating share with its base."""

    base: str
    share: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionView:
    """Everything a coach sees of a session."""

    title: str
    gym: str
    lifter: str
    lift: str
    station: str
    verdict: str
    day: str
    sets: int
    reps: int
    work: str
    aim: str
    usual: str
    rest: str
    reps_left: str
    stop: str
    loss: Figure | None
    speed: str
    speed_low: Figure | None
    speed_middle: Figure | None
    speed_high: Figure | None
    stop_speed: Figure | None
    hang_left: str
    hang_right: str
    feeder: str
    plates_a_side: str
    best: Figure | None
    loads: tuple[SessionLoad, ...]
    shares: tuple[ShareRow, ...]
    effort: str
    hardest_at: Figure | None
    to_failure: str
    volume: tuple[VolumeRow, ...]
    volume_note: str
    remarks: tuple[str, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]


def view_session(answer: SessionAnswer, units: UnitSystem) -> SessionView:
    """Put a session into words and figures.

    Parameters
    ----------
    answer : SessionAnswer
        From `topheavy.services.session.answer_session`.
    units : UnitSystem
        What the user wants to see.
    """
    session, rig, strong = answer.session, answer.rig, answer.strong
    plan, place, speed = session.plan, rig.question.place, answer.speed
    day, ends, loss = plan.day, ends_text(rig.best), plan.loss
    known = strong.best_kg is not None
    stop = None if speed is None or loss is None else speed.middle_m_per_s * (1 - loss)
    return SessionView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}: {day.name} day",
        gym=place.gym.name,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        verdict=verdict(rig, units),
        day=day.name,
        sets=plan.sets,
        reps=plan.reps,
        work=f"{plan.sets} x {plan.reps}",
        aim=day.aim,
        usual=usual_words(day),
        rest=" to ".join(rest_text(rest) for rest in day.rest_s),
        reps_left=left_words(day),
        stop=stop_words(plan),
        loss=None if loss is None else share(loss),
        speed=speed_words(answer),
        speed_low=_speed(speed.low_m_per_s if speed else None),
        speed_middle=_speed(speed.middle_m_per_s if speed else None),
        speed_high=_speed(speed.high_m_per_s if speed else None),
        stop_speed=_speed(stop),
        hang_left=ends.left,
        hang_right=ends.right,
        feeder=ends.feeder,
        plates_a_side=plates_text(rig.best),
        best=mass(units, strong.best_kg) if strong.best_kg is not None else None,
        loads=_loads(answer, units),
        shares=_shares(answer),
        effort=effort_words(answer, units),
        hardest_at=None if answer.hardest_m is None else length(units, answer.hardest_m),
        to_failure=failure_words(session),
        volume=tuple(_volume(_PLACES[at], check) for at, check in session.volume.items()),
        volume_note=f"{SOURCE} {WEAKNESS}" if known else "",
        remarks=tuple(remark.say(units) for remark in session.remarks),
        sources=(f"Usual loads of a {day.name} day: {day.source}.",)
        + ((f"{VELOCITY_LOSS}",) if loss is not None else ()),
        cautions=tuple(caution.text for caution in rig.cautions),
    )


def _loads(answer: SessionAnswer, units: UnitSystem) -> tuple[SessionLoad, ...]:
    of_best = {one.at: one.share for one in answer.session.percents}
    return tuple(
        SessionLoad(
            load=name,
            mass=mass(units, answer.session.loads.at(at)),
            of_best=share(of_best[at]) if at in of_best else None,
        )
        for at, name in _PLACES.items()
    )


def _shares(answer: SessionAnswer) -> tuple[ShareRow, ...]:
    loads, best_kg = answer.session.loads, answer.strong.best_kg
    rows = [
        ShareRow(base="of the top load", share=share(chain_share(loads, "top"))),
        ShareRow(base="of the mean load", share=share(chain_share(loads, "mean"))),
        ShareRow(base="of the bottom load", share=share(chain_share(loads, "bottom"))),
    ]
    if best_kg is not None:
        of_best = chain_share(loads, "best", best_kg)
        rows.append(ShareRow(base="of the best", share=share(of_best)))
    return tuple(rows)


def _volume(name: str, check: VolumeCheck) -> VolumeRow:
    zone = check.zone
    return VolumeRow(
        entered_with=name,
        of_best=share(check.share),
        row=zone.name,
        set_reps=f"{zone.set_reps[0]} to {zone.set_reps[1]}",
        total=f"{zone.best_total} ({zone.total[0]} to {zone.total[1]})",
        verdict=volume_words(check),
        within=check.within,
    )


def _speed(speed_m_per_s: float | None) -> Figure | None:
    if speed_m_per_s is None:
        return None
    return Figure(speed_m_per_s, "m/s", f"{speed_m_per_s:.2f} m/s")
