"""The cheapest that a gym can buy so that every lift of its roster can be rigged.

Every way to hang what the gym owns and what is on offer is read by the exact search; what must be
bought for all lifts together, and how it is cut from the lengths it is sold in, is then one problem
of whole numbers, solved and proven. Each lift is looked at by itself: whether all can lift at the
same time is for the plan of the room.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, TypeVar

import numpy as np

from topheavy.errors import BadInputError
from topheavy.gym.stock import ChainPiece, Connector, Feeder
from topheavy.room.basket import Counter, Goods, Way
from topheavy.room.hung import pair_kinds, room_fixtures
from topheavy.room.readings import Choices, could_serve, pose_for
from topheavy.room.tied import all_bands

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from topheavy.gym.gym import Gym
    from topheavy.gym.stock import FeederSetting, Stock
    from topheavy.room.ask import Room
    from topheavy.room.basket import Basket
    from topheavy.room.shelf import ChainOffer, Shelf
    from topheavy.room.tied import Bands

    Kind = tuple[str, int, float]
    Ints = NDArray[np.int64]
    Bools = NDArray[np.bool_]

Part = TypeVar("Part", Feeder, Connector)

MOST_CUTS: Final = 8
"""Cut lengths on offer at most, all chain together: more would take too long to compare."""

_STEP_M: Final = 0.02
"""Settings nearer to each other than this are not told apart when buying [m]."""


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
        The cheapest for each number of bookings that can be rigged, dearer ones later; the last is
        the basket.
    too_heavy : tuple of (str, int)
        Offers and cuts left out: a piece would be too heavy to carry.
    """

    now: tuple[int, ...]
    hopeless: tuple[int, ...]
    basket: Basket | None
    proven: bool
    steps: tuple[Basket, ...]
    too_heavy: tuple[tuple[str, int], ...]


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
    ways, goods = _Together(room, light).ways()
    hopeless = tuple(n for n in range(len(room.bookings)) if not ways[n])
    helped = {n: some for n, some in ways.items() if some}
    now = tuple(n for n, some in helped.items() if any(_is_owned(way, goods) for way in some))
    counter = Counter(goods, helped)
    steps = _steps(counter, now, len(helped))
    return Bought(
        now=now,
        hopeless=hopeless,
        basket=steps[-1] if steps else None,
        proven=counter.proven,
        steps=steps,
        too_heavy=too_heavy,
    )


def _steps(counter: Counter, now: tuple[int, ...], number: int) -> tuple[Basket, ...]:
    """Find the cheapest basket for each number of bookings more, up to all that can be helped."""
    found: list[Basket] = []
    count = len(now)
    while count < number:
        some = counter.cheapest(count + 1)
        if some is None:
            break
        found = [one for one in found if one.cost < some.cost]
        found.append(some)
        count = max(count + 1, len(some.possible))
    return tuple(found)


def _is_owned(way: Way, goods: Goods) -> bool:
    """Whether nothing must be bought for a way."""
    parts = [name for name in (way.feeder, way.connector) if name]
    return not any(way.pairs) and not any(way.bands) and all(goods.have.get(p, 0) for p in parts)


def _light_enough(shelf: Shelf) -> tuple[Shelf, tuple[tuple[str, int], ...]]:
    """Leave out cuts that are too heavy to carry."""
    kept, left_out = [], []
    for offer in shelf.chains:
        cuts = [n for n in offer.cuts if offer.chain(n).mass_kg <= shelf.most_carried_kg + 1e-9]
        left_out += [(offer.name, n) for n in offer.cuts if n not in cuts]
        if cuts:
            kept.append(replace(offer, cuts=tuple(cuts)))
    return replace(shelf, chains=tuple(kept)), tuple(left_out)


class _Together:
    """What the gym owns and what is on offer, in one stock."""

    def __init__(self, room: Room, shelf: Shelf) -> None:
        self.shelf, self.most = shelf, room.limits.most_pieces // 2
        self.owned: Stock = room.in_use.stock
        self.sellers: dict[Kind, list[tuple[ChainOffer, int]]] = {}
        new = [piece for offer in shelf.chains for n in offer.cuts for piece in self._cut(offer, n)]
        self.band_offers = {
            offer.band(n + 1).tag: at
            for at, offer in enumerate(shelf.bands)
            for n in range(2 * room.limits.most_bands)
        }
        gym: Gym = replace(room.in_use, stock=self._stock(new, room.limits.most_bands))
        self.room = replace(room, gym=gym, broken=())

    def _stock(self, new: list[ChainPiece], most_bands: int) -> Stock:
        owned = self.owned
        names = {one.name for one in owned.feeders} | {one.name for one in owned.connectors}
        feeders = [one for one, _ in self.shelf.feeders if one.name not in names]
        connectors = [one for one, _ in self.shelf.connectors if one.name not in names]
        bands = [offer.band(n + 1) for offer in self.shelf.bands for n in range(2 * most_bands)]
        return replace(
            owned,
            chains=(*owned.chains, *new),
            feeders=tuple(_to_the_step(_two(one)) for one in (*owned.feeders, *feeders)),
            connectors=tuple(_two(one) for one in (*owned.connectors, *connectors)),
            bands=(*owned.bands, *bands),
        )

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
            self.sellers.setdefault(pieces[0].kind, []).append((offer, links))
        return pieces

    def ways(self) -> tuple[dict[int, list[Way]], Goods]:
        """Every way to rig each booking, at any of its stations, none with parts to spare."""
        room = self.room
        kinds = pair_kinds(room.gym.stock.fit_chains)
        of_kind = [kind.pairs[0].left.kind for kind in kinds]
        own = {kind.pairs[0].left.kind: len(kind.pairs) for kind in pair_kinds(self.owned.chains)}
        have = {one.name: one.count // 2 for one in self.owned.feeders}
        have |= {one.name: one.count // 2 for one in self.owned.connectors}
        goods = Goods(
            shelf=self.shelf,
            offers=tuple(tuple(self.sellers.get(kind, ())) for kind in of_kind),
            most=self.most,
            have=have,
        )
        questions = [
            (number, room.question(booking, station))
            for number, booking in enumerate(room.bookings)
            for station in room.stations_for(booking)
        ]
        posed = [(number, question, pose_for(question)) for number, question in questions]
        bands = all_bands(problem for _, _, problem in posed)
        choices = Choices.of(room, kinds, room_fixtures(room.gym.stock, room.limits), bands)
        missing = np.array(
            [[max(0, n - own.get(kind, 0)) for n, kind in zip(some, of_kind, strict=True)]
             for some in choices.counts]
        )  # fmt: skip
        found: dict[int, list[Way]] = {number: [] for number in range(len(room.bookings))}
        for number, question, problem in posed:
            serves = could_serve(question, problem, choices)
            found[number] += self._ways(goods, choices, missing, serves)
        return {number: _fewest(some) for number, some in found.items()}, goods

    def _ways(self, goods: Goods, choices: Choices, missing: Ints, serves: Bools) -> list[Way]:
        """Ways that serve, by what they take beside chain."""
        rows: dict[tuple[str, str, tuple[int, ...]], list[int]] = {}
        for at, (held, bands) in enumerate(choices.holds):
            names = (
                held.feeder.name if held.feeder else "",
                held.connector.name if held.connector else "",
            )
            if all(goods.to_be_had(name) for name in names):
                rows.setdefault((*names, self._new_bands(bands)), []).append(at)
        found = []
        for (feeder, connector, bands_needed), some in rows.items():
            served = serves[some].any(axis=0)
            needs = {tuple(int(n) for n in one) for one in missing[served]}
            found += [
                Way(feeder=feeder, connector=connector, pairs=one, bands=bands_needed)
                for one in _least(needs)
            ]
        return found

    def _new_bands(self, bands: Bands) -> tuple[int, ...]:
        """How many bands of each offer some bands take."""
        tags = [tag for pair in bands for tag in (pair.left, pair.right)]
        offers = [self.band_offers[tag] for tag in tags if tag in self.band_offers]
        return tuple(offers.count(at) for at in range(len(self.shelf.bands)))


def _two(part: Part) -> Part:
    """Count a part as two at least: where there are fewer, two are bought."""
    return replace(part, count=max(2, part.count))


def _to_the_step(feeder: Feeder) -> Feeder:
    """Keep settings of a strap that are a step or more apart: fewer to read, none that is wrong."""
    kept: list[FeederSetting] = []
    for setting in feeder.settings:
        if not kept or setting.length_m >= kept[-1].length_m + _STEP_M - 1e-9:
            kept.append(setting)
    return replace(feeder, settings=tuple(kept))


def _least(some: set[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """Keep what no other is less than or like in everything."""
    kept: list[tuple[int, ...]] = []
    for one in sorted(some, key=lambda counts: (sum(counts), counts)):
        if not any(all(a <= b for a, b in zip(other, one, strict=True)) for other in kept):
            kept.append(one)
    return kept


def _fewest(ways: Sequence[Way]) -> list[Way]:
    """Keep ways that no other with the same feeder and connector is less than in everything."""
    groups: dict[tuple[str, str], list[Way]] = {}
    for way in ways:
        groups.setdefault((way.feeder, way.connector), []).append(way)
    found: list[Way] = []
    for (feeder, connector), own in groups.items():
        cut = len(own[0].pairs)
        found += [
            Way(feeder=feeder, connector=connector, pairs=one[:cut], bands=one[cut:])
            for one in _least({(*way.pairs, *way.bands) for way in own})
        ]
    return found
