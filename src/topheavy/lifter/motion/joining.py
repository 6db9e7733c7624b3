"""M^(k - 1) while chain joins the bar, by a cubic: a power costs as much as ten products."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]


@dataclass(slots=True, eq=False)
class Joining:
    """Cubics through four masses of each rep, evenly spaced from no chain to all of it.

    With as much chain as bar and k = 0.8 the cubic is within 0.03 % of the power.

    Parameters
    ----------
    terms : tuple of array, shape (n,)
        What the cubic takes of 1, C, C^2 and C^3, C the chain off the floor [kg].
    """

    terms: tuple[Floats, Floats, Floats, Floats]

    @classmethod
    def of(cls, steady_kg: Floats, chain_kg: Floats, pick_up: Floats) -> Joining:
        """Lay the cubics for chain of up to `chain_kg` [kg], > 0, and k = `pick_up` [-]."""
        at = [(steady_kg + chain_kg * third / 3.0) ** (pick_up - 1.0) for third in range(4)]
        once = [b - a for a, b in pairwise(at)]
        twice = [b - a for a, b in pairwise(once)]
        third, fourth = twice[0] / 2.0, (twice[1] - twice[0]) / 6.0
        scale = 3.0 / chain_kg
        return cls(
            (
                at[0],
                (once[0] - third + 2.0 * fourth) * scale,
                (third - 3.0 * fourth) * scale**2,
                fourth * scale**3,
            )
        )

    def at(self, chain_kg: Floats) -> Floats:
        """M^(k - 1) with so much chain off the floor [kg], shape (n,)."""
        one, two, three, four = self.terms
        cubic = chain_kg * four
        for term in (three, two):
            cubic += term
            cubic *= chain_kg
        cubic += one
        return cubic

    def keep(self, on: NDArray[np.intp]) -> None:
        """Keep only the reps at the places `on`."""
        one, two, three, four = (term.take(on) for term in self.terms)
        self.terms = (one, two, three, four)
