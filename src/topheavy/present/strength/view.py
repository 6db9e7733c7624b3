"""A lifter's strength by height as one frozen view, for terminal and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.lifter.evidence import FullRange
from topheavy.lifter.velocity import LINES
from topheavy.present.figure import Figure, length, mass, share
from topheavy.services.cautions import cautions_when_testing
from topheavy.services.evidence_words import evidence_phrase

if TYPE_CHECKING:
    from topheavy.lifter.one_rm import OneRepMax
    from topheavy.lifter.strength import StrengthCurve
    from topheavy.services.strength import FromSet, StrengthAnswer
    from topheavy.services.strength_advice import Advice
    from topheavy.units import UnitSystem

ROWS: Final = 11
"""Heights shown, from bottom to top, a tenth of the way apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthRow:
    """Strength at one height; `way` is the share of the way up.

    95 of 100 plausible curves lie between `low` and `high`; between `least` and `most` lies all
    that is possible.
    """

    height: Figure
    way: Figure
    low: Figure
    likeliest: Figure
    high: Figure
    least: Figure
    most: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """What a set stands for: the range of the formulas, and each formula's value by name."""

    words: str
    low: Figure
    middle: Figure
    high: Figure
    formulas: dict[str, Figure]
    caveats: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AdviceRow:
    """The single that would tell most; `start` is None for the full range.

    `shrinks` is about by how much of itself the spread of the curve would shrink.
    """

    start: Figure | None
    likely: Figure
    low: Figure
    high: Figure
    shrinks: Figure
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthView:
    """Everything a coach sees of a lifter's strength.

    `best` is the full-range best and `weakest` where it is limited; 95 of 100 plausible curves have
    them between `best_low` and `best_high`, `weakest_low` and `weakest_high`.
    """

    title: str
    gym: str
    lifter: str
    lift: str
    station: str
    best: Figure
    best_low: Figure
    best_high: Figure
    weakest: Figure
    weakest_way: Figure
    weakest_low: Figure
    weakest_high: Figure
    rows: tuple[StrengthRow, ...]
    sets: tuple[SetRow, ...]
    made_from: tuple[str, ...]
    left_out: tuple[str, ...]
    remarks: tuple[str, ...]
    advice: AdviceRow
    basis: str
    cautions: tuple[str, ...]


def view_strength(answer: StrengthAnswer, units: UnitSystem) -> StrengthView:
    """Put an answer into words and figures.

    Parameters
    ----------
    answer : StrengthAnswer
        From `topheavy.services.strength.answer_strength`.
    units : UnitSystem
        What the user wants to see.
    """
    place, curve, gathered = answer.place, answer.curve, answer.gathered
    top_m = curve.travel.top_m
    return StrengthView(
        title=f"{place.lifter.name}, {place.lift.name}, {place.station.name}",
        gym=place.gym.name,
        lifter=place.lifter.name,
        lift=place.lift.name,
        station=place.station.name,
        best=mass(units, curve.full_range_kg),
        best_low=mass(units, answer.best_low_kg),
        best_high=mass(units, answer.best_high_kg),
        weakest=length(units, curve.weakest_m),
        weakest_way=_way(curve, curve.weakest_m),
        weakest_low=length(units, answer.weakest_low_m),
        weakest_high=length(units, answer.weakest_high_m),
        rows=_rows(answer, units),
        sets=tuple(_set(one, top_m, units) for one in answer.sets),
        made_from=tuple(
            f"{evidence_phrase(one.piece, top_m).say(units)} ({one.origin})"
            for one in gathered.used
        ),
        left_out=tuple(one.say(units) for one in gathered.left_out),
        remarks=tuple(remark.say(units) for remark in curve.remarks if remark.code != "set")
        + _of_speed(answer),
        advice=_advice(answer.advice, units),
        basis=curve.basis,
        cautions=tuple(caution.text for caution in cautions_when_testing(place.lift)),
    )


def _of_speed(answer: StrengthAnswer) -> tuple[str, ...]:
    """What a best by bar speed rests on."""
    evidence = answer.gathered.evidence
    if not any(isinstance(piece, FullRange) and piece.reckoned for piece in evidence):
        return ()
    line = next(line for pattern, line in LINES.items() if pattern == answer.place.lift.name)
    said = (
        "A best by bar speed is read from a published line, with its error, and holds for reps as "
        "fast as the lifter can. Who is used to grinding may be stronger than it says. "
    )
    return (f"{said}{line.source[:1].upper()}{line.source[1:]}.",)


def _rows(answer: StrengthAnswer, units: UnitSystem) -> tuple[StrengthRow, ...]:
    curve = answer.curve
    heights = np.linspace(curve.travel.bottom_m, curve.travel.top_m, ROWS)
    shown = np.array([answer.low_kg, curve.best_kg, answer.high_kg, curve.low_kg, curve.high_kg])
    found = []
    for height_m in heights.tolist():
        low, likeliest, high, least, most = (
            mass(units, float(np.interp(height_m, curve.height_m, loads_kg))) for loads_kg in shown
        )
        found.append(
            StrengthRow(
                height=length(units, height_m),
                way=_way(curve, height_m),
                low=low,
                likeliest=likeliest,
                high=high,
                least=least,
                most=most,
            )
        )
    return tuple(found)


def _way(curve: StrengthCurve, height_m: float) -> Figure:
    part = (height_m - curve.travel.bottom_m) / curve.travel.travel_m
    return Figure(part, "", f"{100 * part:.0f} %")


def _set(one: FromSet, top_m: float, units: UnitSystem) -> SetRow:
    best: OneRepMax = one.best
    return SetRow(
        words=evidence_phrase(one.used.piece, top_m).say(units),
        low=mass(units, best.low_kg),
        middle=mass(units, best.middle_kg),
        high=mass(units, best.high_kg),
        formulas={name: mass(units, value_kg) for name, value_kg in best.values_kg.items()},
        caveats=best.caveats,
    )


def _advice(advice: Advice, units: UnitSystem) -> AdviceRow:
    start = None if advice.from_m is None else length(units, advice.from_m)
    likely, low, high = (
        mass(units, value_kg) for value_kg in (advice.likely_kg, advice.low_kg, advice.high_kg)
    )
    where = "over the full range" if start is None else f"from pins at about {start}"
    if advice.is_worth_it:
        words = (
            f"A single {where} would tell most: it would narrow the curve by about "
            f"{100 * advice.share:.0f} %. Anything from {low} to {high} would fit, {likely} is "
            "likeliest: work up from the low end. A set of a few reps from there tells less, and "
            "will do for those who do no singles."
        )
    else:
        words = "No one more single would narrow the curve by as much as a tenth."
    return AdviceRow(
        start=start, likely=likely, low=low, high=high, shrinks=share(advice.share), words=words
    )
