"""The search problem as arrays: what each kind adds to each aim under each fixture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.errors import NotInStockError
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.rig import strand_curve
from topheavy.mechanics.slack import dragged_length_m
from topheavy.rigging.fixtures import Fixture, fixtures_of
from topheavy.rigging.kinds import Kind, kinds_of
from topheavy.rigging.limits import Limits
from topheavy.rigging.plates import Loading, loadings, nearest_loadings

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.people import Travel
    from topheavy.gym.stock import Bar, Collar, Stock
    from topheavy.mechanics.ground import Ground
    from topheavy.mechanics.hang import Strand
    from topheavy.rigging.target import Target

    Floats = NDArray[np.float64]

_MEAN_POINTS = 129
_HAIR = 1e-9


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
    """

    stock: Stock
    bar: Bar
    collar: Collar | None
    travel: Travel
    ground: Ground

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
    lift_m : array, shape (s, k, j)
        Length off the floor of one piece, all its strands together [m].
    lift_top_m : array, shape (s, k)
        The same at the top of the lift, for the balance of the ends.
    allowed : array of bool, shape (s, k)
        Whether a kind may hang from a fixture (rules on links at lockout and on the deload).
    straight_kg : array, shape (p,)
        Bar, collars and plates [kg], rising.
    """

    setup: Setup
    target: Target
    limits: Limits
    fixtures: tuple[Fixture, ...]
    kinds: tuple[Kind, ...]
    plates: tuple[Loading, ...]
    wanted_kg: Floats
    held_kg: Floats
    lift_m: Floats
    lift_top_m: Floats
    allowed: NDArray[np.bool_]
    straight_kg: Floats


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
        No chain piece has a twin, no rated feeder and connector come in twos, or the plates
        can't make a straight weight that was fixed.
    """
    limits = limits or Limits()
    pieces = [p for p in setup.stock.fit_chains if not limits.sizes or p.size in limits.sizes]
    kinds = kinds_of(pieces, limits.most_pieces // 2)
    fixtures = fixtures_of(setup.stock, limits)
    _require(kinds, fixtures)
    lift_m = np.array([[_lifts(setup, target, f, k) for k in kinds] for f in fixtures])
    plates = _plates(setup, target, limits)
    return Problem(
        setup=setup,
        target=target,
        limits=limits,
        fixtures=fixtures,
        kinds=kinds,
        plates=plates,
        wanted_kg=np.array([*target.loads_kg, *_mean_of(target)]),
        held_kg=np.array([_held(setup, target, fixture) for fixture in fixtures]),
        lift_m=lift_m[:, :, :-1],
        lift_top_m=lift_m[:, :, -1],
        allowed=np.array([[_allowed(setup, target, f, k) for k in kinds] for f in fixtures]),
        straight_kg=np.array([setup.bar_kg + loading.total_kg for loading in plates]),
    )


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


def _plates(setup: Setup, target: Target, limits: Limits) -> tuple[Loading, ...]:
    room_m = setup.bar.sleeve_m - setup.collar_width_m - limits.loop_width_m
    choices = loadings(setup.stock.plates, room_m)
    if target.straight_weight_kg is None:
        return choices
    return nearest_loadings(choices, setup.bar_kg, target.straight_weight_kg)


def _held(setup: Setup, target: Target, fixture: Fixture) -> list[float]:
    """Load of both suspensions [kg] at each aim."""
    held = fixture.suspension
    if held is None:
        return [0.0] * (len(target.heights_m) + len(_mean_of(target)))
    strands = [strand_curve(strand, setup.ground, "raising") for strand in held.strands()]
    if held.connector_m == 0:
        offset_m = held.feeder_m + setup.ground.surface_m
        strands.append(LoadCurve.lump(held.connector_kg, offset_m))
    curve = LoadCurve.total(strands)
    aims = [2 * float(load) for load in curve.at(target.heights_m)]
    travel = setup.travel
    return aims + [2 * curve.mean(travel.bottom_m, travel.top_m) for _ in _mean_of(target)]


def _lifts(setup: Setup, target: Target, fixture: Fixture, kind: Kind) -> Floats:
    """Length off the floor [m] of one piece at each aim, and at the top of the lift."""
    chain = kind.pieces[0].chain
    lifts = [_lifts_of(strand, setup, target) for strand in fixture.strands_of(chain)]
    together_m: Floats = np.sum(lifts, axis=0)
    return together_m


def _lifts_of(strand: Strand, setup: Setup, target: Target) -> Floats:
    """Length off the floor [m] of one strand at each aim, and at the top of the lift."""
    ground, travel, length_m = setup.ground, setup.travel, strand.length_m
    floor_m = ground.surface_m + ground.pile_m(strand.chain, "raising") + strand.offset_m
    heights = np.array([*target.heights_m, travel.top_m]) - floor_m
    if ground.lay == "dragged":
        lifted = dragged_length_m(heights, length_m, ground.friction)
        path = np.linspace(travel.bottom_m, travel.top_m, _MEAN_POINTS) - floor_m
        dragged = dragged_length_m(path, length_m, ground.friction)
        mean = float(np.trapezoid(dragged)) / (_MEAN_POINTS - 1)
    else:
        lifted = np.clip(heights, 0.0, length_m)
        mean = _mean_clip(travel.bottom_m - floor_m, travel.top_m - floor_m, length_m)
    return np.array([*lifted[:-1], *(mean for _ in _mean_of(target)), lifted[-1]])


def _mean_clip(low_m: float, high_m: float, length_m: float) -> float:
    """Mean of clip(u, 0, length) for u from low to high, exact."""
    area = [
        min(max(u, 0.0), length_m) ** 2 / 2 + max(u - length_m, 0.0) * length_m
        for u in (low_m, high_m)
    ]
    return (area[1] - area[0]) / (high_m - low_m)


def _allowed(setup: Setup, target: Target, fixture: Fixture, kind: Kind) -> bool:
    """Whether a kind under a fixture keeps the rules on deload and links at lockout.

    The strand that reaches lowest tells: the middle link of an odd piece hangs above both others.
    """
    bottom_m = setup.travel.bottom_m - setup.ground.surface_m
    if target.full_deload and bottom_m - fixture.fold_m > _HAIR:
        return False
    chain = kind.pieces[0].chain
    lowest = max(fixture.strands_of(chain), key=lambda s: s.offset_m + s.length_m)
    down_m = lowest.length_m - float(_lifts_of(lowest, setup, target)[-1])
    if target.all_clear and down_m > _HAIR:
        return False
    links_left = down_m / chain.pitch_m
    return target.links_down is None or links_left >= target.links_down - 1e-6
