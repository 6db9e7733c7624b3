"""The rep as one frozen view, from which terminal, JSON and page take their words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.present.figure import Figure, length, mass
from topheavy.present.rep.motion_figures import (
    Spread,
    in_g,
    known,
    percent,
    power,
    push,
    seconds,
    speed,
    spread,
    work,
)
from topheavy.present.rep.words import (
    as_hard,
    effort_words,
    limits_of,
    pushed,
    side_notes,
    sticking,
    verdict,
    way_down,
    work_shares,
)
from topheavy.present.rig.steps import ends_text, plates_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from topheavy.lifter.rep import Rep
    from topheavy.services.reps.rep import Moved, RepAnswer, Side
    from topheavy.services.reps.rig import FoundRig
    from topheavy.units import UnitSystem

    Floats = NDArray[np.float64]

_POINTS: Final = 25
_HAIR_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PathPoint:
    """The bar at one height on the way up; None above where a missed rep stops."""

    height: Figure
    way_up: Figure
    time: Figure | None
    speed: Figure | None
    push: Figure | None
    power: Figure | None
    plain_speed: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """One rig at the effort of all. Where the bar does not stick, there is nothing said of it."""

    name: str
    this_rig: bool
    made: bool
    straight: Spread
    bottom: Figure
    mean: Figure
    top: Figure
    time: Figure
    mean_speed: Spread
    propulsive_speed: Figure
    peak_speed: Figure
    sticks_from: Figure | None
    slowest: Figure | None
    slowest_part: Figure | None
    sticks_until: Figure | None
    push: Figure
    peak_power: Figure
    mean_power: Figure
    work: Figure
    chain_share: Figure
    band_share: Figure
    lowered: Figure
    let_go: Figure
    let_go_speed: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class RepView:
    """Everything a coach sees of a rep. `verdict_code` is made, missed or stays down."""

    title: str
    gym: str
    rig: tuple[str, ...]
    verdict_code: str
    verdict: str
    as_hard: str
    loads: str
    mean_speed: Spread | None
    propulsive_speed: Spread | None
    peak_speed: Spread | None
    time: Spread | None
    under_load: Figure | None
    peak_power: Spread | None
    mean_power: Spread | None
    work: Spread | None
    push: str
    sticking: str
    work_shares: str
    path: tuple[PathPoint, ...]
    way_down: tuple[str, ...]
    effort: Figure
    effort_words: str
    sides: tuple[SideView, ...]
    side_notes: tuple[str, ...]
    outlook: tuple[str, ...]
    cautions: tuple[str, ...]
    limits: tuple[str, ...]


def view_rep(answer: RepAnswer, rig: FoundRig, units: UnitSystem) -> RepView:
    """Put a rep into words and figures.

    Parameters
    ----------
    answer : RepAnswer
        From `topheavy.services.reps.rep.answer_rep`.
    rig : FoundRig
        The rig it is done with.
    units : UnitSystem
        What the user wants to see.
    """
    place, moved, who = answer.question.place, answer.moved, answer.who
    spotted = place.lift.station != "platform"
    never = moved.verdict == "stays down"

    def ranged(figure: str, shown: Callable[[float], Figure]) -> Spread | None:
        return None if never else spread(moved.span(figure), shown)

    return RepView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}",
        gym=place.gym.name,
        rig=_rig(rig, units),
        verdict_code=moved.verdict,
        verdict=verdict(answer, units),
        as_hard=as_hard(answer, units),
        loads=_loads(rig, units),
        mean_speed=ranged("mean_m_per_s", speed),
        propulsive_speed=ranged("propulsive_m_per_s", speed),
        peak_speed=ranged("peak_m_per_s", speed),
        time=ranged("duration_s", seconds),
        under_load=None if never else seconds(moved.lowered.duration_s + _up_s(moved)),
        peak_power=ranged("peak_power_w", power),
        mean_power=ranged("mean_power_w", power),
        work=ranged("energy.work_j", work),
        push="" if never else pushed(units, moved),
        sticking="" if never else sticking(moved, who, units),
        work_shares=work_shares(moved),
        path=_path(answer, units),
        way_down=way_down(moved, who, units),
        effort=percent(answer.effort),
        effort_words=effort_words(answer, units),
        sides=tuple(_side(side, answer, units) for side in answer.sides),
        side_notes=side_notes(answer, units),
        outlook=tuple(p.say(units) for p in answer.outlook.words_for(spotted=spotted)),
        cautions=(*(caution.text for caution in rig.cautions), *rig.remeasure),
        limits=limits_of(answer, units),
    )


def _up_s(moved: Moved) -> float:
    """Time of the way up [s], to lockout or to where a missed rep stops."""
    return float(moved.rep.ascent.duration_s[0])


def _rig(rig: FoundRig, units: UnitSystem) -> tuple[str, ...]:
    ends = ends_text(rig.best)
    parts = [
        f"left: {ends.left}" if ends.left else "",
        f"right: {ends.right}" if ends.right else "",
        f"feeders: {ends.feeder}" if ends.feeder else "",
        (
            f"{plates_text(rig.best)} a side, "
            f"{units.mass(rig.reading.straight_weight_kg)} with bar and collars"
        ),
        "" if rig.miss_kg is None else f"{units.mass(rig.miss_kg)} off what was asked, at worst",
    ]
    return tuple(part for part in parts if part)


def _loads(rig: FoundRig, units: UnitSystem) -> str:
    read = rig.reading
    return (
        f"{units.mass(read.bottom.load_kg)} at the bottom, {units.mass(read.mean.load_kg)} mean, "
        f"{units.mass(read.top.load_kg)} at the top"
    )


def _side(side: Side, answer: RepAnswer, units: UnitSystem) -> SideView:
    moved, equal, lifter = side.moved, side.equal, answer.who.lifter
    ascent = moved.rep.ascent
    stick, energy = ascent.sticking, ascent.energy

    def height(part: float) -> Figure:
        return length(units, lifter.bottom_m + part * lifter.travel_m)

    def weight(mass_kg: float) -> Figure:
        return mass(units, mass_kg)

    return SideView(
        name=side.beside.name,
        this_rig=side.beside.found,
        made=moved.verdict == "made",
        straight=spread((equal.low_kg, equal.straight_kg, equal.high_kg), weight),
        bottom=weight(equal.bottom_kg),
        mean=weight(equal.mean_kg),
        top=weight(equal.top_kg),
        time=seconds(float(ascent.duration_s[0])),
        mean_speed=spread(moved.span("mean_m_per_s"), speed),
        propulsive_speed=speed(float(ascent.propulsive_m_per_s[0])),
        peak_speed=speed(float(ascent.peak_m_per_s[0])),
        sticks_from=known(float(stick.start_part[0]), height),
        slowest=known(float(stick.slowest_part[0]), height),
        slowest_part=known(float(stick.slowest_part[0]), percent),
        sticks_until=known(float(stick.end_part[0]), height),
        push=push(units, float(ascent.peak_force_n[0])),
        peak_power=power(float(ascent.peak_power_w[0])),
        mean_power=power(float(ascent.mean_power_w[0])),
        work=work(float(energy.work_j[0])),
        chain_share=percent(float(energy.chain_share[0])),
        band_share=percent(float(energy.band_j[0] / energy.work_j[0])),
        lowered=in_g(moved.lowered.peak_g),
        let_go=in_g(moved.dropped.peak_g),
        let_go_speed=speed(moved.dropped.end_m_per_s),
    )


def _path(answer: RepAnswer, units: UnitSystem) -> tuple[PathPoint, ...]:
    """Read the rep at even heights, plain weight of the same effort beside it."""
    lifter, moved = answer.who.lifter, answer.moved
    if moved.verdict == "stays down":
        return ()
    heights_m = np.linspace(lifter.bottom_m, lifter.top_m, _POINTS)
    time_s, own, force_n, power_w = _read(moved.rep, heights_m)
    none = np.full(_POINTS, np.nan)
    beside = none if answer.plain is None else _read(answer.plain, heights_m)[1]

    def pushing(value: float) -> Figure:
        return push(units, value)

    return tuple(
        PathPoint(
            height=length(units, float(heights_m[i])),
            way_up=percent(i / (_POINTS - 1)),
            time=known(float(time_s[i]), seconds),
            speed=known(float(own[i]), speed),
            push=known(float(force_n[i]), pushing),
            power=known(float(power_w[i]), power),
            plain_speed=known(float(beside[i]), speed),
        )
        for i in range(_POINTS)
    )


def _read(rep: Rep, heights_m: Floats) -> tuple[Floats, ...]:
    """Time [s], speed [m/s], force [N] and power [W] at heights [m]; nan above where it stops."""
    path = rep.path
    beyond = heights_m > path.height_m[-1] + _HAIR_M
    tables = (path.time_s, path.speed_m_per_s, path.force_n, path.power_w)
    return tuple(
        np.where(beyond, np.nan, np.interp(heights_m, path.height_m, table)) for table in tables
    )
