"""Which totals the plates can make, each with the fewest plates that fit on the sleeve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.errors import NotInStockError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from topheavy.gym.stock import Plate

_PER_KG = 10**12
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


@dataclass(frozen=True, slots=True)
class _Partial:
    width_m: float
    plates: int
    counts: tuple[int, ...]


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
    states: dict[int, tuple[_Partial, ...]] = {0: (_Partial(0.0, 0, ()),)}
    for plate in owned:
        states = _with_plate(states, plate, room_m)
    return tuple(_loading(owned, states[total]) for total in sorted(states))


def _with_plate(
    states: dict[int, tuple[_Partial, ...]], plate: Plate, room_m: float
) -> dict[int, tuple[_Partial, ...]]:
    grown: dict[int, list[_Partial]] = {}
    for total, partials in states.items():
        for partial in partials:
            for count in range(plate.count // 2 + 1):
                width_m = partial.width_m + count * plate.width_m
                if width_m > room_m + 1e-9:
                    break
                more = _Partial(width_m, partial.plates + count, (*partial.counts, count))
                grown.setdefault(total + count * round(plate.mass_kg * _PER_KG), []).append(more)
    return {total: _undominated(found) for total, found in grown.items()}


def _undominated(partials: list[_Partial]) -> tuple[_Partial, ...]:
    """Keep those that no other beats in both width and number of plates."""
    kept: list[_Partial] = []
    for partial in sorted(partials, key=lambda p: (p.plates, p.width_m)):
        if not kept or partial.width_m < kept[-1].width_m - 1e-12:
            kept.append(partial)
    return tuple(kept)


def _loading(owned: Sequence[Plate], partials: tuple[_Partial, ...]) -> Loading:
    fewest = partials[0]
    used = zip(owned, fewest.counts, strict=True)
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
