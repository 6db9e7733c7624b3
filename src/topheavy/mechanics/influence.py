"""Which uncertain inputs move each strand of a rig, and by how much."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from math import hypot, pi, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.mechanics.banded import peg_u_m
from topheavy.mechanics.chain import require_not_negative
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.hang import Doubled
from topheavy.mechanics.normal import cumulative
from topheavy.mechanics.rig import strand_curve

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import ArrayLike, NDArray

    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Hang, Way
    from topheavy.mechanics.rig import End, Rig

    Floats = NDArray[np.float64]

COMPETITION_RELATIVE_U: Final = 0.0025 / sqrt(3)
"""Standard uncertainty of a competition plate or bar [-]: 0.25 % as the half-width of a
rectangle (IPF Technical Rules, discs; GUM 4.3.7)."""

BAR: Final = "bar and collars"
PLATES: Final = "plates"
HEIGHT: Final = "bar height"
BOTTOM: Final = "bottom height"
TOP: Final = "top height"
PILE: Final = "pile height"
PILE_RULE: Final = f"{PILE}, rule for all strands"
FRICTION: Final = "floor friction"

_LEAST_SPREAD_M: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class InputSpread:
    """Standard uncertainties that neither the rig nor its ground carries.

    Parameters
    ----------
    height_u_m : float
        Of a height of the bar [m], >= 0; both ends share it.
    bar_relative_u, plate_relative_u : float
        Of the mass of bar and collars, and of all plates together, as a share [-], >= 0. The
        default is what competition rules allow; a gym's unmarked plates are worse.
    friction_u : float
        Of the floor's friction [-], >= 0; counts only for slack dragged to one side. The default
        is a guess, as the friction itself is.
    """

    height_u_m: float = 0.005
    bar_relative_u: float = COMPETITION_RELATIVE_U
    plate_relative_u: float = COMPETITION_RELATIVE_U
    friction_u: float = 0.2

    def __post_init__(self) -> None:
        for name in ("height_u_m", "bar_relative_u", "plate_relative_u", "friction_u"):
            require_not_negative(name, getattr(self, name))


def smoothed_slope(curve: LoadCurve, height_m: ArrayLike, spread_m: float) -> Floats:
    """Slope of a load curve averaged over a normal spread of the height.

    Sum over the pieces of slope x [Phi((high - h)/s) - Phi((low - h)/s)], and over the jumps of
    jump x phi((knot - h)/s)/s. For one strand of length L at height x above its floor that is
    density x [Phi((L - x)/s) - Phi(-x/s)].

    Parameters
    ----------
    curve : LoadCurve
        Load [kg] by height [m].
    height_m : array_like
        Heights h [m], any shape.
    spread_m : float
        Standard deviation s of the height [m], > 0; below 1e-9 m it counts as that.

    Returns
    -------
    array
        Mean slope [kg/m], the shape of `height_m`.

    Raises
    ------
    BadInputError
        A spread that is not above zero.

    References
    ----------
    Gelb, Applied Optimal Estimation (1974), chapter 6, statistical linearisation (from memory).

    Examples
    --------
    Half the slope on the kink, all of it well above:

    >>> from topheavy.mechanics.curve import LoadCurve
    >>> smoothed_slope(LoadCurve.strand(5.0, 1.0, 0.4), [0.4, 0.5], 0.01).round(6).tolist()
    [2.5, 5.0]
    """
    if not spread_m > 0:
        raise BadInputError(
            "A slope is averaged over a spread above zero", field="spread_m", got=spread_m
        )
    heights = np.asarray(height_m, dtype=np.float64)
    spread_m = max(spread_m, _LEAST_SPREAD_M)
    away = (curve.height_m - heights[..., np.newaxis]) / spread_m
    slopes = (curve.below_kg[1:] - curve.above_kg[:-1]) / np.diff(curve.height_m)
    jumps = curve.above_kg - curve.below_kg
    bells = np.exp(-0.5 * away**2) / (spread_m * sqrt(2 * pi))
    smoothed: Floats = np.diff(cumulative(away), axis=-1) @ slopes + bells @ jumps
    return smoothed


@dataclass(frozen=True, slots=True)
class Part:
    """One strand, lump or band of a rig, and what moves it.

    Parameters
    ----------
    curve : LoadCurve
        Its load [kg] by height of the bar [m].
    shifts_m : mapping of str to float
        By input: how far the part's upper end rises over floor or peg [m] when the input is one
        standard uncertainty more than assumed; with its sign, zeros left out.
    density : str
        Name of what its density was taken from; empty for a feeder or connector.
    density_relative_u : float
        Standard uncertainty of its density as a share [-].
    """

    curve: LoadCurve
    shifts_m: Mapping[str, float]
    density: str = ""
    density_relative_u: float = 0.0

    @property
    def spread_m(self) -> float:
        """Standard deviation of the upper end's height over its floor [m]."""
        return hypot(*self.shifts_m.values())


def rig_parts(rig: Rig, ground: Ground, way: Way, height_u_m: float) -> Iterator[Part]:
    """Every strand, lump and band of a rig with the inputs that move it.

    Parameters
    ----------
    rig : Rig
        What hangs, with the uncertainties of its chain and feeders.
    ground : Ground
        Where the chain lies, with the uncertainty of its pile: one part that all strands share,
        and one that each strand has by itself, named "pile height, left strand 1" and so on.
    way : {'still', 'raising', 'lowering'}
        Which pile height applies.
    height_u_m : float
        Standard uncertainty of the bar's height [m].

    Yields
    ------
    Part
        Left end first, hang by hang, then band by band.
    """
    for side, end in (("left", rig.left), ("right", rig.right)):
        pieces, feeders = itertools.count(1), _feeder_names(end, side)
        heaps = (f"{PILE}, {side} strand {number}" for number in itertools.count(1))
        for hang, feeder in zip(end.hangs, feeders, strict=True):
            names = [c.known_by or f"{side} piece {next(pieces)}" for c in hang.chains]
            moved = {HEIGHT: height_u_m}
            if isinstance(hang, Doubled):
                moved[feeder] = -hang.suspension.feeder_u_m
            yield from _held(hang, moved, ground, way)
            for chain, name in zip(hang.chains, names, strict=True):
                density_u = chain.density_u_kg_per_m / chain.density_kg_per_m
                for strand in hang.strands_of(chain):
                    yield Part(
                        strand_curve(strand, ground, way),
                        _used(moved | _heaped(next(heaps), chain, ground, way)),
                        f"density of chain, {name}",
                        density_u,
                    )
        for band in end.bands:
            # A peg that is higher than measured leaves the band shorter.
            moves = {HEIGHT: height_u_m, f"{band.name}, peg": -peg_u_m(band)}
            yield Part(band.curve(), _used(moves))


def _feeder_names(end: End, side: str) -> list[str]:
    if len(end.hangs) == 1:
        return [f"{side} feeder"]
    return [f"{side} feeder {number}" for number, _ in enumerate(end.hangs, 1)]


def _held(hang: Hang, moved: dict[str, float], ground: Ground, way: Way) -> Iterator[Part]:
    """Feeder and connector of a hang."""
    for strand in hang.strands():
        if strand.chain is not None:
            continue
        # The feeder begins at the bar: its working length moves only what hangs below it.
        moves = moved if strand.offset_m > 0 else {HEIGHT: moved[HEIGHT]}
        yield Part(strand_curve(strand, ground, way), _used(moves))
    mass_kg, offset_m = hang.lump
    if mass_kg > 0:
        yield Part(LoadCurve.lump(mass_kg, offset_m + ground.surface_m), _used(moved))


def _heaped(heap: str, chain: Chain, ground: Ground, way: Way) -> dict[str, float]:
    """What a higher pile does: the rule moves every strand, a heap its own alone."""
    return {PILE_RULE: -ground.rule_u_m(chain, way), heap: -ground.strand_u_m(chain, way)}


def _used(shifts_m: dict[str, float]) -> dict[str, float]:
    return {name: shift_m for name, shift_m in shifts_m.items() if shift_m != 0}
