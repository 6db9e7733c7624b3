"""A band on the bar: from its pegs to the sleeve, and what it adds to the load at each height."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import hypot, isfinite
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.errors import BadInputError
from topheavy.mechanics.band import beyond_readings
from topheavy.mechanics.band_knots import band_knots
from topheavy.mechanics.chain import require_not_negative, require_travel
from topheavy.mechanics.curve import LoadCurve

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.band import BandFit

    Floats = NDArray[np.float64]

CURVE_ERROR_KG: Final = 0.005
"""How far a band's load curve is from its law at most [kg]: a tenth of a usual scale's step."""

_ROUNDING_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Peg:
    """Where a band is anchored.

    Parameters
    ----------
    height_m : float
        Above what bar heights are measured from [m], to where the band bears.
    offset_m : float
        How far the peg is from straight below the sleeve [m], to either side with its sign.
    u_m : float
        Standard uncertainty of the height [m], >= 0.
    """

    height_m: float
    offset_m: float = 0.0
    u_m: float = 0.005

    def __post_init__(self) -> None:
        for name in ("height_m", "offset_m"):
            if not isfinite(getattr(self, name)):
                raise BadInputError(
                    "A peg is at a place",
                    field=name,
                    got=getattr(self, name),
                    wanted="a finite number",
                )
        require_not_negative("u_m", self.u_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Banded:
    """A band from a peg to one end of the bar, single or doubled.

    Single: one end on the peg, the other on the sleeve. Doubled: both ends on pegs (the same, or
    one before and one behind) and the middle over the sleeve, or the middle round the peg and
    both ends on the sleeve; then two strands share, each as long as from peg to sleeve, and the
    tension is that of the band at both lengths together. The band is taken to slip freely over
    the sleeve, so both strands pull alike. Only the vertical part of the pull counts on the bar;
    a peg above the bar makes it lighter. The band has no mass: a few hundred grams are left out.

    Parameters
    ----------
    band : BandFit
        What the band pulls at a length.
    peg : Peg
        Where it is anchored.
    travel_m : tuple of float
        Lowest and highest height of the bar that it is used at [m], unracking counted.
    second : Peg or None
        The other anchor of a doubled band; the same peg again when both ends are on it.
    beyond : bool
        Whether the band may be used at lengths nobody read, going straight on.

    Raises
    ------
    BadInputError
        Bottom not below top, a length beyond the longest reading that `beyond` does not allow,
        or a sleeve that would run into a peg while the band pulls.

    Examples
    --------
    >>> from topheavy.mechanics.band import fit_band
    >>> from topheavy.mechanics.band_readings import BandReadings
    >>> read = BandReadings(
    ...     tag="red-1",
    ...     rest_m=0.5,
    ...     length_m=(0.6, 0.8, 1.0, 1.2),
    ...     tension_kg=(3.0, 8.2, 12.0, 14.9),
    ... )
    >>> hang = Banded(band=fit_band(read), peg=Peg(height_m=0.1), travel_m=(0.4, 1.1))
    >>> hang.load_kg([0.55, 0.8, 1.1]).round(1).tolist()
    [0.0, 5.7, 12.1]
    """

    band: BandFit
    peg: Peg
    travel_m: tuple[float, float]
    second: Peg | None = None
    beyond: bool = False

    def __post_init__(self) -> None:
        bottom_m, top_m = self.travel_m
        require_travel(bottom_m, top_m, field="travel_m")
        for peg in self.pegs:
            through = float(self.length_m(peg.height_m))
            if peg.offset_m == 0 and through > self.band.law.rest_m:
                raise BadInputError(
                    f"Band {self.band.tag} still pulls where the sleeve meets its peg",
                    field="peg",
                    got=f"a peg straight below the sleeve, {peg.height_m:g} m up",
                    wanted="that peg to one side, or both at about the same height",
                )
        longest = float(np.max(self.length_m(self.travel_m)))
        if not self.beyond and longest > self.band.law.longest_m + _ROUNDING_M:
            raise beyond_readings(self.band, longest)

    @property
    def name(self) -> str:
        """What it is called among uncertain inputs."""
        return f"band {self.band.tag}"

    @property
    def pegs(self) -> tuple[Peg, ...]:
        """Its anchors: one for a single band, two for a doubled one."""
        return (self.peg,) if self.second is None else (self.peg, self.second)

    def length_m(self, height_m: ArrayLike) -> Floats:
        """Whole length of the band from peg to sleeve, and back when doubled [m]."""
        heights = np.asarray(height_m, dtype=np.float64)
        strands = [np.hypot(heights - peg.height_m, peg.offset_m) for peg in self.pegs]
        length: Floats = np.sum(strands, axis=0)
        return length

    def tension_kg(self, height_m: ArrayLike) -> Floats:
        """Tension in the band [kg] at each height of the bar [m]; 0 when slack.

        Raises
        ------
        BadInputError
            A height where it is longer than its longest reading, unless `beyond`.
        """
        return self.band.tension_kg(self.length_m(height_m), beyond=self.beyond)

    def load_kg(self, height_m: ArrayLike) -> Floats:
        """What the band adds to the bar [kg] at each height [m], any shape: its vertical part.

        Raises
        ------
        BadInputError
            As for `tension_kg`.
        """
        return self.tension_kg(height_m) * self.upright(height_m)

    def side_pull_n(self, height_m: ArrayLike) -> Floats:
        """Horizontal pull on the bar towards the pegs [N] at each height [m], with its sign."""
        heights = np.asarray(height_m, dtype=np.float64)
        shares = [_share(peg.offset_m, heights - peg.height_m, peg.offset_m) for peg in self.pegs]
        pull: Floats = STANDARD_GRAVITY_M_PER_S2 * self.tension_kg(heights) * np.sum(shares, axis=0)
        return pull

    def energy_j(self, height_m: ArrayLike) -> Floats:
        """Energy held in the band [J] at each height [m]: the work that stretched it, exact."""
        energy = self.band.energy_kg_m(self.length_m(height_m), beyond=self.beyond)
        return STANDARD_GRAVITY_M_PER_S2 * energy

    def upright(self, height_m: ArrayLike) -> Floats:
        """Vertical pull on the bar per tension [-]: 1 straight down, up to 2 when doubled."""
        heights = np.asarray(height_m, dtype=np.float64)
        shares = []
        for peg in self.pegs:
            rise = heights - peg.height_m
            shares.append(_share(rise, rise, peg.offset_m))
        upright: Floats = np.sum(shares, axis=0)
        return upright

    def curve(self, error_kg: float = CURVE_ERROR_KG) -> LoadCurve:
        """Load [kg] by height [m], straight between knots.

        Parameters
        ----------
        error_kg : float
            How far it may be from `load_kg` between the knots [kg], > 0; a bound, not a guess.
            At the knots it is exact.

        Returns
        -------
        LoadCurve
            It holds where the band is as long as it was read, and over the travel; beyond that
            it is level and means nothing.
        """
        return _curve(self, error_kg)

    def change_curves(self) -> dict[str, LoadCurve]:
        """Change of the load [kg] by height [m] for each uncertain input of the band's law.

        Each at one standard uncertainty, independent of each other, named as "band red-1,
        reading 1" and "band red-1, rest length".
        """
        heights = self.curve().height_m
        upright = self.upright(heights)
        changes = self.band.tension_changes_kg(self.length_m(heights))
        return {
            f"{self.name}, {name}": LoadCurve.through(heights, change * upright)
            for name, change in changes.items()
        }

    def remarks(self) -> tuple[str, ...]:
        """What must be said of this band beside its numbers.

        That it is extrapolated, or slack all the way.
        """
        lengths = self.length_m(self.travel_m)
        longest, law = float(np.max(lengths)), self.band.law
        said = []
        if longest > law.longest_m + _ROUNDING_M:
            said.append(
                f"Band {self.band.tag} is stretched to {longest:.2f} m, "
                f"{longest - law.longest_m:.2f} m beyond its longest reading: "
                "what it pulls there is a guess. Read it that long before you use it"
            )
        if longest <= law.rest_m:
            said.append(f"Band {self.band.tag} is slack all the way: it adds nothing")
        return tuple(said)


def _share(part: ArrayLike, rise: Floats, offset_m: float) -> Floats:
    """A part of a strand's direction over its length [-]; 0 for a strand without length."""
    length = np.hypot(rise, offset_m)
    share: Floats = np.where(length > 0, part, 0.0) / np.where(length > 0, length, 1.0)
    return share


@lru_cache(maxsize=256)
def _curve(hang: Banded, error_kg: float) -> LoadCurve:
    heights = band_knots(hang, error_kg)
    tension = hang.band.law.tension_kg(hang.length_m(heights))
    return LoadCurve.through(heights, tension * hang.upright(heights))


def peg_u_m(hang: Banded) -> float:
    """Standard uncertainty of where a band is anchored [m]: the mean of its pegs."""
    pegs = hang.pegs
    if len(pegs) == 2 and pegs[0] == pegs[1]:
        return pegs[0].u_m
    return hypot(*(peg.u_m for peg in pegs)) / len(pegs)
