"""Who does a rep, and what is on the bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Protocol

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.raising import CELLS
from topheavy.mechanics.chain import require_not_negative, require_positive, require_travel
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.ground import BARE_FLOOR

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.lifter.motion_model import Motion
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.rig import Rig

    Floats = NDArray[np.float64]


class HeightTable(Protocol):
    """Anything that gives a load [kg] at heights of the bar [m]: a `LoadCurve` is one."""

    def at(self, height_m: ArrayLike, /) -> Floats:
        """Load [kg] at each height [m], any shape."""
        ...


NOTHING: Final = LoadCurve.constant(0.0)
"""Nothing hung."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OnBar:
    """What is on the bar in a rep.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg], >= 0.
    hung : HeightTable
        Chain and what hangs with it [kg] by height [m], on the way up. It has mass.
    band : HeightTable or None
        Pull of bands by height, as the load that weighs as much [kg]: no mass. Below zero where
        bands from above carry part of the bar.
    hung_lowering : HeightTable or None
        Chain on the way down; the same as on the way up when None.
    name : str
        What to call it.
    """

    straight_kg: float
    hung: HeightTable = NOTHING
    band: HeightTable | None = None
    hung_lowering: HeightTable | None = None
    name: str = "plain weight"

    def __post_init__(self) -> None:
        require_not_negative("straight_kg", self.straight_kg)

    @classmethod
    def of_rig(cls, rig: Rig, ground: Ground = BARE_FLOOR, name: str = "chain") -> OnBar:
        """Take a rig's raising and lowering curves as they hang over a ground, and its bands."""
        band = rig.band_curve()
        pulls = bool(np.any(band.below_kg) or np.any(band.above_kg))
        return cls(
            straight_kg=rig.straight_weight_kg,
            hung=rig.hung_curve(ground, "raising"),
            hung_lowering=rig.hung_curve(ground, "lowering"),
            band=band if pulls else None,
            name=name,
        )

    def load_at(self, height_m: ArrayLike) -> Floats:
        """Load [kg] at rest at each height [m], on the way up: plates, chain and bands."""
        heights = np.asarray(height_m, dtype=np.float64)
        load = self.straight_kg + self.hung.at(heights)
        return load if self.band is None else load + self.band.at(heights)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RepLifter:
    """Who does the rep.

    Parameters
    ----------
    best_kg : float
        Best single with plain weight over the full range, 1RM [kg], > 0.
    bottom_m, top_m : float
        Heights of the bar at both ends of the lift, floor to bar centre [m].
    strength : HeightTable or None
        Heaviest load that can be moved through each height, S [kg] by height [m]; its least over
        the travel is the 1RM. A `StrengthCurve` is one; `StrengthRows` holds many, one for each
        lifter of the model's numbers. None: the model's typical shape times the 1RM.
    """

    best_kg: float
    bottom_m: float
    top_m: float
    strength: HeightTable | None = None

    def __post_init__(self) -> None:
        require_positive("best_kg", self.best_kg)
        require_travel(self.bottom_m, self.top_m)

    @property
    def travel_m(self) -> float:
        """How far the bar goes [m]."""
        return self.top_m - self.bottom_m

    @property
    def grid_m(self) -> Floats:
        """The heights that curves are sampled at [m], bottom to top."""
        return np.linspace(self.bottom_m, self.top_m, CELLS + 1)

    def strength_kg(self, motion: Motion) -> Floats:
        """Sample strength over the travel [kg], shape (1 or n, CELLS + 1).

        Raises
        ------
        BadInputError
            Strength is not above zero all the way.
        """
        if self.strength is None:
            return self.best_kg * motion.shape_at(np.linspace(0.0, 1.0, CELLS + 1))
        table = np.atleast_2d(np.asarray(self.strength.at(self.grid_m), dtype=np.float64))
        if not np.all((table > 0) & np.isfinite(table)):
            raise BadInputError(
                "Strength must be above zero at every height of the lift",
                field="strength",
                got=f"least {np.min(table):g} kg",
                wanted="more than 0 kg",
            )
        return table


@dataclass(frozen=True, slots=True, eq=False)
class StrengthRows:
    """Many strength curves, such as `StrengthCurve.samples` draws, as one `HeightTable`.

    Parameters
    ----------
    height_m : array, shape (h,)
        Heights [m], rising.
    strength_kg : array, shape (n, h)
        Strength of n lifters [kg].
    """

    height_m: Floats
    strength_kg: Floats

    def at(self, height_m: ArrayLike, /) -> Floats:
        """Strength [kg] at heights [m] of shape (p,): shape (n, p)."""
        heights = np.asarray(height_m, dtype=np.float64)
        return np.array([np.interp(heights, self.height_m, row) for row in self.strength_kg])
