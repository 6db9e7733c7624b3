"""The way down: lowered under control, or let go. Chain falls freely at most; bands pull."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.lifter.motion.inputs import HeightTable, OnBar, RepLifter

    Floats = NDArray[np.float64]

_POINTS = 401


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Descent:
    """The bar on its way down.

    Parameters
    ----------
    time_s, height_m, speed_m_per_s, acceleration_m_per_s2, force_n : array, shape (p,)
        Time [s], height above the floor [m], speed and acceleration downwards [m/s, m/s2],
        force of the lifter on the bar, limbs left out [N].
    stopped : bool
        The bar came to rest before the bottom.
    """

    time_s: Floats
    height_m: Floats
    speed_m_per_s: Floats
    acceleration_m_per_s2: Floats
    force_n: Floats
    stopped: bool = False

    @property
    def duration_s(self) -> float:
        """How long it takes [s]."""
        return float(self.time_s[-1])

    @property
    def peak_m_per_s(self) -> float:
        """Greatest speed downwards [m/s]."""
        return float(np.max(self.speed_m_per_s))

    @property
    def end_m_per_s(self) -> float:
        """Speed at the bottom [m/s]: what chest or safeties would have to stop."""
        return float(self.speed_m_per_s[-1])

    @property
    def peak_g(self) -> float:
        """Greatest acceleration downwards [g]."""
        return float(np.max(self.acceleration_m_per_s2)) / STANDARD_GRAVITY_M_PER_S2

    @property
    def faster_than_free_fall(self) -> bool:
        """Whether the bar was pulled down, as only bands or the lifter can."""
        return self.peak_g > 1.0 + 1e-9

    @property
    def peak_force_n(self) -> float:
        """Greatest force of the lifter [N]."""
        return float(np.max(self.force_n))

    @property
    def work_j(self) -> float:
        """Work that the lifter takes up on the way down [J]."""
        mean_n = 0.5 * (self.force_n[1:] + self.force_n[:-1])
        return float(np.sum(mean_n * -np.diff(self.height_m)))


def lower_under_control(lifter: RepLifter, on_bar: OnBar, seconds: float) -> Descent:
    """Lower the bar from lockout to the bottom, from rest to rest, as smoothly as can be.

    Parameters
    ----------
    lifter : RepLifter
        Whose heights.
    on_bar : OnBar
        What is on the bar.
    seconds : float
        How long it takes [s], > 0.

    Returns
    -------
    Descent
        Least-jerk motion: speed peaks at 1.875, acceleration at 5.77 times travel over time
        (squared). The path is assumed; real lifters differ.

    References
    ----------
    Least-jerk polynomial: Flash & Hogan, J. Neurosci. 5 (1985) 1688 (memory).

    Examples
    --------
    >>> from topheavy.lifter.motion.inputs import OnBar, RepLifter
    >>> lifter = RepLifter(best_kg=100.0, bottom_m=0.75, top_m=1.15)
    >>> round(lower_under_control(lifter, OnBar(straight_kg=80.0), 2.0).peak_m_per_s, 3)
    0.375
    """
    require_positive("seconds", seconds)
    part = np.linspace(0.0, 1.0, _POINTS)
    done = part**3 * (10.0 - 15.0 * part + 6.0 * part**2)
    speed = 30.0 * part**2 * (1.0 - part) ** 2 * lifter.travel_m / seconds
    gain = 60.0 * part * (1.0 - part) * (1.0 - 2.0 * part) * lifter.travel_m / seconds**2
    height = lifter.top_m - lifter.travel_m * done
    hung, band = _loads(on_bar, height)
    apparent = STANDARD_GRAVITY_M_PER_S2 - gain
    chain_n = hung * np.maximum(apparent, 0.0)
    return Descent(
        time_s=part * seconds,
        height_m=height,
        speed_m_per_s=speed,
        acceleration_m_per_s2=gain,
        force_n=on_bar.straight_kg * apparent + chain_n + STANDARD_GRAVITY_M_PER_S2 * band,
    )


def let_go(lifter: RepLifter, on_bar: OnBar, resist_kg: float = 0.0) -> Descent:
    """Let the bar down from lockout with a steady push against it, or none at all.

    Parameters
    ----------
    lifter : RepLifter
        Whose heights.
    on_bar : OnBar
        What is on the bar; its plates, bar and collars must weigh something.
    resist_kg : float
        Steady push of the lifter, as the weight it would hold [kg], >= 0; 0: let go.

    Returns
    -------
    Descent
        With plates and chain never faster than free fall, whatever hangs; bands, which pull but
        have no mass, drive the bar down at (1 + tension / weight) g, and chain then goes slack.
        It ends where the bar stops, when the push holds what is left of the load.

    Raises
    ------
    BadInputError
        Nothing on the bar, or a push that holds the load at lockout.

    Examples
    --------
    >>> from topheavy.lifter.motion.inputs import OnBar, RepLifter
    >>> from topheavy.mechanics.curve import LoadCurve
    >>> lifter = RepLifter(best_kg=100.0, bottom_m=0.75, top_m=1.15)
    >>> chain = OnBar(straight_kg=60.0, hung=LoadCurve.strand(20.0, 1.0, 0.75))
    >>> round(let_go(lifter, chain).peak_g, 6)
    1.0
    >>> band = OnBar(straight_kg=60.0, band=LoadCurve.through([0.75, 1.15], [6.0, 24.0]))
    >>> round(let_go(lifter, band).peak_g, 6)
    1.4
    """
    require_positive("straight_kg", on_bar.straight_kg)
    require_not_negative("resist_kg", resist_kg)
    height = np.linspace(lifter.top_m, lifter.bottom_m, 4 * _POINTS)
    hung, band = _loads(on_bar, height)
    spare = band - resist_kg
    carried = on_bar.straight_kg + np.where(spare > 0.0, 0.0, hung)
    gain = STANDARD_GRAVITY_M_PER_S2 * (1.0 + spare / carried)
    if gain[0] <= 0.0:
        raise BadInputError(
            "A push as great as the load at lockout holds the bar",
            field="resist_kg",
            got=resist_kg,
            wanted=f"less than {float(on_bar.load_at(lifter.top_m)):g} kg",
        )
    square = np.zeros_like(height)
    square[1:] = np.cumsum((gain[1:] + gain[:-1]) * -np.diff(height))
    rest = np.flatnonzero(square[1:] <= 0.0)
    end = int(rest[0]) + 1 if rest.size else height.size
    speed = np.sqrt(square[:end])
    steps_s = -2.0 * np.diff(height[:end]) / (speed[1:] + speed[:-1])
    return Descent(
        time_s=np.concatenate([[0.0], np.cumsum(steps_s)]),
        height_m=height[:end],
        speed_m_per_s=speed,
        acceleration_m_per_s2=gain[:end],
        force_n=np.full(end, resist_kg * STANDARD_GRAVITY_M_PER_S2),
        stopped=bool(rest.size),
    )


def _loads(on_bar: OnBar, height_m: Floats) -> tuple[Floats, Floats]:
    """Chain off the floor on the way down [kg], and pull of bands [kg]."""
    hung: HeightTable = on_bar.hung if on_bar.hung_lowering is None else on_bar.hung_lowering
    band = np.zeros_like(height_m) if on_bar.band is None else on_bar.band.at(height_m)
    return hung.at(height_m), band
