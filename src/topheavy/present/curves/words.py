"""A drawing of curves in words, for those who can't see it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from topheavy.present.curves.given import Curve, CurveSheet, Strength


def description(sheet: CurveSheet) -> str:
    """Say everything that the drawing shows, in sentences."""
    length = sheet.units.length
    ends = f"{length(sheet.bottom_m)} to {length(sheet.top_m)}"
    said = [f"Height of the bar upwards, from {ends}; load to the right."]
    if sheet.strength is not None:
        said.append(_strength(sheet, sheet.strength))
    said += [_curve(sheet, curve) for curve in sheet.curves]
    said += [f"At {length(note.height_m)}: {note.words}." for note in sheet.notes]
    return " ".join(said)


def _strength(sheet: CurveSheet, strength: Strength) -> str:
    mass = sheet.units.mass
    load_kg, height_m = strength.weakest
    ends = []
    for word, at in (("bottom", 0), ("top", -1)):
        low, high = mass(strength.low_kg[at]).split(" ")[0], mass(strength.high_kg[at])
        ends.append(f"{mass(strength.best_kg[at])} at the {word} ({low} to {high})")
    return (
        f"{_named(strength.name)} is least at {sheet.units.length(height_m)}: {mass(load_kg)}; "
        f"{', '.join(ends)}."
    )


def _curve(sheet: CurveSheet, curve: Curve) -> str:
    low, high = map(sheet.units.mass, curve.ends_kg)
    if low == high:
        return f"{_named(curve.name)}: {high} at bottom and top."
    return f"{_named(curve.name)}: {low} at the bottom, {high} at the top."


def _named(name: str) -> str:
    return name[:1].upper() + name[1:]
