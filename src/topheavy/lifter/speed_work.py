"""Speed work: how fast the bar goes with chain and without, at equal mean and at equal top load."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar
from topheavy.lifter.rep import simulate_batch

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.lifter.motion.inputs import RepLifter
    from topheavy.lifter.motion_model import Motion
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]

EqualAt = Literal["mean", "top"]
"""Which load of the chain rep equals the plain weight: its mean over the travel, or at lockout."""

SHARES: Final = (0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75)
"""Plain weights of speed work, as shares of 1RM: studies used 45 to 75 %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedRow:
    """One plain weight against the same lifter's chain.

    Parameters
    ----------
    share : float
        Plain weight as a share of 1RM [-].
    equal_at : {'mean', 'top'}
        Which load of the chain rep equals it.
    plain_kg, straight_kg, bottom_kg, top_kg : float
        Plain weight; straight weight, load at bottom and at top of the chain rep [kg].
    plain_mean_m_per_s, chain_mean_m_per_s, plain_peak_m_per_s, chain_peak_m_per_s : float
        Mean and peak speed of both reps [m/s]; nan when missed.
    """

    share: float
    equal_at: EqualAt
    plain_kg: float
    straight_kg: float
    bottom_kg: float
    top_kg: float
    plain_mean_m_per_s: float
    chain_mean_m_per_s: float
    plain_peak_m_per_s: float
    chain_peak_m_per_s: float

    @property
    def mean_gain(self) -> float:
        """Mean speed with chain over plain, less 1 [-]."""
        return self.chain_mean_m_per_s / self.plain_mean_m_per_s - 1.0

    @property
    def peak_gain(self) -> float:
        """Peak speed with chain over plain, less 1 [-]."""
        return self.chain_peak_m_per_s / self.plain_peak_m_per_s - 1.0


def speed_work(
    lifter: RepLifter,
    hung: OnBar,
    motion: Motion,
    equal_at: EqualAt,
    shares: Sequence[float] = SHARES,
) -> tuple[SpeedRow, ...]:
    """Compare bar speed, chain against plain weight, at each share of the 1RM.

    Equal top load and equal mean load answer different questions. With the top equal, chain takes
    load off below and the bar is bound to be faster; with the mean equal, load is only moved up.

    Parameters
    ----------
    lifter : RepLifter
        Who.
    hung : OnBar
        What hangs; its straight weight is set anew for each share.
    motion : Motion
        Numbers of one lifter.
    equal_at : {'mean', 'top'}
        Which load of the chain rep equals the plain weight.
    shares : sequence of float
        Plain weights as shares of 1RM [-].

    Returns
    -------
    tuple of SpeedRow
        One for each share.

    Raises
    ------
    BadInputError
        What hangs is more than the plain weight it should equal.

    Notes
    -----
    A prediction of how fast one rep is, not of any gain from training.
    """
    load = hung.load_at(lifter.grid_m) - hung.straight_kg
    mean_kg = float(np.mean(0.5 * (load[1:] + load[:-1])))
    taken_kg = float(load[-1]) if equal_at == "top" else mean_kg
    plain_kg = lifter.best_kg * np.asarray(shares, dtype=np.float64)
    straight_kg = plain_kg - taken_kg
    if np.any(straight_kg <= 0.0):
        raise BadInputError(
            "What hangs weighs more than the plain weight it should equal",
            field="shares",
            got=f"{taken_kg:g} kg hung ({equal_at}), {float(np.min(plain_kg)):g} kg plain",
            wanted=f"shares above {taken_kg / lifter.best_kg:.2f}",
        )
    bare = OnBar(straight_kg=0.0)
    plain = simulate_batch(RepBatch.of(lifter, bare, motion, straight_kg=plain_kg))
    chain = simulate_batch(RepBatch.of(lifter, hung, motion, straight_kg=straight_kg))
    speeds = (*_speeds(plain), *_speeds(chain))
    return tuple(
        SpeedRow(
            share=float(share),
            equal_at=equal_at,
            plain_kg=float(plain_kg[i]),
            straight_kg=float(straight_kg[i]),
            bottom_kg=float(straight_kg[i] + load[0]),
            top_kg=float(straight_kg[i] + load[-1]),
            plain_mean_m_per_s=float(speeds[0][i]),
            plain_peak_m_per_s=float(speeds[1][i]),
            chain_mean_m_per_s=float(speeds[2][i]),
            chain_peak_m_per_s=float(speeds[3][i]),
        )
        for i, share in enumerate(shares)
    )


def _speeds(ascents: Ascents) -> tuple[Floats, Floats]:
    made = ascents.completed
    return (
        np.where(made, ascents.mean_m_per_s, np.nan),
        np.where(made, ascents.peak_m_per_s, np.nan),
    )
