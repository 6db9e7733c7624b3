"""The load curve: what is on the bar at each height, exact and piecewise linear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_travel

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

_SAME_M = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class LoadCurve:
    """Load against height of the bar.

    Between knots the load is linear; at a knot it may jump; below the first and above the last
    knot it is constant. Curves add, so a rig's curve is the sum of what hangs.

    Parameters
    ----------
    height_m : array, shape (n,)
        Knots [m], strictly rising, n >= 1.
    below_kg, above_kg : array, shape (n,)
        Load [kg] just below and just above each knot. At a knot itself the load is `below_kg`.

    Raises
    ------
    BadInputError
        Arrays of unequal shape, knots that do not rise, or a value that is not finite.
    """

    height_m: Floats
    below_kg: Floats
    above_kg: Floats

    def __post_init__(self) -> None:
        for name in ("height_m", "below_kg", "above_kg"):
            array = np.array(getattr(self, name), dtype=np.float64)
            array.setflags(write=False)
            object.__setattr__(self, name, array)
        shapes = {self.height_m.shape, self.below_kg.shape, self.above_kg.shape}
        if len(shapes) != 1 or self.height_m.ndim != 1 or self.height_m.size == 0:
            raise BadInputError("A load curve needs one load below and above each knot")
        if not all(np.isfinite(a).all() for a in (self.height_m, self.below_kg, self.above_kg)):
            raise BadInputError("A load curve needs finite heights and loads")
        if np.any(np.diff(self.height_m) <= 0):
            raise BadInputError("The knots of a load curve must rise", field="height_m")

    @classmethod
    def constant(cls, load_kg: float) -> LoadCurve:
        """Make the curve of plain weight: `load_kg` [kg] at every height."""
        return cls(np.zeros(1), np.full(1, load_kg), np.full(1, load_kg))

    @classmethod
    def through(cls, height_m: ArrayLike, load_kg: ArrayLike) -> LoadCurve:
        """Join points (`height_m` [m], `load_kg` [kg]) by straight lines; level beyond the ends."""
        load = np.asarray(load_kg, dtype=np.float64)
        return cls(np.asarray(height_m, dtype=np.float64), load, load)

    @classmethod
    def strand(cls, density_kg_per_m: float, length_m: float, offset_m: float) -> LoadCurve:
        """Make the curve of a strand: density x clip(height - offset, 0, length).

        Parameters
        ----------
        density_kg_per_m : float
            Mass per length [kg/m], >= 0.
        length_m : float
            Length [m], >= 0. A strand without length weighs nothing.
        offset_m : float
            How far below the bar centre the strand begins [m], any sign.
        """
        if length_m <= 0:
            return cls.constant(0.0)
        return cls.through([offset_m, offset_m + length_m], [0.0, density_kg_per_m * length_m])

    @classmethod
    def lump(cls, mass_kg: float, offset_m: float) -> LoadCurve:
        """Make the curve of a lump of `mass_kg` [kg] hung `offset_m` [m] below the bar centre.

        On the floor (height <= offset) it weighs nothing on the bar.
        """
        return cls(np.full(1, offset_m), np.zeros(1), np.full(1, mass_kg))

    @classmethod
    def total(cls, curves: Iterable[LoadCurve]) -> LoadCurve:
        """Add many curves at once, exactly."""
        parts = list(curves)
        if not parts:
            return cls.constant(0.0)
        knots = np.unique(np.concatenate([part.height_m for part in parts]))
        below = np.sum([part._from_below(knots) for part in parts], axis=0)
        above = np.sum([part._from_above(knots) for part in parts], axis=0)
        return cls(knots, below, above)

    def __add__(self, other: LoadCurve) -> LoadCurve:
        return LoadCurve.total([self, other])

    def __mul__(self, factor: float) -> LoadCurve:
        return LoadCurve(self.height_m, self.below_kg * factor, self.above_kg * factor)

    __rmul__ = __mul__

    def raised(self, by_m: float) -> LoadCurve:
        """Shift the curve up by `by_m` [m]: the same load, so much higher."""
        return LoadCurve(self.height_m + by_m, self.below_kg, self.above_kg)

    def at(self, height_m: ArrayLike) -> Floats:
        """Load [kg] at each height [m], any shape; at a jump, the load just below it."""
        return self._from_below(np.asarray(height_m, dtype=np.float64))

    def slope_at(self, height_m: ArrayLike) -> Floats:
        """Load picked up per metre of lift [kg/m] just above each height [m], jumps left out."""
        rise = np.zeros(self.height_m.size + 1)
        span = np.diff(self.height_m)
        rise[1:-1] = (self.below_kg[1:] - self.above_kg[:-1]) / span
        # Knots that differ by rounding only leave no slope to read between them, just noise.
        for knot in np.flatnonzero(span < _SAME_M)[::-1]:
            rise[knot + 1] = rise[knot + 2]
        heights = np.asarray(height_m, dtype=np.float64)
        return rise[np.searchsorted(self.height_m, heights, side="right")]

    def integral(self, bottom_m: ArrayLike, top_m: ArrayLike) -> Floats:
        """Integral of the load over height [kg m], exact; negative when top is below bottom."""
        return self._area_to(np.asarray(top_m, dtype=np.float64)) - self._area_to(
            np.asarray(bottom_m, dtype=np.float64)
        )

    def mean(self, bottom_m: float, top_m: float) -> float:
        """Mean load [kg] over the travel from `bottom_m` to `top_m` [m], exact.

        Raises
        ------
        BadInputError
            `bottom_m` is not below `top_m`.
        """
        require_travel(bottom_m, top_m)
        return float(self.integral(bottom_m, top_m)) / (top_m - bottom_m)

    def work_j(self, bottom_m: float, top_m: float) -> float:
        """Work [J] to raise the load slowly from `bottom_m` to `top_m` [m]: g x integral."""
        require_travel(bottom_m, top_m)
        return STANDARD_GRAVITY_M_PER_S2 * float(self.integral(bottom_m, top_m))

    @property
    def never_falls(self) -> bool:
        """Whether the load never gets less on the way up (true for everything that hangs)."""
        path = np.column_stack([self.below_kg, self.above_kg]).ravel()
        return bool(np.all(np.diff(path) >= -1e-9 * max(1.0, float(np.max(np.abs(path))))))

    def height_of(self, load_kg: ArrayLike) -> Floats:
        """Lowest height [m] at which each load [kg] is reached: the inverse of `at`.

        Returns
        -------
        array
            ``-inf`` where every height carries the load, ``nan`` where none does.

        Raises
        ------
        BadInputError
            The curve falls somewhere, so a load has no single height.
        """
        if not self.never_falls:
            raise BadInputError("A falling load curve has no inverse")
        loads = np.asarray(load_kg, dtype=np.float64)
        path = np.maximum.accumulate(np.column_stack([self.below_kg, self.above_kg]).ravel())
        heights = np.repeat(self.height_m, 2)
        after = np.searchsorted(path, loads, side="left")
        inside = np.clip(after, 1, path.size - 1)
        low, high = path[inside - 1], path[inside]
        rise = np.where(high > low, high - low, 1.0)
        found = heights[inside - 1] + (heights[inside] - heights[inside - 1]) * (loads - low) / rise
        found = np.where(after == 0, -np.inf, found)
        return np.where(after == path.size, np.nan, found)

    def worst_gap(self, other: LoadCurve, bottom_m: float, top_m: float) -> float:
        """Largest difference [kg] between two curves over the travel, exact."""
        require_travel(bottom_m, top_m)
        gap = self + (-1.0 * other)
        inner = gap.height_m[(gap.height_m > bottom_m) & (gap.height_m < top_m)]
        values = [gap.at([bottom_m, top_m]), gap._from_below(inner), gap._from_above(inner)]
        values.append(gap._from_above(np.array([bottom_m])))
        return float(np.max(np.abs(np.concatenate(values))))

    def _from_below(self, heights: Floats) -> Floats:
        return self._between(heights, np.searchsorted(self.height_m, heights, side="left"))

    def _from_above(self, heights: Floats) -> Floats:
        return self._between(heights, np.searchsorted(self.height_m, heights, side="right"))

    def _between(self, heights: Floats, after: NDArray[np.intp]) -> Floats:
        """Read the line between knot `after - 1` and knot `after`."""
        last = self.height_m.size
        left, right = np.clip(after - 1, 0, last - 1), np.clip(after, 0, last - 1)
        span = np.where(right > left, self.height_m[right] - self.height_m[left], 1.0)
        share = np.where(right > left, (heights - self.height_m[left]) / span, 0.0)
        inner = self.above_kg[left] + share * (self.below_kg[right] - self.above_kg[left])
        value = np.where(after == 0, self.below_kg[0], inner)
        return np.where(after == last, self.above_kg[-1], value)

    def _area_to(self, heights: Floats) -> Floats:
        """Integral [kg m] from the first knot to each height."""
        steps = 0.5 * (self.above_kg[:-1] + self.below_kg[1:]) * np.diff(self.height_m)
        areas = np.concatenate([[0.0], np.cumsum(steps)])
        after = np.searchsorted(self.height_m, heights, side="left")
        left = np.clip(after - 1, 0, self.height_m.size - 1)
        start = np.where(after == 0, self.below_kg[0], self.above_kg[left])
        mean = 0.5 * (start + self._from_below(heights))
        return areas[left] + mean * (heights - self.height_m[left])
