"""A weighing as one frozen view, for terminal and JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from topheavy.present.figure import Figure, density, length, mass
from topheavy.present.rig.hung_words import ends_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.phrase import Remark
    from topheavy.services.described import DescribedRig
    from topheavy.services.weighing.weigh import Cause, Number, Row, Weighing
    from topheavy.units import UnitSystem

_NAMES: Final = {
    "chain": "chain, mass per length",
    "lift-off": "chain leaves the floor at",
    "pile difference": "pile, lowering less raising",
    "pile": "pile, height",
    "feeder": "feeder, working length",
    "drop": "bar centre to the chain",
    "straight weight": "bar, collars, plates",
    "friction": "friction on the floor",
    "bands": "pull of the bands over their readings",
}
_FROM: Final = {
    "scale": "the scale",
    "both": "both",
    "stated": "mostly as stated",
    "held": "as stated",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """One reading against its prediction; `difference` is reading less prediction."""

    height: Figure
    way: str
    reading: Figure
    predicted: Figure
    difference: Figure
    fitted: Figure
    off: bool
    outside_the_lift: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberRow:
    """One number of the rig: fitted, as stated, and where it is known from."""

    name: str
    fitted: Figure
    stated: Figure
    known_from: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseRow:
    """A slip that would explain the readings, and what is left over under it."""

    what: str
    what_to_do: str
    likely: bool
    left_over: Figure
    misfit: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighView:
    """What a scale says of a rig.

    `outcome` is ``agrees``, ``shifted``, ``cause``, ``causes`` or ``unexplained``. `mended`
    are the numbers with the first likely cause put right; `leaning` those that these
    readings can't tell apart.
    """

    title: str
    dangers: tuple[str, ...]
    outcome: str
    verdict: str
    hang_left: tuple[str, ...]
    hang_right: tuple[str, ...]
    readings: tuple[ReadingRow, ...]
    worst: Figure
    mean: Figure
    rms: Figure
    causes: tuple[CauseRow, ...]
    numbers: tuple[NumberRow, ...]
    leaning: tuple[NumberRow, ...]
    mended: tuple[NumberRow, ...]
    left_out: tuple[int, ...]
    notes: tuple[str, ...]
    hidden: tuple[str, ...]
    cautions: tuple[str, ...]


_WITH_BANDS: Final = (
    "Bands pull the bar down on the scale: a stand or hoist that can't be pulled over, face and "
    "hands out of line, bands off before anything is moved."
)
_CAUTIONS: Final = (
    "Nobody lifts while it is weighed: the bar on safeties, or on a hoist that is made for it.",
    "Keep hands and feet away from the pile.",
    "A scale shows the load, not the strength: look over chain, feeders and connectors too.",
)


def view_weighing(
    answer: Weighing,
    described: DescribedRig,
    dangers: Sequence[Remark],
    units: UnitSystem,
    title: str,
    remeasure: Sequence[str] = (),
) -> WeighView:
    """Put a weighing into words and figures.

    Parameters
    ----------
    answer : Weighing
        From `topheavy.services.weighing.weigh.weigh`.
    described : DescribedRig
        What hangs.
    dangers : sequence of Remark
        What must come down.
    units : UnitSystem
        What the user wants to see.
    title : str
        Who, what and where.
    remeasure : sequence of str
        Bands to read again, and why.
    """
    left, right = ends_words(described, units)
    return WeighView(
        title=title,
        dangers=tuple(remark.say(units) for remark in dangers),
        outcome=answer.outcome,
        verdict=answer.verdict.say(units),
        hang_left=left,
        hang_right=right,
        readings=tuple(_reading(row, units) for row in answer.rows),
        worst=_signed(answer.worst_kg, units),
        mean=_signed(answer.mean_kg, units),
        rms=mass(units, answer.rms_kg),
        causes=tuple(_cause(cause, units) for cause in answer.causes),
        numbers=tuple(_number(number, units) for number in answer.fit.numbers),
        leaning=tuple(_number(number, units) for number in answer.fit.leaning),
        mended=tuple(_number(n, units) for n in answer.mended.numbers) if answer.mended else (),
        left_out=tuple(place + 1 for place in answer.fit.left_out),
        notes=tuple(note.say(units) for note in answer.fit.notes),
        hidden=tuple(slip.say(units) for slip in answer.hidden),
        cautions=(*([_WITH_BANDS] if described.bands else []), *_CAUTIONS, *remeasure),
    )


def _reading(row: Row, units: UnitSystem) -> ReadingRow:
    reading = row.reading
    return ReadingRow(
        height=length(units, reading.height_m),
        way="" if reading.way == "unsaid" else reading.way,
        reading=mass(units, reading.mass_kg),
        predicted=mass(units, row.predicted_kg, row.predicted_u_kg),
        difference=_signed(row.difference_kg, units),
        fitted=mass(units, row.fitted_kg),
        off=row.off,
        outside_the_lift=row.outside_travel,
    )


def _signed(difference_kg: float, units: UnitSystem) -> Figure:
    shown = units.mass(difference_kg)
    nothing = shown == units.mass(0.0)
    return Figure(difference_kg, "kg", shown if nothing or difference_kg < 0 else f"+{shown}")


def _cause(cause: Cause, units: UnitSystem) -> CauseRow:
    return CauseRow(
        what=cause.what.say(units),
        what_to_do=cause.todo.say(units),
        likely=cause.likely,
        left_over=mass(units, cause.rms_kg),
        misfit=round(cause.misfit, 3),
    )


def _number(number: Number, units: UnitSystem) -> NumberRow:
    stated = _figure(number, number.stated, number.stated_u, units)
    return NumberRow(
        name=_name(number.name),
        fitted=_figure(number, number.value, number.u, units),
        stated=stated,
        known_from=_FROM[number.known_from],
    )


def _name(name: str) -> str:
    for way in (" raising", " lowering"):
        if name.endswith(way) and name not in _NAMES:
            return f"{_NAMES.get(name.removesuffix(way), name)},{way}"
    return _NAMES.get(name, name)


def _figure(number: Number, value: float, u: float, units: UnitSystem) -> Figure:
    if number.dimension == "mass":
        return mass(units, value, u)
    if number.dimension == "length":
        return length(units, value, u)
    if number.dimension == "linear density":
        return density(units, value, u)
    return Figure(value, "", f"{value:.2f} \N{PLUS-MINUS SIGN} {u:.2f}", u)
