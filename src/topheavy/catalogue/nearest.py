"""Which published chain a measured one most likely is, and by how much it misses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from topheavy.catalogue.table import ChainRow, all_rows

WIRE_TOLERANCE: Final = 0.05
PITCH_TOLERANCE: Final = 0.04
WIDTH_TOLERANCE: Final = 0.15
"""How far a chain may miss its nominal size and still be it. Wire: roughly 5 % in the standards
(New Zealand Truck Loading Code, appendix B, read; DIN 764 allows 4 to 5 %, read in a chain
maker's table). Pitch: up to 2 % new (the same table) and as much again for wear. Width: standards
hold only its least inside and greatest outside value."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Likeness:
    """One published row against a measured chain; measured minus published.

    Parameters
    ----------
    row : ChainRow
        The published row.
    wire_off_m, pitch_off_m : float
        Misses of wire and pitch [m].
    width_off_m : float or None
        Miss of the inside width [m]; None when either side lacks it.
    misfit_m : float
        Misses of wire and pitch together [m], root of the sum of squares.
    misfit : float
        The greater of the two as a fraction of the nominal size [-].
    distance : float
        All misses in units of their tolerance [-], root mean square: what the ranking goes by.
    near : bool
        Whether wire and pitch are both within tolerance.
    """

    row: ChainRow
    wire_off_m: float
    pitch_off_m: float
    width_off_m: float | None
    misfit_m: float
    misfit: float
    distance: float
    near: bool


def nearest_rows(
    wire_diameter_m: float,
    pitch_m: float,
    inside_width_m: float | None = None,
    *,
    most: int = 5,
) -> tuple[Likeness, ...]:
    """Rank the published rows by how well they fit a measured chain.

    Parameters
    ----------
    wire_diameter_m, pitch_m : float
        As measured [m].
    inside_width_m : float, optional
        As measured [m].
    most : int
        How many to give.

    Returns
    -------
    tuple of Likeness
        Best first. None of them need be near: look at `near`. Rows without a published pitch
        (ASTM A413 Grades 43 and 70) can't be told apart by calipers and are left out.

    Examples
    --------
    >>> best = nearest_rows(0.0159, 0.0562)[0]
    >>> best.row.name, best.near, round(100 * best.misfit, 1)
    ('DIN 764, 16 mm', True, 0.6)
    """
    seen: dict[tuple[str, float, float | None, float | None], Likeness] = {}
    for row in all_rows():
        if row.pitch_m is None:
            continue
        key = (row.standard, row.wire_diameter_m, row.pitch_m, row.inside_width_m)
        seen.setdefault(key, _likeness(row, row.pitch_m, wire_diameter_m, pitch_m, inside_width_m))
    ranked = sorted(seen.values(), key=lambda one: (not one.near, one.distance, _unsure(one.row)))
    return tuple(ranked[:most])


def same_wire(row: ChainRow, wire_diameter_m: float) -> bool:
    """Tell whether a measured wire [m] may be that of a row, tolerance allowed."""
    return abs(wire_diameter_m / row.wire_diameter_m - 1) <= WIRE_TOLERANCE


def _likeness(
    row: ChainRow, row_pitch_m: float, wire_m: float, pitch_m: float, width_m: float | None
) -> Likeness:
    wire_off_m, pitch_off_m = wire_m - row.wire_diameter_m, pitch_m - row_pitch_m
    wire, pitch = abs(wire_off_m / row.wire_diameter_m), abs(pitch_off_m / row_pitch_m)
    misses = [wire / WIRE_TOLERANCE, pitch / PITCH_TOLERANCE]
    width_off_m = None
    if width_m is not None and row.inside_width_m is not None:
        width_off_m = width_m - row.inside_width_m
        misses.append(abs(width_off_m / row.inside_width_m) / WIDTH_TOLERANCE)
    return Likeness(
        row=row,
        wire_off_m=wire_off_m,
        pitch_off_m=pitch_off_m,
        width_off_m=width_off_m,
        misfit_m=math.hypot(wire_off_m, pitch_off_m),
        misfit=max(wire, pitch),
        distance=math.sqrt(sum(miss**2 for miss in misses) / len(misses)),
        near=wire <= WIRE_TOLERANCE and pitch <= PITCH_TOLERANCE,
    )


def _unsure(row: ChainRow) -> tuple[bool, bool]:
    """Among equals put rows with a printed mass first, then those not from memory."""
    return row.mass_kg_per_m is None, "memory" in row.how_seen
