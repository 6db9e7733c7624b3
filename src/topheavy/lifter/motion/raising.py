"""The forces on the way up, for thousands of reps at once.

The states are height z above the bottom and w = M^k v, where M is all that moves (bar, plates,
limbs, chain off the floor) and k the pick-up coefficient. From

    M dv/dt = F - M g - T - k (dM/dz) v^2        follows        dw/dt = M^(k-1) (F - M g - T),

so what joining links take needs no slope of the load curve, and a connector that leaves the floor
with a jerk is no trouble: w does not jump when M does.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.lifter.motion.joining import Joining

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

CELLS: Final = 256
"""Cells of the height grid that curves are sampled on."""

_A_LINK_KG: Final = 1e-3
_LAST_CELL: Final = np.nextafter(float(CELLS), 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Climb:
    """What the kernel needs of n reps. Tables have CELLS + 1 heights from bottom to top.

    Parameters
    ----------
    hung_kg : array, shape (r, CELLS + 1)
        What hangs, of each of r rigs [kg].
    pull_n : array, shape (r, CELLS + 1), or None
        Pull of bands [N].
    rig : array of int, shape (n,)
        Which rig each rep moves.
    capacity_n : array, shape (n, CELLS + 1)
        Force of the lifter at no speed, fully active and fresh [N].
    steady_kg, limbs_kg : array, shape (n,)
        Bar, plates and limbs; limbs alone [kg].
    travel_m, speed_limit_m_per_s, hill, activation_s, fatigue_s, ease_m_per_s2 : array, shape (n,)
        Travel [m], greatest speed [m/s], Hill's ratio [-], time constants [s], slowing down
        before lockout [m/s2].
    pick_up : array, shape (n,)
        k [-]; must be 1 where nothing hangs, as it has no effect there.
    """

    hung_kg: Floats
    pull_n: Floats | None
    rig: Ints
    capacity_n: Floats
    steady_kg: Floats
    limbs_kg: Floats
    travel_m: Floats
    speed_limit_m_per_s: Floats
    hill: Floats
    activation_s: Floats
    fatigue_s: Floats
    ease_m_per_s2: Floats
    pick_up: Floats

    @property
    def count(self) -> int:
        """How many reps."""
        return self.steady_kg.size

    def part(self, which: Ints) -> Climb:
        """Take the reps `which`."""
        parts = {
            field.name: getattr(self, field.name)[which]
            for field in fields(self)
            if field.name not in ("hung_kg", "pull_n")
        }
        return Climb(hung_kg=self.hung_kg, pull_n=self.pull_n, **parts)

    def held_n(self, cell: int) -> Floats:
        """Force that holds bar, chain, bands and limbs still at a height of the grid [N]."""
        load_n = (self.steady_kg + self.hung_kg[self.rig, cell]) * STANDARD_GRAVITY_M_PER_S2
        if self.pull_n is not None:
            load_n = load_n + self.pull_n[self.rig, cell]
        return np.asarray(load_n)

    @property
    def start_share(self) -> Floats:
        """Activation that just holds the load at the bottom, at most 1 [-], shape (n,)."""
        return np.minimum(self.held_n(0) / self.capacity_n[:, 0], 1.0)


class Rates(NamedTuple):
    """What drives one step: speed [m/s], dw/dt, force of the lifter [N], mass that moves [kg]."""

    speed: Floats
    push: Floats
    force: Floats
    mass: Floats


@dataclass(slots=True)
class Under:
    """The reps still under way, packed close; `keep` drops those that have ended."""

    ids: Ints
    hung_row: Ints
    capacity_row: Ints
    cells_per_m: Floats
    steady: Floats
    per_limit: Floats
    per_hill: Floats
    travel: Floats
    ease: Floats
    joining: Joining | None

    @classmethod
    def of(cls, climb: Climb, which: Ints) -> Under:
        """Pack the reps `which`."""
        k = climb.pick_up[which]
        chain = np.max(climb.hung_kg, axis=1)[climb.rig[which]]
        steady = climb.steady_kg[which]
        loose = bool(np.all(k == 1.0))
        joining = None if loose else Joining.of(steady, np.maximum(chain, _A_LINK_KG), k)
        return cls(
            ids=which,
            hung_row=climb.rig[which] * (CELLS + 1),
            capacity_row=which * (CELLS + 1),
            cells_per_m=CELLS / climb.travel_m[which],
            steady=steady,
            per_limit=1.0 / climb.speed_limit_m_per_s[which],
            per_hill=1.0 / (climb.hill[which] * climb.speed_limit_m_per_s[which]),
            travel=climb.travel_m[which],
            ease=climb.ease_m_per_s2[which],
            joining=joining,
        )

    def keep(self, on: Ints) -> None:
        """Keep only the reps at the places `on`."""
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, Joining):
                value.keep(on)
            elif value is not None:
                setattr(self, field.name, value.take(on))

    def speed(self, climb: Climb, height: Floats, drive: Floats) -> Floats:
        """Speed [m/s] at heights above the bottom [m] and drives w."""
        part: Floats = np.minimum(height * self.cells_per_m, _LAST_CELL)
        whole: Ints = part.astype(np.intp)
        part -= whole
        hung = _read(climb.hung_kg, self.hung_row + whole, part)
        speed = drive / (self.steady + hung)
        return speed if self.joining is None else speed / self.joining.at(hung)

    def rates(self, climb: Climb, height: Floats, drive: Floats, active: Floats) -> Rates:
        """Rates of change at heights above the bottom [m], drives w, and activations [-]."""
        part: Floats = np.minimum(height * self.cells_per_m, _LAST_CELL)
        whole: Ints = part.astype(np.intp)
        part -= whole
        hung_at = self.hung_row + whole
        hung = _read(climb.hung_kg, hung_at, part)
        mass = self.steady + hung
        speed = drive / mass
        bent = None if self.joining is None else self.joining.at(hung)
        if bent is not None:
            speed /= bent
        force = _read(climb.capacity_n, self.capacity_row + whole, part)
        force *= active
        force *= 1.0 - speed * self.per_limit
        force /= 1.0 + speed * self.per_hill
        push = mass * -STANDARD_GRAVITY_M_PER_S2
        push += force
        if climb.pull_n is not None:
            push -= _read(climb.pull_n, hung_at, part)
        if bent is not None:
            push *= bent
        return Rates(speed, push, force, mass)


def _read(table: Floats, at: Ints, part: Floats) -> Floats:
    """Read between neighbours of a table."""
    flat = table.ravel()
    low = flat.take(at)
    rise = flat.take(at + 1)
    rise -= low
    rise *= part
    rise += low
    return rise


def table_at(table: Floats, row: NDArray[np.intp], cell: Floats) -> Floats:
    """Read tables of shape (r, CELLS + 1) between their heights, `cell` [cells] from the bottom."""
    inside: Floats = np.minimum(np.maximum(cell, 0.0), _LAST_CELL)
    whole: Ints = inside.astype(np.intp)
    return _read(table, row * (CELLS + 1) + whole, inside - whole)


def hangs_at(climb: Climb, height_m: Floats, which: Ints) -> tuple[Floats, Floats]:
    """Chain off the floor [kg] and pull of bands [N] of the reps `which`, heights (rows, m)."""
    cell = height_m * (CELLS / climb.travel_m[which])
    hung = table_at(climb.hung_kg, climb.rig[which], cell)
    if climb.pull_n is None:
        return hung, np.zeros_like(hung)
    return hung, table_at(climb.pull_n, climb.rig[which], cell)
