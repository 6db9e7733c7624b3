"""Points of a load curve as people see them, for every screen that draws one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.figure import Figure, length, mass

if TYPE_CHECKING:
    from topheavy.services.reading import Reading
    from topheavy.units import UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """One point of the load curve."""

    height: Figure
    raising: Figure
    lowering: Figure
    straight: Figure


def curve_points(reading: Reading, straight: Reading, units: UnitSystem) -> tuple[CurvePoint, ...]:
    """Read a rig and the same chain hung straight at even heights, from bottom to top."""
    rows = zip(
        reading.heights_m,
        reading.raising_kg,
        reading.lowering_kg,
        straight.raising_kg,
        strict=True,
    )
    return tuple(
        CurvePoint(
            height=length(units, height_m),
            raising=mass(units, up_kg),
            lowering=mass(units, down_kg),
            straight=mass(units, straight_kg),
        )
        for height_m, up_kg, down_kg, straight_kg in rows
    )
