"""The load curve of a described rig as one frozen view, for terminal and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, force, length, mass, share
from topheavy.present.loads.points import CurvePoint, curve_points
from topheavy.present.rig.band_rows import BandRow, band_notes, band_rows
from topheavy.present.rig.hung_words import ends_words, link_rows
from topheavy.present.rig.link_rows import LinkRow  # noqa: TC001 - the JSON's schema is read from it
from topheavy.present.rig.view import LoadRow

if TYPE_CHECKING:
    from topheavy.services.curve import CurveAnswer, Point, Reached
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachRow:
    """At what height a load is reached; None where no height is the first to carry it."""

    load: Figure
    raising: Figure | None
    lowering: Figure | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftFacts:
    """What the rig does over the lift, from bottom to top.

    `deload` is of the chain alone; `bands_bottom` and `bands_top` are None without bands.
    """

    share_of_top: Figure
    share_of_bottom: Figure
    share_of_best: Figure | None
    deload: Figure | None
    bands_bottom: Figure | None
    bands_top: Figure | None
    imbalance: Figure
    work: Figure
    side_pull: Figure | None
    mostly: str
    change: Figure
    straight_change: Figure
    compared: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveView:
    """Everything a coach sees of a described rig.

    `dangers` must be mended before anyone lifts. `over_the_lift`, `links` and `curve` are empty
    when only single heights were asked for, and so are `bands`, which say what each band pulls.
    """

    title: str
    dangers: tuple[str, ...]
    hang_left: tuple[str, ...]
    hang_right: tuple[str, ...]
    straight_weight: Figure
    surface: str
    loads: tuple[LoadRow, ...]
    reached: tuple[ReachRow, ...]
    over_the_lift: LiftFacts | None
    links: tuple[LinkRow, ...]
    bands: tuple[BandRow, ...]
    band_notes: tuple[str, ...]
    curve: tuple[CurvePoint, ...]
    cautions: tuple[str, ...]


def view_curve(answer: CurveAnswer, units: UnitSystem, title: str) -> CurveView:
    """Put an answer into words and figures.

    Parameters
    ----------
    answer : CurveAnswer
        From `topheavy.services.curve.answer_curve`.
    units : UnitSystem
        What the user wants to see.
    title : str
        Who, what and where.
    """
    described, reading, straight = answer.question.described, answer.reading, answer.straight
    left, right = ends_words(described, units)
    doubts = tuple(remark.say(units) for remark in answer.doubts)
    return CurveView(
        title=title,
        dangers=tuple(remark.say(units) for remark in answer.dangers),
        hang_left=left,
        hang_right=right,
        straight_weight=mass(units, described.bar_kg + described.plates_kg),
        surface=_surface(answer, units),
        loads=_loads(answer, units),
        reached=tuple(_reached(one, units) for one in answer.reached),
        over_the_lift=_facts(answer, units),
        links=link_rows(described, reading) if reading else (),
        bands=band_rows(answer.bands, units),
        band_notes=band_notes(answer.bands, units),
        curve=curve_points(reading, straight, units) if reading and straight else (),
        cautions=(
            *doubts,
            *(remark.say(units) for remark in answer.bands.remarks()),
            *answer.remeasure,
            *(caution.text for caution in answer.cautions),
        ),
    )


def _surface(answer: CurveAnswer, units: UnitSystem) -> str:
    ground = answer.question.ground
    where = "on the floor that heights are measured from"
    if ground.surface_m > 0:
        where = f"on a mat or block of {units.length(ground.surface_m)}"
    if ground.surface_m < 0:
        where = f"{units.length(-ground.surface_m)} below where heights are measured from"
    lies = "piled" if ground.lay == "piled" else f"laid out to the side, friction {ground.friction}"
    return f"{where}, {lies}"


def _loads(answer: CurveAnswer, units: UnitSystem) -> tuple[LoadRow, ...]:
    """From the top down, the mean just above the bottom.

    At the top no link has moved yet, so nothing is lowered there.
    """
    ends = [("top", answer.top), ("bottom", answer.bottom)]
    points = [*(("", point) for point in answer.points), *((w, p) for w, p in ends if p)]
    points.sort(key=lambda named: -named[1].height_m)
    rows = [_row(place, point, units) for place, point in points]
    if answer.reading is not None and answer.straight is not None:
        mean = answer.reading.mean
        rows.insert(
            next(number for number, row in enumerate(rows) if row.place == "bottom"),
            LoadRow(
                place="mean",
                height=None,
                raising=mass(units, mean.load_kg, mean.u_kg),
                lowering=mass(
                    units, answer.reading.lowering_mean_kg, answer.reading.lowering_mean_u_kg
                ),
                straight=mass(units, answer.straight.mean.load_kg),
            ),
        )
    return tuple(rows)


def _row(place: str, point: Point, units: UnitSystem) -> LoadRow:
    up, down = point.raising, point.lowering
    return LoadRow(
        place=place,
        height=length(units, point.height_m),
        raising=mass(units, up.load_kg, up.u_kg),
        lowering=None if place == "top" else mass(units, down.load_kg, down.u_kg),
        straight=mass(units, point.straight_kg),
    )


def _reached(one: Reached, units: UnitSystem) -> ReachRow:
    load = mass(units, one.load_kg)
    raising = None if one.raising_m is None else length(units, one.raising_m, one.raising_u_m)
    lowering = None if one.lowering_m is None else length(units, one.lowering_m)
    if raising is None:
        words = f"{load} is on the bar at every height"
        if one.found == "never":
            words = f"{load} is never reached: all of it hanging makes {units.mass(one.most_kg)}"
        if one.found == "beyond the bands":
            words = f"{load} is not reached: at the highest height asked for it is "
            words += units.mass(one.most_kg)
    else:
        words = f"{load} is reached at {raising} raising"
        words += f" and left at {lowering} lowering" if lowering else ""
    return ReachRow(load=load, raising=raising, lowering=lowering, words=f"{words}.")


def _facts(answer: CurveAnswer, units: UnitSystem) -> LiftFacts | None:
    reading, straight = answer.reading, answer.straight
    if reading is None or straight is None:
        return None
    of, pull_n = reading.share, reading.side_pull_n
    change = mass(units, reading.top.load_kg - reading.bottom.load_kg)
    straight_change = mass(units, straight.top.load_kg - straight.bottom.load_kg)
    return LiftFacts(
        share_of_top=share(of.of_top, of.of_top_u),
        share_of_bottom=share(of.of_bottom),
        share_of_best=None if of.of_best is None else share(of.of_best),
        deload=None if reading.deload is None else share(reading.deload),
        bands_bottom=mass(units, reading.bands_bottom_kg) if answer.bands.each else None,
        bands_top=mass(units, reading.bands_top_kg) if answer.bands.each else None,
        imbalance=mass(units, reading.imbalance_kg),
        work=Figure(reading.work_j, "J", f"{reading.work_j:.0f} J"),
        side_pull=force(units, pull_n) if pull_n > 0 else None,
        mostly=reading.top.mostly,
        change=change,
        straight_change=straight_change,
        compared=_compared(answer, change, straight_change),
    )


def _compared(answer: CurveAnswer, change: Figure, straight_change: Figure) -> str:
    described = answer.question.described
    what = "Chain and bands change" if described.hangings else "The bands change"
    said = f"{what if described.bands else 'What hangs changes'} the bar by {change} over the lift."
    if not any(hanging.fixture.style != "straight" for hanging in described.hangings):
        return said
    if described.bands:
        return (
            f"{said} With the chain straight from the sleeve, the common mistake, and the same "
            f"bands it would be {straight_change}."
        )
    return (
        f"{said} Straight from the sleeve, the common mistake, the same chain would change it by "
        f"{straight_change}."
    )
