"""A lifter's strength by height, drawn with the plain best beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.present.curves import Curve, CurveSheet, Note, Strength, curves_svg

if TYPE_CHECKING:
    from topheavy.services.strength import StrengthAnswer
    from topheavy.units import UnitSystem


def strength_svg(answer: StrengthAnswer, units: UnitSystem) -> str:
    """Draw what `topheavy.services.strength.answer_strength` found, as SVG.

    Parameters
    ----------
    answer : StrengthAnswer
        How strong a lifter is, and how sure that is.
    units : UnitSystem
        What numbers are printed in.

    Examples
    --------
    >>> from topheavy.gym.lifts import lift_named
    >>> from topheavy.gymfile import demo_gym
    >>> from topheavy.services.rig import Place
    >>> from topheavy.services.strength import answer_strength
    >>> from topheavy.units import METRIC
    >>> gym = demo_gym()
    >>> pip, squat = gym.lifter("Pip"), lift_named("squat")
    >>> place = Place(gym=gym, lifter=pip, lift=squat, station=gym.station("rack"))
    >>> "Pip's strength" in strength_svg(answer_strength(place), METRIC)
    True
    """
    place, curve = answer.place, answer.curve
    travel, best_kg = curve.travel, curve.full_range_kg
    points = ((best_kg, travel.bottom_m), (best_kg, travel.top_m))
    return curves_svg(
        CurveSheet(
            bottom_m=travel.bottom_m,
            top_m=travel.top_m,
            units=units,
            curves=(Curve(name="best, straight weight", kind="plain", points=points),),
            strength=Strength.of(curve, f"{place.lifter.name}'s strength"),
            bottom_at=place.lift.bottom_at,
            top_at=place.lift.top_at,
            notes=(Note(height_m=curve.weakest_m, words="weakest here"),),
            title=f"Strength by height, {place.lifter.name}, {place.lift.name}",
            height=340.0,
        )
    )
