"""Speed work as one frozen view: loads, speeds and plates, with chain and without."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.lifter.velocity import CHECKED_AT
from topheavy.present.figure import Figure, mass
from topheavy.present.rep.motion_figures import Spread, percent, speed, spread
from topheavy.present.rep.words import ALL_OUT, FITTED, line_words
from topheavy.present.rig.steps import loading_text

if TYPE_CHECKING:
    from topheavy.services.reps.rig import FoundRig
    from topheavy.services.reps.speed import Loaded, SpeedAnswer, SpeedLine
    from topheavy.units import UnitSystem

_WHICH: Final = {
    "top": (
        "Equal load at the top",
        (
            "At lockout both bars weigh the same; below, chain takes load off. So the chain bar is "
            "bound to be faster: this tells how much of that is the lighter start."
        ),
    ),
    "mean": (
        "Equal mean load",
        (
            "Both bars take the same work to raise; chain only moves load from below to above. So "
            "this tells what chain itself does to the speed."
        ),
    ),
}
_OFF_KG: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """One load: plain, and with chain. `straight` is bar, collars and plates beside the chain."""

    of_best: Figure
    plain: Figure
    plain_speed: Spread
    straight: Figure
    bottom: Figure
    top: Figure
    chain_speed: Spread
    faster: Spread
    faster_peak: Spread
    plain_plates: str
    chain_plates: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EqualView:
    """The loads at which one load of the chain bar equals the plain one: ``top`` or ``mean``."""

    equal_at: str
    heading: str
    answers: str
    lines: tuple[LineView, ...]
    left_out: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedView:
    """Everything a coach sees of speed work."""

    title: str
    gym: str
    hangs: str
    best: Figure
    tables: tuple[EqualView, ...]
    cautions: tuple[str, ...]
    limits: tuple[str, ...]


def view_speed(answer: SpeedAnswer, rig: FoundRig, units: UnitSystem) -> SpeedView:
    """Put speed work into words and figures.

    Parameters
    ----------
    answer : SpeedAnswer
        From `topheavy.services.reps.speed.answer_speed`.
    rig : FoundRig
        The rig whose chain it is.
    units : UnitSystem
        What the user wants to see.
    """
    place, who = answer.question.place, answer.who
    return SpeedView(
        title=f"Speed work: {place.lifter.name}, {place.lift.name}, {place.station.name}",
        gym=place.gym.name,
        hangs=(
            f"{units.mass(answer.hung_bottom_kg)} at the bottom, "
            f"{units.mass(answer.hung_mean_kg)} mean, {units.mass(answer.hung_top_kg)} at the top"
        ),
        best=mass(units, who.lifter.best_kg),
        tables=tuple(_table(answer, name, units) for name in _WHICH),
        cautions=(*(caution.text for caution in rig.cautions), *rig.remeasure),
        limits=_limits(answer, units),
    )


def _table(answer: SpeedAnswer, equal_at: str, units: UnitSystem) -> EqualView:
    heading, answers = _WHICH[equal_at]
    lines = {str(name): lines for name, lines in answer.lines.items()}[equal_at]
    light = {str(name): shares for name, shares in answer.too_light.items()}[equal_at]
    left_out = ""
    if light:
        shares = ", ".join(percent(share).text for share in light)
        left_out = (
            f"Left out: {shares} of the best. Bar and collars with what hangs are more than that."
        )
    return EqualView(
        equal_at=equal_at,
        heading=heading,
        answers=answers,
        lines=tuple(_line(line, units) for line in lines),
        left_out=left_out,
    )


def _line(line: SpeedLine, units: UnitSystem) -> LineView:
    row = line.row
    return LineView(
        of_best=percent(row.share),
        plain=mass(units, row.plain_kg),
        plain_speed=spread(line.plain_mean, speed),
        straight=mass(units, row.straight_kg),
        bottom=mass(units, row.bottom_kg),
        top=mass(units, row.top_kg),
        chain_speed=spread(line.chain_mean, speed),
        faster=spread(line.mean_gain, percent),
        faster_peak=spread(line.peak_gain, percent),
        plain_plates=_plates(line.plain, units),
        chain_plates=_plates(line.chain, units),
    )


def _plates(loaded: Loaded, units: UnitSystem) -> str:
    said = loading_text(loaded.loading)
    if abs(loaded.off_kg) < _OFF_KG:
        return said
    more = "over" if loaded.off_kg > 0 else "under"
    return f"{said}, {units.mass(abs(loaded.off_kg))} {more}"


def _limits(answer: SpeedAnswer, units: UnitSystem) -> tuple[str, ...]:
    who = answer.who
    said = [
        FITTED,
        (
            f"Ranges: nine in ten of {who.many.count} lifters who fit this one's best, heights and "
            "records, each against their own plain bar."
        ),
        line_words(who),
        ALL_OUT,
    ]
    least = min(CHECKED_AT)
    if any(share < least for share in answer.question.shares):
        said.append(f"Below {percent(least)} of the best nobody compared the model with the line.")
    said += [remark.say(units) for remark in who.strength.remarks]
    return tuple(said)
