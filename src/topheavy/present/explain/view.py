"""The page for the lifter as one frozen view: figures and sentences, for PDF and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.explain.names import off_the_bottom, short_name, side_name
from topheavy.present.explain.why import drawn_from, sureness, warning, why_head, why_lines
from topheavy.present.explain.words import (
    down_lines,
    feel_lines,
    fold_lines,
    hang_title,
    promise_lines,
    rig_line,
    why_title,
)
from topheavy.present.figure import Figure, length, mass, share
from topheavy.present.picture.words import sentence
from topheavy.services.reps.sides import BAND, PLAIN

if TYPE_CHECKING:
    from topheavy.services.explain import Explained, Side, Stand
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class StandRow:
    """The bar at one height: its load, and what of the lifter and the chain that takes.

    `lowering` is missing at the top, `of_strength` and its range where nothing is known.
    """

    where: str
    height: Figure
    raising: Figure
    lowering: Figure | None
    links: str
    of_strength: Figure | None
    of_strength_least: Figure | None
    of_strength_most: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRow:
    """The rig, or what it is set beside; `falls` when its way down is worth a line of its own."""

    name: str
    short: str
    chosen: bool
    falls: bool
    straight_weight: Figure
    bottom: Figure
    top: Figure
    of_strength_at_top: Figure | None
    starts_down: Figure
    reaches_bottom: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class ExplainView:
    """Everything the page says.

    `warning` is empty unless the rig is, or may be, too heavy for the lifter.
    """

    title: str
    gym: str
    lifter: str
    lift: str
    station: str
    rig: str
    warning: str
    why_title: str
    why_head: str
    why: tuple[str, ...]
    known: bool
    weakest: Figure | None
    weakest_at: Figure | None
    drawn_from: str
    sureness: tuple[str, ...]
    stands: tuple[StandRow, ...]
    feel: tuple[str, ...]
    hang_title: str
    fold: tuple[str, ...]
    down: tuple[str, ...]
    sides: tuple[SideRow, ...]
    promise: tuple[str, ...]
    cautions: tuple[str, ...]


def view_explained(explained: Explained, units: UnitSystem) -> ExplainView:
    """Put what a lifter should know into words and figures.

    Parameters
    ----------
    explained : Explained
        From `topheavy.services.explain.explain_rig`.
    units : UnitSystem
        What the user wants to see.
    """
    answer, strength = explained.answer, explained.strength
    place = answer.question.place
    return ExplainView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}",
        gym=place.gym.name,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        rig=rig_line(answer, units),
        warning=warning(explained, units),
        why_title=why_title(explained),
        why_head=why_head(explained, units),
        why=why_lines(explained, units),
        known=strength is not None,
        weakest=None if strength is None else mass(units, strength.full_range_kg),
        weakest_at=None if strength is None else length(units, strength.weakest_m),
        drawn_from=drawn_from(explained, units),
        sureness=sureness(explained, units),
        stands=tuple(_stand(explained, stand, units) for stand in explained.stands),
        feel=feel_lines(explained, units),
        hang_title=hang_title(explained),
        fold=fold_lines(explained, units),
        down=down_lines(explained, units),
        sides=tuple(_side(explained, side, units) for side in explained.sides),
        promise=promise_lines(explained, units),
        cautions=tuple(caution.text for caution in answer.cautions),
    )


def _stand(explained: Explained, stand: Stand, units: UnitSystem) -> StandRow:
    lift = explained.answer.question.place.lift
    where = {"bottom": off_the_bottom(lift), "middle": "half-way up", "top": "at lockout"}
    use = stand.use
    return StandRow(
        where=sentence(where[stand.where]),
        height=length(units, stand.height_m),
        raising=mass(units, stand.raising_kg),
        lowering=None if stand.where == "top" else mass(units, stand.lowering_kg),
        links=_links(stand),
        of_strength=None if use is None else share_of_strength(use.likely),
        of_strength_least=None if use is None else share_of_strength(use.least),
        of_strength_most=None if use is None else share_of_strength(use.most),
    )


def share_of_strength(fraction: float) -> Figure:
    """Show a share of strength [-] in whole percent: it is never known better.

    >>> share_of_strength(0.587).text
    '59 %'
    """
    return Figure(fraction, "", f"{100 * fraction:.0f} %")


def _links(stand: Stand) -> str:
    """Say how many links are off the floor."""
    (left, right), (all_left, all_right) = stand.links_off, stand.links
    if not all_left + all_right:
        return ""
    if (left, all_left) != (right, all_right):
        return f"links off the floor: left {left} of {all_left}, right {right} of {all_right}"
    if left == 0:
        return "no link off the floor"
    every = "every link" if left == all_left else f"{left} of {all_left} links"
    return f"{every} off the floor, each end"


def _side(explained: Explained, side: Side, units: UnitSystem) -> SideRow:
    travel = explained.answer.question.place.travel
    return SideRow(
        name=side_name(side),
        short=short_name(side),
        chosen=side.chosen,
        falls=side.chosen or side.name in {PLAIN, BAND},
        straight_weight=mass(units, side.straight_kg),
        bottom=mass(units, side.load_kg(travel.bottom_m)),
        top=mass(units, side.load_kg(travel.top_m)),
        of_strength_at_top=None if side.top_use is None else share(side.top_use),
        starts_down=Figure(side.start_g, "g", f"{side.start_g:.2f} g"),
        reaches_bottom=Figure(side.end_m_per_s, "m/s", f"{side.end_m_per_s:.1f} m/s"),
    )
