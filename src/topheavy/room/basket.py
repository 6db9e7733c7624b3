"""The cheapest basket, as a problem of whole numbers: what to buy, and how to cut it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.model_parts import solver_library

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from topheavy.room.shelf import ChainOffer, Shelf

_STEPS: Final = 20.0
_SEED: Final = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLength:
    """One length as sold and what is cut from it: links of each piece, and links left over."""

    name: str
    pieces: tuple[int, ...]
    left_over: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Basket:
    """What to buy.

    Parameters
    ----------
    pieces : tuple of (str, int, int)
        Offer, links, and how many pieces.
    lengths : tuple of CutLength
        How they are cut, where chain is sold in lengths.
    feeders, connectors, bands : tuple of (str, int)
        Names and how many.
    cost : int
        Hundredths of the currency.
    possible : tuple of int
        Bookings that can be rigged then.
    """

    pieces: tuple[tuple[str, int, int], ...]
    lengths: tuple[CutLength, ...]
    feeders: tuple[tuple[str, int], ...]
    connectors: tuple[tuple[str, int], ...]
    bands: tuple[tuple[str, int], ...]
    cost: int
    possible: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to rig a booking.

    Parameters
    ----------
    feeder, connector : str
        Parts by name; empty where chain hangs without, or none hangs.
    pairs : tuple of int
        Pairs of each kind that must be bought.
    bands : tuple of int
        Bands of each offer that must be bought.
    """

    feeder: str
    connector: str
    pairs: tuple[int, ...]
    bands: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Goods:
    """What may be bought, as the problem knows it.

    Parameters
    ----------
    shelf : Shelf
        Prices.
    offers : tuple of tuple of (ChainOffer, int)
        For each kind of chain, who sells it, and its links.
    most : int
        Pairs of a kind at most.
    have : mapping of str to int
        Pairs of feeders and connectors that the gym has, by name.
    """

    shelf: Shelf
    offers: tuple[tuple[tuple[ChainOffer, int], ...], ...]
    most: int
    have: Mapping[str, int]

    def to_be_had(self, part: str) -> bool:
        """Whether a feeder or connector is there or for sale; none is needed for no name."""
        return not part or self.have.get(part, 0) > 0 or part in self.prices

    @property
    def prices(self) -> dict[str, int]:
        """Price of one feeder or connector, by name."""
        feeders = {one.name: price for one, price in self.shelf.feeders}
        return feeders | {one.name: price for one, price in self.shelf.connectors}


class Counter:
    """The cheapest basket for some bookings, as a problem of whole numbers."""

    def __init__(self, goods: Goods, ways: Mapping[int, Sequence[Way]]) -> None:
        self.goods, self.ways = goods, ways
        self.proven = True

    def cheapest(self, least: int) -> Basket | None:
        """Find the cheapest basket with which so many bookings can be rigged; None if none was."""
        library = solver_library()
        self.model = library.CpModel()
        self._variables()
        self.model.add(sum(self.done.values()) >= least)
        cost = self._cost()
        small = sum(self.pairs.values()) + sum(self.bands)
        self.model.minimize(1000 * cost + small)
        solver = library.CpSolver()
        solver.parameters.random_seed = _SEED
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = _STEPS
        status = solver.solve(self.model)
        self.proven &= bool(status in (library.OPTIMAL, library.INFEASIBLE))
        if status not in (library.OPTIMAL, library.FEASIBLE):
            return None
        return self._basket(solver.value, solver.value(cost) if not isinstance(cost, int) else cost)

    def _variables(self) -> None:
        """What is bought, and which bookings it serves by which way."""
        model, goods = self.model, self.goods
        self.pairs = {
            (k, at): model.new_int_var(0, goods.most, "")
            for k, sellers in enumerate(goods.offers)
            for at in range(len(sellers))
        }
        of_kind = [
            sum(self.pairs[k, at] for at in range(len(sellers)))
            for k, sellers in enumerate(goods.offers)
        ]
        self.bands = [model.new_int_var(0, 2 * goods.most, "") for _ in goods.shelf.bands]
        named = {name for some in self.ways.values() for w in some for name in _parts(w)}
        wanting = sorted(name for name in named if not goods.have.get(name, 0))
        self.parts = {name: model.new_bool_var(name) for name in wanting}
        self.done: dict[int, Any] = {}
        for n, some in self.ways.items():
            taken = [model.new_bool_var("") for _ in some]
            self.done[n] = model.new_bool_var("")
            model.add(sum(taken) == self.done[n])
            for way, var in zip(some, taken, strict=True):
                for count, bought in (*zip(way.pairs, of_kind, strict=True),
                                      *zip(way.bands, self.bands, strict=True)):  # fmt: skip
                    if count:
                        model.add(bought >= count).only_enforce_if(var)
                for name in _parts(way):
                    if name in self.parts:
                        model.add_implication(var, self.parts[name])

    def _cost(self) -> Any:
        goods, prices = self.goods, self.goods.prices
        cost: Any = sum(2 * prices.get(name, 0) * var for name, var in self.parts.items())
        bands = zip(goods.shelf.bands, self.bands, strict=True)
        cost = cost + sum(offer.price * var for offer, var in bands)
        self.bins: list[tuple[ChainOffer, dict[int, Any]]] = []
        for offer in goods.shelf.chains:
            own = {
                goods.offers[k][at][1]: var
                for (k, at), var in self.pairs.items()
                if goods.offers[k][at][0] == offer
            }
            for links, bought in own.items():
                cut = offer.piece_price(links) if offer.sold is None else offer.cut_price
                cost = cost + 2 * cut * bought
            if offer.sold is not None and own:
                cost = cost + self._lengths(offer, own)
        return cost

    def _lengths(self, offer: ChainOffer, own: dict[int, Any]) -> Any:
        """Cut pieces from lengths as sold: each cut spoils a link."""
        sold, model = offer.sold or 0, self.model
        contents = []
        used = []
        for _ in range(self._most_lengths(offer, list(own))):
            inside = {links: model.new_int_var(0, 2 * self.goods.most, "") for links in own}
            opened = model.new_bool_var("")
            model.add(
                sum((links + 1) * var for links, var in inside.items()) <= (sold + 1) * opened
            )
            contents.append(inside)
            used.append(opened)
        for one, other in pairwise(used):
            model.add_implication(other, one)
        for links, bought in own.items():
            model.add(sum(inside[links] for inside in contents) == 2 * bought)
        self.bins += [(offer, inside) for inside in contents]
        return offer.price * sum(used)

    def _most_lengths(self, offer: ChainOffer, cuts: list[int]) -> int:
        """So many lengths hold all that could be wanted of an offer."""
        each = [((offer.sold or 0) + 1) // (links + 1) for links in cuts]
        return sum(-(-2 * self.goods.most // max(1, count)) for count in each)

    def _basket(self, value: Callable[[Any], int], cost: int) -> Basket:
        goods = self.goods
        pieces = []
        for (k, at), var in self.pairs.items():
            offer, links = goods.offers[k][at]
            if value(var):
                pieces.append((offer.name, links, 2 * value(var)))
        lengths = []
        for offer, inside in self.bins:
            cut = [n for n, var in inside.items() for _ in range(value(var))]
            if cut:
                left = max(0, (offer.sold or 0) - sum(cut) - len(cut))
                lengths.append(
                    CutLength(name=offer.name, pieces=tuple(sorted(cut)[::-1]), left_over=left)
                )
        bought = [name for name, var in self.parts.items() if value(var)]
        feeders = {one.name for one, _ in goods.shelf.feeders}
        bands = zip(goods.shelf.bands, self.bands, strict=True)
        return Basket(
            pieces=tuple(pieces),
            lengths=tuple(lengths),
            feeders=tuple((name, 2) for name in bought if name in feeders),
            connectors=tuple((name, 2) for name in bought if name not in feeders),
            bands=tuple((offer.name, value(var)) for offer, var in bands if value(var)),
            cost=cost,
            possible=self._possible(value),
        )

    def _possible(self, value: Callable[[Any], int]) -> tuple[int, ...]:
        """Everything that a basket serves, also what nobody asked it for."""
        pairs = [
            sum(value(self.pairs[k, at]) for at in range(len(sellers)))
            for k, sellers in enumerate(self.goods.offers)
        ]
        bands = [value(var) for var in self.bands]
        lacking = {name for name, var in self.parts.items() if not value(var)}

        def served(way: Way) -> bool:
            enough = zip((*way.pairs, *way.bands), (*pairs, *bands), strict=True)
            return all(n <= m for n, m in enough) and not lacking & set(_parts(way))

        return tuple(n for n, some in self.ways.items() if any(map(served, some)))


def _parts(way: Way) -> tuple[str, ...]:
    return tuple(name for name in (way.feeder, way.connector) if name)
