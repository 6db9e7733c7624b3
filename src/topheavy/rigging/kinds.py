"""Chain pieces grouped into kinds, and every way a kind can be shared out between the ends."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.stock import ChainPiece

    Floats = NDArray[np.float64]

_UG_PER_KG: Final = 1_000_000_000
_MOST_SPLITS: Final = 4096


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Interchangeable pieces: same size, same number of links.

    Parameters
    ----------
    pieces : tuple of ChainPiece
        In stock and fit to hang.
    each_end : array of int, shape (n,)
        Pieces on each end in each split; the first split hangs none.
    sum_kg_per_m, difference_kg_per_m : array, shape (n,)
        Density of left plus right, and of left minus right.
    splits : tuple of (tuple of int, tuple of int)
        Which pieces (positions in `pieces`) go left and right.
    balanced_alone : bool
        Whether splits were cut down to the best balanced one for each total weight.
    """

    pieces: tuple[ChainPiece, ...]
    each_end: NDArray[np.int64]
    sum_kg_per_m: Floats
    difference_kg_per_m: Floats
    splits: tuple[tuple[tuple[int, ...], tuple[int, ...]], ...]
    balanced_alone: bool

    @property
    def size(self) -> str:
        """Trade size."""
        return self.pieces[0].size


def kinds_of(pieces: Iterable[ChainPiece], most_each_end: int) -> tuple[Kind, ...]:
    """Group pieces into kinds, heaviest pieces first.

    Both ends get the same number of pieces of each kind, so that they match link for link;
    which piece goes where is open, so that weighed pieces can be paired.

    Parameters
    ----------
    pieces : iterable of ChainPiece
        Pieces fit to hang.
    most_each_end : int
        Largest number of pieces on one end.
    """
    ordered = sorted(pieces, key=lambda p: (p.kind, p.chain.density_kg_per_m, p.tag))
    groups = [tuple(group) for _, group in groupby(ordered, key=lambda p: p.kind)]
    kinds = [_kind(group, most_each_end) for group in groups if len(group) >= 2]
    return tuple(sorted(kinds, key=lambda k: (-k.pieces[0].chain.mass_kg, k.pieces[0].kind)))


def _kind(pieces: tuple[ChainPiece, ...], most_each_end: int) -> Kind:
    splits, cut = _splits([p.chain.density_kg_per_m for p in pieces], most_each_end)
    density = np.array([p.chain.density_kg_per_m for p in pieces])
    left = np.array([density[list(a)].sum() for a, _ in splits])
    right = np.array([density[list(b)].sum() for _, b in splits])
    return Kind(
        pieces=pieces,
        each_end=np.array([len(a) for a, _ in splits], dtype=np.int64),
        sum_kg_per_m=left + right,
        difference_kg_per_m=left - right,
        splits=splits,
        balanced_alone=cut,
    )


_Split = tuple[tuple[int, ...], tuple[int, ...]]
_State = tuple[int, int, int, int]


def _splits(density_kg_per_m: Sequence[float], most: int) -> tuple[tuple[_Split, ...], bool]:
    """One split for each (pieces an end, total, difference) that can be reached.

    Walks piece by piece over the states (left count, right count, sum, difference); pieces
    alike to the microgram per metre lead to the same states, so batches stay small.
    """
    states: dict[_State, _Split] = {(0, 0, 0, 0): ((), ())}
    cut = False
    for index, density in enumerate(density_kg_per_m):
        weight = round(density * _UG_PER_KG)
        grown = dict(states)
        for (left, right, total, gap), (lefts, rights) in states.items():
            if left < most:
                more = (left + 1, right, total + weight, gap + weight)
                grown.setdefault(more, ((*lefts, index), rights))
            if right < most:
                more = (left, right + 1, total + weight, gap - weight)
                grown.setdefault(more, (lefts, (*rights, index)))
        states = grown
        if len(states) > 16 * _MOST_SPLITS:
            states, cut = _best_balanced(states), True
    even = {state: split for state, split in states.items() if state[0] == state[1]}
    if len(even) > _MOST_SPLITS:
        even, cut = _best_balanced(even), True
    ordered = sorted(even.items(), key=lambda item: (item[0][0], item[0][2], item[0][3]))
    return tuple(split for _, split in ordered), cut


def _best_balanced(states: dict[_State, _Split]) -> dict[_State, _Split]:
    """Keep, for each pair of counts and each total, only the split nearest to even."""
    kept: dict[tuple[int, int, int], tuple[_State, _Split]] = {}
    for state, split in states.items():
        key = state[:3]
        if key not in kept or abs(state[3]) < abs(kept[key][0][3]):
            kept[key] = (state, split)
    return dict(kept.values())
