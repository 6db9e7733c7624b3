"""Bands to test on: a law that is known, and readings of it with the errors that are stated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from topheavy.mechanics.band_readings import BandReadings

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

LENGTHS_M = (0.55, 0.65, 0.75, 0.85, 0.95, 1.05, 1.15)
REST_M = 0.45


def pull_kg(length_m: Floats, rest_m: float = REST_M, stiff: float = 1.0) -> Floats:
    """What the band really pulls [kg]: 34 x - 12 x^2 for x metres beyond rest."""
    stretch = np.maximum(np.asarray(length_m) - rest_m, 0.0)
    return stiff * (34.0 * stretch - 12.0 * stretch**2)


def read(
    tag: str = "red-1",
    *,
    dice: np.random.Generator | None = None,
    rest_m: float = REST_M,
    stiff: float = 1.0,
) -> BandReadings:
    """Read the band exactly, or with errors of 5 mm, 3 mm at rest, and 50 g."""
    lengths = np.array(LENGTHS_M)
    if dice is None:
        true, tension, rest = lengths, np.zeros(lengths.shape), rest_m
    else:
        true = lengths + dice.normal(0.0, 0.005, lengths.shape)
        tension = dice.normal(0.0, 0.05, lengths.shape)
        rest = rest_m + dice.normal(0.0, 0.003)
    return BandReadings(
        tag=tag,
        rest_m=rest,
        length_m=LENGTHS_M,
        tension_kg=tuple(float(x) for x in pull_kg(true, rest_m, stiff) + tension),
    )
