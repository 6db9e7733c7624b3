"""Cutting chain from lengths, held against SciPy's solver of whole-number programs.

Gilmore, P. C., Gomory, R. E. (1961). A linear programming approach to the cutting-stock problem.
Operations Research 9(6), 849-859 (from memory): choose how often each pattern of cuts is used. The
patterns are listed one by one here and the rest is `scipy.optimize.milp` (HiGHS). Each cut spoils a
link, so a piece of n links takes n + 1 of a length that has one more than it holds.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from topheavy.room.basket import Counter, Goods, Way
from topheavy.room.shelf import ChainOffer, Shelf


def offer(sold: int, cuts: tuple[int, ...], cut_price: int) -> ChainOffer:
    """Chain in lengths of so many links."""
    return ChainOffer(
        name="lengths",
        size="5/8 in",
        grade="30",
        wire_diameter_m=0.016,
        pitch_m=0.056,
        density_kg_per_m=5.3,
        density_u_kg_per_m=0.265,
        cuts=cuts,
        price=8400,
        sold=sold,
        cut_price=cut_price,
    )


def fewest_lengths(sold: int, cuts: tuple[int, ...], wanted: tuple[int, ...]) -> int:
    """So many lengths at least, by patterns."""
    most = [range((sold + 1) // (links + 1) + 1) for links in cuts]
    patterns = [
        counts
        for counts in product(*most)
        if any(counts)
        and sum(n * (links + 1) for n, links in zip(counts, cuts, strict=True)) <= sold + 1
    ]
    found = milp(
        np.ones(len(patterns)),
        integrality=np.ones(len(patterns), dtype=np.int64),
        bounds=Bounds(0, np.inf),
        constraints=LinearConstraint(np.array(patterns).T, lb=np.array(wanted)),
    )
    assert found.success
    return round(found.fun)


@pytest.mark.parametrize("seed", range(12))
def test_no_fewer_lengths_would_do(seed: int) -> None:
    chance = np.random.default_rng(seed)
    sold = int(chance.integers(60, 130))
    cuts = tuple(sorted({int(n) for n in chance.integers(8, 50, size=3)}))
    pairs = tuple(int(n) for n in chance.integers(0, 4, size=len(cuts)))
    pairs = pairs if any(pairs) else (1, *pairs[1:])
    chain = offer(sold, cuts, 150)
    goods = Goods(
        shelf=Shelf(currency="EUR", chains=(chain,)),
        offers=tuple(((chain, links),) for links in cuts),
        most=4,
        have={},
    )
    way = Way(feeder="", connector="", pairs=pairs, bands=())
    counter = Counter(goods, {0: [way]})
    basket = counter.cheapest(1)
    assert basket is not None
    assert counter.proven
    lengths = fewest_lengths(sold, cuts, tuple(2 * n for n in pairs))
    assert len(basket.lengths) == lengths
    assert basket.cost == 8400 * lengths + 150 * 2 * sum(pairs)
    for one in basket.lengths:
        assert sum(links + 1 for links in one.pieces) <= sold + 1
        assert 0 <= one.left_over <= sold - sum(one.pieces)
