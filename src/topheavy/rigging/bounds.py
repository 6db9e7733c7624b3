"""What a partial choice of chain can cost at least: the bounds that let the search skip the rest.

Two things are left open, plates and the chain added later. Plates shift all aims alike, so between
two heights only chain can bring the load nearer; how much it can bring is the key of
`topheavy.rigging.keys`. Every kilogram of key still missing costs either a miss or more pieces, and
pieces have their price; every kilogram too much costs a miss.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.additions import Window

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.additions import Additions, Partials
    from topheavy.rigging.keys import Keys
    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]

HAIR_KG: Final = 1e-9
"""Costs nearer than this are equal: far above rounding, far below a gram."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wants:
    """What n partial choices want of the key.

    With x more of it a rig misses at least the greater of `short_count` x (`short_kg` - x) and
    `much_count` x (`much_kg` + `grows` x).

    Parameters
    ----------
    short_kg, much_kg : array, shape (n,)
        Chain that is lacking, and chain that is too much already [kg].
    short_count, much_count, grows : array, shape (n,)
        As in `topheavy.rigging.keys.Keys`, for the fixture of each.
    """

    short_kg: Floats
    much_kg: Floats
    short_count: Floats
    much_count: Floats
    grows: Floats

    @property
    def best_kg(self) -> Floats:
        """Key that leaves the least miss [kg]; below zero where there is too much already."""
        slope = self.short_count + self.much_count * self.grows
        rest_kg = self.short_count * self.short_kg - self.much_count * self.much_kg
        return np.asarray(rest_kg / slope)

    @property
    def enough_kg(self) -> Floats:
        """Key beyond which no more of it makes the miss less [kg]."""
        return np.minimum(self.best_kg, self.short_kg)

    def least_miss_kg(self, most_kg: Floats) -> Floats:
        """Least miss with at most so much more key [kg]."""
        key_kg = np.minimum(np.maximum(self.best_kg, 0.0), most_kg)
        short_kg = self.short_count * (self.short_kg - key_kg)
        much_kg = self.much_count * (self.much_kg + self.grows * key_kg)
        return np.maximum(np.maximum(short_kg, much_kg), 0.0)

    def within(self, miss_kg: Floats) -> tuple[Floats, Floats]:
        """Least and most key that can leave no more than a miss [kg]."""
        low_kg = self.short_kg - miss_kg / self.short_count
        room_kg = miss_kg / self.much_count - self.much_kg
        any_kg = np.where(room_kg < 0, -np.inf, np.inf)
        return low_kg, np.divide(room_kg, self.grows, out=any_kg, where=self.grows > 0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bounds:
    """Bounds over fixtures s and, for what is added later, over the first kind still open.

    Parameters
    ----------
    problem : Problem
        The search problem.
    keys : Keys
        What decides how much chain is wanted.
    most_kg : array, shape (s, k + 1, j)
        Most that one more piece an end of a later kind adds at each aim [kg].
    most_key_kg : array, shape (s, k + 1, n + 1)
        Most key that none, one, two to n more pieces an end of later kinds add [kg].
    worthwhile : array of int, shape (s, k + 1)
        How many of these pairs may save more than their price.
    most_lean_kg : array, shape (s, k + 1)
        Most that one more piece an end adds to the lean of the ends [kg].
    """

    problem: Problem
    keys: Keys
    most_kg: Floats
    most_key_kg: Floats
    worthwhile: NDArray[np.int64]
    most_lean_kg: Floats

    @property
    def most_each_end(self) -> int:
        """Most pieces on one end."""
        return self.problem.limits.most_pieces // 2

    @property
    def pair_price_kg(self) -> float:
        """Price of one more piece on each end [kg]."""
        return 2 * self.problem.limits.piece_price_kg

    def wants(self, partials: Partials) -> Wants:
        """What each partial choice still wants of the key."""
        target, straight_kg = self.problem.target, self.problem.straight_kg
        missing_kg, fixture = self.problem.wanted_kg - partials.load_kg, partials.fixture
        if len(target.heights_m) > 1:
            short_kg = self.keys.short.of(missing_kg, fixture)
            much_kg = self.keys.much.of(missing_kg, fixture)
        else:
            short_kg = missing_kg[:, 0] - straight_kg[-1]
            much_kg = straight_kg[0] - missing_kg[:, 0]
        return Wants(
            short_kg=short_kg,
            much_kg=much_kg,
            short_count=self.keys.short.count[fixture],
            much_count=self.keys.much.count[fixture],
            grows=self.keys.grows[fixture],
        )

    def window(self, partials: Partials, worth_kg: float) -> Window:
        """What one last addition must be like if the rig is to cost at most `worth_kg` [kg]."""
        next_kg = self.problem.limits.kind_price_kg + self.pair_price_kg
        spare_kg = worth_kg + HAIR_KG - partials.price_kg - next_kg
        low_kg, high_kg = self.wants(partials).within(spare_kg)
        return Window(
            low_kg=low_kg,
            high_kg=high_kg,
            most_lean_kg=np.minimum(spare_kg, self.problem.limits.most_imbalance_kg + HAIR_KG),
        )

    def least_cost_kg(self, additions: Additions, partials: Partials) -> Floats:
        """Least that any rig grown from each partial choice costs [kg]; inf where none can be."""
        fixture, last = partials.fixture, partials.last
        room = self.most_each_end - partials.pieces
        lean_kg = np.abs(partials.lean_kg) - self.most_lean_kg[fixture, last] * room
        cost_kg = np.maximum(lean_kg, 0.0) + partials.price_kg
        cost_kg += self.problem.limits.kind_price_kg
        cost_kg += np.maximum(self._growth_kg(partials, room), self._miss_kg(partials, room))
        can = (room >= 1) & (additions.first_of[last] < additions.kind.size)
        can &= lean_kg <= self.problem.limits.most_imbalance_kg + HAIR_KG
        most_hung_kg = additions.most_hung_kg[fixture] + HAIR_KG
        can &= np.all(partials.ends_kg <= most_hung_kg[:, None], axis=1)
        return np.where(can, cost_kg, np.inf)

    def _growth_kg(self, partials: Partials, room: NDArray[np.int64]) -> Floats:
        """Least price of more pairs and miss of the key together [kg].

        The first pairs add most. So pairs are added while they save more than their price, and one
        more where the key gets to where it leaves the least miss: then it saves a part.
        """
        rows = partials.fixture, partials.last
        most_kg, wants = self.most_key_kg[rows], self.wants(partials)
        enough = np.sum(most_kg[:, 1:] < wants.enough_kg[:, None], axis=1)
        least_kg = np.full(len(partials), np.inf)
        most_pairs = np.clip(room, 1, most_kg.shape[1] - 1)
        for number in (np.minimum(self.worthwhile[rows], enough), enough + 1):
            pairs = np.clip(number, 1, most_pairs)
            miss_kg = wants.least_miss_kg(most_kg[np.arange(pairs.size), pairs])
            least_kg = np.minimum(least_kg, self.pair_price_kg * pairs + miss_kg)
        return least_kg

    def _miss_kg(self, partials: Partials, room: NDArray[np.int64]) -> Floats:
        """Least miss at any one aim, with a pair's price: too heavy already, or never enough."""
        straight_kg = self.problem.straight_kg
        missing_kg = self.problem.wanted_kg - partials.load_kg
        most_kg = self.most_kg[partials.fixture, partials.last] * room[:, None]
        over_kg, under_kg = straight_kg[0] - missing_kg, missing_kg - most_kg - straight_kg[-1]
        if self.problem.target.never_over:
            over_kg = np.where(over_kg > HAIR_KG, np.inf, 0.0)
            under_kg = under_kg / np.array(self.problem.target.under_per_kg)
        miss_kg = np.maximum(over_kg, under_kg)
        return np.asarray(self.pair_price_kg + np.maximum(miss_kg.max(axis=1), 0.0))


def bounds_of(problem: Problem, additions: Additions) -> Bounds:
    """Lay the bounds out for the fixtures of some additions."""
    kinds = len(problem.kinds)
    density, lean = np.zeros((2, kinds))
    np.maximum.at(density, additions.kind, additions.sum_kg_per_m / additions.pieces)
    np.maximum.at(lean, additions.kind, np.abs(additions.lean_kg_per_m) / additions.pieces)
    most_kg = density[:, None] * additions.lift_m * additions.allowed[:, :, None]
    each_m = np.maximum(additions.keys.key_kg(additions.lift_m), 0.0) * additions.allowed
    key_kg = _steps_kg_per_m(additions, kinds, problem.limits.most_pieces // 2) * each_m[:, :, None]
    most_key_kg = _most_of_several(key_kg)
    pair_price_kg = 2 * problem.limits.piece_price_kg
    saved_kg = np.diff(most_key_kg, axis=2) * additions.keys.short.count[:, None, None]
    return Bounds(
        problem=problem,
        keys=additions.keys,
        most_kg=_most_later(most_kg),
        most_key_kg=most_key_kg,
        worthwhile=np.sum(saved_kg > pair_price_kg, axis=2),
        most_lean_kg=_most_later(lean * additions.top_m * additions.allowed),
    )


def _steps_kg_per_m(additions: Additions, kinds: int, most_each_end: int) -> Floats:
    """Density that the first, second, third pair of each kind adds at most, shape (k, n)."""
    heaviest = np.zeros((kinds, most_each_end + 1))
    np.maximum.at(heaviest, (additions.kind, additions.pieces), additions.sum_kg_per_m)
    return np.diff(np.maximum.accumulate(heaviest, axis=1), axis=1)


def _most_of_several(steps_kg: Floats) -> Floats:
    """Most that none to n steps (s, k, n) of kind k and later ones add up to, for k = 0 to all."""
    fixtures, kinds, number = steps_kg.shape
    most = np.zeros((fixtures, kinds + 1, number + 1))
    best = np.zeros((fixtures, number))
    for kind in reversed(range(kinds)):
        both = np.concatenate([best, steps_kg[:, kind]], axis=1)
        best = -np.sort(-both, axis=1)[:, :number]
        most[:, kind, 1:] = np.cumsum(best, axis=1)
    return most


def _most_later(per_kind: Floats) -> Floats:
    """Largest value among kind k and later ones, for k = 0 to the number of kinds; then 0."""
    most = np.zeros((per_kind.shape[0], per_kind.shape[1] + 1, *per_kind.shape[2:]))
    most[:, :-1] = np.maximum.accumulate(per_kind[:, ::-1], axis=1)[:, ::-1]
    return most
