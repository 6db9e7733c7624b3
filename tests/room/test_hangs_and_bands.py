"""Chain hung straight and laid across, and bands: in plans of the room and in what to buy.

Every choice is read once more from the rig that would stand there, one after the other.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, product
from typing import TYPE_CHECKING, Any

import pytest

from tests.room.exhaustive import least_cost
from tests.room.rooms import STEPS, room, squat
from topheavy.errors import NotInStockError
from topheavy.gym.bands import Band
from topheavy.gym.people import Station, StationPeg
from topheavy.mechanics.band_readings import BandReadings
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.rig import End, Rig
from topheavy.rigging.fixtures import Fixture, fixtures_of
from topheavy.rigging.limits import Limits
from topheavy.room.buying import buy
from topheavy.room.offers import offers_for
from topheavy.room.shelf import BandOffer, ChainOffer, Shelf
from topheavy.room.solve import plan_room
from topheavy.room.validate import breaches
from topheavy.services.rig import Rules

if TYPE_CHECKING:
    from collections.abc import Iterator

    from topheavy.room.ask import Room
    from topheavy.room.hung import Hung, TiedBands

LOW = StationPeg(name="low", peg=Peg(height_m=0.10))
RACKS = tuple(Station(name=name, kind="rack", pegs=(LOW,)) for name in ("rack", "rack 2"))
HANGING: dict[str, Any] = {"rules": Rules(full_deload=False, links_down=None)}


def band(tag: str, pull_kg: float = 12.0, rest_m: float = 0.6) -> Band:
    """A band that pulls so much at 1 m, read up to 1.3 m."""
    readings = BandReadings(
        tag=tag,
        rest_m=rest_m,
        length_m=(0.7, 1.0, 1.3),
        tension_kg=(0.4 * pull_kg, pull_kg, 1.5 * pull_kg),
    )
    return Band(readings=readings)


def banded(*lifts: Any, bands: int = 2, most: int = 1, **more: Any) -> Room:
    """A room with pegs and some bands, of which each weighs nothing."""
    limits = Limits(most_pieces=4, most_bands=most)
    asked = room(*lifts, **{"stations": RACKS, "limits": limits, **more})
    some = tuple(band(f"B{n + 1}") for n in range(bands))
    gym = replace(asked.gym, stock=replace(asked.gym.stock, bands=some))
    return replace(asked, gym=gym)


def every_hung(asked: Room) -> Iterator[tuple[Fixture, int, tuple[str, ...]]]:
    """Every fixture with every number of pairs and every pair of bands."""
    stock, limits = asked.in_use.stock, asked.limits
    tags = [one.tag for one in stock.bands] if limits.most_bands else []
    pulls = [(), *combinations(tags, 2)]
    pairs = len(stock.chains) // 2
    for fixture, count, bands in product(fixtures_of(stock, limits), range(1, pairs + 1), pulls):
        if 2 * count <= limits.most_pieces:
            yield fixture, count, bands
    for bands in pulls[1:]:
        yield Fixture(style="straight"), 0, bands


def read_anew(asked: Room, straight_kg: float, one: tuple[Fixture, int, tuple[str, ...]]) -> float:
    """Largest miss of the first booking [kg], from the rig as the mechanics know it."""
    fixture, count, tags = one
    booking = asked.bookings[0]
    place = asked.question(booking, asked.stations[0]).place
    span_m = (place.travel.bottom_m, place.travel.top_m)
    chain = next((piece.chain for piece in asked.gym.stock.chains), None)
    pulls: list[tuple[Banded, ...]] = [
        (Banded(band=asked.gym.stock.band(tag).fit(), peg=LOW.peg, travel_m=span_m),)
        for tag in tags
    ]
    pulls = pulls or [(), ()]
    left, right = (End(fixture.hangs([chain] * count if chain else []), bands=own) for own in pulls)
    rig = Rig(bar_kg=straight_kg, plates_kg=0.0, left=left, right=right)
    curve = rig.curve(place.ground)
    wanted = (booking.ask.bottom_kg, booking.ask.top_kg)
    loads = [float(curve.at(height)) for height in span_m]
    return max(abs(load - want) for load, want in zip(loads, wanted, strict=True) if want)


def known(hung: Hung) -> tuple[str, str, int, tuple[str, ...]]:
    return hung.style, hung.setting[1], sum(hung.counts), hung.band_tags


ASKED = {
    "straight": room(
        squat("A", 80, 96, **HANGING), limits=Limits(styles=("straight",), most_pieces=8)
    ),
    "all three": room(
        squat("A", 84, 96, **HANGING),
        limits=Limits(styles=("doubled", "straight", "draped"), most_pieces=4),
    ),
    "bands": banded(squat("A", 97, 124), bands=4),
    "bands alone": banded(squat("A", 97, 124), pairs=0),
}


@pytest.mark.parametrize("name", ASKED)
def test_misses_are_those_of_the_rig_that_would_stand_there(name: str) -> None:
    asked = ASKED[name]
    offers = offers_for(asked)
    offer = offers.at[0, asked.stations[0].name]
    again: dict[tuple[str, str, int, tuple[str, ...]], float] = {}
    for one in every_hung(asked):
        fixture, count, tags = one
        style = fixture.style if count else "bands"
        label = fixture.setting.label if fixture.setting and count else ""
        again[style, label, count, tags] = read_anew(asked, offer.straight_kg, one)
    assert offer.miss_kg
    for at, miss_kg in offer.miss_kg.items():
        assert miss_kg == pytest.approx(again[known(offers.hung[at])], abs=1e-3)
    fewest = min(count for (_, _, count, _), miss in again.items() if miss <= offer.tolerance_kg)
    assert fewest == min(sum(offers.hung[at].counts) for at in offer.miss_kg)


def test_a_plan_with_bands_costs_what_the_cheapest_of_all_plans_costs() -> None:
    asked = banded(squat("A", 97, 124), squat("B", 98, 125), squat("C", 60, 72), bands=2)
    offers = offers_for(asked)
    assert any(one.bands for one in offers.hung)
    planned = plan_room(asked, STEPS, offers=offers)
    assert planned.plan is not None
    assert breaches(planned.plan) == ()
    assert planned.cost == least_cost(asked, offers)


def only_bands(*lifts: Any, bands: int) -> Room:
    return banded(*lifts, pairs=0, bands=bands)


def test_one_pair_of_bands_is_never_on_two_bars() -> None:
    lifts = [squat(name, low, low + 27, tolerance_kg=4.0) for name, low in (("A", 90), ("B", 150))]
    ends = {}
    for bands in (2, 4):
        plan = plan_room(only_bands(*lifts, bands=bands), STEPS).plan
        assert plan is not None
        assert breaches(plan) == ()
        ends[bands] = plan.finish
    assert ends[4] <= ends[2]


def test_the_validator_finds_bands_that_may_not_be_there() -> None:
    plan = plan_room(only_bands(squat("A", 97, 124, tolerance_kg=4.0), bands=4), STEPS).plan
    assert plan is not None
    assert breaches(plan) == ()
    (group,) = plan.groups
    (pair,) = group.hung.bands

    def with_bands(*bands: TiedBands) -> set[str]:
        changed = replace(group, hung=replace(group.hung, bands=bands))
        return {one.rule for one in breaches(replace(plan, groups=(changed,)))}

    assert "bands" in with_bands(replace(pair, peg="high"))
    assert "piece" in with_bands(replace(pair, right=pair.left))
    assert "load" in with_bands(replace(pair, doubled=True)) | with_bands()
    assert "bands" in with_bands(pair, replace(pair, left="B3", right="B4"))
    broken = replace(plan, room=replace(plan.room, broken=(pair.left,)))
    assert "fit" in {one.rule for one in breaches(broken)}


def test_a_broken_band_is_not_hung() -> None:
    asked = only_bands(squat("A", 97, 124, tolerance_kg=4.0), bands=2)
    assert offers_for(asked).serves(0)
    with pytest.raises(NotInStockError, match="Nothing to hang"):
        offers_for(replace(asked, broken=("B1",)))


def test_bands_are_bought_where_they_are_cheaper_than_chain() -> None:
    """By hand: two bands at 10 beat two pieces of chain of 32 links at 15 a metre and 2 a cut."""
    asked = banded(squat("A", 97, 124, tolerance_kg=4.0), pairs=0, bands=0)
    chain = ChainOffer(
        name="cut",
        size="5/8 in",
        grade="30",
        wire_diameter_m=0.016,
        pitch_m=0.056,
        density_kg_per_m=5.3,
        density_u_kg_per_m=0.265,
        cuts=(32,),
        price=1500,
        cut_price=200,
    )
    bands = BandOffer(name="blue", readings=band("blue").readings, price=1000)
    shelf = Shelf(currency="EUR", chains=(chain,), bands=(bands,))
    found = buy(asked, shelf).basket
    assert found is not None
    assert (found.bands, found.pieces, found.cost) == ((("blue", 2),), (), 2000)
    dear = replace(shelf, bands=(replace(bands, price=9000),))
    other = buy(asked, dear).basket
    assert other is not None
    price = sum(count * chain.piece_price(links) for _, links, count in other.pieces)
    assert (other.bands, other.cost) == ((), price)
    assert buy(asked, replace(dear, chains=())).basket.cost == 18000  # type: ignore[union-attr]


def test_of_two_sellers_of_one_chain_the_cheaper_is_taken() -> None:
    asked = room(squat("A", 100, 124), pairs=0)
    first = ChainOffer(
        name="near",
        size="5/8 in",
        grade="30",
        wire_diameter_m=0.016,
        pitch_m=0.056,
        density_kg_per_m=5.3,
        density_u_kg_per_m=0.265,
        cuts=(32,),
        price=1500,
    )
    for prices in ((1500, 1200), (1200, 1500)):
        sellers = tuple(
            replace(first, name=name, price=price)
            for name, price in zip(("near", "far"), prices, strict=True)
        )
        found = buy(asked, Shelf(currency="EUR", chains=sellers)).basket
        assert found is not None
        assert {name for name, _, _ in found.pieces} == {("near", "far")[prices.index(1200)]}
