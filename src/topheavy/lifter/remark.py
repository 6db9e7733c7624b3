"""A plain remark on a strength curve, said in the units a person wants to see."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.units import METRIC

if TYPE_CHECKING:
    from topheavy.units import UnitSystem

Quantity = tuple[float, Literal["mass", "length"]]
"""A value in kg or m, and which of the two."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Something the coach should know of the curve.

    Parameters
    ----------
    code : str
        A short name that never changes.
    text : str
        A sentence or two, with ``{}`` where a quantity stands.
    quantities : tuple
        Pairs of a value [kg] or [m] and ``"mass"`` or ``"length"``, in the order of the text.
    """

    code: str
    text: str
    quantities: tuple[Quantity, ...] = ()

    def say(self, units: UnitSystem = METRIC) -> str:
        """Say it.

        >>> Remark("x", "{} from {}", ((120.0, "mass"), (0.95, "length"))).say()
        '120.0 kg from 95.0 cm'
        """
        said = (
            units.mass(value) if kind == "mass" else units.length(value)
            for value, kind in self.quantities
        )
        return self.text.format(*said)
