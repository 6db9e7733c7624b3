"""How time grows with the stock: the same question asked of ever more chain."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from benchmarks.cases import TARGET, pieces_of, posed, setup_of
from benchmarks.measure import median_s
from topheavy.rigging.limits import Limits
from topheavy.rigging.search import find

COUNTS: Final = (10, 20, 50, 100, 200)


@dataclass(frozen=True, slots=True)
class Series:
    """A way to make stocks grow.

    Parameters
    ----------
    name : str
        In a few words.
    kinds : int or None
        How many kinds; None for one for every five pieces.
    most_pieces : int or None
        Limit on the pieces handled; None for as many as there are.
    weighed : bool
        Whether every piece was weighed by itself.
    """

    name: str
    kinds: int | None
    most_pieces: int | None
    weighed: bool = False

    def seconds(self, count: int) -> tuple[float, bool]:
        """Median time [s] to pose and search a stock of so many pieces, and if it was exact."""
        kinds = count // 5 if self.kinds is None else min(self.kinds, count // 2)
        setup = setup_of(pieces_of(count, kinds, weighed=self.weighed))
        case = setup, TARGET, Limits(most_pieces=self.most_pieces or count)
        return median_s(lambda: find(posed(case)), 3), find(posed(case)).exact


SERIES: Final = (
    Series("five a kind, at most 8 pieces", None, 8),
    Series("eight kinds, at most 8 pieces", 8, 8),
    Series("five a kind, no limit on pieces", None, None),
    Series("eight kinds, no limit on pieces", 8, None),
    Series("eight kinds, each piece weighed, at most 8 pieces", 8, 8, weighed=True),
)
