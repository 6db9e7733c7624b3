"""What can be added to a partial choice of chain under one fixture, in arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]


@dataclass(slots=True)
class Partials:
    """Partial choices of chain: what was picked, and what it adds up to.

    Parameters
    ----------
    picks : array of int, shape (n, m)
        Additions picked so far, -1 where none.
    last : array of int, shape (n,)
        Kind picked last, as a position; 0 stands before the first kind.
    pieces : array of int, shape (n,)
        Pieces on each end.
    load_kg : array, shape (n, j)
        Hung load at each aim, both ends [kg].
    ends_kg : array, shape (n, 2)
        Mass of the chain on the left and on the right end [kg].
    lean_kg : array, shape (n,)
        Load of the left end less the right at the top of the lift [kg].
    price_kg : array, shape (n,)
        Price of the pieces and kinds [kg].
    """

    picks: Ints
    last: Ints
    pieces: Ints
    load_kg: Floats
    ends_kg: Floats
    lean_kg: Floats
    price_kg: Floats

    def take(self, rows: NDArray[np.bool_] | NDArray[np.intp] | slice) -> Partials:
        """Keep some rows."""
        return Partials(
            self.picks[rows],
            self.last[rows],
            self.pieces[rows],
            self.load_kg[rows],
            self.ends_kg[rows],
            self.lean_kg[rows],
            self.price_kg[rows],
        )

    def helpings(self, most: int, ways: int) -> Iterator[Partials]:
        """Cut into helpings whose every addition (`ways` each) stays near `most` rows."""
        step = max(1, most // max(1, ways))
        for start in range(0, self.pieces.size, step):
            yield self.take(slice(start, start + step))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Additions:
    """Every split of every kind that a fixture allows, kind after kind.

    The key of an addition is what the window of the search is cut by: what it adds to the load
    at the last height less the first, or, with a single aim, what it adds there.

    Parameters
    ----------
    kind, split : array of int, shape (a,)
        Which split of which kind.
    pieces : array of int, shape (a,)
        Pieces on each end.
    add_kg : array, shape (a, j)
        What it adds at each aim [kg].
    ends_kg : array, shape (a, 2)
        What it adds to the mass of the left and of the right end [kg].
    lean_kg, key_kg, price_kg : array, shape (a,)
        What it adds to the lean, to the key and to the price [kg].
    first_of : array of int, shape (k + 1,)
        Where the additions of each kind begin.
    by_key : array of int, shape (a,)
        Additions in rising order of their key.
    most_later_kg, most_later_key_kg, most_later_lean_kg : array, shape (k + 1, ...)
        Most that one more piece an end of a later kind can add [kg].
    most_hung_kg : float
        What one end may carry [kg].
    """

    kind: Ints
    split: Ints
    pieces: Ints
    add_kg: Floats
    ends_kg: Floats
    lean_kg: Floats
    key_kg: Floats
    price_kg: Floats
    first_of: Ints
    by_key: Ints
    most_later_kg: Floats
    most_later_key_kg: Floats
    most_later_lean_kg: Floats
    most_hung_kg: float

    def added_to(self, partials: Partials, most_each_end: int) -> Partials:
        """Add every addition of a later kind to every partial choice."""
        first = self.first_of[partials.last]
        row, way = _ranges(first, np.full_like(first, self.kind.size))
        keep = partials.pieces[row] + self.pieces[way] <= most_each_end
        return self._joined(partials, row[keep], way[keep])

    def last_added_to(
        self, partials: Partials, low_kg: Floats, high_kg: Floats, most_each_end: int
    ) -> Partials:
        """Add those of a later kind whose key lies between `low_kg` and `high_kg` [kg]."""
        keys = self.key_kg[self.by_key]
        row, place = _ranges(
            np.searchsorted(keys, low_kg, side="left"),
            np.searchsorted(keys, high_kg, side="right"),
        )
        way = self.by_key[place]
        keep = self.kind[way] >= partials.last[row]
        keep &= partials.pieces[row] + self.pieces[way] <= most_each_end
        return self._joined(partials, row[keep], way[keep])

    def _joined(self, partials: Partials, row: Ints, way: Ints) -> Partials:
        picks = partials.picks[row]
        depth = np.sum(picks >= 0, axis=1)
        picks[np.arange(row.size), depth] = way
        return Partials(
            picks=picks,
            last=self.kind[way] + 1,
            pieces=partials.pieces[row] + self.pieces[way],
            load_kg=partials.load_kg[row] + self.add_kg[way],
            ends_kg=partials.ends_kg[row] + self.ends_kg[way],
            lean_kg=partials.lean_kg[row] + self.lean_kg[way],
            price_kg=partials.price_kg[row] + self.price_kg[way],
        )

    def splits_of(self, picks: Ints, kinds: int) -> tuple[int, ...]:
        """Turn picks into a split for each kind, 0 where a kind stays on its hook."""
        splits = [0] * kinds
        for pick in picks[picks >= 0]:
            splits[int(self.kind[pick])] = int(self.split[pick])
        return tuple(splits)


def _ranges(start: NDArray[np.intp] | Ints, stop: NDArray[np.intp] | Ints) -> tuple[Ints, Ints]:
    """Rows and positions of all ranges start[i] to stop[i], one after the other."""
    counts = np.maximum(stop - start, 0)
    row = np.repeat(np.arange(counts.size, dtype=np.int64), counts)
    before = np.cumsum(counts) - counts
    place = np.arange(row.size, dtype=np.int64) - before[row] + start[row]
    return row, place


def nothing_yet(problem: Problem, fixture: int) -> Partials:
    """Start with bare suspensions: no chain on either end."""
    depth = max(1, min(problem.limits.most_pieces // 2, len(problem.kinds)))
    return Partials(
        picks=np.full((1, depth), -1, dtype=np.int64),
        last=np.zeros(1, dtype=np.int64),
        pieces=np.zeros(1, dtype=np.int64),
        load_kg=problem.held_kg[fixture][None, :],
        ends_kg=np.zeros((1, 2)),
        lean_kg=np.zeros(1),
        price_kg=np.zeros(1),
    )


def additions_under(problem: Problem, fixture: int, most_each_end: int) -> Additions:
    """Lay out every addition that a fixture allows.

    Parameters
    ----------
    problem : Problem
        The search problem.
    fixture : int
        Position of the fixture.
    most_each_end : int
        Largest number of pieces on one end.
    """
    places = [
        (k, np.flatnonzero((kind.each_end > 0) & (kind.each_end <= most_each_end)))
        for k, kind in enumerate(problem.kinds)
        if problem.allowed[fixture, k]
    ]
    kind = np.array([k for k, s in places for _ in s], dtype=np.int64)
    split = np.array([way for _, s in places for way in s], dtype=np.int64)
    pieces = _gather(problem, kind, split, "each_end").astype(np.int64)
    total = _gather(problem, kind, split, "sum_kg_per_m")
    gap = _gather(problem, kind, split, "difference_kg_per_m")
    length_m = np.array([k.pieces[0].chain.length_m for k in problem.kinds])[kind]
    add_kg = total[:, None] * problem.lift_m[fixture][kind]
    last = len(problem.target.heights_m) - 1
    key_kg = add_kg[:, last] - add_kg[:, 0] if last > 0 else add_kg[:, 0]
    lean_kg = gap * problem.lift_top_m[fixture][kind]
    kinds = len(problem.kinds)
    return Additions(
        kind=kind,
        split=split,
        pieces=pieces,
        add_kg=add_kg,
        ends_kg=0.5 * np.column_stack([total + gap, total - gap]) * length_m[:, None],
        lean_kg=lean_kg,
        key_kg=key_kg,
        price_kg=problem.limits.kind_price_kg + 2 * problem.limits.piece_price_kg * pieces,
        first_of=np.searchsorted(kind, np.arange(kinds + 1)),
        by_key=np.argsort(key_kg, kind="stable"),
        most_later_kg=_most_later(kind, add_kg / pieces[:, None], kinds),
        most_later_key_kg=_most_later(kind, key_kg / pieces, kinds),
        most_later_lean_kg=_most_later(kind, np.abs(lean_kg) / pieces, kinds),
        most_hung_kg=problem.fixtures[fixture].most_hung_kg,
    )


def _gather(problem: Problem, kind: Ints, split: Ints, name: str) -> Floats:
    columns = [np.asarray(getattr(k, name), dtype=np.float64) for k in problem.kinds]
    starts = np.cumsum([0, *[c.size for c in columns[:-1]]])
    return np.concatenate(columns)[starts[kind] + split]


def _most_later(kind: Ints, value: Floats, kinds: int) -> Floats:
    """Largest value among additions of kind k or later, for k = 0 to kinds; 0 where none is."""
    most = np.zeros((kinds + 1, *value.shape[1:]))
    np.maximum.at(most, kind, value)
    return np.maximum.accumulate(most[::-1], axis=0)[::-1]
