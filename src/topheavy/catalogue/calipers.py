"""Mass of a chain from caliper readings, each step of the uncertainty shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from topheavy.catalogue.widths import usual_width
from topheavy.errors import BadInputError
from topheavy.mechanics.link import (
    Budget,
    LinkReadings,
    LinkShape,
    density_budget,
    link_density_kg_per_m,
    link_mass_budget,
    link_mass_kg,
    pitch_from_outside_m,
)

CRUDE_WIRE_U_M: Final = 3e-4
CRUDE_LENGTH_U_M: Final = 2e-3
CRUDE_INSIDE_U_M: Final = 5e-4
"""Calipers on painted or worn links, a tape over ten links, calipers inside one link: standard
uncertainties of careful but crude readings (common practice, no source)."""

_WIRE_M: Final = (1e-3, 6e-2)


@dataclass(frozen=True, slots=True, kw_only=True)
class CaliperReadings:
    """What was read off a chain.

    Parameters
    ----------
    wire_diameter_m : float
        Wire diameter [m], 1 to 60 mm: mean of two readings at right angles, beside the weld.
    outside_m : float, optional
        Outside length over `links` links pulled taut [m].
    links : int
        Links under `outside_m`.
    pitch_m : float, optional
        Inside length of one link [m], instead of `outside_m`.
    inside_width_m : float, optional
        Inside width [m]; taken from published links when absent.
    wire_u_m, outside_u_m, pitch_u_m, width_u_m : float
        Standard uncertainties of the readings [m].
    """

    wire_diameter_m: float
    outside_m: float | None = None
    links: int = 10
    pitch_m: float | None = None
    inside_width_m: float | None = None
    wire_u_m: float = CRUDE_WIRE_U_M
    outside_u_m: float = CRUDE_LENGTH_U_M
    pitch_u_m: float = CRUDE_INSIDE_U_M
    width_u_m: float = CRUDE_INSIDE_U_M

    def __post_init__(self) -> None:
        low, high = _WIRE_M
        if not low <= self.wire_diameter_m <= high:
            raise BadInputError(
                "No chain for a bar has such wire",
                field="wire_diameter_m",
                got=f"{self.wire_diameter_m * 1e3:g} mm",
                wanted=f"{low * 1e3:g} to {high * 1e3:g} mm",
            )
        if (self.outside_m is None) == (self.pitch_m is None):
            raise BadInputError(
                "Give either the pitch or the outside length over some links",
                field="pitch_m",
                wanted="one of them; ten links from outer face to outer face is the surer",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredChain:
    """A chain as calipers tell it.

    Parameters
    ----------
    shape : LinkShape
        Wire diameter, pitch and inside width [m].
    density_kg_per_m, density_u_kg_per_m : float
        Mass per length and its standard uncertainty [kg/m].
    link_mass_kg, link_mass_u_kg : float
        Mass of one link and its standard uncertainty [kg].
    budget : Budget
        Shares of the density's uncertainty.
    wire_u_m, pitch_u_m : float
        Standard uncertainty of wire and pitch [m].
    known_by : str
        Where the density came from.
    width_note : str
        Where the width came from; empty when measured.
    """

    shape: LinkShape
    density_kg_per_m: float
    density_u_kg_per_m: float
    link_mass_kg: float
    link_mass_u_kg: float
    budget: Budget
    wire_u_m: float
    pitch_u_m: float
    known_by: str
    width_note: str


def measured_chain(readings: CaliperReadings) -> MeasuredChain:
    """Work out mass per length and mass of a link from caliper readings.

    Parameters
    ----------
    readings : CaliperReadings
        Wire, pitch (or outside length over some links), perhaps inside width, uncertainties.

    Returns
    -------
    MeasuredChain
        Masses with uncertainty, about 5 % for 16 mm wire read to 0.3 mm.

    Raises
    ------
    BadInputError
        Readings that no chain can have.

    Examples
    --------
    >>> chain = measured_chain(CaliperReadings(wire_diameter_m=0.016, outside_m=0.592))
    >>> round(chain.density_kg_per_m, 2), round(chain.density_u_kg_per_m, 2)
    (5.26, 0.28)
    """
    link = _link_readings(readings)
    note = ""
    if readings.inside_width_m is None:
        note = usual_width(link.shape.pitch_m, link.shape.wire_diameter_m).words
    budget = density_budget(link)
    density, mass_kg = link_density_kg_per_m(link.shape), link_mass_kg(link.shape)
    return MeasuredChain(
        shape=link.shape,
        density_kg_per_m=density,
        density_u_kg_per_m=density * budget.total,
        link_mass_kg=mass_kg,
        link_mass_u_kg=mass_kg * link_mass_budget(link).total,
        budget=budget,
        wire_u_m=readings.wire_u_m,
        pitch_u_m=_whole_pitch_u_m(link),
        known_by="calipers and link geometry",
        width_note=note,
    )


def _link_readings(readings: CaliperReadings) -> LinkReadings:
    wire_m = readings.wire_diameter_m
    pitch_m, pitch_u_m, pitch_per_wire = _pitch(readings)
    width_m, width_u_m, width_per_wire = readings.inside_width_m, readings.width_u_m, 0.0
    if width_m is None:
        usual = usual_width(pitch_m, wire_m)
        width_m, width_u_m = usual.ratio * wire_m, usual.spread * wire_m
        width_per_wire = usual.ratio
    shape = LinkShape(wire_diameter_m=wire_m, pitch_m=pitch_m, inside_width_m=width_m)
    return LinkReadings(
        shape=shape,
        wire_u_m=readings.wire_u_m,
        pitch_u_m=pitch_u_m,
        width_u_m=width_u_m,
        pitch_per_wire=pitch_per_wire,
        width_per_wire=width_per_wire,
    )


def _pitch(readings: CaliperReadings) -> tuple[float, float, float]:
    """Pitch [m], its own uncertainty [m], and how it moves with the wire [m/m]."""
    if readings.pitch_m is not None:
        return readings.pitch_m, readings.pitch_u_m, 0.0
    outside_m = readings.outside_m or 0.0
    pitch_m = pitch_from_outside_m(outside_m, readings.links, readings.wire_diameter_m)
    return pitch_m, readings.outside_u_m / readings.links, -2 / readings.links


def _whole_pitch_u_m(link: LinkReadings) -> float:
    shared_m = link.pitch_per_wire * link.wire_u_m
    return float((link.pitch_u_m**2 + shared_m**2) ** 0.5)
