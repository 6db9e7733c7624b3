"""Readings of a scale as they were typed, and the weighing that they ask for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from topheavy.asked.quantities import length_m, mass_kg
from topheavy.errors import BadInputError, TopheavyError
from topheavy.phrase import literal
from topheavy.present.rig.steps import setting_text
from topheavy.services.bands import band_remarks
from topheavy.services.described import UNNAMED_FEEDER, dangers
from topheavy.services.weighing.case import ScaleReading
from topheavy.services.weighing.weigh import Scale, Suspects, weigh
from topheavy.units import parse_quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.asked.described import Told
    from topheavy.phrase import Remark
    from topheavy.services.described import DescribedRig
    from topheavy.services.weighing.case import ReadingWay
    from topheavy.services.weighing.weigh import Weighing

MOST: Final = 200
"""Most readings of one weighing; a guard against the wrong file."""

WAYS: Final[dict[str, ReadingWay]] = {
    "up": "raising",
    "raising": "raising",
    "down": "lowering",
    "lowering": "lowering",
    "": "unsaid",
}
_WANTED: Final = "a height and a mass, such as 70cm=92.1kg, 70cm=92.1kg:up or 70cm=90.4kg:down"
SCALE_WITHIN: Final = "0.1 kg"
HEIGHT_WITHIN: Final = "3 mm"
"""How sure scale and heights are, unless said otherwise."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Standard uncertainty of every height [m] and of every mass [kg]."""

    height_u_m: float
    mass_u_kg: float


def doubt_of(scale_within: str = SCALE_WITHIN, height_within: str = HEIGHT_WITHIN) -> Doubt:
    """Read how sure the scale and each height are."""
    return Doubt(
        height_u_m=length_m(height_within, "--height-within") or 0.0,
        mass_u_kg=mass_kg(scale_within, "--scale-within") or 0.0,
    )


def read_typed(texts: Sequence[str], doubt: Doubt) -> list[ScaleReading]:
    """Read readings as they are typed: HEIGHT=MASS, with :up or :down when known.

    Raises
    ------
    BadInputError
        Not a height and a mass, or out of range.
    """
    readings = []
    for text in texts:
        pair, _, way = text.partition(":")
        height, equals, mass = pair.partition("=")
        if not equals or way.strip().lower() not in WAYS:
            raise BadInputError("Not a reading", field="--reading", got=repr(text), wanted=_WANTED)
        readings.append(reading_of(height, mass, way, "--reading", doubt))
    return readings


def reading_of(height: str, mass: str, way: str, where: str, doubt: Doubt) -> ScaleReading:
    """Make one reading out of its words; `where` says where they stand."""
    height_m = parse_quantity(height, "length", field=where)
    mass_kg = parse_quantity(mass, "mass", field=where)
    try:
        return ScaleReading(
            height_m=height_m,
            mass_kg=mass_kg,
            height_u_m=doubt.height_u_m,
            mass_u_kg=doubt.mass_u_kg,
            way=WAYS[way.strip().lower()],
        )
    except TopheavyError as error:
        got = f"{height.strip()} = {mass.strip()}"
        raise BadInputError(error.message, field=where, got=got, wanted=error.wanted) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A weighing that was done.

    Parameters
    ----------
    answer : Weighing
        What the scale says of the rig.
    described : DescribedRig
        The rig, over all heights that were read.
    dangers : tuple of Remark
        What must come down first.
    again : tuple of str
        Bands to read again.
    """

    answer: Weighing
    described: DescribedRig
    dangers: tuple[Remark, ...]
    again: tuple[str, ...]


def weigh_told(
    told: Told, taken: list[ScaleReading], carries: str, bare: str | None, doubt: Doubt
) -> Weighed:
    """Hold a described rig against readings of a scale.

    Parameters
    ----------
    told : Told
        The rig.
    taken : list of ScaleReading
        What the scale showed, 1 to `MOST` readings.
    carries : str
        What the scale carries.
    bare : str or None
        What it shows with all chain on the floor.
    doubt : Doubt
        How sure the scale is.

    Raises
    ------
    BadInputError
        Words not understood; no readings, or too many.
    """
    if not 0 < len(taken) <= MOST:
        raise BadInputError(
            "No readings of the scale" if not taken else "Too many readings",
            field="--reading",
            got=None if not taken else f"{len(taken)} readings",
            wanted="--reading 70cm=92.1kg, several times; or --readings FILE",
        )
    described = told.described.over(*(one.height_m for one in taken), *_ends_m(told))
    answer = weigh(
        described.rig,
        told.ground,
        taken,
        _scale(carries, bare, doubt),
        _suspects(told),
        told.travel,
    )
    return Weighed(
        answer=answer,
        described=described,
        dangers=dangers(described, design_factor=told.design_factor),
        again=band_remarks(described.bands, told.today),
    )


def _ends_m(told: Told) -> tuple[float, ...]:
    """Bottom and top of the lifter, where one was named [m]."""
    return (told.travel.bottom_m, told.travel.top_m) if told.travel else ()


def _scale(carries: str, bare: str | None, doubt: Doubt) -> Scale:
    """What the scale carries; a bare reading is as sure as the scale."""
    bare_kg = mass_kg(bare, "--bare")
    return Scale(
        carries=" ".join(carries.lower().split()),  # type: ignore[arg-type]  # it checks the word
        straight_kg=bare_kg,
        straight_u_kg=None if bare_kg is None else doubt.mass_u_kg,
    )


def _suspects(told: Told) -> Suspects:
    """What this gym has that could have been taken by mistake."""
    feeders = [hanging.fixture.feeder for hanging in told.described.hangings]
    used = next((f for f in feeders if f is not None and f.name != UNNAMED_FEEDER), None)
    surfaces = {station.surface_m for station in told.gym.stations} | {0.0}
    return Suspects(
        settings=() if used is None else tuple(_named(s) for s in used.settings),
        plates_kg=tuple(sorted({plate.mass_kg for plate in told.gym.stock.plates})),
        surfaces_m=tuple(sorted(surfaces - {told.ground.surface_m})),
        pegs=told.station.pegs if told.station else (),
        bands=told.gym.stock.bands if told.described.bands else (),
    )


def _named(setting: Any) -> Any:
    """A setting under the name that stands in a sentence."""
    name = setting_text(setting.label)
    return replace(setting, label=literal(f"mark {name}" if name[0].isdigit() else name))
