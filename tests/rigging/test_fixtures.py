"""Ways to hold chain: what may be used, and how much it may carry."""

from __future__ import annotations

import math

import pytest

from tests.rigging.builders import connector, feeder, piece
from topheavy.gym.stock import Stock
from topheavy.mechanics.hang import Doubled, Draped, Straight
from topheavy.rigging.fixtures import Fixture, fixtures_of, most_hung_kg
from topheavy.rigging.limits import Limits, Style


def test_every_setting_on_every_connector() -> None:
    stock = Stock(
        feeders=(feeder("a", (0.5, 0.6)), feeder("b", (0.4,))),
        connectors=(connector("x"), connector("y")),
    )
    names = {_names(fixture) for fixture in fixtures_of(stock, Limits())}
    settings = (("a", "0.5"), ("a", "0.6"), ("b", "0.4"))
    assert names == {(*setting, link) for setting in settings for link in "xy"}


def _names(fixture: Fixture) -> tuple[str, ...]:
    assert fixture.feeder is not None
    assert fixture.setting is not None
    assert fixture.connector is not None
    return fixture.feeder.name, fixture.setting.label, fixture.connector.name


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (feeder(rating_kg=None), connector()),
        (feeder(), connector(rating_kg=None)),
        (feeder(count=1), connector()),
        (feeder(), connector(count=1)),
    ],
)
def test_unrated_or_single_parts_hold_nothing(one: object, other: object) -> None:
    stock = Stock(feeders=(one,), connectors=(other,))  # type: ignore[arg-type]  # either way
    assert fixtures_of(stock, Limits()) == ()


def test_the_weakest_part_rates_the_whole() -> None:
    """49 CFR 393.108 (b), from memory: an assembly is rated as its weakest part."""
    strong, weak = feeder(rating_kg=800.0), connector(rating_kg=200.0)
    assert most_hung_kg(strong, weak, 4.0) == 50.0
    assert most_hung_kg(strong, weak, 8.0) == 25.0


def test_a_feeder_carries_the_connector_too() -> None:
    assert most_hung_kg(feeder(rating_kg=100.0), connector(), 4.0) == pytest.approx(24.8)


def test_a_feeder_too_weak_for_its_connector_carries_nothing() -> None:
    assert most_hung_kg(feeder(rating_kg=0.4), connector(), 4.0) == 0.0


def test_straight_and_draped_need_no_parts() -> None:
    found = fixtures_of(Stock(), Limits(styles=("straight", "draped", "doubled")))
    assert [(f.style, f.most_hung_kg, f.fold_m) for f in found] == [
        ("straight", math.inf, 0.0),
        ("draped", math.inf, 0.0),
    ]


def test_the_fold_hangs_a_feeder_and_a_connector_down() -> None:
    (found,) = fixtures_of(
        Stock(feeders=(feeder(lengths_m=(0.6,)),), connectors=(connector(),)), Limits()
    )
    assert found.fold_m == pytest.approx(0.68)
    assert found.suspension is not None
    assert found.suspension.feeder_whole_m == 1.0


def test_a_setting_longer_than_the_feeder_counts_as_its_length() -> None:
    stock = Stock(feeders=(feeder(lengths_m=(1.1,)),), connectors=(connector(),))
    (found,) = fixtures_of(stock, Limits())
    assert found.suspension is not None
    assert found.suspension.feeder_whole_m == 1.1


@pytest.mark.parametrize(("style", "hang"), [("straight", Straight), ("draped", Draped)])
def test_hangs_of_each_style(style: Style, hang: type) -> None:
    chains = [piece("a").chain, piece("b").chain]
    hangs = Fixture(style=style).hangs(chains)
    assert all(isinstance(h, hang) for h in hangs)
    assert [chain for h in hangs for chain in h.chains] == chains
    assert Fixture(style=style).hangs([]) == ()


def test_doubled_pieces_share_one_connector() -> None:
    stock = Stock(feeders=(feeder(lengths_m=(0.6,)),), connectors=(connector(),))
    (fixture,) = fixtures_of(stock, Limits())
    (hang,) = fixture.hangs([piece("a").chain, piece("b").chain])
    assert isinstance(hang, Doubled)
    assert len(hang.chains) == 2
    assert hang.suspension == fixture.suspension
