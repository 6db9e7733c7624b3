"""When nothing fits: which limit blocks, and the smallest addition that would do."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import NotInStockError
from topheavy.gym.stock import ChainPiece, Connector, Feeder, FeederSetting, Plate
from topheavy.mechanics.chain import Chain
from topheavy.rigging.trade import best_rig

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.stock import Stock
    from topheavy.rigging.built import BuiltRig
    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Setup
    from topheavy.rigging.target import Target

_MOST_PAIRS: Final = 6
_MOST_LEAN_KG: Final = 2.0
_SMALL_PLATES_KG: Final = (0.25, 0.5, 1.25, 2.5)
_WORKING_CHAIN: Final = (0.016, 0.056, 5.3)
"""Wire diameter [m], pitch [m] and density [kg/m] of DIN 764 16 x 56 mm, the nearest standard
twin of the trade's 5/8 in chain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocker:
    """A limit or rule without which the target could be met.

    Parameters
    ----------
    limit : str
        Which one, in a few words.
    built : BuiltRig
        What could be built without it.
    """

    limit: str
    built: BuiltRig


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """Something to add to the stock that would do.

    Parameters
    ----------
    what : str
        ``"chain"``, ``"feeder"``, ``"connector"`` or ``"plate"``.
    count : int
        How many.
    thing : ChainPiece, Feeder, Connector or Plate
        One of them.
    added_kg : float
        Mass of all of them [kg]; the smallest addition is the lightest.
    built : BuiltRig
        What could then be built; with more chain it may take more pieces than the limit says.
    """

    what: str
    count: int
    thing: ChainPiece | Feeder | Connector | Plate
    added_kg: float
    built: BuiltRig


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """Why the target is not met.

    Parameters
    ----------
    blockers : tuple of Blocker
        Each limit that, dropped by itself, would let the target be met.
    additions : tuple of Addition
        Single additions that would do, lightest first.
    """

    blockers: tuple[Blocker, ...]
    additions: tuple[Addition, ...]


def explain(setup: Setup, target: Target, limits: Limits, tolerance_kg: float) -> Obstacles:
    """Say which limit blocks, how near the stock comes, and what would do.

    Parameters
    ----------
    setup, target, limits
        As for the search.
    tolerance_kg : float
        Largest miss that counts as met [kg].
    """
    return Obstacles(
        blockers=tuple(_blockers(setup, target, limits, tolerance_kg)),
        additions=tuple(
            sorted(_additions(setup, target, limits, tolerance_kg), key=lambda a: a.added_kg)
        ),
    )


def _within(setup: Setup, target: Target, limits: Limits, tolerance_kg: float) -> BuiltRig | None:
    """The nearest rig, whatever its pieces, if it is within tolerance [kg]."""
    free = replace(limits, piece_price_kg=0.0, kind_price_kg=0.0, fold_price_kg_per_m=0.0)
    allowed_kg = min(limits.most_imbalance_kg, _MOST_LEAN_KG)
    try:
        built = best_rig(setup, target, free, tolerance_kg + allowed_kg)
    except NotInStockError:
        return None
    return built if built is not None and built.miss_kg <= tolerance_kg else None


def _blockers(
    setup: Setup, target: Target, limits: Limits, tolerance_kg: float
) -> Iterator[Blocker]:
    for limit, other_setup, other_target, other_limits in _relaxed(setup, target, limits):
        built = _within(other_setup, other_target, other_limits, tolerance_kg)
        if built is not None:
            yield Blocker(limit=limit, built=built)


def _relaxed(
    setup: Setup, target: Target, limits: Limits
) -> Iterator[tuple[str, Setup, Target, Limits]]:
    """The same question with one limit or rule dropped at a time."""
    pieces = len(setup.stock.fit_chains)
    if pieces > limits.most_pieces:
        more = replace(limits, most_pieces=min(pieces, 2 * limits.most_pieces))
        yield f"at most {limits.most_pieces} pieces", setup, target, more
    yield "design factor", setup, target, replace(limits, design_factor=1.0)
    yield "imbalance", setup, target, replace(limits, most_imbalance_kg=math.inf)
    if limits.sizes:
        yield "sizes", setup, target, replace(limits, sizes=())
    longer = replace(setup, bar=replace(setup.bar, sleeve_m=3 * setup.bar.sleeve_m))
    yield "sleeve room", longer, target, limits
    if target.full_deload:
        yield "full deload", setup, replace(target, full_deload=False), limits
    if target.links_down is not None:
        yield "links on the floor", setup, replace(target, links_down=None), limits
    if target.all_clear:
        yield "all clear", setup, replace(target, all_clear=False), limits
    if target.straight_weight_kg is not None:
        yield "straight weight", setup, replace(target, straight_weight_kg=None), limits


def _additions(
    setup: Setup, target: Target, limits: Limits, tolerance_kg: float
) -> Iterator[Addition]:
    """Single additions that bring the target within reach, fewest of each thing."""
    done: set[str] = set()
    for family, added_kg, what, count, thing, stock in _offers(setup, limits):
        if family in done:
            continue
        room = limits
        if what == "chain":
            room = replace(limits, most_pieces=max(limits.most_pieces, 2 * _MOST_PAIRS))
        built = _within(replace(setup, stock=stock), target, room, tolerance_kg)
        if built is not None:
            done.add(family)
            yield Addition(what=what, count=count, thing=thing, added_kg=added_kg, built=built)


_Offer = tuple[str, float, str, int, "ChainPiece | Feeder | Connector | Plate", "Stock"]


def _offers(setup: Setup, limits: Limits) -> Iterator[_Offer]:
    stock = setup.stock
    for feeder in _ideal_feeders(setup):
        more = replace(stock, feeders=(*stock.feeders, feeder))
        yield "feeder", 2 * feeder.whole_m * feeder.density_kg_per_m, "feeder", 2, feeder, more
    for mass_kg in _SMALL_PLATES_KG:
        plate = Plate(mass_kg=mass_kg, width_m=0.012, diameter_m=0.16, count=2)
        yield "plate", 2 * mass_kg, "plate", 2, plate, replace(stock, plates=(*stock.plates, plate))
    strong = _strong_connector(stock, limits)
    more = replace(stock, connectors=(*stock.connectors, strong))
    yield "connector", 2 * strong.mass_kg, "connector", 2, strong, more
    for piece in _chain_offers(setup):
        for pairs in range(1, _MOST_PAIRS + 1):
            extra = tuple(replace(piece, tag=f"new {piece.size} {i + 1}") for i in range(2 * pairs))
            more = replace(stock, chains=(*stock.chains, *extra))
            family = f"chain {piece.size} {piece.chain.links}"
            yield family, 2 * pairs * piece.chain.mass_kg, "chain", 2 * pairs, piece, more


def _ideal_feeders(setup: Setup) -> Iterator[Feeder]:
    """A feeder that puts the fold of each owned connector on the floor at the bottom."""
    stock = setup.stock
    like = stock.feeders[0] if stock.feeders else None
    for connector in stock.connectors:
        length_m = setup.travel.bottom_m - setup.ground.surface_m - connector.length_m
        if length_m > 0 and connector.rating_kg is not None:
            yield Feeder(
                name="new feeder",
                form="rings",
                settings=(FeederSetting(label="the one", length_m=length_m),),
                whole_m=length_m,
                density_kg_per_m=like.density_kg_per_m if like else 0.5,
                rating_kg=connector.rating_kg,
                count=2,
                setting_u_m=0.005,
            )


def _strong_connector(stock: Stock, limits: Limits) -> Connector:
    heaviest_kg = 0.5 * sum(piece.chain.mass_kg for piece in stock.fit_chains)
    like = stock.connectors[0] if stock.connectors else None
    return Connector(
        name="new connector",
        mass_kg=like.mass_kg if like else 0.2,
        length_m=like.length_m if like else 0.07,
        rating_kg=math.ceil(heaviest_kg * limits.design_factor / 50) * 50.0,
        count=2,
    )


def _chain_offers(setup: Setup) -> Iterator[ChainPiece]:
    """One more pair of each kind owned, and 5/8 in chain cut to reach the floor at lockout."""
    seen = set()
    for piece in setup.stock.fit_chains:
        if piece.kind not in seen:
            seen.add(piece.kind)
            yield replace(piece, weighed=False)
    wire_m, pitch_m, density_kg_per_m = _WORKING_CHAIN
    links = 2 * (math.ceil(setup.travel.travel_m / pitch_m) + 2)
    yield ChainPiece(
        tag="new",
        size="5/8 in",
        wire_diameter_m=wire_m,
        chain=Chain(
            links=links,
            pitch_m=pitch_m,
            density_kg_per_m=density_kg_per_m,
            density_u_kg_per_m=0.1 * density_kg_per_m,
            known_by="DIN 764 16 x 56 mm",
        ),
    )
