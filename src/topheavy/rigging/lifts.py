"""How much hangs off the floor at each aim, read for all fixtures at once.

Fixtures of one style differ only in how far down the chain begins. So one load curve for each
style and kind, read at shifted heights, serves them all.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.rig import strand_curve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.mechanics.ground import Ground
    from topheavy.rigging.fixtures import Fixture
    from topheavy.rigging.kinds import Kind

    Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aims:
    """Where loads are read: at heights, as a mean over the travel, and at the top of the lift.

    Parameters
    ----------
    heights_m : tuple of float
        Heights of the bar [m].
    has_mean : bool
        Whether the mean is an aim too; it comes after the heights.
    travel : Travel
        Bottom and top of the lift [m].
    ground : Ground
        Where the chain lies.
    """

    heights_m: tuple[float, ...]
    has_mean: bool
    travel: Travel
    ground: Ground

    def read(self, curve: LoadCurve, drop_m: Floats) -> Floats:
        """Read a curve lowered by each of `drop_m` [m], shape (s,): aims, then top, (s, j + 1)."""
        loads = curve.at(self._read_at - drop_m[:, None])
        if not self.has_mean:
            return loads
        low_m, high_m = self.travel.bottom_m - drop_m, self.travel.top_m - drop_m
        return self._joined(loads, curve.integral(low_m, high_m) / self.travel.travel_m)

    def lifted_m(self, offset_m: Floats, length_m: Floats) -> Floats:
        """Length off the floor [m] of runs that begin `offset_m` [m] below the bar."""
        floor_m = offset_m + self.ground.surface_m
        area = [
            0.5 * np.clip(u, 0, length_m) ** 2 + length_m * np.maximum(u - length_m, 0)
            for u in (self.travel.bottom_m - floor_m, self.travel.top_m - floor_m)
        ]
        lifted_m = np.clip(self._read_at - floor_m[:, None], 0, length_m[:, None])
        return self._joined(lifted_m, (area[1] - area[0]) / self.travel.travel_m)

    def cleared(self, offset_m: Floats) -> Floats:
        """Whether lumps `offset_m` [m] below the bar are off the floor; for the mean, how long."""
        floor_m = offset_m + self.ground.surface_m
        bottom_m, top_m = self.travel.bottom_m, self.travel.top_m
        share = (top_m - np.clip(floor_m, bottom_m, top_m)) / self.travel.travel_m
        return self._joined((self._read_at > floor_m[:, None]).astype(np.float64), share)

    @property
    def _read_at(self) -> Floats:
        return np.array([*self.heights_m, self.travel.top_m])

    def _joined(self, at_heights: Floats, mean: Floats) -> Floats:
        means = [mean[:, None]] if self.has_mean else []
        return np.concatenate([at_heights[:, :-1], *means, at_heights[:, -1:]], axis=1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lifts:
    """Lengths off the floor and on it, over fixtures s and kinds k.

    Parameters
    ----------
    lift_m : array, shape (s, k, j + 1)
        Off the floor of one piece, all its strands together [m]: at each aim, then at the top.
    down_m, lying_m : array, shape (s, k)
        On the floor of each of its lowest strands at the top of the lift [m]: on its pile, and
        were it without one, as links are counted.
    """

    lift_m: Floats
    down_m: Floats
    lying_m: Floats


def chain_lifts(aims: Aims, fixtures: Sequence[Fixture], kinds: Sequence[Kind]) -> Lifts:
    """Read how much of one piece of each kind hangs under each fixture."""
    columns = len(aims.heights_m) + aims.has_mean + 1
    lift_m = np.zeros((len(fixtures), len(kinds), columns))
    down_m, lying_m = np.zeros((2, len(fixtures), len(kinds)))
    fold_m = np.array([fixture.fold_m for fixture in fixtures])
    styles = np.array([fixture.style for fixture in fixtures])
    for style in dict.fromkeys(styles):
        rows = np.flatnonzero(styles == style)
        first = fixtures[int(rows[0])]
        drop_m = fold_m[rows] - first.fold_m
        for k, kind in enumerate(kinds):
            strands = first.strands_of(replace(kind.pieces[0].chain, density_kg_per_m=1.0))
            curves = [strand_curve(strand, aims.ground, "raising") for strand in strands]
            lift_m[rows, k] = aims.read(LoadCurve.total(curves), drop_m)
            ends_m = [strand.offset_m + strand.length_m for strand in strands]
            lowest = int(np.argmax(ends_m))
            still = strand_curve(strands[lowest], aims.ground, "still")
            top_m, length_m = aims.travel.top_m - drop_m, strands[lowest].length_m
            down_m[rows, k] = length_m - curves[lowest].at(top_m)
            lying_m[rows, k] = length_m - still.at(top_m)
    return Lifts(lift_m=lift_m, down_m=down_m, lying_m=lying_m)


def suspension_loads_kg(aims: Aims, fixtures: Sequence[Fixture]) -> Floats:
    """Load of feeder and connector on both ends [kg], at each aim and at the top, (s, j + 1)."""
    total_kg = np.zeros((len(fixtures), len(aims.heights_m) + aims.has_mean + 1))
    held = [(s, held) for s, f in enumerate(fixtures) if (held := f.suspension) is not None]
    runs = [(s, run) for s, suspension in held for run in suspension.strands()]
    if runs:
        offset_m, length_m, density = np.array(
            [(run.offset_m, run.length_m, run.density_kg_per_m) for _, run in runs]
        ).T
        load_kg = 2 * density[:, None] * aims.lifted_m(offset_m, length_m)
        np.add.at(total_kg, [s for s, _ in runs], load_kg)
    lumps = [(s, h.feeder_m, h.connector_kg) for s, h in held if h.connector_m == 0]
    if lumps:
        rows, offset_m, mass_kg = np.array(lumps).T
        total_kg[rows.astype(np.int64)] += 2 * mass_kg[:, None] * aims.cleared(offset_m)
    return total_kg
