"""Least squares on scale readings: the numbers of a rig that fit them, and how well.

Every uncertain input is a free number with its stated value and standard uncertainty as one more
observation, so the fit never runs off where the readings say nothing (generalised least squares
with prior values; Bard, Nonlinear Parameter Estimation, 1974, chapter 4, from memory). Free
numbers are counted in their own stated uncertainties: a singular value of the scaled Jacobian
above one is a combination that the readings know better than the statement did.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.mechanics.scale_model import SHIFT, expected_kg, noise_kg

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.mechanics.scale_model import ScaleData, Seen

    Floats = NDArray[np.float64]

_STEP: Final = 1e-3
_TOLD: Final = 1.0
_ROUNDS: Final = 3
_SETTLED: Final = 1e-3
_EVALUATIONS: Final = 25


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ScaleFit:
    """The numbers that fit the readings.

    Parameters
    ----------
    values, covariance : array, shape (p,) and (p, p)
        Free numbers and their covariance; held numbers have none.
    slope : array, shape (p,)
        Change of each number by one stated uncertainty, at the fit: less than stated for a pile
        that is nearly gone.
    predicted_kg, fitted_kg : array, shape (n,)
        Readings expected from the stated numbers and from the fitted ones [kg].
    predicted_u_kg : array, shape (n,)
        Standard uncertainty of the stated prediction [kg].
    predicted_noise_kg, noise_kg : array, shape (n,)
        Standard uncertainty of the reading itself (scale, height, links and pile), as stated and
        as fitted [kg].
    jacobian : array, shape (n, p)
        Change of each reading, in its own noise, by one stated uncertainty of each number.
    residual : array, shape (n,)
        Reading less fit, in its own noise.
    spread : array, shape (n,)
        2 ln(noise / uncertainty of the scale).
    misfit : float
        Sum of squares of readings and stated values together: chi-squared with n degrees of
        freedom when everything is as stated.
    """

    values: Floats
    covariance: Floats
    slope: Floats
    predicted_kg: Floats
    predicted_u_kg: Floats
    predicted_noise_kg: Floats
    fitted_kg: Floats
    noise_kg: Floats
    jacobian: Floats
    residual: Floats
    spread: Floats
    misfit: float

    @property
    def deviance(self) -> float:
        """Misfit with the price of a wide noise: -2 ln of the likelihood, but for a constant."""
        return self.misfit + float(np.sum(self.spread))

    @property
    def told(self) -> int:
        """Combinations of numbers that the readings know better than the statement."""
        return int(np.sum(np.linalg.svd(self.jacobian, compute_uv=False) > _TOLD))

    @property
    def condition(self) -> float:
        """Condition number of what was solved, stated values taken as observations."""
        free = self.jacobian[:, np.diag(self.covariance) > 0]
        return float(np.linalg.cond(np.vstack([free, np.eye(free.shape[1])]))) if free.size else 1.0

    def checks(self) -> Checks:
        """Split the misfit into scatter of the readings and pull on the stated numbers."""
        left, singular, _ = np.linalg.svd(self.jacobian, full_matrices=False)
        told = singular > _TOLD
        along = (left.T @ self.residual)[told]
        pull = float(np.sum(along**2 * (1 + singular[told] ** 2)))
        left = left[:, told]
        free = 1 - np.sum(left**2, axis=1)
        across = self.residual - left @ along
        checkable = free > 1e-6
        alone = np.where(checkable, across / np.sqrt(np.where(checkable, free, 1.0)), np.nan)
        return Checks(self.misfit - pull, self.residual.size - along.size, pull, along.size, alone)


@dataclass(frozen=True, slots=True, eq=False)
class Checks:
    """The misfit in two parts, and each reading against the others.

    Parameters
    ----------
    scatter, scatter_freedom : float, int
        How far the readings are from any curve of this rig: chi-squared and its freedom.
    pull, pull_freedom : float, int
        How far the best curve is from the stated numbers: chi-squared and its freedom.
    alone : array, shape (n,)
        Studentised residual of each reading: its distance from the fit to the others over the
        standard uncertainty of that distance (Cook & Weisberg, Residuals and Influence in
        Regression, 1982, section 2.2, from memory); nan where the others can't check it.
    """

    scatter: float
    scatter_freedom: int
    pull: float
    pull_freedom: int
    alone: Floats


def rough_deviance(seen: Seen, data: ScaleData) -> float:
    """Deviance of the fit by one linear step from the stated numbers.

    Good enough to see which of many fits are worth the whole search.
    """
    free = np.flatnonzero(data.stated_u > 0)
    problem = _Problem(seen, data, free, noise_kg(seen, data, data.stated))
    start, rows = np.zeros(free.size), data.mass_kg.size
    slopes = problem.slopes(start, step=0.5)[:rows]
    misses = problem.residuals(start)[:rows]
    misfit = float(misses @ np.linalg.solve(np.eye(rows) + slopes @ slopes.T, misses))
    return misfit + float(np.sum(problem.spread))


def fit_readings(seen: Seen, data: ScaleData, starts: Sequence[float] = ()) -> ScaleFit:
    """Fit the free numbers to the readings by weighted least squares.

    The noise of a reading depends on how much chain it sees move, so it is taken anew at the end
    of each of three rounds.

    Parameters
    ----------
    seen : Seen
        What the scale sees.
    data : ScaleData
        Readings and stated numbers.
    starts : sequence of float
        More shifts to start from [m], for a feeder that is wholly free: far below the floor a
        curve has no slope to follow.

    Returns
    -------
    ScaleFit
        The end with the least deviance, and standard uncertainties from the Jacobian there.
    """
    free = np.flatnonzero(data.stated_u > 0)
    places = (0.0, *starts) if SHIFT in free else (0.0,)
    ends = []
    for start_m in places:
        theta = np.zeros(free.size)
        if start_m:
            theta[free == SHIFT] = start_m / data.stated_u[SHIFT]
        ends.append(_descend(_Problem(seen, data, free, data.mass_u_kg), theta))
    problem, theta = min(ends, key=lambda end: end[0].deviance(end[1]))
    return _ended(problem, theta)


def _descend(problem: _Problem, theta: Floats) -> tuple[_Problem, Floats]:
    for _ in range(_ROUNDS):
        noise = noise_kg(problem.seen, problem.data, problem.values(theta))
        problem, before = replace(problem, noise_kg=noise), theta
        theta = problem.solved(theta)
        if np.max(np.abs(theta - before), initial=0.0) < _SETTLED:
            break
    return problem, theta


@dataclass(frozen=True, slots=True, eq=False)
class _Problem:
    """The weighted sum of squares in free numbers counted in their stated uncertainties."""

    seen: Seen
    data: ScaleData
    free: NDArray[np.intp]
    noise_kg: Floats

    def values(self, theta: Floats) -> Floats:
        return self.data.values(self.steps(theta))

    def steps(self, theta: Floats) -> Floats:
        steps = np.zeros((*theta.shape[:-1], self.data.stated.size))
        steps[..., self.free] = theta
        return steps

    def reading_kg(self, theta: Floats) -> Floats:
        return expected_kg(self.seen, self.data, self.values(theta))

    def residuals(self, theta: Floats) -> Floats:
        misses = (self.reading_kg(theta) - self.data.mass_kg) / self.noise_kg
        return np.concatenate([misses, theta])

    def misfit(self, theta: Floats) -> float:
        return float(np.sum(self.residuals(theta) ** 2))

    @property
    def spread(self) -> Floats:
        return 2 * np.log(self.noise_kg / self.data.mass_u_kg)

    def deviance(self, theta: Floats) -> float:
        return self.misfit(theta) + float(np.sum(self.spread))

    def solved(self, theta: Floats) -> Floats:
        # The thin call to MINPACK: a weighing makes hundreds of small fits.
        from scipy.optimize import leastsq  # noqa: PLC0415 - slow to import

        if theta.size == 0:
            return theta
        solved: Floats = leastsq(
            self.residuals,
            theta,
            Dfun=self.slopes,
            full_output=True,
            xtol=1e-8,
            ftol=1e-8,
            maxfev=_EVALUATIONS,
        )[0]
        return solved

    def slopes(self, theta: Floats, step: float = _STEP) -> Floats:
        size = theta.size
        moved = theta + step * np.concatenate([np.eye(size), -np.eye(size)])
        loads = self.reading_kg(moved)
        slopes = ((loads[:size] - loads[size:]) / (2 * step)).T / self.noise_kg[:, None]
        return np.vstack([slopes, np.eye(size)])


def _ended(problem: _Problem, theta: Floats) -> ScaleFit:
    data, rows = problem.data, problem.data.mass_kg.size
    size, start = data.stated.size, np.zeros(theta.size)
    jacobian, covariance = np.zeros((rows, size)), np.zeros((size, size))
    jacobian[:, problem.free] = slopes = problem.slopes(theta)[:rows]
    inverse = np.linalg.inv(np.eye(theta.size) + slopes.T @ slopes)
    slope = data.slopes(problem.steps(theta))
    scale = slope[problem.free]
    covariance[np.ix_(problem.free, problem.free)] = scale[:, None] * inverse * scale
    # One whole uncertainty either way: a number can move a strand across its kink.
    stated = problem.slopes(start, step=1.0)[:rows] * problem.noise_kg[:, None]
    return ScaleFit(
        values=problem.values(theta),
        covariance=covariance,
        slope=slope,
        predicted_kg=problem.reading_kg(start),
        predicted_u_kg=np.sqrt(np.sum(stated**2, axis=1)),
        predicted_noise_kg=noise_kg(problem.seen, data, data.stated),
        fitted_kg=problem.reading_kg(theta),
        noise_kg=problem.noise_kg,
        jacobian=jacobian,
        residual=-problem.residuals(theta)[:rows],
        spread=problem.spread,
        misfit=problem.misfit(theta),
    )
