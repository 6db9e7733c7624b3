"""The cheapest that a gym can buy so that every lift of its roster can be rigged.

Every way to hang what the gym owns and what is on offer is read by the exact search; what must be
bought for all lifts together, and how it is cut from the lengths it is sold in, is then one problem
of whole numbers, solved and proven. Each lift is looked at by itself: whether all can lift at the
same time is for the plan of the room.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from topheavy.errors import BadInputError
from topheavy.gym.stock import ChainPiece
from topheavy.mechanics.chain import Chain
from topheavy.room.hung import counts_of, pair_kinds, room_fixtures
from topheavy.room.model_parts import solver_library
from topheavy.room.offers import Ends, could_serve

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gym.stock import Connector, Feeder, FeederSetting
    from topheavy.room.ask import Room

MOST_CUTS: Final = 8
"""Cut lengths on offer at most, all chain together: more would take too long to compare."""

_MOST_LENGTHS: Final = 12
_STEP_M: Final = 0.02
"""Settings nearer to each other than this are not told apart when buying [m]."""

_STEPS: Final = 20.0
_SEED: Final = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainOffer:
    """Chain for sale.

    Parameters
    ----------
    name : str
        As the seller calls it.
    size, grade : str
        Trade size and grade.
    wire_diameter_m, pitch_m : float
        Sizes [m].
    density_kg_per_m, density_u_kg_per_m : float
        Mass per length and its standard uncertainty [kg/m].
    cuts : tuple of int
        Links of the pieces it may be cut to.
    price : int
        Hundredths of the currency for one length as sold, or for a metre where `sold` is None.
    sold : int or None
        Links of one length as sold; None when the seller cuts to any length.
    cut_price : int
        Hundredths for cutting off one piece.
    """

    name: str
    size: str
    grade: str
    wire_diameter_m: float
    pitch_m: float
    density_kg_per_m: float
    density_u_kg_per_m: float
    cuts: tuple[int, ...]
    price: int
    sold: int | None = None
    cut_price: int = 0

    def chain(self, links: int) -> Chain:
        """Cut so many links."""
        return Chain(
            links=links,
            pitch_m=self.pitch_m,
            density_kg_per_m=self.density_kg_per_m,
            density_u_kg_per_m=self.density_u_kg_per_m,
            known_by=f"on offer: {self.name}",
        )

    def piece_price(self, links: int) -> int:
        """Price of one piece in hundredths, where the seller cuts to any length."""
        return round(self.price * links * self.pitch_m) + self.cut_price


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Everything for sale, with prices in hundredths of a currency.

    Parameters
    ----------
    currency : str
        Such as ``"EUR"``.
    chains : tuple of ChainOffer
        Chain.
    feeders, connectors : tuple of (Feeder or Connector, int)
        Parts with the price of one.
    most_carried_kg : float
        Heaviest piece that anyone should carry [kg].
    """

    currency: str
    chains: tuple[ChainOffer, ...] = ()
    feeders: tuple[tuple[Feeder, int], ...] = ()
    connectors: tuple[tuple[Connector, int], ...] = ()
    most_carried_kg: float = 15.0


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
    feeders, connectors : tuple of (str, int)
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
    cost: int
    possible: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What buying comes to.

    Parameters
    ----------
    now : tuple of int
        Bookings that can be rigged with what the gym owns.
    hopeless : tuple of int
        Bookings that nothing on offer helps.
    basket : Basket or None
        The cheapest for all that can be helped; None when nothing is needed or can be.
    proven : bool
        Whether it is proven cheapest.
    steps : tuple of Basket
        The most bookings for each 100 units of the currency more, where that is more than before.
    too_heavy : tuple of (str, int)
        Offers and cuts left out: a piece would be too heavy to carry.
    """

    now: tuple[int, ...]
    hopeless: tuple[int, ...]
    basket: Basket | None
    proven: bool
    steps: tuple[Basket, ...]
    too_heavy: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to rig a booking: parts by name, and pairs of each kind."""

    feeder: str
    connector: str
    counts: tuple[int, ...]


def buy(room: Room, shelf: Shelf) -> Bought:
    """Find the cheapest additions that let every booking of a room be rigged.

    Parameters
    ----------
    room : Room
        The roster with its loads and tolerances.
    shelf : Shelf
        What is for sale.

    Raises
    ------
    BadInputError
        Too many cut lengths to compare.
    """
    light, too_heavy = _light_enough(shelf)
    if sum(len(offer.cuts) for offer in light.chains) > MOST_CUTS:
        raise BadInputError(
            "So many cut lengths take too long to compare",
            field="cuts",
            got=sum(len(offer.cuts) for offer in light.chains),
            wanted=f"{MOST_CUTS} or fewer, all chain together",
        )
    store = _Store(room, light)
    ways = store.ways()
    number = len(room.bookings)
    hopeless = tuple(n for n in range(number) if not ways[n])
    helped = [n for n in range(number) if ways[n]]
    now = store.solve(ways, helped, budget=0)
    owned = now.possible if now else ()
    if set(owned) == set(helped):
        return Bought(
            now=owned, hopeless=hopeless, basket=None, proven=True, steps=(), too_heavy=too_heavy
        )
    basket = store.solve(ways, helped, budget=None)
    steps = _steps(store, ways, helped, owned, basket) if basket else ()
    return Bought(
        now=owned,
        hopeless=hopeless,
        basket=basket,
        proven=store.proven,
        steps=steps,
        too_heavy=too_heavy,
    )


def _light_enough(shelf: Shelf) -> tuple[Shelf, tuple[tuple[str, int], ...]]:
    """Leave out cuts that are too heavy to carry."""
    kept, left_out = [], []
    for offer in shelf.chains:
        cuts = [n for n in offer.cuts if offer.chain(n).mass_kg <= shelf.most_carried_kg + 1e-9]
        left_out += [(offer.name, n) for n in offer.cuts if n not in cuts]
        if cuts:
            kept.append(replace(offer, cuts=tuple(cuts)))
    return replace(shelf, chains=tuple(kept)), tuple(left_out)


def _steps(
    store: _Store,
    ways: Mapping[int, Sequence[_Way]],
    helped: Sequence[int],
    owned: Sequence[int],
    basket: Basket,
) -> tuple[Basket, ...]:
    """What each 100 units of money more make possible."""
    found, best = [], len(owned)
    hundreds = -(-basket.cost // 10_000)
    stride = max(1, hundreds // 12)
    for step in range(stride, hundreds + stride, stride):
        some = store.solve(ways, helped, budget=10_000 * step)
        if some and len(some.possible) > best:
            best = len(some.possible)
            found.append(some)
        if best == len(helped):
            break
    return tuple(found)


class _Store:
    """What the gym owns and what is on offer, together."""

    def __init__(self, room: Room, shelf: Shelf) -> None:
        self.room, self.shelf = room, shelf
        self.most = room.limits.most_pieces // 2
        gym = room.in_use
        self.made: dict[tuple[str, int, float], tuple[ChainOffer, int]] = {}
        new = [piece for offer in shelf.chains for n in offer.cuts for piece in self._cut(offer, n)]
        stock = gym.stock
        names = {one.name for one in stock.feeders} | {one.name for one in stock.connectors}
        feeders = [replace(one, count=2) for one, _ in shelf.feeders if one.name not in names]
        connectors = [replace(one, count=2) for one, _ in shelf.connectors if one.name not in names]
        feeders = [_to_the_step(one) for one in feeders]
        owned_feeders = tuple(
            _to_the_step(replace(one, count=max(2, one.count))) for one in stock.feeders
        )
        owned_connectors = tuple(replace(c, count=max(2, c.count)) for c in stock.connectors)
        self.gym: Gym = replace(
            gym,
            stock=replace(
                stock,
                chains=(*stock.chains, *new),
                feeders=(*owned_feeders, *feeders),
                connectors=(*owned_connectors, *connectors),
            ),
        )
        self.kinds = pair_kinds(self.gym.stock.chains)
        owned = {kind.pairs[0].left.kind: len(kind.pairs) for kind in pair_kinds(stock.chains)}
        self.owned = [owned.get(kind.pairs[0].left.kind, 0) for kind in self.kinds]
        self.offer_of = [self.made.get(kind.pairs[0].left.kind) for kind in self.kinds]
        self.prices = {one.name: price for one, price in shelf.feeders}
        self.prices |= {one.name: price for one, price in shelf.connectors}
        self.have = {one.name: one.count // 2 for one in stock.feeders}
        self.have |= {one.name: one.count // 2 for one in stock.connectors}
        self.proven = True

    def _cut(self, offer: ChainOffer, links: int) -> list[ChainPiece]:
        pieces = [
            ChainPiece(
                tag=f"new-{offer.name}-{links}-{n}",
                size=offer.size,
                wire_diameter_m=offer.wire_diameter_m,
                chain=offer.chain(links),
                grade=offer.grade,
            )
            for n in range(2 * self.most)
        ]
        if pieces:
            self.made[pieces[0].kind] = (offer, links)
        return pieces

    def ways(self) -> dict[int, list[_Way]]:
        """Every way to rig each booking, at any of its stations, none with parts to spare."""
        room = replace(self.room, gym=self.gym)
        fixtures = room_fixtures(self.gym.stock, room.limits)
        counts = counts_of(self.kinds, self.most)
        ends = Ends.of(self.kinds, counts, fixtures, room)
        names = [
            (f.feeder.name if f.feeder else "", f.connector.name if f.connector else "")
            for f in fixtures
        ]
        found: dict[int, list[_Way]] = {}
        for number, booking in enumerate(room.bookings):
            serves = np.zeros(ends.allowed.shape, dtype=bool)
            for station in room.stations_for(booking):
                serves |= could_serve(room.question(booking, station), ends)
            found[number] = []
            for feeder, connector in dict.fromkeys(names):
                rows = [at for at, name in enumerate(names) if name == (feeder, connector)]
                if not (self._to_be_had(feeder) and self._to_be_had(connector)):
                    continue
                some = [counts[c] for c in np.flatnonzero(serves[rows].any(axis=0))]
                found[number] += [
                    _Way(feeder=feeder, connector=connector, counts=one) for one in _least(some)
                ]
        return found

    def _to_be_had(self, part: str) -> bool:
        return self.have.get(part, 0) > 0 or part in self.prices

    def solve(
        self, ways: Mapping[int, Sequence[_Way]], helped: Sequence[int], budget: int | None
    ) -> Basket | None:
        """Find the cheapest basket for all, or the most bookings within a budget [hundredths]."""
        library = solver_library()
        model = library.CpModel()
        pairs = [model.new_int_var(0, self.most if offer else 0, "") for offer in self.offer_of]
        parts = {
            name: model.new_bool_var("") if self.have.get(name, 0) == 0 else 0
            for name in {way.feeder for n in helped for way in ways[n]}
            | {way.connector for n in helped for way in ways[n]}
        }
        done = {}
        for n in helped:
            taken = [model.new_bool_var("") for _ in ways[n]]
            done[n] = model.new_bool_var("")
            model.add(sum(taken) == done[n])
            for way, var in zip(ways[n], taken, strict=True):
                for k, count in enumerate(way.counts):
                    if count > self.owned[k]:
                        model.add(pairs[k] >= count - self.owned[k]).only_enforce_if(var)
                for name in (way.feeder, way.connector):
                    if not isinstance(parts[name], int):
                        model.add_implication(var, parts[name])
        cost, bins = self._cost(model, pairs, parts)
        if budget is None:
            model.add_bool_and(done.values())
            model.minimize(1000 * cost + sum(pairs))
        else:
            model.add(cost <= budget)
            model.maximize(10_000_000 * sum(done.values()) - cost)
        solver = library.CpSolver()
        solver.parameters.random_seed = _SEED
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = _STEPS
        status = solver.solve(model)
        self.proven &= bool(status in (library.OPTIMAL, library.INFEASIBLE))
        if status not in (library.OPTIMAL, library.FEASIBLE):
            return None
        return self._basket(solver, (pairs, parts, cost, bins), done)

    def _cost(
        self, model: Any, pairs: list[Any], parts: dict[str, Any]
    ) -> tuple[Any, list[tuple[ChainOffer, dict[int, Any]]]]:
        cost: Any = sum(2 * self.prices.get(name, 0) * var for name, var in parts.items())
        bins: list[tuple[ChainOffer, dict[int, Any]]] = []
        for offer in self.shelf.chains:
            own = {
                found[1]: pairs[k]
                for k, found in enumerate(self.offer_of)
                if found is not None and found[0] == offer
            }
            for links, bought in own.items():
                cut = offer.piece_price(links) if offer.sold is None else offer.cut_price
                cost = cost + 2 * cut * bought
            if offer.sold is not None:
                cost = cost + self._lengths(model, offer, own, bins)
        return cost, bins

    def _lengths(
        self,
        model: Any,
        offer: ChainOffer,
        own: dict[int, Any],
        bins: list[tuple[ChainOffer, dict[int, Any]]],
    ) -> Any:
        """Cut pieces from lengths as sold: each cut spoils a link."""
        sold = offer.sold or 0
        contents = []
        used = []
        for _ in range(_MOST_LENGTHS):
            inside = {links: model.new_int_var(0, 2 * self.most, "") for links in own}
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
        bins += [(offer, inside) for inside in contents]
        return offer.price * sum(used)

    def _basket(self, solver: Any, found: tuple[Any, ...], done: dict[int, Any]) -> Basket:
        pairs, parts, cost, bins = found
        pieces = []
        for k, offered in enumerate(self.offer_of):
            count = solver.value(pairs[k])
            if offered is not None and count:
                pieces.append((offered[0].name, offered[1], 2 * count))
        lengths = []
        for offer, inside in bins:
            cut = [n for n, var in inside.items() for _ in range(solver.value(var))]
            if cut:
                left = max(0, (offer.sold or 0) - sum(cut) - len(cut))
                lengths.append(
                    CutLength(name=offer.name, pieces=tuple(sorted(cut)[::-1]), left_over=left)
                )
        bought = [name for name, var in parts.items() if not isinstance(var, int)]
        bought = sorted(name for name in bought if solver.value(parts[name]))
        feeders = {one.name for one in self.gym.stock.feeders}
        return Basket(
            pieces=tuple(pieces),
            lengths=tuple(lengths),
            feeders=tuple((name, 2) for name in bought if name in feeders),
            connectors=tuple((name, 2) for name in bought if name not in feeders),
            cost=solver.value(cost) if not isinstance(cost, int) else cost,
            possible=tuple(n for n, var in done.items() if solver.value(var)),
        )


def _to_the_step(feeder: Feeder) -> Feeder:
    """Keep settings of a strap that are a step or more apart: fewer to read, none that is wrong."""
    kept: list[FeederSetting] = []
    for setting in feeder.settings:
        if not kept or setting.length_m >= kept[-1].length_m + _STEP_M - 1e-9:
            kept.append(setting)
    return replace(feeder, settings=tuple(kept))


def _least(some: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """Keep choices of pairs that no other choice beats in every kind."""
    kept: list[tuple[int, ...]] = []
    for one in sorted(some, key=lambda counts: (sum(counts), counts)):
        if not any(all(a <= b for a, b in zip(other, one, strict=True)) for other in kept):
            kept.append(one)
    return kept
