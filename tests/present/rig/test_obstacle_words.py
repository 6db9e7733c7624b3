"""What blocks and what would do, in words."""

from __future__ import annotations

from dataclasses import replace

from tests.present.answers import BENCH, PLATES, RINGS, SCREW_LINK, piece
from topheavy.gym.stock import Stock
from topheavy.present.rig.obstacle_words import addition_words, obstacle_lines
from topheavy.rigging.obstacles import Addition, Blocker, Obstacles
from topheavy.rigging.offers import Offer
from topheavy.units import KG_PER_LB, METRIC, POUNDS

MASSES = (0.5, 2.5 * KG_PER_LB)

CHAIN = Addition(
    offer=Offer(thing=piece("new", 26), count=4, added_kg=30.0, stock=Stock()), built=BENCH.best
)


def test_a_blocker_and_an_addition_get_a_line_each() -> None:
    both = Obstacles(
        blockers=(Blocker(limit="at most 4 pieces", built=BENCH.best),), additions=(CHAIN,)
    )
    assert obstacle_lines(both, METRIC) == (
        "In the way: at most 4 pieces. Without it the target can be met.",
        "Would do: 4 more pieces of 5/8 in chain, 26 links each (4 pieces to handle).",
    )


def test_nothing_to_blame_is_said() -> None:
    (line,) = obstacle_lines(Obstacles(blockers=(), additions=()), METRIC)
    assert line == "No single limit is to blame, and no single addition would do."


def test_every_kind_of_addition_is_named() -> None:
    feeder = replace(RINGS, settings=RINGS.settings[:1])
    things = (
        (replace(CHAIN.offer, count=2, thing=feeder), "two feeders with a setting of 42.0 cm"),
        (replace(CHAIN.offer, count=2, thing=SCREW_LINK), "two connectors rated 850 kg"),
        (replace(CHAIN.offer, count=2, thing=PLATES[-1]), "two 1.25 kg plates"),
    )
    for offer, words in things:
        assert addition_words(replace(CHAIN, offer=offer), METRIC) == words
    strong = replace(CHAIN, offer=things[1][0])
    assert addition_words(strong, POUNDS) == "two connectors rated 1874 lb"


def test_plates_are_named_in_the_units_of_who_reads() -> None:
    """With what stands on them, where that is in the other unit."""
    offers = [replace(CHAIN.offer, count=2, thing=replace(PLATES[0], mass_kg=kg)) for kg in MASSES]
    words = [
        addition_words(replace(CHAIN, offer=offer), units)
        for units in (METRIC, POUNDS)
        for offer in offers
    ]
    assert words == [
        "two 0.5 kg plates",
        "two plates of 1.1 kg (2.5 lb)",
        "two plates of 1.1 lb (0.5 kg)",
        "two 2.5 lb plates",
    ]
