"""How a rig fits a lifter, as one frozen view for terminal, card and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.present.figure import Figure, length, mass
from topheavy.present.rep.words import NO_BAND

if TYPE_CHECKING:
    from topheavy.lifter.match import Match
    from topheavy.services.match import Fit
    from topheavy.units import UnitSystem

ROWS: Final = 9
"""Heights shown, evenly from bottom to top."""

_WHOLE: Final = 0.02
_SURE: Final = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EffortRow:
    """The lifter and the loads at one height.

    `likeliest`, `low` and `high` are strength; `load` and `effort` are of this rig as it hangs;
    `others` are the efforts of the other ways to load the bar, by name.
    """

    height: Figure
    likeliest: Figure
    low: Figure
    high: Figure
    load: Figure
    effort: Figure
    others: dict[str, Figure]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRow:
    """One way to load the bar, as heavy as the wanted effort allows.

    `straight` is bar, collars and plates with its range; `least` and `mean` are efforts.
    """

    name: str
    chosen: bool
    straight: Figure
    low: Figure
    high: Figure
    top: Figure
    mean: Figure
    least: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchView:
    """How a rig fits a lifter. `part` says over which part of the way efforts are compared."""

    wanted: Figure
    best: Figure
    weakest: Figure
    part: str
    most: Figure
    most_at: Figure
    least: Figure
    least_at: Figure
    least_plain: Figure
    at_most: Figure
    rows: tuple[EffortRow, ...]
    sides: tuple[SideRow, ...]
    notes: tuple[str, ...]


def percent(effort: float) -> Figure:
    """Show an effort [-] in whole percent: strength is not known better.

    >>> percent(0.8962).text
    '90 %'
    """
    return Figure(effort, "", f"{100 * effort:.0f} %")


def view_match(fit: Fit, units: UnitSystem) -> MatchView:
    """Put the fit of a rig into words and figures.

    Parameters
    ----------
    fit : Fit
        From `topheavy.services.match.fit_of`.
    units : UnitSystem
        What the user wants to see.
    """
    strength = fit.matching.strength
    return MatchView(
        wanted=percent(fit.matching.effort),
        best=mass(units, strength.full_range_kg),
        weakest=length(units, strength.weakest_m),
        part=part_words(fit, units),
        most=percent(fit.most),
        most_at=length(units, fit.most_at_m),
        least=percent(fit.least),
        least_at=length(units, fit.least_at_m),
        least_plain=percent(fit.least_plain),
        at_most=percent(fit.at_most),
        rows=_rows(fit, units),
        sides=tuple(
            _side(name, match, units, chosen=name == fit.name) for name, match in fit.sides.items()
        ),
        notes=_notes(fit, units),
    )


def part_words(fit: Fit, units: UnitSystem) -> str:
    """Say over which part of the way efforts count: from the weakest height up."""
    travel, weakest_m = fit.matching.strength.travel, fit.matching.strength.weakest_m
    if weakest_m - travel.bottom_m < _WHOLE * travel.travel_m:
        return "from bottom to top"
    return f"from the weakest height, {units.length(weakest_m)}, to the top"


def perhaps_too_heavy(fit: Fit | None) -> tuple[str, ...]:
    """Say for the rack that a matched rig may be too heavy; nothing where it can't be."""
    if fit is None or fit.at_most <= _SURE:
        return ()
    words = (
        f"It may be too heavy: {percent(fit.at_most)} of strength if this lifter is as weak as the "
        "numbers leave open. Start well lighter and work up."
    )
    return (words,)


def _rows(fit: Fit, units: UnitSystem) -> tuple[EffortRow, ...]:
    picked = np.linspace(0, fit.heights_m.size - 1, ROWS).round().astype(int)
    others = {name: match for name, match in fit.sides.items() if name != fit.name}
    return tuple(
        EffortRow(
            height=length(units, float(fit.heights_m[i])),
            likeliest=mass(units, float(fit.strength_kg[i])),
            low=mass(units, float(fit.low_kg[i])),
            high=mass(units, float(fit.high_kg[i])),
            load=mass(units, float(fit.load_kg[i])),
            effort=percent(float(fit.effort[i])),
            others={name: percent(_at(fit, match, i)) for name, match in others.items()},
        )
        for i in picked
    )


def _at(fit: Fit, match: Match, place: int) -> float:
    load_kg = np.interp(fit.heights_m[place], match.height_m, match.load_kg)
    return float(load_kg / fit.strength_kg[place])


def _side(name: str, match: Match, units: UnitSystem, *, chosen: bool) -> SideRow:
    return SideRow(
        name=name,
        chosen=chosen,
        straight=mass(units, match.straight_kg),
        low=mass(units, match.low_kg),
        high=mass(units, match.high_kg),
        top=mass(units, float(match.load_kg[-1])),
        mean=percent(match.mean_effort),
        least=percent(match.least_effort),
    )


def _notes(fit: Fit, units: UnitSystem) -> tuple[str, ...]:
    strength = fit.matching.strength
    notes = [remark.say(units) for remark in strength.remarks]
    if fit.at_most > _SURE:
        notes.append(
            f"Within what is known of this lifter, the rig could ask for {percent(fit.at_most)} "
            "of strength somewhere: work up to it with spotters, and let a single from pins, a "
            "miss or a best with chain tell more."
        )
    if not any("band" in name for name in fit.sides):
        notes.append(NO_BAND)
    return tuple(notes)
