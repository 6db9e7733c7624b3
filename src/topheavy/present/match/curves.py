"""Curve over curve: a lifter's strength, the rig, and what else might hang as heavy."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError
from topheavy.present.curves import Curve, CurveSheet, Note, Strength, curves_svg
from topheavy.present.match.view import percent
from topheavy.services.reps.sides import BAND, PLAIN

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np
    from numpy.typing import NDArray

    from topheavy.present.curves import Kind
    from topheavy.services.match import Fit
    from topheavy.services.rig import RigAnswer
    from topheavy.units import UnitSystem

    Floats = NDArray[np.float64]

_KINDS: Final[dict[str, Kind]] = {PLAIN: "plain", BAND: "band"}


def match_curves(answer: RigAnswer, units: UnitSystem) -> str:
    """Draw strength and loads by height, as SVG.

    Everything but the rig itself is as heavy as the wanted effort allows; the rig is as it hangs.

    Parameters
    ----------
    answer : RigAnswer
        Of a rig that was matched to a lifter.
    units : UnitSystem
        What numbers are printed in.

    Raises
    ------
    BadInputError
        The rig was not matched to anybody.
    """
    fit = answer.fit
    if fit is None:
        raise BadInputError(
            "Without the lifter's strength there are no curves to lay over each other",
            field="--curves",
            wanted="--match beside it",
        )
    place, strength = answer.question.place, fit.matching.strength
    return curves_svg(
        CurveSheet(
            bottom_m=place.travel.bottom_m,
            top_m=place.travel.top_m,
            units=units,
            curves=tuple(_curves(fit)),
            strength=Strength.of(strength, f"{place.lifter.name}'s strength"),
            bottom_at=place.lift.bottom_at,
            top_at=place.lift.top_at,
            notes=(Note(height_m=strength.weakest_m, words="weakest here"),),
            title=f"Strength and load by height, {place.lifter.name}, {place.lift.name}",
            height=360.0,
        )
    )


def _curves(fit: Fit) -> Iterable[Curve]:
    for name, match in fit.sides.items():
        if name == fit.name:
            yield _curve(f"this rig: {name}", "chosen", fit.load_kg, fit.heights_m)
        elif match.liftable:
            kind = _KINDS.get(name, "straight" if "straight" in name else "other")
            yield _curve(name, kind, match.load_kg, match.height_m)
    wanted_kg = fit.matching.effort * fit.strength_kg
    name = f"{percent(fit.matching.effort)} of strength"
    yield _curve(name, "other", wanted_kg, fit.heights_m)


def _curve(name: str, kind: Kind, load_kg: Floats, height_m: Floats) -> Curve:
    points = zip(load_kg.tolist(), height_m.tolist(), strict=True)
    return Curve(name=name, kind=kind, points=tuple(points))
