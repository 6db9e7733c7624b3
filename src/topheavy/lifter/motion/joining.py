"""M^(k - 1) while chain joins the bar, by a cubic: a power costs as much as ten products."""

from __future__ import annotations

from dataclasses import dataclass, fields
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
    steady_kg, per_kg : array, shape (n,)
        Mass without chain [kg], and three over the mass of chain [1/kg].
    first, second, third, fourth : array, shape (n,)
        Newton's divided differences.
    """

    steady_kg: Floats
    per_kg: Floats
    first: Floats
    second: Floats
    third: Floats
    fourth: Floats

    @classmethod
    def of(cls, steady_kg: Floats, chain_kg: Floats, pick_up: Floats) -> Joining:
        """Lay the cubics for chain of up to `chain_kg` [kg], > 0, and k = `pick_up` [-]."""
        at = [(steady_kg + chain_kg * third / 3.0) ** (pick_up - 1.0) for third in range(4)]
        once = [b - a for a, b in pairwise(at)]
        twice = [b - a for a, b in pairwise(once)]
        return cls(
            steady_kg=steady_kg,
            per_kg=3.0 / chain_kg,
            first=at[0],
            second=once[0],
            third=twice[0] / 2.0,
            fourth=(twice[1] - twice[0]) / 6.0,
        )

    def at(self, mass_kg: Floats) -> Floats:
        """M^(k - 1) at masses [kg], shape (n,)."""
        x = (mass_kg - self.steady_kg) * self.per_kg
        inner = self.third + (x - 2.0) * self.fourth
        return self.first + x * (self.second + (x - 1.0) * inner)

    def keep(self, on: NDArray[np.intp]) -> None:
        """Keep only the reps at the places `on`."""
        for field in fields(self):
            setattr(self, field.name, getattr(self, field.name).take(on))
