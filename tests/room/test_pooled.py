"""Runs put together anew: the best of all ways in small rooms, and sound plans in large ones."""

from __future__ import annotations

import time
from itertools import combinations
from typing import TYPE_CHECKING

import pytest

from tests.room.exhaustive import least_cost
from tests.room.test_exhaustive import ROOMS
from tests.room.test_large import _sixteen
from topheavy.room.by_hand import first_plan
from topheavy.room.draft import made_whole
from topheavy.room.facts import Facts
from topheavy.room.large import Clock, Large
from topheavy.room.layout import Pricing, Run, layout_of
from topheavy.room.offers import offers_for
from topheavy.room.pooled import Pool, Pooled
from topheavy.room.search import Search
from topheavy.room.solve import Effort
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from topheavy.room.layout import Layout, Teams


def _all_teams(some: tuple[int, ...]) -> list[Teams]:
    """Every way to lift one after the other or together."""
    if not some:
        return [()]
    return [
        (first, *rest)
        for size in range(1, len(some) + 1)
        for first in combinations(some, size)
        for rest in _all_teams(tuple(n for n in some if n not in first))
    ]


def _every_run(pricing: Pricing) -> list[tuple[int, list[Run]]]:
    everyone = range(len(pricing.facts.room.bookings))
    found = []
    for station in range(len(pricing.stations)):
        for size in range(1, len(everyone) + 1):
            for some in combinations(everyone, size):
                for teams in _all_teams(some):
                    facts = pricing.of(station, teams)
                    if facts is not None:
                        hung = pricing.facts.sparing(facts.serving)
                        found.append((station, [Run(h, 0, teams) for h in hung]))
    return found


@pytest.mark.parametrize("name", ROOMS)
def test_of_all_runs_it_makes_the_plan_that_an_exhaustive_search_finds(name: str) -> None:
    asked = ROOMS[name]
    offers = offers_for(asked)
    least = least_cost(asked, offers)
    assert least is not None
    pricing = Pricing(Facts(asked, offers), {})
    pool = Pool(pricing)
    pool.add(_every_run(pricing), least)
    nothing: Layout = tuple(() for _ in pricing.stations)
    found = Pooled(pool).better(nothing, least + 1, 5.0)
    assert found is not None
    plan = made_whole(asked, offers, pricing.drafts(found[1]))
    assert breaches(plan) == ()
    assert found[0] == plan.cost == least
    assert Pooled(pool).better(found[1], least, 5.0) is None


def test_runs_of_many_plans_make_a_better_one_that_is_sound_and_the_same_twice() -> None:
    asked = _sixteen()
    offers = offers_for(asked)
    pricing = Pricing(Facts(asked, offers), {})
    known = first_plan(asked, offers)
    assert known is not None
    start = layout_of(pricing.stations, known)
    cost = made_whole(asked, offers, known).cost
    pool = Pool(pricing)
    search = Search(pricing, start, 3, pool.add)
    for _ in range(3000):
        search.step(200.0)
    found, again = (Pooled(pool).better(start, cost, 1.0) for _ in range(2))
    assert found == again
    assert found is not None
    plan = made_whole(asked, offers, pricing.drafts(found[1]))
    assert breaches(plan) == ()
    assert plan.cost == found[0] < cost


def test_beside_the_search_runs_are_put_together_until_it_ends() -> None:
    asked = _sixteen()
    offers = offers_for(asked)
    clock = Clock(Effort(seconds_s=2.5, now=time.monotonic), lambda: False)
    large = Large(asked, offers, None, 1)
    aside = large.bound_aside(lambda: 1 << 30, clock)
    costs = []
    for cost, drafts in large.better((), 1 << 30, clock):
        plan = made_whole(asked, offers, drafts)
        assert breaches(plan) == ()
        assert plan.cost == cost
        costs.append(cost)
    assert costs == sorted(set(costs), reverse=True)
    assert large.pool.cheapest()
    aside.join(10.0)
    assert not aside.is_alive()
