"""What could be added to a stock: feeders, plates, connectors, chain."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.gym.stock import ChainPiece, Connector, Feeder, FeederSetting, Plate
from topheavy.mechanics.chain import Chain

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.gym.stock import Stock
    from topheavy.rigging.limits import Limits
    from topheavy.rigging.problem import Setup

Thing = ChainPiece | Feeder | Connector | Plate

MOST_PAIRS: Final = 6
"""Pairs of one kind of chain that are offered at most."""

_SMALL_PLATES_KG: Final = (0.25, 0.5, 1.25, 2.5)
_WORKING_CHAIN: Final = (0.016, 0.056, 5.3)
"""Wire diameter [m], pitch [m] and density [kg/m] of DIN 764 16 x 56 mm, the nearest standard
twin of the trade's 5/8 in chain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Some of one thing, and the stock with it.

    Parameters
    ----------
    thing : ChainPiece, Feeder, Connector or Plate
        One of them.
    count : int
        How many.
    added_kg : float
        Mass of all of them [kg].
    stock : Stock
        The stock with them.
    """

    thing: Thing
    count: int
    added_kg: float
    stock: Stock


def offers(setup: Setup, limits: Limits) -> Iterator[tuple[Offer, ...]]:
    """List what could be added, family by family, each from the smallest addition up."""
    stock = setup.stock
    yield tuple(_with_feeder(stock, feeder) for feeder in _ideal_feeders(setup))
    yield tuple(_with_plates(stock, mass_kg) for mass_kg in _SMALL_PLATES_KG)
    yield (_with_connectors(stock, _strong_connector(stock, limits)),)
    for piece in _chain_offers(setup):
        yield tuple(_with_chain(stock, piece, 2 * pairs) for pairs in range(1, MOST_PAIRS + 1))


def _with_feeder(stock: Stock, feeder: Feeder) -> Offer:
    return Offer(
        thing=feeder,
        count=2,
        added_kg=2 * feeder.whole_m * feeder.density_kg_per_m,
        stock=replace(stock, feeders=(*stock.feeders, feeder)),
    )


def _with_plates(stock: Stock, mass_kg: float) -> Offer:
    plate = Plate(mass_kg=mass_kg, width_m=0.012, diameter_m=0.16, count=2)
    more = replace(stock, plates=(*stock.plates, plate))
    return Offer(thing=plate, count=2, added_kg=2 * mass_kg, stock=more)


def _with_connectors(stock: Stock, connector: Connector) -> Offer:
    more = replace(stock, connectors=(*stock.connectors, connector))
    return Offer(thing=connector, count=2, added_kg=2 * connector.mass_kg, stock=more)


def _with_chain(stock: Stock, piece: ChainPiece, count: int) -> Offer:
    extra = tuple(replace(piece, tag=f"new {piece.size} {i + 1}") for i in range(count))
    return Offer(
        thing=piece,
        count=count,
        added_kg=count * piece.chain.mass_kg,
        stock=replace(stock, chains=(*stock.chains, *extra)),
    )


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
    for piece in (*setup.stock.fit_chains, _working_piece(setup)):
        if (piece.size, piece.chain.links) not in seen:
            seen.add((piece.size, piece.chain.links))
            yield replace(piece, weighed=False)


def _working_piece(setup: Setup) -> ChainPiece:
    wire_m, pitch_m, density_kg_per_m = _WORKING_CHAIN
    return ChainPiece(
        tag="new",
        size="5/8 in",
        wire_diameter_m=wire_m,
        chain=Chain(
            links=2 * (math.ceil(setup.travel.travel_m / pitch_m) + 2),
            pitch_m=pitch_m,
            density_kg_per_m=density_kg_per_m,
            density_u_kg_per_m=0.1 * density_kg_per_m,
            known_by="DIN 764 16 x 56 mm",
        ),
    )
