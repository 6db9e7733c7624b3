"""One welded link: its mass from caliper readings, and how sure that mass is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from topheavy.constants import STEEL_DENSITY_KG_PER_M3
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

GEOMETRY_U: Final = 0.025
"""Relative standard error of the geometry itself: weld, ends that are no true half circles,
nominal sizes and rounded tables. Root mean square against the 39 published rows of the catalogue
that state a mass; the DIN rows alone scatter by about 2 %."""

_LONGEST_PITCH: Final = 15
"""In wire diameters: the longest published link, DIN 5685-C 2 x 22 mm, has 11; a guard against
slips of the pen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkShape:
    """A stadium of round wire: two straights, two half circles.

    Parameters
    ----------
    wire_diameter_m : float
        Wire diameter d [m], > 0.
    pitch_m : float
        Inside length p [m], > 2 d since the neighbours' wires lie inside, <= 15 d.
    inside_width_m : float
        Inside width w [m], > d and <= p.

    Raises
    ------
    BadInputError
        Sizes that no chain can have.
    """

    wire_diameter_m: float
    pitch_m: float
    inside_width_m: float

    def __post_init__(self) -> None:
        for name in ("wire_diameter_m", "pitch_m", "inside_width_m"):
            require_positive(name, getattr(self, name))
        if self.pitch_m <= 2 * self.wire_diameter_m:
            raise BadInputError(
                "A link's inside length holds the wire of both neighbours",
                field="pitch_m",
                got=f"{self.pitch_m * 1e3:g} mm at {self.wire_diameter_m * 1e3:g} mm wire",
                wanted="more than two wire diameters; measure inside, end to end",
            )
        if self.pitch_m > _LONGEST_PITCH * self.wire_diameter_m:
            raise BadInputError(
                "No chain has so long a link for its wire",
                field="pitch_m",
                got=f"{self.pitch_m * 1e3:g} mm at {self.wire_diameter_m * 1e3:g} mm wire",
                wanted=f"up to {_LONGEST_PITCH} wire diameters; check the units",
            )
        if not self.wire_diameter_m < self.inside_width_m <= self.pitch_m:
            raise BadInputError(
                "A link is wider inside than its wire and no wider than long",
                field="inside_width_m",
                got=f"{self.inside_width_m * 1e3:g} mm",
                wanted=f"{self.wire_diameter_m * 1e3:g} to {self.pitch_m * 1e3:g} mm",
            )

    @property
    def wire_length_m(self) -> float:
        """Length of wire in one link along its centre line [m]: 2 (p - w) + pi (w + d)."""
        straights_m = 2 * (self.pitch_m - self.inside_width_m)
        return straights_m + math.pi * (self.inside_width_m + self.wire_diameter_m)


def link_mass_kg(shape: LinkShape) -> float:
    """Mass of one steel link [kg]: rho (pi d2 / 4) [2 (p - w) + pi (w + d)].

    Parameters
    ----------
    shape : LinkShape
        The link.

    Returns
    -------
    float
        Mass [kg], at 7850 kg/m3.

    Examples
    --------
    The 16 x 56 mm link of DIN 764 is printed as 5.3 kg/m, 0.297 kg a link.

    >>> shape = LinkShape(wire_diameter_m=0.016, pitch_m=0.056, inside_width_m=0.022)
    >>> round(link_mass_kg(shape), 3)
    0.296
    """
    section_m2 = math.pi * shape.wire_diameter_m**2 / 4
    return STEEL_DENSITY_KG_PER_M3 * section_m2 * shape.wire_length_m


def link_density_kg_per_m(shape: LinkShape) -> float:
    """Linear density of a chain of such links [kg/m]: mass of a link over its pitch.

    Examples
    --------
    >>> shape = LinkShape(wire_diameter_m=0.016, pitch_m=0.056, inside_width_m=0.022)
    >>> round(link_density_kg_per_m(shape), 2)
    5.28
    """
    return link_mass_kg(shape) / shape.pitch_m


def pitch_from_outside_m(outside_m: float, links: int, wire_diameter_m: float) -> float:
    """Pitch [m] from the outside length of several links pulled taut: (outside - 2 d) / n.

    Parameters
    ----------
    outside_m : float
        From the outer face of the first link's wire to that of the last [m], > 2 d.
    links : int
        How many links that is, >= 1; ten is good practice.
    wire_diameter_m : float
        Wire diameter d [m], > 0.

    Raises
    ------
    BadInputError
        Fewer than one link, or a length that leaves no pitch.

    Examples
    --------
    >>> round(pitch_from_outside_m(0.592, 10, 0.016), 6)
    0.056
    """
    require_positive("wire_diameter_m", wire_diameter_m)
    require_positive("outside_m", outside_m)
    if links < 1:
        raise BadInputError(
            "Measure over at least one link", field="links", got=links, wanted="1 or more, best 10"
        )
    if outside_m <= 2 * wire_diameter_m:
        raise BadInputError(
            "The outside length is no longer than two wire diameters",
            field="outside_m",
            got=f"{outside_m * 1e3:g} mm",
            wanted=f"the length over {links} links pulled taut, outer face to outer face",
        )
    return (outside_m - 2 * wire_diameter_m) / links


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkReadings:
    """A link as measured, with standard uncertainties.

    Parameters
    ----------
    shape : LinkShape
        The readings.
    wire_u_m, pitch_u_m, width_u_m : float
        Standard uncertainty of wire diameter, pitch and inside width [m], >= 0, each leaving
        out what it shares with the wire.
    pitch_per_wire : float
        How far the pitch moves when the wire is misread [m/m]: -2/n when the pitch was computed
        from an outside length over n links.
    width_per_wire : float
        How far the width moves when the wire is misread [m/m]: w/d when the width was taken as
        so many wire diameters.
    """

    shape: LinkShape
    wire_u_m: float
    pitch_u_m: float
    width_u_m: float
    pitch_per_wire: float = 0.0
    width_per_wire: float = 0.0

    def __post_init__(self) -> None:
        for name in ("wire_u_m", "pitch_u_m", "width_u_m"):
            require_not_negative(name, getattr(self, name))


@dataclass(frozen=True, slots=True)
class Budget:
    """Where the uncertainty of a mass comes from, each share as a fraction of the mass.

    Parameters
    ----------
    wire, pitch, width : float
        From the readings [-].
    geometry : float
        From the formula itself [-].
    """

    wire: float
    pitch: float
    width: float
    geometry: float = GEOMETRY_U

    @property
    def total(self) -> float:
        """All shares together [-]: root of the sum of squares, since they are independent."""
        return math.hypot(self.wire, self.pitch, self.width, self.geometry)


def density_budget(readings: LinkReadings) -> Budget:
    """Relative uncertainty of the linear density [-], linear propagation.

    With l the wire in one link: d ln(density) = (2/d + pi/l) dd + (2/l - 1/p) dp + ((pi - 2)/l) dw.
    The wire counts a little more than twice, the pitch less than half, the width hardly.

    Parameters
    ----------
    readings : LinkReadings
        The link and its uncertainties.

    Returns
    -------
    Budget
        Shares and total.

    References
    ----------
    Linear propagation: JCGM 100:2008 (GUM), section 5.1.2, equation 10 (from memory).

    Examples
    --------
    Crude calipers, 0.3 mm on the wire, and a tape over ten links: about 5 % in all.

    >>> shape = LinkShape(wire_diameter_m=0.016, pitch_m=0.056, inside_width_m=0.022)
    >>> readings = LinkReadings(
    ...     shape=shape, wire_u_m=3e-4, pitch_u_m=2e-4, width_u_m=5e-4, pitch_per_wire=-0.2)
    >>> budget = density_budget(readings)
    >>> [round(100 * share, 1) for share in (budget.wire, budget.pitch, budget.width)]
    [4.3, 0.1, 0.3]
    >>> round(100 * budget.total, 1)
    5.0
    """
    per_pitch = 2 / readings.shape.wire_length_m - 1 / readings.shape.pitch_m
    return _budget(readings, per_pitch)


def link_mass_budget(readings: LinkReadings) -> Budget:
    """Relative uncertainty of the mass of one link [-]; as for density, without the 1/p.

    Parameters
    ----------
    readings : LinkReadings
        The link and its uncertainties.

    Returns
    -------
    Budget
        Shares and total.
    """
    return _budget(readings, 2 / readings.shape.wire_length_m)


def _budget(readings: LinkReadings, per_pitch: float) -> Budget:
    """Turn uncertainties [m] into shares [-], given the relative slope against pitch [1/m]."""
    shape = readings.shape
    per_width = (math.pi - 2) / shape.wire_length_m
    per_wire = 2 / shape.wire_diameter_m + math.pi / shape.wire_length_m
    per_wire += per_pitch * readings.pitch_per_wire + per_width * readings.width_per_wire
    return Budget(
        wire=abs(per_wire) * readings.wire_u_m,
        pitch=abs(per_pitch) * readings.pitch_u_m,
        width=abs(per_width) * readings.width_u_m,
    )
