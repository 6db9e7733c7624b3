"""The way up, step by step, for thousands of reps at once: classic Runge-Kutta on two states.

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

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Ints = NDArray[np.intp]

CELLS: Final = 256
"""Cells of the height grid that curves are sampled on."""

LONGEST_S: Final = 12.0
"""A rep that still creeps after this time counts as missed."""

STALLED: Final = 1
EASED: Final = 2
ARRIVED: Final = 3
"""How the way up ends: stopped short; eased into lockout; still moving at lockout."""

_LADDER: Final = ((0.03, 0.0025), (0.06, 0.005), (0.6, 0.01), (2.0, 0.02), (LONGEST_S, 0.04))
"""Until when [s] a step of which length [s] is taken: fine while the force builds up."""

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
        k [-].
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

    def rates(self, which: Ints, height_m: Floats, drive: Floats, active: Floats) -> Rates:
        """Rates of change of the reps `which` at heights [m], drives w and activations."""
        return _Under.of(self, which).rates(self, height_m, drive, active)


class Rates(NamedTuple):
    """What drives one step: speed [m/s], dw/dt, force of the lifter [N], mass that moves [kg]."""

    speed: Floats
    push: Floats
    force: Floats
    mass: Floats


@dataclass(slots=True)
class _Under:
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
    pick_up: Floats | None

    @classmethod
    def of(cls, climb: Climb, which: Ints) -> _Under:
        loose = bool(np.all(climb.pick_up[which] == 1.0))
        return cls(
            ids=which,
            hung_row=climb.rig[which] * (CELLS + 1),
            capacity_row=which * (CELLS + 1),
            cells_per_m=CELLS / climb.travel_m[which],
            steady=climb.steady_kg[which],
            per_limit=1.0 / climb.speed_limit_m_per_s[which],
            per_hill=1.0 / (climb.hill[which] * climb.speed_limit_m_per_s[which]),
            travel=climb.travel_m[which],
            ease=climb.ease_m_per_s2[which],
            pick_up=None if loose else climb.pick_up[which],
        )

    def keep(self, mask: NDArray[np.bool_]) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if value is not None:
                setattr(self, field.name, value[mask])

    def rates(self, climb: Climb, height: Floats, drive: Floats, active: Floats) -> Rates:
        cell: Floats = np.minimum(height * self.cells_per_m, _LAST_CELL)
        whole: Ints = cell.astype(np.intp)
        part: Floats = cell - whole
        hung_at = self.hung_row + whole
        mass = self.steady + _read(climb.hung_kg, hung_at, part)
        speed = drive / (mass if self.pick_up is None else mass**self.pick_up)
        force = _read(climb.capacity_n, self.capacity_row + whole, part) * active
        force = force * (1.0 - speed * self.per_limit) / (1.0 + speed * self.per_hill)
        push = force - mass * STANDARD_GRAVITY_M_PER_S2
        if climb.pull_n is not None:
            push = push - _read(climb.pull_n, hung_at, part)
        if self.pick_up is not None:
            push = push * mass ** (self.pick_up - 1.0)
        return Rates(speed, push, force, mass)


def _read(table: Floats, at: Ints, part: Floats) -> Floats:
    """Read between neighbours of a table."""
    flat = table.ravel()
    low = flat.take(at)
    return low + part * (flat.take(at + 1) - low)


@dataclass(slots=True, eq=False)
class _Clock:
    """Activation A(t) and freshness phi(t), carried on by products instead of exponentials."""

    rest: Floats
    fresh: Floats
    rest_half: Floats
    fresh_half: Floats

    @classmethod
    def start(cls, climb: Climb) -> _Clock:
        ones = np.ones(climb.count)
        return cls(1.0 - climb.start_share, ones, ones, ones)

    def set_step(self, climb: Climb, ids: Ints, step_s: float) -> None:
        self.rest_half = np.exp(-0.5 * step_s / climb.activation_s[ids])
        self.fresh_half = np.exp(-0.5 * step_s / climb.fatigue_s[ids])

    def half_on(self) -> Floats:
        self.rest = self.rest * self.rest_half
        self.fresh = self.fresh * self.fresh_half
        return self.active

    @property
    def active(self) -> Floats:
        return (1.0 - self.rest) * self.fresh

    def keep(self, mask: NDArray[np.bool_]) -> None:
        for field in fields(self):
            setattr(self, field.name, getattr(self, field.name)[mask])


@dataclass(slots=True, eq=False)
class Steps:
    """Every step of n reps, and the step in which each ended.

    Rows of `height_m`, `speed_m_per_s` and `force_n` belong to `time_s`; what stands after the
    step in which a rep ended has no meaning. `last` holds that step's index, `end` how it ended.
    `work_j` is the lifter's work up to the beginning of that step. The first row's speed is 0.
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    force_n: Floats
    drive: Floats
    push: Floats
    last: Ints
    end: NDArray[np.int8]
    work_j: Floats


def climb_up(climb: Climb, fineness: int = 1) -> Steps:
    """Raise every rep from rest at the bottom until it stalls or reaches lockout.

    Parameters
    ----------
    climb : Climb
        The reps.
    fineness : int
        Divides every step [-], >= 1.
    """
    steps = list(_ladder(fineness))
    kept = _empty(climb, steps)
    under = _Under.of(climb, np.arange(climb.count))
    clock = _Clock.start(climb)
    z, w, work = (np.zeros(climb.count) for _ in range(3))
    now = under.rates(climb, z, w, clock.active)
    _write(kept, 0, under.ids, z, w, now)
    size = 0.0
    for row, step_s in enumerate(steps):
        if step_s != size:
            size = step_s
            clock.set_step(climb, under.ids, size)
        z, w, new, gain = _step(climb, under, clock, (z, w, now), size)
        _write(kept, row + 1, under.ids, z, w, new)
        over = _ending(under, z, w, new)
        if over.any():
            _note(kept, row, under.ids, over, work)
            on = over == 0
            if not on.any():
                break
            under.keep(on)
            clock.keep(on)
            z, w, work, gain = z[on], w[on], work[on], gain[on]
            new = Rates(*(value[on] for value in new))
        now = new
        work = work + gain
    else:
        _note(kept, len(steps) - 1, under.ids, np.full(under.ids.size, STALLED, np.int8), work)
    return kept


def _step(
    climb: Climb, under: _Under, clock: _Clock, was: tuple[Floats, Floats, Rates], h: float
) -> tuple[Floats, Floats, Rates, Floats]:
    """One step of classic Runge-Kutta; also the work of the lifter in it [J]."""
    z, w, one = was
    middle = clock.half_on()
    two = under.rates(climb, z + 0.5 * h * one.speed, w + 0.5 * h * one.push, middle)
    three = under.rates(climb, z + 0.5 * h * two.speed, w + 0.5 * h * two.push, middle)
    end = clock.half_on()
    four = under.rates(climb, z + h * three.speed, w + h * three.push, end)
    z = z + h / 6.0 * (one.speed + 2.0 * (two.speed + three.speed) + four.speed)
    w = w + h / 6.0 * (one.push + 2.0 * (two.push + three.push) + four.push)
    power = two.force * two.speed + three.force * three.speed
    gain = h / 6.0 * (one.force * one.speed + 2.0 * power + four.force * four.speed)
    return z, w, under.rates(climb, z, w, end), gain


def _ending(under: _Under, z: Floats, w: Floats, now: Rates) -> NDArray[np.int8]:
    """Tell which reps end with this step, and how: 0 is not yet.

    A lifter eases off once slowing down steadily just reaches lockout, and only one who has more
    force than that takes: a bar that slows by itself is pushed on.
    """
    left = under.travel - z
    net = now.push if under.pick_up is None else now.push * now.mass ** (1.0 - under.pick_up)
    spare = net >= -under.ease * now.mass
    eased = (now.speed**2 >= 2.0 * under.ease * left) & spare
    over = np.where(eased, EASED, np.where(left <= 0.0, ARRIVED, 0))
    return np.where(w <= 0.0, STALLED, over).astype(np.int8)


def _ladder(fineness: int) -> Iterator[float]:
    start_s = 0.0
    for until_s, step_s in _LADDER:
        count = round((until_s - start_s) / step_s) * fineness
        yield from [step_s / fineness] * count
        start_s = until_s


def _empty(climb: Climb, steps: list[float]) -> Steps:
    rows = (len(steps) + 1, climb.count)
    time = np.concatenate([[0.0], np.cumsum(steps)])
    z, v, force, w, push = (np.empty(rows) for _ in range(5))
    last, end = np.zeros(climb.count, np.intp), np.zeros(climb.count, np.int8)
    return Steps(time, z, v, force, w, push, last, end, np.zeros(climb.count))


def _write(kept: Steps, row: int, ids: Ints, z: Floats, w: Floats, now: Rates) -> None:
    values = (z, now.speed, now.force, w, now.push)
    tables = (kept.height_m, kept.speed_m_per_s, kept.force_n, kept.drive, kept.push)
    for table, value in zip(tables, values, strict=True):
        table[row, ids] = value


def _note(kept: Steps, row: int, ids: Ints, over: NDArray[np.int8], work: Floats) -> None:
    gone = over != 0
    kept.last[ids[gone]] = row
    kept.end[ids[gone]] = over[gone]
    kept.work_j[ids[gone]] = work[gone]
