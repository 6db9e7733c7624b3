"""Ten thousand reps: simulated at once, and one by one with scipy's solve_ivp."""

from __future__ import annotations

import statistics
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

import numpy as np

from benchmarks.measure import timed
from benchmarks.reference.one_rep import TIGHT, OneRep, Tolerance
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.motion_model import BENCH
from topheavy.lifter.rep import simulate_batch
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion_model import Motion
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]

COUNT: Final = 10_000
CHECKED: Final = 400
"""Reps that are also solved at tight tolerance, spread over the batch."""

LIFTER: Final = RepLifter(best_kg=140.0, bottom_m=0.80, top_m=1.20)
HUNG: Final = LoadCurve.total(
    [
        LoadCurve.strand(24.0, 0.60, 0.80),
        LoadCurve.lump(0.6, 0.80),
        LoadCurve.strand(1.2, 0.62, 0.18),
    ]
)
"""Two doubled pieces a side: four strands, connectors and feeders, 24 kg/m from the chest on."""

LOOSE: Final = (
    Tolerance("RK45", 1e-4, 1e-6, 200),
    Tolerance("RK45", 1e-5, 1e-7, 200),
    Tolerance("RK45", 1e-6, 1e-8, 200),
    Tolerance("LSODA", 1e-4, 1e-6, 200),
    Tolerance("LSODA", 1e-5, 1e-7, 200),
    Tolerance("LSODA", 1e-6, 1e-8, 200),
)
"""Ways to solve one rep; the quickest that keeps to 0.1 % is the one compared with."""

WANTED: Final = 1e-3


@dataclass(frozen=True, slots=True)
class RepSpeed:
    """What was measured.

    Parameters
    ----------
    batch_s, single_s : float
        Time of all reps at once and of all one by one [s].
    completed : int
        Reps that reach lockout.
    duration_error, force_error : float
        Worst error of the batch against tight tolerance, over the reps checked [-].
    single_duration_error, single_force_error : float
        The same of the reps solved one by one [-].
    way : Tolerance
        How they were solved one by one.
    """

    batch_s: float
    single_s: float
    completed: int
    duration_error: float
    force_error: float
    single_duration_error: float
    single_force_error: float
    way: Tolerance

    @property
    def ratio(self) -> float:
        """How many times faster the batch is [-]."""
        return self.single_s / self.batch_s


def run_reps(count: int = COUNT) -> RepSpeed:
    """Simulate the reps in both ways and compare; whether a rep is missed must agree."""
    motion, straight_kg = drawn(count)
    batch = RepBatch.of(LIFTER, OnBar(straight_kg=0.0, hung=HUNG), motion, straight_kg=straight_kg)
    ascents = simulate_batch(batch)
    before = [timed(lambda: simulate_batch(batch))[0] for _ in range(7)]
    some = np.linspace(0, count - 1, min(CHECKED, count)).astype(np.intp)
    exact = one_by_one(motion, straight_kg, some, TIGHT)
    ours = np.column_stack([ascents.completed, ascents.duration_s, ascents.peak_force_n])[some]
    off = _worst(ours, exact)
    way, loose_off = _quickest(motion, straight_kg, some, exact)
    single_s, singles = timed(lambda: one_by_one(motion, straight_kg, np.arange(count), way))
    _agree(singles, ascents)
    after = [timed(lambda: simulate_batch(batch))[0] for _ in range(7)]
    return RepSpeed(
        batch_s=statistics.median([*before, *after]),
        single_s=single_s,
        completed=int(np.sum(ascents.completed)),
        duration_error=off[0],
        force_error=off[1],
        single_duration_error=loose_off[0],
        single_force_error=loose_off[1],
        way=way,
    )


def drawn(count: int) -> tuple[Motion, Floats]:
    """Lifters with every number drawn from its range, and a straight weight [kg] for each."""
    straight_kg = np.random.default_rng(7).uniform(0.35, 1.1, count) * LIFTER.best_kg
    return BENCH.drawn(count, seed=7), straight_kg - 8.0


def one_by_one(
    motion: Motion, straight_kg: Floats, which: NDArray[np.intp], how: Tolerance
) -> Floats:
    """Solve reps one after another: completed (1 or 0), duration [s], greatest force [N] each."""
    lifter = (LIFTER.best_kg, LIFTER.bottom_m, LIFTER.travel_m)
    columns = {f.name: np.asarray(getattr(motion, f.name)) for f in fields(motion)}
    rows = []
    for i in which.tolist():
        numbers = {name: float(column[i]) for name, column in columns.items()}
        rows.append(OneRep(numbers, lifter, HUNG).solve(float(straight_kg[i]), how))
    return np.array(rows, dtype=np.float64)


def _quickest(
    motion: Motion, straight_kg: Floats, some: NDArray[np.intp], exact: Floats
) -> tuple[Tolerance, tuple[float, float]]:
    """The quickest way that keeps to the wanted error, and its worst errors."""
    good = []
    for how in LOOSE:
        seconds, rows = timed(lambda how=how: one_by_one(motion, straight_kg, some, how))  # type: ignore[misc]
        off = _worst(rows, exact)
        if max(off) <= WANTED:
            good.append((seconds, how, off))
    assert good, "no way to solve one rep keeps to the wanted error"
    _, how, off = min(good, key=lambda one: one[0])
    return how, off


def _worst(rows: Floats, exact: Floats) -> tuple[float, float]:
    assert np.array_equal(rows[:, 0], exact[:, 0]), "a rep is made in one way and missed in another"
    off = np.max(np.abs(rows[:, 1:] / exact[:, 1:] - 1.0), axis=0)
    return float(off[0]), float(off[1])


def _agree(singles: Floats, ascents: Ascents) -> None:
    """All reps agree, but for those so near the limit that either may be right."""
    same = singles[:, 0] == ascents.completed
    assert np.mean(same) > 0.999
    off = np.abs(singles[same, 1] / ascents.duration_s[same] - 1.0)
    assert np.quantile(off, 0.999) < 3 * WANTED


if __name__ == "__main__":
    print(run_reps())
