"""The rig as one frozen view, from which terminal, JSON, card and page take their words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, force, length, mass, share
from topheavy.present.loads.points import CurvePoint, curve_points
from topheavy.present.match.view import MatchView, percent, perhaps_too_heavy, view_match
from topheavy.present.rig.band_rows import BandRow, band_notes, band_rows
from topheavy.present.rig.described_words import Described, described_words
from topheavy.present.rig.link_rows import LinkRow, PieceRow, alike, piece_rows
from topheavy.present.rig.obstacle_words import obstacle_lines
from topheavy.present.rig.steps import (
    both_ends_text,
    ends_text,
    plates_text,
    setting_text,
    signs,
    steps,
)
from topheavy.present.rig.words import compared, proof, verdict, wanted

if TYPE_CHECKING:
    from topheavy.rigging.built import BuiltRig
    from topheavy.services.reading import Reading
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadRow:
    """Load at one place of the lift: raising, lowering, and the same chain hung straight."""

    place: str
    height: Figure | None
    raising: Figure
    lowering: Figure | None
    straight: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherRig:
    """Another rig in one line."""

    differs_by: str
    hang: str
    pieces: int
    miss: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class RigView:
    """Everything a coach sees of a rig.

    `style` is ``doubled``, ``draped`` or ``straight``, or ``bands`` without chain. `feeder` says
    name and setting together; `feeder_name`, `setting` and `feeder_length` are empty or None
    without one. `side_pull` is there when the slack is dragged to one side, `bands` when there are
    any.
    """

    title: str
    gym: str
    lifter: str
    lift: str
    station: str
    bottom_at: str
    top_at: str
    wanted: str
    meets: bool
    verdict: str
    miss: Figure
    proof: str
    style: str
    hang_left: str
    hang_right: str
    feeder: str
    feeder_name: str
    setting: str
    feeder_length: Figure | None
    connector: str
    plates_a_side: str
    straight_weight: Figure
    loads: tuple[LoadRow, ...]
    mostly: str
    share_of_top: Figure
    share_of_bottom: Figure
    share_of_best: Figure | None
    deload: Figure | None
    bands_bottom: Figure | None
    bands_top: Figure | None
    imbalance: Figure
    work: Figure
    side_pull: Figure | None
    left: tuple[PieceRow, ...]
    right: tuple[PieceRow, ...]
    links: tuple[LinkRow, ...]
    bands: tuple[BandRow, ...]
    band_notes: tuple[str, ...]
    change: Figure
    straight_change: Figure
    compared: str
    curve: tuple[CurvePoint, ...]
    steps: tuple[str, ...]
    signs: tuple[str, ...]
    cautions: tuple[str, ...]
    alternatives: tuple[OtherRig, ...]
    trade: tuple[OtherRig, ...]
    obstacles: tuple[str, ...]
    left_out: tuple[str, ...]
    described: Described
    match: MatchView | None


def view_rig(answer: RigAnswer, units: UnitSystem) -> RigView:
    """Put an answer into words and figures.

    Parameters
    ----------
    answer : RigAnswer
        From `topheavy.services.rig.answer_rig`.
    units : UnitSystem
        What the user wants to see.
    """
    place, best, reading = answer.question.place, answer.best, answer.reading
    ends, held, straight = ends_text(best), best.fixture, answer.straight
    left, right = piece_rows(best.left, reading.left), piece_rows(best.right, reading.right)
    return RigView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}",
        gym=place.gym.name,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        bottom_at=place.lift.bottom_at,
        top_at=place.lift.top_at,
        wanted=wanted(answer, units),
        meets=answer.meets,
        verdict=verdict(answer, units),
        miss=off_by(answer, best, units),
        proof=proof(answer),
        style=held.style if best.pieces else "bands",
        hang_left=ends.left,
        hang_right=ends.right,
        feeder=ends.feeder,
        feeder_name=held.feeder.name if held.feeder else "",
        setting=setting_text(held.setting.label) if held.setting else "",
        feeder_length=length(units, held.setting.length_m) if held.setting else None,
        connector=ends.connector,
        plates_a_side=plates_text(best),
        straight_weight=mass(units, reading.straight_weight_kg),
        loads=_loads(reading, straight, units),
        mostly=reading.top.mostly,
        share_of_top=share(reading.share.of_top, reading.share.of_top_u),
        share_of_bottom=share(reading.share.of_bottom),
        share_of_best=share(reading.share.of_best) if reading.share.of_best is not None else None,
        deload=share(reading.deload) if reading.deload is not None else None,
        bands_bottom=mass(units, reading.bands_bottom_kg) if best.bands else None,
        bands_top=mass(units, reading.bands_top_kg) if best.bands else None,
        imbalance=mass(units, reading.imbalance_kg),
        work=Figure(reading.work_j, "J", f"{reading.work_j:.0f} J"),
        side_pull=force(units, reading.side_pull_n) if reading.side_pull_n > 0 else None,
        left=left,
        right=right,
        links=alike((*left, *right)),
        bands=band_rows(answer.bands, units),
        band_notes=band_notes(answer.bands, units),
        change=mass(units, reading.top.load_kg - reading.bottom.load_kg),
        straight_change=mass(units, straight.top.load_kg - straight.bottom.load_kg),
        compared=compared(answer, units),
        curve=curve_points(reading, straight, units),
        steps=steps(answer, units),
        signs=signs(answer, units),
        cautions=(
            *(remark.say(units) for remark in (*answer.dangers, *answer.doubts)),
            *perhaps_too_heavy(answer.fit),
            *(remark.say(units) for remark in answer.bands.remarks()),
            *answer.remeasure,
            *(caution.text for caution in answer.cautions),
        ),
        alternatives=tuple(
            _other(answer, a.differs_by, a.built, units) for a in answer.alternatives
        ),
        trade=tuple(_other(answer, _handled(b), b, units) for b in answer.trade),
        obstacles=obstacle_lines(answer.obstacles, units) if answer.obstacles else (),
        left_out=(*answer.left_out, *(why.say(units) for why in answer.bands_left_out)),
        described=described_words(answer),
        match=view_match(answer.fit, units) if answer.fit else None,
    )


def _loads(reading: Reading, straight: Reading, units: UnitSystem) -> tuple[LoadRow, ...]:
    travel = reading.travel

    def row(place: str, height_m: float | None, up: str, lowering: Figure | None) -> LoadRow:
        load, other = getattr(reading, up), getattr(straight, up)
        return LoadRow(
            place=place,
            height=None if height_m is None else length(units, height_m),
            raising=mass(units, load.load_kg, load.u_kg),
            lowering=lowering,
            straight=mass(units, other.load_kg),
        )

    mean = mass(units, reading.lowering_mean_kg, reading.lowering_mean_u_kg)
    bottom = mass(units, reading.lowering_bottom_kg, reading.lowering_bottom_u_kg)
    return (
        row("top", travel.top_m, "top", None),
        row("mean", None, "mean", mean),
        row("bottom", travel.bottom_m, "bottom", bottom),
    )


def _other(answer: RigAnswer, differs_by: str, built: BuiltRig, units: UnitSystem) -> OtherRig:
    parts = (both_ends_text(built), ends_text(built).feeder, f"{plates_text(built)} a side")
    return OtherRig(
        differs_by=differs_by,
        hang="; ".join(part for part in parts if part),
        pieces=built.pieces,
        miss=off_by(answer, built, units),
    )


def off_by(answer: RigAnswer, built: BuiltRig, units: UnitSystem) -> Figure:
    """How far a rig is off what was asked: in load, or in effort where it was matched."""
    matching = answer.question.matching
    if matching is None:
        return mass(units, built.miss_kg)
    return percent(built.miss_kg / matching.limit_at_weakest_kg * matching.effort)


def _handled(built: BuiltRig) -> str:
    """Count what is to be handled: pieces of chain, and bands."""
    bands = f"{len(built.bands)} bands" if built.bands else ""
    pieces = f"{built.pieces} pieces" if built.pieces or not bands else ""
    return ", ".join(filter(None, (pieces, bands)))
