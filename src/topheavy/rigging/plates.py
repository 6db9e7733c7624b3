"""Which totals the plates can make, each with the fewest plates that fit on the sleeve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import NotInStockError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.stock import Plate

    Ints = NDArray[np.int64]

_HAIR_M: Final = 1e-9
_PER_M: Final = 10**9
_FAR: Final = 10**11
_MOST_PAIRS: Final = 255
"""No sleeve holds more plates of one kind."""

_PER_KG: Final = 10**12
"""Totals are compared as whole picograms: fine enough that plates in pounds are whole too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading:
    """Plates on each end, alike.

    Parameters
    ----------
    per_side : tuple of (Plate, int)
        Plates of one end with their counts, heaviest first.
    """

    per_side: tuple[tuple[Plate, int], ...] = ()

    @property
    def total_kg(self) -> float:
        """Mass of all plates on both ends [kg]."""
        return 2 * sum(plate.mass_kg * count for plate, count in self.per_side)

    @property
    def width_m(self) -> float:
        """Sleeve taken on one end [m]."""
        return sum(plate.width_m * count for plate, count in self.per_side)

    @property
    def plates_a_side(self) -> int:
        """How many plates on one end."""
        return sum(count for _, count in self.per_side)


@dataclass(frozen=True, slots=True, eq=False)
class _Piles:
    """Piles n of plates on one end: total in picograms, width in nanometres, counts by plate."""

    total: Ints
    width: Ints
    number: Ints
    counts: NDArray[np.uint8]

    def take(self, rows: Ints) -> _Piles:
        """Keep some rows."""
        return _Piles(self.total[rows], self.width[rows], self.number[rows], self.counts[rows])


def loadings(plates: Iterable[Plate], room_m: float) -> tuple[Loading, ...]:
    """List every total that fits, lightest first, each with the fewest plates.

    Parameters
    ----------
    plates : iterable of Plate
        Owned plates; a size counts in pairs, an odd one stays on the rack.
    room_m : float
        Sleeve room of one end [m].

    Returns
    -------
    tuple of Loading
        One for each total, by total; the empty bar first.
    """
    owned = sorted((p for p in plates if p.count >= 2), key=lambda p: (-p.mass_kg, p.width_m))
    zero = np.zeros(1, dtype=np.int64)
    piles = _Piles(zero, zero, zero, np.zeros((1, len(owned)), dtype=np.uint8))
    room = round((room_m + _HAIR_M) * _PER_M)
    for place, plate in enumerate(owned):
        piles = _undominated(_with_plate(piles, plate, place, room))
    _, fewest = np.unique(piles.total, return_index=True)
    return tuple(_loading(owned, counts) for counts in piles.counts[fewest].tolist())


def _with_plate(piles: _Piles, plate: Plate, place: int, room: int) -> _Piles:
    """Put none, one, two to all pairs of a plate on every pile that has room."""
    pairs = np.arange(min(plate.count // 2, _MOST_PAIRS) + 1)
    row, more = (index.ravel() for index in np.indices((piles.total.size, pairs.size)))
    grown = piles.take(row)
    grown.counts[:, place] = more
    width = grown.width + more * round(plate.width_m * _PER_M)
    total = grown.total + more * round(plate.mass_kg * _PER_KG)
    fits = np.flatnonzero(width <= room)
    return _Piles(total, width, grown.number + more, grown.counts).take(fits)


def _undominated(piles: _Piles) -> _Piles:
    """Of each total keep the piles that no other beats in both width and number of plates.

    They come out by total, and of one total those with fewest plates first.
    """
    piles = piles.take(np.lexsort((piles.width, piles.number, piles.total)))
    group = np.cumsum(np.diff(piles.total, prepend=piles.total[:1]) != 0)
    # Shifted down group by group, the narrowest so far starts anew with each total.
    narrowest = np.minimum.accumulate(piles.width - group * _FAR)
    first = np.diff(group, prepend=-1) != 0
    narrower = np.diff(narrowest, prepend=_FAR) < 0
    return piles.take(np.flatnonzero(first | narrower))


def _loading(owned: Sequence[Plate], counts: Sequence[int]) -> Loading:
    used = zip(owned, counts, strict=True)
    return Loading(per_side=tuple((plate, count) for plate, count in used if count))


def nearest_loadings(
    choices: Sequence[Loading], bar_kg: float, straight_weight_kg: float
) -> tuple[Loading, ...]:
    """Find the loading of just this straight weight [kg], bar and collars included.

    Raises
    ------
    NotInStockError
        The plates can't make it; the error names the nearest they can.
    """
    exact = [c for c in choices if abs(bar_kg + c.total_kg - straight_weight_kg) < 5e-4]
    if exact:
        return tuple(exact)
    totals = sorted(
        (bar_kg + c.total_kg for c in choices), key=lambda t: abs(t - straight_weight_kg)
    )
    near = " or ".join(f"{total:g} kg" for total in sorted(totals[:2]))
    raise NotInStockError(
        "The plates can't make this straight weight (bar, collars and plates)",
        field="straight weight",
        got=f"{straight_weight_kg:g} kg",
        wanted=f"{near}, the nearest that this bar and these plates make",
    )
