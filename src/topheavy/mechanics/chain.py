"""A chain piece: a whole number of links, its length and its mass."""

from __future__ import annotations

import math
from dataclasses import dataclass

from topheavy.errors import BadInputError


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """One cut length of chain.

    Parameters
    ----------
    links : int
        Number of links, >= 1.
    pitch_m : float
        Inside length of one link [m], > 0.
    density_kg_per_m : float
        Mass per length [kg/m], > 0.
    density_u_kg_per_m : float
        Standard uncertainty of the density [kg/m], >= 0.
    known_by : str
        What the density was taken from. Pieces with the same word err together.

    Raises
    ------
    BadInputError
        A value outside its range.
    """

    links: int
    pitch_m: float
    density_kg_per_m: float
    density_u_kg_per_m: float = 0.0
    known_by: str = ""

    def __post_init__(self) -> None:
        if self.links < 1 or self.links % 1 != 0:
            raise BadInputError(
                "A chain piece is a whole number of links, at least one",
                field="links",
                got=self.links,
                wanted="a whole number of links, 1 or more",
            )
        for name in ("pitch_m", "density_kg_per_m"):
            require_positive(name, getattr(self, name))
        if not 0 <= self.density_u_kg_per_m < math.inf:
            raise BadInputError(
                "An uncertainty is not negative",
                field="density_u_kg_per_m",
                got=self.density_u_kg_per_m,
                wanted="0 or more",
            )

    @property
    def length_m(self) -> float:
        """Length [m]: links x pitch."""
        return self.links * self.pitch_m

    @property
    def link_mass_kg(self) -> float:
        """Mass of one link [kg]."""
        return self.density_kg_per_m * self.pitch_m

    @property
    def mass_kg(self) -> float:
        """Mass of the piece [kg]."""
        return self.links * self.link_mass_kg


def require_positive(name: str, value: float) -> None:
    """Refuse a `value` [any unit] of parameter `name` that is not above zero and finite."""
    if not 0 < value < math.inf:
        raise BadInputError(
            f"{name} must be above zero", field=name, got=value, wanted="a number above 0"
        )


def require_not_negative(name: str, value: float) -> None:
    """Refuse a `value` [any unit] of parameter `name` that is below zero or not finite."""
    if not 0 <= value < math.inf:
        raise BadInputError(
            f"{name} must not be negative", field=name, got=value, wanted="0 or more"
        )


def require_travel(bottom_m: float, top_m: float, *, field: str = "bottom_m") -> None:
    """Refuse a lift whose bottom [m] is not below its top [m], or that has no end."""
    if not -math.inf < bottom_m < top_m < math.inf:
        raise BadInputError(
            "The bottom of the lift must be below its top",
            field=field,
            got=f"bottom {bottom_m:g} m, top {top_m:g} m",
            wanted="bottom < top",
        )
