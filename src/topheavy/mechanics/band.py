"""A band: what it pulls at a length, from its own readings of length and tension.

Bands that look alike are not: so nothing is taken from a list or a colour, each band is fitted to
its own readings. The form is the published one, tension against length being curvilinear, second
order, R >= 0.99 (McMaster, Cronin & McGuigan 2010, J Strength Cond Res 24(8): 2056-2064;
abstract); a higher order where good readings show more, as the steep start of real rubber does
when the law begins at rest length (points of Treloar 1944, see the tests). Cold, warm or worn
rubber pulls otherwise than on the day it was read, and a band pulls a little less on the way back
than on the way out; no number here stands for either.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.band_law import BandLaw, rise_basis

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.band_readings import BandReadings

    Floats = NDArray[np.float64]

HIGHEST_DEGREE: Final = 5
BEYOND_U: Final = 0.5
"""Standard uncertainty of what is extrapolated, as a share of how much the tension rises beyond
the longest reading [-]: assumed. Rubber stiffens sooner or later, and then snaps."""

_MISFIT: Final = 0.01
_ROUNDING_M: Final = 1e-9
_ROUNDS: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class BandFit:
    """A fitted band.

    Parameters
    ----------
    tag : str
        The band's name.
    law : BandLaw
        Tension by length.
    modes_kg : tuple of tuple of float
        Independent ways in which the rises of the law may be off [kg], each at one standard
        uncertainty.
    shorter, longer : BandLaw
        The law had the rest length been one standard uncertainty less, or more.
    r_squared : float
        Share of the scatter of the readings that the law tells [-].
    scatter : float
        Root of chi-squared per degree of freedom [-]: about 1 when the readings are as sure as
        was said; above 1 it widens the uncertainty.
    freedom : int
        Readings less what was fitted, >= 1.
    """

    tag: str
    law: BandLaw
    modes_kg: tuple[tuple[float, ...], ...]
    shorter: BandLaw
    longer: BandLaw
    r_squared: float
    scatter: float
    freedom: int

    def tension_kg(self, length_m: ArrayLike, *, beyond: bool = False) -> Floats:
        """Tension [kg as a scale reads it] at each length [m]; 0 when slack.

        Parameters
        ----------
        length_m : array_like
            Lengths [m], >= 0, any shape.
        beyond : bool
            Whether to go straight on beyond the longest reading, where nobody has looked.

        Raises
        ------
        BadInputError
            A length beyond the longest reading that `beyond` does not allow, or below 0.
        """
        return self.law.tension_kg(self._reached(length_m, beyond=beyond))

    def tension_u_kg(self, length_m: ArrayLike, *, beyond: bool = False) -> Floats:
        """Standard uncertainty of the tension [kg] at each length [m].

        Readings, rest length and, beyond the longest reading, half of what the tension rises
        there. Parameters and errors as for `tension_kg`.
        """
        changes = self.tension_changes_kg(self._reached(length_m, beyond=beyond))
        total: Floats = np.sqrt(np.sum([change**2 for change in changes.values()], axis=0))
        return total

    def interval_kg(
        self, length_m: ArrayLike, coverage: float = 0.95, *, beyond: bool = False
    ) -> tuple[Floats, Floats]:
        """Low and high end of the interval that holds the tension [kg]; never below 0.

        Student's t with the degrees of freedom of the fit where the scatter of the readings sets
        the uncertainty, the normal law where what was said of them does (JCGM 100:2008, G.3).

        Parameters
        ----------
        length_m : array_like
            Lengths [m].
        coverage : float
            Probability that the interval is to hold [-], 0 to 1.
        beyond : bool
            As for `tension_kg`.
        """
        from scipy.special import ndtri, stdtrit  # noqa: PLC0415 - slow to import

        if not 0 < coverage < 1:
            raise BadInputError(
                "A coverage is a share", field="coverage", got=coverage, wanted="0 to 1"
            )
        tail = 0.5 + coverage / 2
        factor = float(stdtrit(self.freedom, tail) if self.scatter > 1 else ndtri(tail))
        tension = self.tension_kg(length_m, beyond=beyond)
        half = factor * self.tension_u_kg(length_m, beyond=beyond)
        return np.maximum(tension - half, 0.0), tension + half

    def tension_changes_kg(self, length_m: ArrayLike) -> dict[str, Floats]:
        """Change of the tension [kg] at each length [m] when an input is off by its uncertainty.

        Independent inputs: "reading 1", "reading 2", ... (combinations of the readings that
        don't depend on each other), "rest length" and, where it is used, "beyond the readings".
        """
        lengths = np.asarray(length_m, dtype=np.float64)
        basis = self.law.basis(lengths)
        changes = {
            f"reading {number}": np.asarray(basis @ np.array(mode))
            for number, mode in enumerate(self.modes_kg, 1)
        }
        rest = self.longer.tension_kg(lengths) - self.shorter.tension_kg(lengths)
        changes["rest length"] = 0.5 * rest
        last = self.law.tension_kg(self.law.longest_m)
        more = np.maximum(self.law.tension_kg(lengths) - last, 0.0)
        if np.any(more > 0):
            changes["beyond the readings"] = BEYOND_U * more
        return changes

    def energy_kg_m(self, length_m: ArrayLike, *, beyond: bool = False) -> Floats:
        """Energy held at each length [m], in kg m: the tension's integral from rest length."""
        return self.law.energy_kg_m(self._reached(length_m, beyond=beyond))

    def _reached(self, length_m: ArrayLike, *, beyond: bool) -> Floats:
        lengths = np.asarray(length_m, dtype=np.float64)
        if not np.all((lengths >= 0) & np.isfinite(lengths)):
            raise BadInputError(
                "A length is not negative", field="length_m", wanted="0 or more, finite"
            )
        if not beyond and np.any(lengths > self.law.longest_m + _ROUNDING_M):
            raise beyond_readings(self, float(np.max(lengths)))
        return lengths


def beyond_readings(fit: BandFit, length_m: float) -> BadInputError:
    """Say that a band was never read at such a length [m]."""
    return BadInputError(
        f"Band {fit.tag} was never read that long",
        field="length_m",
        got=f"{length_m:.3f} m, longest reading {fit.law.longest_m:.3f} m",
        wanted="a reading at least that long; or ask to extrapolate, which is a guess",
    )


def fit_band(readings: BandReadings) -> BandFit:
    """Fit a band's law to its readings.

    Weighted least squares with rises that are not negative, so that the tension never falls. The
    weights hold the uncertainty of tension and, through the stiffness, of length. Degree 2 when
    that fits (chi-squared within its 99 % point), else the lowest degree up to 5 that does, else
    the one with the least chi-squared per degree of freedom, and then the uncertainty is widened
    by its root. The rest length's own uncertainty is found by fitting with it less and more.

    Parameters
    ----------
    readings : BandReadings
        Readings of one band.

    Returns
    -------
    BandFit
        The law with what is uncertain about it.

    Examples
    --------
    >>> from topheavy.mechanics.band_readings import BandReadings
    >>> read = BandReadings(
    ...     tag="red-1",
    ...     rest_m=1.0,
    ...     length_m=(1.25, 1.5, 1.75, 2.0),
    ...     tension_kg=(5.4, 10.1, 14.3, 17.9),
    ... )
    >>> fit = fit_band(read)
    >>> round(float(fit.tension_kg(1.6)), 1), round(fit.r_squared, 4)
    (11.9, 1.0)
    """
    best = _simplest(readings)
    degree, rest, rest_u = best.law.degree, readings.rest_m, readings.rest_u_m
    return BandFit(
        tag=readings.tag,
        law=best.law,
        modes_kg=best.modes_kg(),
        shorter=_least_squares(readings, rest - rest_u, degree).law,
        longer=_least_squares(readings, rest + rest_u, degree).law,
        r_squared=best.r_squared,
        scatter=best.scatter,
        freedom=best.freedom,
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Solved:
    """A law through the readings, with rows weighted by their uncertainty."""

    law: BandLaw
    rows: Floats
    chi_squared: float
    r_squared: float

    @property
    def freedom(self) -> int:
        return int(self.rows.shape[0]) - self.law.degree

    @property
    def scatter(self) -> float:
        return float(np.sqrt(self.chi_squared / self.freedom))

    @property
    def fits(self) -> bool:
        from scipy.special import chdtri  # noqa: PLC0415 - slow to import

        return self.chi_squared <= float(chdtri(self.freedom, _MISFIT))

    def modes_kg(self) -> tuple[tuple[float, ...], ...]:
        """Directions of the covariance of the rises, which is the inverse of rows' rows."""
        _, sizes, directions = np.linalg.svd(self.rows, full_matrices=False)
        modes = max(self.scatter, 1.0) * directions / sizes[:, np.newaxis]
        return tuple(tuple(float(rise) for rise in mode) for mode in modes)


def _simplest(readings: BandReadings) -> _Solved:
    """The law of the lowest degree that fits, else the one that fits best for its degree."""
    highest = min(HIGHEST_DEGREE, readings.distinct - 1)
    tried = []
    for degree in range(2, highest + 1):
        solved = _least_squares(readings, readings.rest_m, degree)
        if solved.fits:
            return solved
        tried.append(solved)
    return min(tried, key=lambda solved: solved.scatter)


def _least_squares(readings: BandReadings, rest_m: float, degree: int) -> _Solved:
    """Weighted least squares with a given rest length; the weights settle in a few rounds."""
    from scipy.optimize import nnls  # noqa: PLC0415 - slow to import

    length, tension = np.array(readings.length_m), np.array(readings.tension_kg)
    longest = float(length[-1])
    basis = rise_basis(np.maximum((length - rest_m) / (longest - rest_m), 0.0), degree)
    slope = np.full(length.shape, tension.max() / (longest - rest_m))
    for _ in range(_ROUNDS):
        spread = np.hypot(readings.tension_u_kg, slope * readings.length_u_m)
        # A law without slope and a scale without error would weigh a reading without end.
        spread = np.maximum(spread, 1e-6 * tension.max())
        rows = basis / spread[:, np.newaxis]
        rises, miss = nnls(rows, tension / spread)
        law = BandLaw(rest_m, longest, tuple(float(rise) for rise in rises))
        slope = law.slope_kg_per_m(length)
    whole = float(np.sum((tension - tension.mean()) ** 2))
    left = float(np.sum((tension - basis @ rises) ** 2))
    return _Solved(law, rows, float(miss**2), 1.0 - left / whole if whole > 0 else 0.0)


def rest_length_sensitivity(stretch_ratio: ArrayLike) -> Floats:
    """Relative change of tension per relative change of rest length, for a straight law.

    A band of the same rubber with a longer rest length is stretched less at the same length:
    T = k (L / L0 - 1), so dT / T = -(r / (r - 1)) dL0 / L0 with r = L / L0. The size is returned.

    Parameters
    ----------
    stretch_ratio : array_like
        r [-], > 1.

    Raises
    ------
    BadInputError
        A ratio of 1 or less: a slack band has no tension to be off.

    References
    ----------
    McMaster, Cronin & McGuigan (2010), abstract: 3.5 to 5.2 % in rest length of like bands made
    8 to 19 % in tension.

    Examples
    --------
    >>> float(rest_length_sensitivity(1.5).round(3))
    3.0
    """
    ratio = np.asarray(stretch_ratio, dtype=np.float64)
    if not np.all((ratio > 1) & np.isfinite(ratio)):
        raise BadInputError(
            "A slack band has no tension to be off",
            field="stretch_ratio",
            got=float(np.min(ratio)),
            wanted="length over rest length, above 1",
        )
    return ratio / (ratio - 1.0)


def rest_length_effect(fit: BandFit, length_m: ArrayLike, rest_error: float) -> Floats:
    """Relative change of tension of a like band whose rest length is off, for a fitted law.

    The like band is of the same rubber: the same tension at the same ratio of length to rest
    length.

    Parameters
    ----------
    fit : BandFit
        The band that was read.
    length_m : array_like
        Lengths [m] that both are stretched to: beyond rest length, within the readings.
    rest_error : float
        How much longer the other's rest length is, as a share [-]: 0.05 for 5 %; > -1.

    Returns
    -------
    array
        Tension of the like band over that of this one, less 1 [-]: negative when it is longer.

    Raises
    ------
    BadInputError
        A slack length, or one where either would have to be known beyond the readings.
    """
    if not -1 < rest_error < inf:
        raise BadInputError(
            "A rest length stays above zero", field="rest_error", got=rest_error, wanted="> -1"
        )
    lengths = np.asarray(length_m, dtype=np.float64)
    tension = fit.tension_kg(lengths)
    if not np.all(tension > 0):
        raise BadInputError(
            "A slack band has no tension to be off",
            field="length_m",
            got=f"{float(np.min(lengths)):g} m",
            wanted=f"lengths above {fit.law.rest_m:g} m",
        )
    return fit.tension_kg(lengths / (1.0 + rest_error)) / tension - 1.0
