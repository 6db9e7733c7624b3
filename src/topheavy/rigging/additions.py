"""What can be added to partial choices of chain, in arrays over many fixtures at once."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.keys import keys_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.keys import Keys
    from topheavy.rigging.problem import Problem

    Bools = NDArray[np.bool_]
    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

_APART_KG: Final = 1.0


@dataclass(slots=True, kw_only=True)
class Partials:
    """Partial choices of chain: under which fixture, what was picked, what it adds up to.

    Parameters
    ----------
    fixture : array of int, shape (n,)
        Position among the fixtures of the `Additions`.
    picks : array of int, shape (n, m)
        Additions picked so far, -1 where none.
    last : array of int, shape (n,)
        First kind that may still be added.
    pieces : array of int, shape (n,)
        Pieces on each end.
    price_kg : array, shape (n,)
        Price of the pieces, of their kinds and of the fold's gap [kg].
    load_kg : array, shape (n, j)
        Hung load at each aim, both ends [kg].
    ends_kg : array, shape (n, 2)
        Mass of the chain on the left and on the right end [kg].
    lean_kg : array, shape (n,)
        Load of the left end less the right at the top of the lift [kg].
    """

    fixture: Ints
    picks: NDArray[np.int32]
    last: Ints
    pieces: Ints
    price_kg: Floats
    load_kg: Floats
    ends_kg: Floats
    lean_kg: Floats

    def __len__(self) -> int:
        return self.pieces.size

    def take(self, rows: Bools | NDArray[np.intp] | slice) -> Partials:
        """Keep some rows."""
        return Partials(**{field.name: getattr(self, field.name)[rows] for field in fields(self)})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """What the last addition to each partial choice must be like.

    Parameters
    ----------
    low_kg, high_kg : array, shape (n,)
        Between which its key must lie [kg].
    most_lean_kg : array, shape (n,)
        How far the ends may then differ at the top of the lift [kg].
    """

    low_kg: Floats
    high_kg: Floats
    most_lean_kg: Floats

    def take(self, rows: Ints) -> Window:
        """Keep some rows."""
        return Window(**{field.name: getattr(self, field.name)[rows] for field in fields(self)})


@dataclass(frozen=True, slots=True, eq=False)
class ByKey:
    """Additions (a) in rising order of their key under each fixture (s).

    Parameters
    ----------
    order : array of int, shape (s * a,)
        Additions of each fixture, one fixture after the other.
    keys_kg : array, shape (s * a,)
        Their keys [kg], those of each fixture raised by `apart_kg` over those of the one before,
        so that one look-up serves all fixtures.
    apart_kg : float
        More than any key [kg].
    """

    order: Ints
    keys_kg: Floats
    apart_kg: float

    @classmethod
    def of(cls, key_kg: Floats) -> ByKey:
        """Put additions in order, by their keys [kg] of shape (s, a)."""
        order = np.argsort(key_kg, axis=1, kind="stable")
        apart_kg = float(key_kg.max(initial=0.0)) + _APART_KG
        keys_kg = np.take_along_axis(key_kg, order, axis=1)
        keys_kg += apart_kg * np.arange(len(key_kg))[:, None]
        return cls(order.ravel(), keys_kg.ravel(), apart_kg)

    def between(self, fixture: Ints, window: Window) -> tuple[Ints, Ints]:
        """Rows of the window, under these fixtures, and the additions that lie in it."""
        row, place = _ranges(
            np.searchsorted(self.keys_kg, self._apart(fixture, window.low_kg), side="left"),
            np.searchsorted(self.keys_kg, self._apart(fixture, window.high_kg), side="right"),
        )
        return row, self.order[place]

    def _apart(self, fixture: Ints, key_kg: Floats) -> Floats:
        """Raise keys as those of the fixtures were, cut off half-way to the neighbours' keys."""
        inside = np.clip(key_kg, -0.5 * _APART_KG, self.apart_kg - 0.5 * _APART_KG)
        return np.asarray(inside + self.apart_kg * fixture)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Additions:
    """Every split of every kind (a), kind after kind (k), and what it adds under fixtures (s).

    The key of an addition is what the window of the search is cut by: see `Keys`.

    Parameters
    ----------
    kind, split, pieces : array of int, shape (a,)
        Which split of which kind, and its pieces on each end.
    sum_kg_per_m, lean_kg_per_m : array, shape (a,)
        Density of left plus right, and of left minus right.
    ends_kg : array, shape (a, 2)
        Mass of the chain on the left and on the right end [kg].
    price_kg : array, shape (a,)
        Price of the pieces and of the kind [kg].
    lift_m, top_m, allowed : array, shape (s, k, j), (s, k), (s, k)
        As in the problem, for these fixtures.
    most_hung_kg : array, shape (s,)
        What one end may carry [kg].
    first_of : array of int, shape (k + 1,)
        Where the additions of each kind begin.
    by_key : tuple of ByKey
        For each first kind that may still be added, the additions in order of their key.
    keys : Keys
        What the key is under each fixture.
    """

    kind: Ints
    split: Ints
    pieces: Ints
    sum_kg_per_m: Floats
    lean_kg_per_m: Floats
    ends_kg: Floats
    price_kg: Floats
    lift_m: Floats
    top_m: Floats
    allowed: Bools
    most_hung_kg: Floats
    first_of: Ints
    by_key: tuple[ByKey, ...]
    keys: Keys

    def later_than(self, last: Ints) -> Ints:
        """How many additions are left where `last` is the first kind that may still be added."""
        return np.asarray(self.kind.size - self.first_of[last])

    def added_to(self, partials: Partials, most_each_end: int) -> Partials:
        """Add every addition of a later kind to every partial choice."""
        first = self.first_of[partials.last]
        row, way = _ranges(first, np.full_like(first, self.kind.size))
        return self._joined(partials, row, way, most_each_end)

    def last_added_to(self, partials: Partials, window: Window, most_each_end: int) -> Partials:
        """Add those of a later kind that lie in the window."""
        rows, ways = [], []
        for first, ordered in enumerate(self.by_key):
            some = np.flatnonzero(partials.last == first)
            if some.size:
                row, way = ordered.between(partials.fixture[some], window.take(some))
                rows.append(some[row])
                ways.append(way + self.first_of[first])
        none = np.empty(0, dtype=np.int64)
        row, way = np.concatenate([none, *rows]), np.concatenate([none, *ways])
        keep = np.abs(self._lean_kg(partials, row, way)) <= window.most_lean_kg[row]
        return self._joined(partials, row[keep], way[keep], most_each_end)

    def _joined(self, partials: Partials, row: Ints, way: Ints, most_each_end: int) -> Partials:
        keep = self.allowed[partials.fixture[row], self.kind[way]]
        keep &= partials.pieces[row] + self.pieces[way] <= most_each_end
        keep &= ~_even(partials)[row] | (self.lean_kg_per_m[way] >= 0)
        row, way = row[keep], way[keep]
        fixture, kind = partials.fixture[row], self.kind[way]
        picks = partials.picks[row]
        picks[np.arange(row.size), np.sum(picks >= 0, axis=1)] = way
        add_kg = self.sum_kg_per_m[way, None] * self.lift_m[fixture, kind]
        return Partials(
            fixture=fixture,
            picks=picks,
            last=kind + 1,
            pieces=partials.pieces[row] + self.pieces[way],
            price_kg=partials.price_kg[row] + self.price_kg[way],
            load_kg=partials.load_kg[row] + add_kg,
            ends_kg=partials.ends_kg[row] + self.ends_kg[way],
            lean_kg=self._lean_kg(partials, row, way),
        )

    def _lean_kg(self, partials: Partials, row: Ints, way: Ints) -> Floats:
        top_m = self.top_m[partials.fixture[row], self.kind[way]]
        return np.asarray(partials.lean_kg[row] + self.lean_kg_per_m[way] * top_m)

    def splits_of(self, picks: NDArray[np.int32], kinds: int) -> tuple[int, ...]:
        """Turn picks into a split for each kind, 0 where a kind stays on its hook."""
        splits = [0] * kinds
        for pick in picks[picks >= 0]:
            splits[int(self.kind[pick])] = int(self.split[pick])
        return tuple(splits)


def _even(partials: Partials) -> Bools:
    """Whether both ends are alike so far: then of two mirror images one is enough."""
    same = partials.ends_kg[:, 0] == partials.ends_kg[:, 1]
    return np.asarray(same & (partials.lean_kg == 0))


def _ranges(start: NDArray[np.intp] | Ints, stop: NDArray[np.intp] | Ints) -> tuple[Ints, Ints]:
    """Rows and positions of all ranges start[i] to stop[i], one after the other."""
    counts = np.maximum(stop - start, 0)
    row = np.repeat(np.arange(counts.size, dtype=np.int64), counts)
    before = np.cumsum(counts) - counts
    place = np.arange(row.size, dtype=np.int64) - before[row] + start[row]
    return row, place


def nothing_yet(problem: Problem, fixtures: Ints) -> Partials:
    """Start with bare suspensions and the bands that are on: no chain on either end."""
    size, band = fixtures.size, problem.band
    depth = max(1, min(problem.limits.most_pieces // 2, len(problem.kinds)))
    return Partials(
        fixture=np.arange(size, dtype=np.int64),
        picks=np.full((size, depth), -1, dtype=np.int32),
        last=np.zeros(size, dtype=np.int64),
        pieces=np.zeros(size, dtype=np.int64),
        price_kg=problem.fold_price_kg[fixtures] + (band.price_kg if band else 0.0),
        load_kg=problem.held_kg[fixtures] + (band.load_kg if band else 0.0),
        ends_kg=np.zeros((size, 2)),
        lean_kg=np.full(size, band.lean_kg if band else 0.0),
    )


def additions_under(problem: Problem, fixtures: Ints, most_each_end: int) -> Additions:
    """Lay out every addition, and what it adds under some fixtures.

    Parameters
    ----------
    problem : Problem
        The search problem.
    fixtures : array of int, shape (s,)
        Positions of the fixtures.
    most_each_end : int
        Largest number of pieces on one end.
    """
    each_end = [kind.each_end for kind in problem.kinds]
    splits = [np.flatnonzero((n > 0) & (n <= most_each_end)) for n in each_end]
    kind = np.repeat(np.arange(len(splits)), [s.size for s in splits])
    pairs = list(zip(problem.kinds, splits, strict=True))
    pieces = np.concatenate([k.each_end[s] for k, s in pairs])
    total = np.concatenate([k.sum_kg_per_m[s] for k, s in pairs])
    lean = np.concatenate([k.difference_kg_per_m[s] for k, s in pairs])
    length_m = np.array([k.pieces[0].chain.length_m for k in problem.kinds])[kind]
    lift_m = problem.lift_m[fixtures]
    keys = keys_of(problem, fixtures, _densest(kind, total / pieces, len(splits)))
    key_kg = total * keys.key_kg(lift_m)[:, kind]
    first_of = np.searchsorted(kind, np.arange(len(splits) + 1))
    limits = problem.limits
    return Additions(
        kind=kind,
        split=np.concatenate(splits),
        pieces=pieces,
        sum_kg_per_m=total,
        lean_kg_per_m=lean,
        ends_kg=0.5 * np.column_stack([total + lean, total - lean]) * length_m[:, None],
        price_kg=limits.kind_price_kg + 2.0 * limits.piece_price_kg * pieces,
        lift_m=lift_m,
        top_m=problem.lift_top_m[fixtures],
        allowed=problem.allowed[fixtures],
        most_hung_kg=np.array([problem.fixtures[int(s)].most_hung_kg for s in fixtures]),
        first_of=first_of,
        by_key=tuple(ByKey.of(key_kg[:, first:]) for first in first_of[:-1]),
        keys=keys,
    )


def _densest(kind: Ints, density_kg_per_m: Floats, kinds: int) -> Floats:
    """Greatest density of one piece an end, by kind."""
    densest = np.zeros(kinds)
    np.maximum.at(densest, kind, density_kg_per_m)
    return densest
