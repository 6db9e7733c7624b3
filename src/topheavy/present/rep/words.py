"""A rep in sentences: what becomes of it, where it sticks, the way down, what can't be known."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

import numpy as np

from topheavy.lifter.velocity import LINES
from topheavy.present.rep.motion_figures import in_g, percent, push, seconds, speed
from topheavy.present.rig.band_rows import pair_words
from topheavy.services.reps.sides import BAND

if TYPE_CHECKING:
    from topheavy.services.reps.rep import Moved, RepAnswer, Side
    from topheavy.services.reps.who import Who
    from topheavy.units import UnitSystem

NOISE = (
    "An all-chain bench single repeats within 1.4 % in men, 3.5 % in women (McCurdy et al. 2008): "
    "anything smaller is noise."
)
FITTED = (
    "All of this is the prediction of a fitted model. No study found has tested it with chain or "
    "bands, and it promises nothing of training."
)
NO_BAND = "No band beside it: none of this gym's pairs fits this station's pegs."
ALL_OUT = "The lifter pushes as hard as can be all the way; one who holds back is slower."


def verdict(answer: RepAnswer, units: UnitSystem) -> str:
    """Say what becomes of the rep."""
    moved, who = answer.moved, answer.who
    ascent, lifter = moved.rep.ascent, who.lifter
    load = moved.on_bar.load_at((lifter.bottom_m, lifter.top_m))
    if moved.verdict == "stays down":
        least_kg, bottom_kg = lifter.best_kg, float(who.strength.at(lifter.bottom_m))
        return (
            f"Can't be lifted: {units.mass(float(load[0]))} on the bar at the bottom. This lifter "
            f"moves about {units.mass(bottom_kg)} there and {units.mass(least_kg)} all the way."
        )
    taken = f"{ascent.duration_s[0]:.1f} s"
    if moved.verdict == "missed":
        at = lifter.bottom_m + float(ascent.reached_part[0]) * lifter.travel_m
        part = percent(float(ascent.reached_part[0]))
        return (
            f"A miss: the bar stops {units.length(at)} above the floor, {part} of the way up, "
            f"{taken} after it starts."
        )
    mean = speed(float(ascent.mean_m_per_s[0]))
    said = f"Made, in {taken} at a mean of {mean}."
    missing = 1.0 - moved.made_share
    if missing > 0.05:
        said += f" Not for sure: {percent(missing)} of the plausible lifters miss it."
    return said


def as_hard(answer: RepAnswer, units: UnitSystem) -> str:
    """Say what plain weight is as hard as the rig."""
    if answer.as_hard_kg is None:
        return "No strength within reason moves this rig."
    low, likely, high = answer.as_hard_kg
    share = percent(likely / answer.who.lifter.best_kg)
    return (
        f"As hard as a plain single of {units.mass(likely)} ({units.mass(low)} to "
        f"{units.mass(high)}), {share} of the best."
    )


def sticking(moved: Moved, who: Who, units: UnitSystem) -> str:
    """Say where the bar sticks: from, slowest, until, in heights and shares of the way up."""
    found, lifter = moved.rep.ascent.sticking, who.lifter

    def at(part: float) -> str:
        height = units.length(lifter.bottom_m + part * lifter.travel_m)
        return f"{height} ({percent(part)})"

    parts = [float(p[0]) for p in (found.start_part, found.slowest_part, found.end_part)]
    if not isfinite(parts[0]):
        said = "nowhere"
    elif isfinite(parts[2]):
        said = f"from {at(parts[0])}, slowest at {at(parts[1])}, until {at(parts[2])}"
    else:
        said = f"from {at(parts[0])}, and does not get through"
    many = float(np.mean(np.isfinite(moved.many.sticking.start_part)))
    if moved.verdict != "made" or not 0.0 < many < 1.0:
        return said
    return f"{said}; {percent(many)} of the plausible lifters stick"


def work_shares(moved: Moved) -> str:
    """Say where the lifter's work goes, and whether it adds up."""
    energy = moved.rep.ascent.energy
    total = float(energy.work_j[0])
    if total <= 0.0:
        return ""
    parts = [f"{percent(float(energy.lifted_j[0]) / total)} bar, plates and body"]
    chain, band = float(energy.chain_share[0]), float(energy.band_j[0]) / total
    parts += [f"{percent(chain)} chain"] if chain > 0.0 else []
    parts += [f"{percent(band)} band"] if band else []
    off = abs(float(energy.imbalance[0]))
    return f"{', '.join(parts)}; parts and whole agree within {100 * max(off, 1e-5):.3f} %"


def way_down(moved: Moved, who: Who, units: UnitSystem) -> tuple[str, ...]:
    """Say how the bar comes down: under control, and let go."""
    lowered, dropped = moved.lowered, moved.dropped
    load_kg = float(moved.on_bar.load_at(who.lifter.bottom_m))
    said = [
        (
            f"Lowered in {lowered.duration_s:.1f} s: speeds up by {in_g(lowered.peak_g)} at most, "
            f"{speed(lowered.peak_m_per_s)} at its fastest; at the bottom "
            f"{units.mass(load_kg)} are left to stop."
        ),
        (
            f"Let go at lockout: {in_g(dropped.peak_g)}, at the bottom after "
            f"{seconds(dropped.duration_s)} with {speed(dropped.end_m_per_s)}."
        ),
    ]
    if dropped.faster_than_free_fall:
        said.append("That is faster than it falls: bands pull it down. Never let go of it.")
    else:
        said.append("Chain only falls: it can't pull the bar down faster than that.")
    return tuple(said)


def limits_of(answer: RepAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say what the numbers rest on and what they can't tell."""
    who = answer.who
    said = [
        FITTED,
        (
            f"Ranges: nine in ten of {who.many.count} lifters who fit this one's best, heights and "
            "records, and move plain weight as measured lifters do."
        ),
        line_words(who),
        ALL_OUT,
        NOISE,
        *(remark.say(units) for remark in who.strength.remarks),
        *(_first_up(phrase.say(units)) for phrase in who.told),
    ]
    return tuple(said)


def line_words(who: Who) -> str:
    """Say how far the model is from the published line of its lift, and what line that is."""
    line = LINES[who.model.pattern]
    return (
        f"Model against the published line for plain weight: {who.model.rms_m_per_s:.3f} m/s off "
        f"at 40 to 100 % of the best; lifters lie about {line.error_m_per_s:.2f} m/s off it. "
        f"{line.source[:1].upper()}{line.source[1:]}."
    )


def side_notes(answer: RepAnswer, units: UnitSystem) -> tuple[str, ...]:
    """Say what is special about the rigs set side by side."""
    bar_kg = answer.question.place.setup.bar_kg
    said = [_band_note(side, units) for side in answer.sides if side.beside.bands]
    said += [
        f"{_first_up(side.beside.name)}: {units.mass(side.equal.straight_kg)} is less than the "
        f"empty bar with its collars ({units.mass(bar_kg)}): take chain off."
        for side in answer.sides
        if side.equal.straight_kg < bar_kg
    ]
    said += [
        f"{_first_up(name)} can't be in it: what hangs is more than this lifter moves at that "
        "effort."
        for name in answer.too_much
    ]
    if BAND not in answer.too_much and not any(side.beside.on_bar.band for side in answer.sides):
        said.append(NO_BAND)
    return tuple(said)


def _band_note(side: Side, units: UnitSystem) -> str:
    apart = units.mass(side.beside.imbalance_kg, 2)
    return (
        f"{_first_up(pair_words(*side.beside.bands))}, alike within {apart}. Of this gym's "
        "pairs they come nearest to the chain's change over the lift."
    )


def effort_words(answer: RepAnswer, units: UnitSystem) -> str:
    """Say at which effort the rigs stand side by side."""
    plain = units.mass(answer.effort * answer.who.lifter.best_kg)
    share = percent(answer.effort)
    own = answer.question.effort is None and answer.effort < 1.0
    at = f"At this rig's own effort, {share}" if own else f"At an effort of {share}"
    return f"{at} of the best: whoever just lifts {plain} plain just lifts each of these."


def pushed(units: UnitSystem, moved: Moved) -> str:
    """Say the greatest push, as the load it would hold, and over what holds the bar still."""
    ascent = moved.rep.ascent
    ratio = float(ascent.peak_force_ratio[0])
    most = push(units, float(ascent.peak_force_n[0]))
    return f"{most}, {ratio:.2f} times what holds it still; body counted"


def _first_up(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
