"""The search problem as arrays: what each kind adds to each aim under each fixture."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import BadInputError, NotInStockError
from topheavy.rigging.band_options import BandOption, BandOptions, band_options
from topheavy.rigging.fixtures import Fixture, fixtures_of
from topheavy.rigging.kinds import Kind, kinds_of
from topheavy.rigging.lifts import Aims, Lifts, chain_lifts, suspension_loads_kg
from topheavy.rigging.limits import Limits
from topheavy.rigging.plates import Loading, loadings, nearest_loadings

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.people import StationPeg, Travel
    from topheavy.gym.stock import Bar, Collar, Stock
    from topheavy.mechanics.ground import Ground
    from topheavy.rigging.target import Target

    Floats = NDArray[np.float64]

_HAIR = 1e-9

_loadings = lru_cache(maxsize=16)(loadings)
"""The same plates come up for every way to hang bands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """Where and with what the search starts.

    Parameters
    ----------
    stock : Stock
        Everything that may be used.
    bar : Bar
        The bar of the station.
    collar : Collar or None
        Collars, one on each end.
    travel : Travel
        Heights of the lift [m].
    ground : Ground
        Where the chain lies.
    pegs : tuple of StationPeg
        Pegs for bands, alike on both sides.
    """

    stock: Stock
    bar: Bar
    collar: Collar | None
    travel: Travel
    ground: Ground
    pegs: tuple[StationPeg, ...] = ()

    @property
    def bar_kg(self) -> float:
        """Bar and both collars [kg]."""
        return self.bar.mass_kg + (2 * self.collar.mass_kg if self.collar else 0.0)

    @property
    def collar_width_m(self) -> float:
        """Sleeve taken by one collar [m]."""
        return self.collar.width_m if self.collar else 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Problem:
    """What `find` needs, in arrays over fixtures s, kinds k, aims j and loadings p.

    Parameters
    ----------
    setup, target, limits : Setup, Target, Limits
        What was asked.
    fixtures, kinds, plates : tuple
        What there is.
    wanted_kg : array, shape (j,)
        Load wanted at each aim [kg], straight weight included; a mean comes last.
    held_kg : array, shape (s, j)
        Load of both suspensions at each aim [kg].
    fold_price_kg : array, shape (s,)
        Price of a fold far from the floor at the bottom of the lift [kg].
    lift_m : array, shape (s, k, j)
        Length off the floor of one piece, all its strands together [m].
    lift_top_m : array, shape (s, k)
        The same at the top of the lift, for the balance of the ends.
    allowed : array of bool, shape (s, k)
        Whether a kind may hang from a fixture (rules on links at lockout and on the deload).
    straight_kg : array, shape (p,)
        Bar, collars and plates [kg], rising.
    bands : BandOptions
        Bands that may go on beside the chain, or instead of it.
    band : BandOption or None
        Those that are on; their load is not in `held_kg`.
    """

    setup: Setup
    target: Target
    limits: Limits
    fixtures: tuple[Fixture, ...]
    kinds: tuple[Kind, ...]
    plates: tuple[Loading, ...]
    wanted_kg: Floats
    held_kg: Floats
    fold_price_kg: Floats
    lift_m: Floats
    lift_top_m: Floats
    allowed: NDArray[np.bool_]
    straight_kg: Floats
    bands: BandOptions = field(default_factory=BandOptions)
    band: BandOption | None = None

    @property
    def has_chain(self) -> bool:
        """Whether there is chain to hang, and something to hang it from."""
        return bool(self.kinds and self.fixtures and self.limits.most_pieces >= 2)

    def with_band(self, option: BandOption, *, chain: bool) -> Problem | None:
        """Put bands on, beside chain or without any; None where the sleeve has no room for them.

        Their loops take the room of plates.
        """
        try:
            plates = _plates(self.setup, self.target, self.limits, option.each_end + chain)
        except (BadInputError, NotInStockError):
            return None
        return replace(
            self, band=option, plates=plates, straight_kg=_straight_kg(self.setup, plates)
        )


def pose(setup: Setup, target: Target, limits: Limits | None = None) -> Problem:
    """Set the search up.

    Parameters
    ----------
    setup : Setup
        Stock, bar, heights and floor.
    target : Target
        What is wanted.
    limits : Limits, optional
        What must not be exceeded.

    Raises
    ------
    NotInStockError
        Without bands: no chain piece has a twin, or no rated feeder and connector come in twos.
        The plates can't make a straight weight that was fixed.
    BadInputError
        The sleeve has no room for collar and loop.
    """
    limits = limits or Limits()
    pieces = [p for p in setup.stock.fit_chains if not limits.sizes or p.size in limits.sizes]
    kinds = kinds_of(pieces, limits.most_pieces // 2)
    fixtures = fixtures_of(setup.stock, limits)
    if not limits.most_bands:
        _require(kinds, fixtures)
    aims = Aims(
        heights_m=target.heights_m,
        has_mean=target.mean_kg is not None,
        travel=setup.travel,
        ground=setup.ground,
    )
    lifts = chain_lifts(aims, fixtures, kinds)
    plates = _plates(setup, target, limits, loops=1)
    fold_over_m = _fold_over_m(setup, fixtures)
    return Problem(
        setup=setup,
        target=target,
        limits=limits,
        fixtures=fixtures,
        kinds=kinds,
        plates=plates,
        wanted_kg=np.array([*target.loads_kg, *_mean_of(target)]),
        held_kg=suspension_loads_kg(aims, fixtures)[:, :-1],
        fold_price_kg=limits.fold_price_kg_per_m * np.abs(fold_over_m) * _doubled(fixtures),
        lift_m=lifts.lift_m[:, :, :-1],
        lift_top_m=lifts.lift_m[:, :, -1],
        allowed=_allowed(target, kinds, lifts, fold_over_m),
        straight_kg=_straight_kg(setup, plates),
        bands=band_options(setup, aims, limits),
    )


def _straight_kg(setup: Setup, plates: tuple[Loading, ...]) -> Floats:
    return np.array([setup.bar_kg + loading.total_kg for loading in plates])


def _require(kinds: tuple[Kind, ...], fixtures: tuple[Fixture, ...]) -> None:
    if not kinds:
        raise NotInStockError(
            "No two chain pieces alike to hang, one on each end",
            field="stock.chain",
            wanted="at least two fit pieces of the same size and number of links",
        )
    if not fixtures:
        raise NotInStockError(
            "Nothing to hang doubled chain from",
            field="stock.feeder",
            wanted="two feeders alike and two connectors alike, each with its rating",
        )


def _mean_of(target: Target) -> list[float]:
    return [] if target.mean_kg is None else [target.mean_kg]


def _plates(setup: Setup, target: Target, limits: Limits, loops: int) -> tuple[Loading, ...]:
    """Every loading that leaves room on the sleeve for the collar and so many loops."""
    taken_m = setup.collar_width_m + loops * limits.loop_width_m
    room_m = setup.bar.sleeve_m - taken_m
    if room_m < 0:
        raise BadInputError(
            "The sleeve has no room for the collar and the loop of the chain",
            field="bar.sleeve",
            got=f"{setup.bar.sleeve_m:g} m",
            wanted=f"at least {taken_m:g} m",
        )
    choices = _loadings(setup.stock.plates, room_m)
    if target.straight_weight_kg is None:
        return choices
    return nearest_loadings(choices, setup.bar_kg, target.straight_weight_kg)


def _fold_over_m(setup: Setup, fixtures: tuple[Fixture, ...]) -> Floats:
    """How far each fold is above the floor at the bottom of the lift [m]; below is negative."""
    fold_m = np.array([fixture.fold_m for fixture in fixtures])
    return setup.travel.bottom_m - setup.ground.surface_m - fold_m


def _doubled(fixtures: tuple[Fixture, ...]) -> NDArray[np.bool_]:
    return np.array([fixture.style == "doubled" for fixture in fixtures])


def _allowed(
    target: Target, kinds: tuple[Kind, ...], lifts: Lifts, fold_over_m: Floats
) -> NDArray[np.bool_]:
    """Whether each kind under each fixture keeps the rules on deload and links at lockout."""
    allowed = np.ones_like(lifts.down_m, dtype=bool)
    if target.full_deload:
        allowed &= (fold_over_m <= _HAIR)[:, None]
    if target.all_clear:
        allowed &= lifts.down_m <= _HAIR
    if target.links_down is not None:
        pitch_m = np.array([kind.pieces[0].chain.pitch_m for kind in kinds])
        allowed &= lifts.lying_m / pitch_m >= target.links_down - 1e-6
    return allowed
