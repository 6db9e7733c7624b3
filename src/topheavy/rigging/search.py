"""The search: the best rig of the whole stock, proven.

Under one fixture the load at each aim is a sum over the chain hung, and plates shift all aims
alike. So for given chain the best plates are those nearest the middle of what is still missing, or
the heaviest within it where loads are limits, and no plates can mend the spread between the aims.
Chain is added kind by kind, under many fixtures at once, the most promising partial choices first;
a partial choice is dropped as soon as its bound says that nothing added later can beat the best rig
so far. The last addition is looked up among all kinds sorted by what they add. What is dropped is
therefore proven worse, and the answer equals a search of everything.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.additions import Additions, Partials, additions_under, nothing_yet
from topheavy.rigging.bounds import HAIR_KG, Bounds, bounds_of
from topheavy.rigging.plate_choice import PlateChoice

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]

_HELPING: Final = 60_000
_LOOK_UP: Final = 500_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One rig of the search, as positions in its problem.

    Parameters
    ----------
    fixture, loading : int
        Positions in the problem's fixtures and plates.
    splits : tuple of int
        For each kind, which of its splits.
    miss_kg : float
        Largest difference between load and target over the aims [kg].
    imbalance_kg : float
        Difference between the ends at the top of the lift [kg].
    pieces : int
        Chain pieces on both ends together.
    cost_kg : float
        miss + imbalance + price of pieces, kinds and the fold's gap [kg]: what the search makes
        least.
    """

    fixture: int
    loading: int
    splits: tuple[int, ...]
    miss_kg: float
    imbalance_kg: float
    pieces: int
    cost_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What the search found.

    Parameters
    ----------
    best : Choice or None
        The rig of least cost; None when no rig keeps the limits, or none is worth it.
    compared : int
        How many rigs were weighed one against the other after the bounds.
    exact : bool
        Whether every split of weighed pieces was open; else nearly equal ones counted as alike.
    """

    best: Choice | None
    compared: int
    exact: bool


def find(problem: Problem, worth_kg: float = math.inf, enough_kg: float = -math.inf) -> Found:
    """Find the rig of least cost over the whole stock.

    Parameters
    ----------
    problem : Problem
        Posed by `topheavy.rigging.problem.pose`.
    worth_kg : float
        Rigs that cost more than this are of no interest [kg]; a low bound makes a quick search.
    enough_kg : float
        Stop at the first rig that costs no more than this [kg]: then it need not be the best.

    Returns
    -------
    Found
        The optimum, proven: cost is the largest miss over the aims (where loads are limits, the
        miss as `Target.under_per_kg` counts it), plus the imbalance of the
        ends at the top, plus `piece_price_kg` a piece, plus `kind_price_kg` a kind of chain,
        plus `fold_price_kg_per_m` times how far the fold is from the floor at the bottom of the
        lift. Ties go to fewer pieces, then to the fixture whose fold is nearer.
    """
    search = _Search(problem, worth_kg)
    ways = sum(kind.each_end.size for kind in problem.kinds)
    nearest_first = np.argsort(problem.fold_price_kg, kind="stable")
    step = max(1, _LOOK_UP // ways)
    for start in range(0, nearest_first.size, step):
        search.under(nearest_first[start : start + step])
        if search.best is not None and search.best_kg <= enough_kg:
            break
    exact = all(kind.exact for kind in problem.kinds)
    return Found(best=search.best, compared=search.compared, exact=exact)


class _Search:
    """The best rig so far, and the walk that looks for a better one."""

    def __init__(self, problem: Problem, worth_kg: float) -> None:
        self.problem = problem
        self.best: Choice | None = None
        self.best_kg = worth_kg
        self.compared = 0
        self.most_each_end = problem.limits.most_pieces // 2
        self.plates = PlateChoice(problem)

    def under(self, fixtures: Ints) -> None:
        """Search all chain under some fixtures."""
        additions = additions_under(self.problem, fixtures, self.most_each_end)
        if additions.kind.size:
            bounds = bounds_of(self.problem, additions)
            self._walk(_Field(fixtures, additions, bounds), nothing_yet(self.problem, fixtures))

    def _walk(self, field: _Field, partials: Partials) -> None:
        """Weigh every last addition to the partial choices, then add one and walk on."""
        least_kg = field.bounds.least_cost_kg(field.additions, partials)
        order = np.argsort(least_kg, kind="stable")
        step = max(1, _HELPING // field.additions.kind.size)
        for start in range(0, order.size, step):
            rows = order[start : start + step]
            some = partials.take(rows[least_kg[rows] <= self.best_kg + HAIR_KG])
            if not len(some):
                return
            self._weigh(field, self._last_additions(field, some))
            grown = field.additions.added_to(some, self.most_each_end - 1)
            self._walk(field, grown)

    def _last_additions(self, field: _Field, partials: Partials) -> Partials:
        """Add what brings the partial choices near enough to the target to win."""
        window = field.bounds.window(partials, self.best_kg)
        return field.additions.last_added_to(partials, window, self.most_each_end)

    def _weigh(self, field: _Field, whole: Partials) -> None:
        """Choose plates for whole choices, and keep the best if it wins."""
        most_hung_kg = field.additions.most_hung_kg[whole.fixture] + HAIR_KG
        whole = whole.take(np.all(whole.ends_kg <= most_hung_kg[:, None], axis=1))
        if not len(whole):
            return
        self.compared += len(whole)
        loading, miss_kg = self.plates.best_for(self.problem.wanted_kg - whole.load_kg)
        cost_kg = miss_kg + np.abs(whole.lean_kg) + whole.price_kg
        if not np.isfinite(cost_kg.min()):
            return
        near = np.flatnonzero(cost_kg <= cost_kg.min() + HAIR_KG)
        row = near[np.lexsort((whole.fixture[near], whole.pieces[near]))[0]]
        choice = Choice(
            fixture=int(field.fixtures[whole.fixture[row]]),
            loading=int(loading[row]),
            splits=field.additions.splits_of(whole.picks[row], len(self.problem.kinds)),
            miss_kg=float(miss_kg[row]),
            imbalance_kg=abs(float(whole.lean_kg[row])),
            pieces=2 * int(whole.pieces[row]),
            cost_kg=float(cost_kg[row]),
        )
        if self._beats_best(choice):
            self.best, self.best_kg = choice, choice.cost_kg

    def _beats_best(self, choice: Choice) -> bool:
        if self.best is None or abs(choice.cost_kg - self.best_kg) > HAIR_KG:
            return choice.cost_kg <= self.best_kg + HAIR_KG
        return self._rank(choice) < self._rank(self.best)

    def _rank(self, choice: Choice) -> tuple[int, float]:
        return choice.pieces, float(self.problem.fold_price_kg[choice.fixture])


@dataclass(frozen=True, slots=True)
class _Field:
    """Some fixtures, everything that can be added under them, and the bounds."""

    fixtures: Ints
    additions: Additions
    bounds: Bounds
