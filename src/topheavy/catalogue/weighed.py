"""The wire of a chain that was weighed and taped, but that no calipers were put to."""

from __future__ import annotations

from typing import Final

from topheavy.catalogue.calipers import CaliperReadings, measured_chain
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_positive

_WIRE_M: Final = (1e-3, 6e-2)
_SHORTEST, _LONGEST = 2.01, 14.99
"""Pitch in wire diameters: room for the wire of both neighbours, and the longest link there is."""
_TINY_M: Final = 1e-7


def wire_of_weighed_m(
    mass_kg: float, links: int, *, outside_m: float | None = None, over: int = 10,
    pitch_m: float | None = None,
) -> float:  # fmt: skip
    """Wire diameter that gives steel links of a length the mass that a scale showed.

    The inside width is taken from published links of the form. Mass goes about with the square
    of the wire, so 5 % on the mass is some 2 % on the wire.

    Parameters
    ----------
    mass_kg : float
        Mass of the whole piece [kg], > 0.
    links : int
        Links of the piece, >= 1.
    outside_m : float, optional
        Outside length over `over` links pulled taut [m].
    over : int
        Links under `outside_m`.
    pitch_m : float, optional
        Inside length of one link [m], instead of `outside_m`.

    Returns
    -------
    float
        Wire diameter [m].

    Raises
    ------
    BadInputError
        No wire of steel from 1 to 60 mm gives that mass.

    Examples
    --------
    >>> round(wire_of_weighed_m(9.5, 32, outside_m=0.593), 4)
    0.016
    """
    require_positive("mass_kg", mass_kg)
    low_m, high_m = _wires_m(outside_m, over, pitch_m)

    def off_kg(wire_m: float) -> float:
        readings = CaliperReadings(
            wire_diameter_m=wire_m, outside_m=outside_m, links=over, pitch_m=pitch_m
        )
        return measured_chain(readings).link_mass_kg * links - mass_kg

    if high_m <= low_m or off_kg(low_m) > 0 or off_kg(high_m) < 0:
        raise BadInputError(
            "No steel chain of that length and so many links has that mass",
            field="chain",
            got=f"{mass_kg:g} kg on {links} links",
            wanted="look at the unit (kg or lb), the count of links and the length",
        )
    while high_m - low_m > _TINY_M:
        middle_m = (low_m + high_m) / 2
        if off_kg(middle_m) < 0:
            low_m = middle_m
        else:
            high_m = middle_m
    return (low_m + high_m) / 2


def _wires_m(outside_m: float | None, over: int, pitch_m: float | None) -> tuple[float, float]:
    """Thinnest and thickest wire [m] that links of such a length can have."""
    low_m, high_m = _WIRE_M
    if outside_m is not None:
        return max(low_m, outside_m / (_LONGEST * over + 2)), min(
            high_m, outside_m / (_SHORTEST * over + 2)
        )
    if pitch_m is None:
        return low_m, high_m
    return max(low_m, pitch_m / _LONGEST), min(high_m, pitch_m / _SHORTEST)
