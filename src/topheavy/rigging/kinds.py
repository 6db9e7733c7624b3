"""Chain pieces grouped into kinds, and every way a kind can be shared out between the ends."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from topheavy.gym.stock import ChainPiece

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

_ALIKE_KG_PER_M: Final = 1e-9
_COARSE_KG_PER_M: Final = 1e-4
_MOST_SPLITS: Final = 32_768


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kind:
    """Interchangeable pieces: same size, same number of links.

    Pieces of one density make a class, so unweighed batches have few ways to be split.

    Parameters
    ----------
    pieces : tuple of ChainPiece
        In stock and fit to hang, lightest first.
    classes : tuple of (int, int)
        Where each class begins and ends in `pieces`.
    left, right : array of int, shape (n, c)
        How many pieces of each class go left and right in each split; the first hangs none.
    sum_kg_per_m, difference_kg_per_m : array, shape (n,)
        Density of left plus right, and of left minus right.
    exact : bool
        Whether every split is listed. Else nearly equal pieces were taken as alike when they
        were chosen; each split that is listed is still reckoned with the true densities.
    """

    pieces: tuple[ChainPiece, ...]
    classes: tuple[tuple[int, int], ...]
    left: Ints
    right: Ints
    sum_kg_per_m: Floats
    difference_kg_per_m: Floats
    exact: bool

    @property
    def size(self) -> str:
        """Trade size."""
        return self.pieces[0].size

    @property
    def each_end(self) -> Ints:
        """Pieces on each end in each split, shape (n,)."""
        return np.asarray(self.left.sum(axis=1))

    def split(self, way: int) -> tuple[tuple[ChainPiece, ...], tuple[ChainPiece, ...]]:
        """Pieces that go left and right in one split."""
        lefts: list[ChainPiece] = []
        rights: list[ChainPiece] = []
        for (start, _), left, right in zip(
            self.classes, self.left[way], self.right[way], strict=True
        ):
            here, there = _deal(int(left), int(right))
            lefts += [self.pieces[start + i] for i in here]
            rights += [self.pieces[start + i] for i in there]
        return tuple(lefts), tuple(rights)


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
    return _kinds_of(tuple(pieces), most_each_end, _MOST_SPLITS)


def forget_kinds() -> None:
    """Group anew when next asked: for who measures how long a first question takes."""
    _kinds_of.cache_clear()


@lru_cache(maxsize=4)  # one question asks it of the same stock again and again; few: they are large
def _kinds_of(
    pieces: tuple[ChainPiece, ...], most_each_end: int, most_in_all: int
) -> tuple[Kind, ...]:
    ordered = sorted(pieces, key=lambda p: (p.kind, p.chain.density_kg_per_m, p.tag))
    groups = [tuple(group) for _, group in groupby(ordered, key=lambda p: p.kind)]
    paired = [group for group in groups if len(group) >= 2]
    most_splits = most_in_all // max(1, len(paired))
    kinds = [_kind(group, min(most_each_end, len(group) // 2), most_splits) for group in paired]
    return tuple(sorted(kinds, key=lambda k: (-k.pieces[0].chain.mass_kg, k.pieces[0].kind)))


def _kind(pieces: tuple[ChainPiece, ...], most: int, most_splits: int) -> Kind:
    """List the splits, over the finest classes that leave no more of them than `most_splits`."""
    density = np.array([p.chain.density_kg_per_m for p in pieces])
    grain_kg_per_m = _ALIKE_KG_PER_M
    while _count(_sizes(classes := _classes(density, grain_kg_per_m)), most) > most_splits:
        grain_kg_per_m = max(_COARSE_KG_PER_M, 2 * grain_kg_per_m)
        if len(classes) == 1:
            break
    left, right = _splits(_sizes(classes), most)
    lefts, rights = np.zeros((2, left.shape[0]))
    for (start, stop), here, there in zip(classes, left.T, right.T, strict=True):
        dealt = _dealt_sums(density[start:stop], here, there)
        lefts, rights = lefts + dealt[0], rights + dealt[1]
    return Kind(
        pieces=pieces,
        classes=classes,
        left=left,
        right=right,
        sum_kg_per_m=lefts + rights,
        difference_kg_per_m=lefts - rights,
        exact=grain_kg_per_m == _ALIKE_KG_PER_M,
    )


def _classes(density: Floats, grain_kg_per_m: float) -> tuple[tuple[int, int], ...]:
    """Runs of pieces, sorted by density, that round to the same grain."""
    rounded = np.round(density / grain_kg_per_m)
    starts = [0, *(np.flatnonzero(np.diff(rounded)) + 1).tolist()]
    return tuple(zip(starts, [*starts[1:], density.size], strict=True))


def _sizes(classes: Sequence[tuple[int, int]]) -> list[int]:
    return [stop - start for start, stop in classes]


def _count(sizes: Sequence[int], most: int) -> int:
    """How many splits there are, from how many ways lead to each (pieces left, right)."""
    if len(sizes) == 1:
        return most + 1
    ways = np.zeros((most + 1, most + 1))
    ways[0, 0] = 1
    for size in sizes:
        grown = np.zeros_like(ways)
        for a, b in _shares(size, most):
            grown[a:, b:] += ways[: most + 1 - a, : most + 1 - b]
        ways = grown
    return int(np.trace(ways))


def _shares(size: int, most: int) -> list[tuple[int, int]]:
    """Every (left, right) share of a class."""
    return [(a, b) for a in range(min(size, most) + 1) for b in range(min(size - a, most) + 1)]


def _splits(sizes: Sequence[int], most: int) -> tuple[Ints, Ints]:
    """Every choice of left and right counts, class by class, with as many left as right."""
    left = right = np.zeros((1, 0), dtype=np.int64)
    remaining = sum(sizes)
    for size in sizes:
        remaining -= size
        share = np.array(_shares(size, most), dtype=np.int64)
        row, pick = np.divmod(np.arange(left.shape[0] * share.shape[0]), share.shape[0])
        lefts = left.sum(axis=1)[row] + share[pick, 0]
        rights = right.sum(axis=1)[row] + share[pick, 1]
        keep = (np.maximum(lefts, rights) <= most) & (np.abs(lefts - rights) <= remaining)
        row, pick = row[keep], pick[keep]
        left = np.column_stack([left[row], share[pick, 0]])
        right = np.column_stack([right[row], share[pick, 1]])
    order = np.argsort(left.sum(axis=1), kind="stable")
    return left[order], right[order]


def _deal(left: int, right: int) -> tuple[list[int], list[int]]:
    """Deal the first pieces of a class, neighbours to opposite ends: L R R L L R R L ..."""
    here: list[int] = []
    there: list[int] = []
    for place in range(left + right):
        turn_left = place % 4 in (0, 3)
        if (turn_left and len(here) < left) or len(there) >= right:
            here.append(place)
        else:
            there.append(place)
    return here, there


def _dealt_sums(density: Floats, left: Ints, right: Ints) -> Floats:
    """Density dealt left and right of one class in each split, shape (2, n)."""
    shares, which = np.unique(np.column_stack([left, right]), axis=0, return_inverse=True)
    sums = [[density[side].sum() for side in _deal(a, b)] for a, b in shares.tolist()]
    return np.asarray(np.array(sums)[which].T)
