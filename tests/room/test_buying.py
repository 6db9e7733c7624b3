"""Buying: the cheapest basket equals a search of all baskets; lengths are cut with least."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING

import pytest

from tests.rigging.builders import connector, feeder
from tests.room.rooms import RACK, room, squat
from topheavy.errors import BadInputError
from topheavy.room.buying import Bought, buy
from topheavy.room.offers import offers_for
from topheavy.room.shelf import ChainOffer, Shelf

if TYPE_CHECKING:
    from topheavy.room.ask import Room


def _offer(name: str, links: tuple[int, ...], price: int, **more: int | None) -> ChainOffer:
    return ChainOffer(
        name=name,
        size="5/8 in",
        grade="30",
        wire_diameter_m=0.016,
        pitch_m=0.056,
        density_kg_per_m=5.3,
        density_u_kg_per_m=0.265,
        cuts=links,
        price=price,
        **more,  # type: ignore[arg-type]
    )


BY_METRE = Shelf(currency="EUR", chains=(_offer("cut", (20, 32), 1500, cut_price=200),))


def _poor(*more: float, pairs: int = 1) -> Room:
    """A gym with little chain and lifters who want so much more at the top [kg]."""
    return room(*(squat(f"L{n}", 100, 100 + kg) for n, kg in enumerate(more)), pairs=pairs)


def _with_bought(asked: Room, offer: ChainOffer, pairs: tuple[int, ...]) -> Room:
    """Put pieces into the stock by hand."""
    first = asked.gym.stock.chains[0]
    new = [
        replace(first, tag=f"{links}-{n}", chain=offer.chain(links))
        for links, count in zip(offer.cuts, pairs, strict=True)
        for n in range(2 * count)
    ]
    stock = replace(asked.gym.stock, chains=(*asked.gym.stock.chains, *new))
    return replace(asked, gym=replace(asked.gym, stock=stock))


@pytest.mark.parametrize("more", [(22.0,), (24.0, 12.0), (36.0,), (36.0, 12.0, 24.0)])
def test_equals_a_search_of_every_basket(more: tuple[float, ...]) -> None:
    asked, offer = _poor(*more), BY_METRE.chains[0]
    costs = []
    for pairs in product(range(5), repeat=2):
        offers = offers_for(_with_bought(asked, offer, pairs))
        if all(offers.serves(n) for n in range(len(more))):
            each = (offer.piece_price(links) for links in offer.cuts)
            costs.append(sum(2 * n * price for n, price in zip(pairs, each, strict=True)))
    found = buy(asked, BY_METRE)
    assert found.proven
    assert found.basket is not None
    assert found.basket.cost == min(costs) > 0
    assert set(found.basket.possible) == set(range(len(more)))


def test_each_step_is_the_cheapest_for_so_many_lifts() -> None:
    more = (36.0, 12.0, 24.0, 22.0)
    asked, offer = _poor(*more), BY_METRE.chains[0]
    cheapest: dict[int, int] = {}
    for pairs in product(range(5), repeat=2):
        offers = offers_for(_with_bought(asked, offer, pairs))
        served = sum(offers.serves(n) for n in range(len(more)))
        each = (offer.piece_price(links) for links in offer.cuts)
        cost = sum(2 * n * price for n, price in zip(pairs, each, strict=True))
        for count in range(served + 1):
            cheapest[count] = min(cost, cheapest.get(count, cost))
    found = buy(asked, BY_METRE)
    assert found.steps
    for step in found.steps:
        assert step.cost == cheapest[len(step.possible)]
    for count in range(len(found.now) + 1, len(more) + 1):
        step = next(one for one in found.steps if len(one.possible) >= count)
        assert step.cost == cheapest[count]


def test_nothing_is_bought_where_nothing_is_wanted() -> None:
    found = buy(_poor(12.0), BY_METRE)
    assert (found.now, found.basket, found.hopeless, found.steps) == ((0,), None, (), ())


def test_what_nothing_helps_is_named_and_does_not_stop_the_rest() -> None:
    found = buy(_poor(12.0, 24.0, 90.0), BY_METRE)
    assert found.hopeless == (2,)
    assert found.basket is not None
    assert set(found.basket.possible) == {0, 1}


def test_lengths_are_cut_with_least_bought() -> None:
    """Of 107 links come three pieces of 32 (two cuts), or four of 20 and one more: by hand."""
    shelf = Shelf(currency="EUR", chains=(_offer("6 m", (32,), 8400, sold=107),))
    found = buy(_poor(36.0), shelf).basket
    assert found is not None
    ((_, links, count),) = found.pieces
    assert links == 32
    assert len(found.lengths) == -(-count // 3)
    assert found.cost == 8400 * len(found.lengths)
    for length in found.lengths:
        spoiled = len(length.pieces) - (length.left_over == 0)
        assert sum(length.pieces) + length.left_over + spoiled in (107, 106)
    assert sum(len(length.pieces) for length in found.lengths) == count


def test_parts_are_bought_in_pairs_where_there_are_none() -> None:
    asked = _poor(12.0)
    none = replace(asked.gym.stock, connectors=())
    asked = replace(asked, gym=replace(asked.gym, stock=none))
    shelf = Shelf(currency="EUR", connectors=((connector("new"), 1100),))
    found = buy(asked, shelf).basket
    assert found is not None
    assert (found.connectors, found.cost) == ((("new", 2),), 2200)
    strong = Shelf(currency="EUR", connectors=((connector("weak", rating_kg=20.0), 100),))
    assert buy(asked, strong).hopeless == (0,)


def test_a_longer_feeder_is_bought_for_the_tall() -> None:
    asked = room(squat("Tall", 100, 112, tall_m=0.3), pairs=2)
    shelf = Shelf(currency="EUR", feeders=((feeder("long", (1.05,), rating_kg=400.0), 2400),))
    assert buy(asked, Shelf(currency="EUR")).hopeless == (0,)
    found = buy(asked, shelf).basket
    assert found is not None
    assert found.feeders == (("long", 2),)


def test_pieces_too_heavy_to_carry_are_left_out() -> None:
    shelf = replace(BY_METRE, most_carried_kg=8.0)
    found = buy(_poor(36.0), shelf)
    assert found.too_heavy == (("cut", 32),)
    assert found.basket is None or all(links == 20 for _, links, _ in found.basket.pieces)


def test_each_hundred_more_makes_more_possible_or_is_left_out() -> None:
    found = buy(_poor(12.0, 24.0, 36.0), BY_METRE)
    counts = [len(step.possible) for step in found.steps]
    assert counts == sorted(set(counts))
    assert counts[-1] == 3
    assert found.basket is not None
    assert found.steps[-1].cost >= found.basket.cost


def test_too_many_cuts_are_refused() -> None:
    shelf = Shelf(currency="EUR", chains=(_offer("many", tuple(range(10, 20)), 1500),))
    with pytest.raises(BadInputError, match="too long to compare"):
        buy(_poor(24.0), shelf)


def test_the_answer_says_whether_it_is_proven() -> None:
    assert isinstance(buy(_poor(24.0), BY_METRE), Bought)
    assert RACK.kind == "rack"
