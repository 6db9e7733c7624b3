"""Plates for chain already chosen: the loading that leaves the least miss."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from topheavy.rigging.bounds import HAIR_KG

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class PlateChoice:
    """The best loading for what is still missing at each aim.

    Parameters
    ----------
    problem : Problem
        Its straight weights and its target.
    """

    problem: Problem
    _halfway_kg: Floats = field(init=False, repr=False)
    _under_per_kg: Floats = field(init=False, repr=False)

    def __post_init__(self) -> None:
        straight_kg = self.problem.straight_kg
        object.__setattr__(self, "_halfway_kg", 0.5 * (straight_kg[1:] + straight_kg[:-1]))
        object.__setattr__(self, "_under_per_kg", np.array(self.problem.target.under_per_kg))

    def best_for(self, missing_kg: Floats) -> tuple[Ints, Floats]:
        """Choose plates for many choices of chain at once.

        Parameters
        ----------
        missing_kg : array, shape (n, j)
            Load wanted at each aim less what hangs there [kg].

        Returns
        -------
        loading : array of int, shape (n,)
            Position of the best straight weight.
        miss_kg : array, shape (n,)
            What it leaves missed [kg]; inf where loads are limits and the bare bar is over one.
        """
        if self.problem.target.never_over:
            return self._heaviest_within(missing_kg)
        high_kg, low_kg = missing_kg.max(axis=1), missing_kg.min(axis=1)
        middle_kg = 0.5 * (high_kg + low_kg)
        loading = np.searchsorted(self._halfway_kg, middle_kg)
        off_kg = np.abs(self.problem.straight_kg[loading] - middle_kg)
        return loading, 0.5 * (high_kg - low_kg) + off_kg

    def _heaviest_within(self, missing_kg: Floats) -> tuple[Ints, Floats]:
        straight_kg = self.problem.straight_kg
        room_kg = missing_kg.min(axis=1) + HAIR_KG
        loading = np.searchsorted(straight_kg, room_kg, side="right") - 1
        chosen_kg = straight_kg[np.maximum(loading, 0)]
        miss_kg = np.max((missing_kg - chosen_kg[:, None]) / self._under_per_kg, axis=1)
        return np.maximum(loading, 0), np.where(loading < 0, np.inf, miss_kg)
