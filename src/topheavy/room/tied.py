"""Bands for a whole group: which pairs may go on, and what they pull on each lifter's bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import TopheavyError
from topheavy.mechanics.curve import LoadCurve
from topheavy.rigging.band_options import unusable
from topheavy.rigging.hung_band import HungBand
from topheavy.room.hung import TiedBands

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from topheavy.rigging.band_options import BandOption
    from topheavy.rigging.lifts import Aims
    from topheavy.rigging.problem import Problem, Setup

    Floats = NDArray[np.float64]

Bands = tuple[TiedBands, ...]
"""Pairs that go on together; none: no bands."""

_HAIR_KG = 1e-9


def tied(option: BandOption) -> Bands:
    """Say which pairs an option of the search has, the same for both mirror images."""
    pairs = [
        TiedBands(left=one.band.tag, right=other.band.tag, peg=one.peg.name, doubled=one.doubled)
        for one, other in option.pairs
    ]
    if min(pair.right for pair in pairs) < min(pair.left for pair in pairs):
        pairs = [
            TiedBands(left=pair.right, right=pair.left, peg=pair.peg, doubled=pair.doubled)
            for pair in pairs
        ]
    return tuple(sorted(pairs, key=lambda pair: (pair.left, pair.right, pair.peg, pair.doubled)))


def all_bands(problems: Iterable[Problem]) -> tuple[Bands, ...]:
    """List no bands, and then everything that suits any of some lifts, fewest bands first."""
    found = {tied(option) for problem in problems for option in problem.bands.options}
    return ((), *sorted(found, key=lambda bands: (len(bands), str(bands))))


def hung_on(bands: Bands, setup: Setup) -> tuple[tuple[HungBand, ...], tuple[HungBand, ...]]:
    """Hang bands on the pegs of a station: left end, right end.

    Raises
    ------
    NotInStockError
        No such band.
    KeyError
        No such peg at this station.
    """
    pegs = {peg.name: peg for peg in setup.pegs}
    left, right = (
        tuple(
            HungBand(
                band=setup.stock.band(getattr(pair, side)),
                peg=pegs[pair.peg],
                doubled=pair.doubled,
            )
            for pair in bands
        )
        for side in ("left", "right")
    )
    return left, right


def bands_load(
    bands: Bands, setup: Setup, aims: Aims, most_imbalance_kg: float
) -> tuple[Floats, float] | None:
    """Read what bands add at each aim [kg], and how far the ends differ at the top [kg].

    Parameters
    ----------
    bands : tuple of TiedBands
        Pairs that go on together.
    setup, aims : Setup, Aims
        Where the lift is done, and where loads are read.
    most_imbalance_kg : float
        How far the ends may differ anywhere in the lift [kg].

    Returns
    -------
    load, lean : array of shape (j,), float
        None where they can't go on: no such peg, stretched beyond their readings, slack in the
        lift, or the ends too unlike.
    """
    if any(pair.peg not in {peg.name for peg in setup.pegs} for pair in bands):
        return None
    span_m = (setup.travel.bottom_m, setup.travel.top_m)
    ends = hung_on(bands, setup)
    if any(unusable(hung, span_m) is not None for end in ends for hung in end):
        return None
    try:
        left, right = (LoadCurve.total([hung.over(span_m).curve() for hung in end]) for end in ends)
    except TopheavyError:
        return None
    if left.worst_gap(right, *span_m) > most_imbalance_kg + _HAIR_KG:
        return None
    load_kg = aims.read(left + right, np.zeros(1))[0, :-1]
    return load_kg, abs(float(left.at(span_m[1]) - right.at(span_m[1])))
