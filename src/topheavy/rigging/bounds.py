"""What a partial choice of chain can cost at least: the bounds that let the search skip the rest.

Two things are left open, plates and the chain added later. Plates shift all aims alike, so
between the first and the last height only chain can bring the load nearer; how much it can bring
is the key of `topheavy.rigging.additions`. Every kilogram of key still missing costs either a
miss or more pieces, and pieces have their price.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.additions import Window, key_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.additions import Additions, Partials
    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]

HAIR_KG: Final = 1e-9
"""Costs nearer than this are equal: far above rounding, far below a gram."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bounds:
    """Bounds over fixtures s and, for what is added later, over the first kind still open.

    Parameters
    ----------
    problem : Problem
        The search problem.
    most_kg : array, shape (s, k + 1, j)
        Most that one more piece an end of a later kind adds at each aim [kg].
    most_key_kg, most_lean_kg : array, shape (s, k + 1)
        The same for the key and for the lean of the ends [kg].
    """

    problem: Problem
    most_kg: Floats
    most_key_kg: Floats
    most_lean_kg: Floats

    @property
    def most_each_end(self) -> int:
        """Most pieces on one end."""
        return self.problem.limits.most_pieces // 2

    @property
    def pair_price_kg(self) -> float:
        """Price of one more piece on each end [kg]."""
        return 2 * self.problem.limits.piece_price_kg

    def missing_key_kg(self, partials: Partials) -> tuple[Floats, Floats]:
        """Least and most key still to add so that the plates can do the rest [kg]."""
        target, straight_kg = self.problem.target, self.problem.straight_kg
        heights = len(target.heights_m)
        missing_kg = key_of(self.problem.wanted_kg - partials.load_kg, heights)
        if heights > 1:
            return missing_kg, missing_kg
        return missing_kg - straight_kg[-1], missing_kg - straight_kg[0]

    @property
    def give(self) -> float:
        """Kilograms of key a miss of one kilogram makes up for: one at each of two heights.

        Where loads are limits, the plates stop at the lower of the two: only the other may be
        missed.
        """
        under_per_kg = self.problem.target.under_per_kg
        if under_per_kg:
            return max(under_per_kg[0], under_per_kg[-1])
        return 2.0 if len(self.problem.target.heights_m) > 1 else 1.0

    def window(self, partials: Partials, worth_kg: float) -> Window:
        """What one last addition must be like if the rig is to cost at most `worth_kg` [kg]."""
        low_kg, high_kg = self.missing_key_kg(partials)
        next_kg = self.problem.limits.kind_price_kg + self.pair_price_kg
        spare_kg = worth_kg + HAIR_KG - partials.price_kg - next_kg
        return Window(
            low_kg=low_kg - self.give * spare_kg,
            high_kg=high_kg + self.give * spare_kg,
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

        Both grow evenly with the number of pairs, up to where the key is reached: so the best
        number is one, or one of the two next to that point.
        """
        most_kg = self.most_key_kg[partials.fixture, partials.last]
        low_kg, high_kg = self.missing_key_kg(partials)
        enough = np.divide(low_kg, most_kg, out=np.ones_like(low_kg), where=most_kg > 0)
        least_kg = np.full(len(partials), np.inf)
        for number in (np.ones_like(enough), np.floor(enough), np.ceil(enough)):
            pairs = np.clip(number, 1, np.maximum(room, 1))
            miss_kg = np.maximum(np.maximum(low_kg - pairs * most_kg, -high_kg), 0) / self.give
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
    key_kg = density * key_of(additions.lift_m, len(problem.target.heights_m))
    return Bounds(
        problem=problem,
        most_kg=_most_later(most_kg),
        most_key_kg=_most_later(key_kg * additions.allowed),
        most_lean_kg=_most_later(lean * additions.top_m * additions.allowed),
    )


def _most_later(per_kind: Floats) -> Floats:
    """Largest value among kind k and later ones, for k = 0 to the number of kinds; then 0."""
    most = np.zeros((per_kind.shape[0], per_kind.shape[1] + 1, *per_kind.shape[2:]))
    most[:, :-1] = np.maximum.accumulate(per_kind[:, ::-1], axis=1)[:, ::-1]
    return most
