"""Load-velocity lines as published, and how far the model is from them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from topheavy.errors import BadInputError
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter
from topheavy.lifter.rep import simulate_batch

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    from topheavy.lifter.motion_model import Motion, MotionModel, Pattern
    from topheavy.lifter.rep import Ascents

    Floats = NDArray[np.float64]

Kind = Literal["propulsive", "mean"]
"""Speed averaged until the bar slows by more than free fall, or over the whole way up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadVelocityLine:
    """A published line: 100 x load / 1RM = a v^2 + b v + c.

    Parameters
    ----------
    pattern : {'bench press', 'squat', 'deadlift'}
        The lift.
    kind : {'propulsive', 'mean'}
        Which speed v is [m/s].
    a, b, c : float
        Coefficients [% s2/m2, % s/m, %].
    error_m_per_s : float
        Standard error of a lifter's speed about the line [m/s].
    low, high : float
        Loads it holds for, as shares of 1RM [-].
    source, seen : str
        Who published it, and how its numbers were seen.
    """

    pattern: Pattern
    kind: Kind
    a: float
    b: float
    c: float
    error_m_per_s: float
    low: float
    high: float
    source: str
    seen: str

    def speed_at(self, share: ArrayLike) -> Floats:
        """Speed of the bar [m/s] at loads, as shares of 1RM [-].

        Raises
        ------
        BadInputError
            A load outside what was measured.
        """
        loads = np.asarray(share, dtype=np.float64)
        if not np.all((loads >= self.low - 1e-9) & (loads <= self.high + 1e-9)):
            raise BadInputError(
                "The published line does not reach this load",
                field="share",
                got=share,
                wanted=f"{self.low:g} to {self.high:g} of 1RM",
            )
        rest = self.c - 100.0 * loads
        if self.a == 0.0:
            return -rest / self.b
        root = np.sqrt(self.b**2 - 4.0 * self.a * rest)
        return np.asarray((-self.b - root) / (2.0 * self.a))

    def share_at(self, speed_m_per_s: ArrayLike) -> Floats:
        """Load as a share of 1RM [-] at speeds of the bar [m/s], lifted as fast as can be.

        Raises
        ------
        BadInputError
            A speed outside what was measured.
        """
        speed = np.asarray(speed_m_per_s, dtype=np.float64)
        slowest, fastest = (float(self.speed_at(share)) for share in (self.high, self.low))
        if not np.all((speed >= slowest - 1e-9) & (speed <= fastest + 1e-9)):
            raise BadInputError(
                "The published line does not reach this speed",
                field="speed_m_per_s",
                got=speed_m_per_s,
                wanted=f"{slowest:.2f} to {fastest:.2f} m/s",
            )
        return (self.a * speed**2 + self.b * speed + self.c) / 100.0


BENCH_LINE: Final = LoadVelocityLine(
    pattern="bench press",
    kind="propulsive",
    a=8.4326,
    b=-73.501,
    c=112.33,
    error_m_per_s=0.05,
    low=0.30,
    high=1.0,
    source="Gonzalez-Badillo & Sanchez-Medina, Int. J. Sports Med. 31 (2010) 347; 120 men, "
    "Smith machine",
    seen="coefficients from memory; abstract read: R2 0.98 and 0.16 +- 0.04 m/s at 1RM, from "
    "which the line is 0.01 m/s off; the error about the line is reckoned from R2",
)

SQUAT_LINE: Final = LoadVelocityLine(
    pattern="squat",
    kind="propulsive",
    a=-5.961,
    b=-50.71,
    c=117.0,
    error_m_per_s=0.06,
    low=0.30,
    high=1.0,
    source="Sanchez-Medina et al., Sports Med. Int. Open 1 (2017) E80; 80 men, full squat, "
    "Smith machine",
    seen="coefficients from memory; abstract read: R2 0.96, error 0.06 m/s, 0.32 +- 0.03 m/s at "
    "1RM, which the line meets",
)

DEADLIFT_LINE: Final = LoadVelocityLine(
    pattern="deadlift",
    kind="propulsive",
    a=0.0,
    b=-100.0 / 1.2,
    c=120.0,
    error_m_per_s=0.07,
    low=0.30,
    high=1.0,
    source="put together: straight line (Benavides-Ubric et al., J. Sports Sci. Med. 19 (2020) "
    "452) through 0.24 +- 0.03 m/s at 1RM and with greatest power at 60 % of 1RM "
    "(Moran-Navarro et al., Eur. J. Sport Sci. 21 (2021) 678)",
    seen="no coefficient seen: straightness and R2 0.91 to 0.93, which the error is reckoned from, "
    "in an abstract, the other two facts at second hand; the weakest of the three lines",
)

LINES: Final[Mapping[Pattern, LoadVelocityLine]] = {
    line.pattern: line for line in (BENCH_LINE, SQUAT_LINE, DEADLIFT_LINE)
}
"""The line each model was fitted to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BestSpeed:
    """Mean speed of a 1RM [m/s] and its standard deviation between lifters."""

    mean_m_per_s: float
    sd_m_per_s: float
    source: str


POWERLIFTERS: Final[Mapping[Pattern, BestSpeed]] = {
    "squat": BestSpeed(mean_m_per_s=0.23, sd_m_per_s=0.05, source="Helms et al. 2017"),
    "bench press": BestSpeed(mean_m_per_s=0.10, sd_m_per_s=0.04, source="Helms et al. 2017"),
    "deadlift": BestSpeed(mean_m_per_s=0.14, sd_m_per_s=0.05, source="Helms et al. 2017"),
}
"""Helms et al., J. Strength Cond. Res. 31 (2017) 292 (abstract read): 15 powerlifters, who grind
slower than the students that the lines were measured on. With chain these need not carry over."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Misfit:
    """Model against published line.

    Parameters
    ----------
    share : array, shape (p,)
        Loads, as shares of 1RM [-].
    published_m_per_s, simulated_m_per_s : array, shape (p,)
        Speeds [m/s]; nan where the simulated rep is missed.
    """

    share: Floats
    published_m_per_s: Floats
    simulated_m_per_s: Floats

    @property
    def rms_m_per_s(self) -> float:
        """Root mean square of the differences [m/s]."""
        return float(np.sqrt(np.mean((self.simulated_m_per_s - self.published_m_per_s) ** 2)))


CHECKED_AT: Final = (0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
"""Shares of 1RM that model and line are compared at."""


def misfit(
    model: MotionModel, motion: Motion | None = None, travel_m: float | None = None
) -> Misfit:
    """Compare the model with the published line of its lift, plain weight.

    Parameters
    ----------
    model : MotionModel
        The model.
    motion : Motion, optional
        Other numbers than its own, of one lifter.
    travel_m : float, optional
        Another travel than its own [m].

    Examples
    --------
    >>> from topheavy.lifter.motion_model import BENCH
    >>> round(misfit(BENCH).rms_m_per_s, 3)
    0.012
    """
    line = LINES[model.pattern]
    share = np.array(CHECKED_AT)
    ascents = plain_reps(motion or model.typical(), share, travel_m or model.travel_m.value)
    return Misfit(
        share=share,
        published_m_per_s=line.speed_at(share),
        simulated_m_per_s=speed_of(ascents, line.kind),
    )


def plain_reps(motion: Motion, share: ArrayLike, travel_m: float) -> Ascents:
    """Simulate reps with plain weight: one for each load, or one load for each lifter.

    Parameters
    ----------
    motion : Motion
        Numbers of one lifter or of n.
    share : array_like
        Load as a share of 1RM [-].
    travel_m : float
        Travel [m].
    """
    lifter = RepLifter(best_kg=_BEST_KG, bottom_m=0.0, top_m=travel_m)
    loads = _BEST_KG * np.asarray(share, dtype=np.float64)
    return simulate_batch(RepBatch.of(lifter, OnBar(straight_kg=0.0), motion, straight_kg=loads))


def speed_of(ascents: Ascents, kind: Kind) -> Floats:
    """Speed [m/s] of each rep in the terms of a line; nan for a missed one."""
    speed = ascents.propulsive_m_per_s if kind == "propulsive" else ascents.mean_m_per_s
    return np.where(ascents.completed, speed, np.nan)


_BEST_KG: Final = 100.0
