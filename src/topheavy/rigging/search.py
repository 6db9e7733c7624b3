"""The search: the best rig of the whole stock, proven.

Under one fixture the load at each aim is a sum over the chain hung, and plates shift all aims
alike. So for given chain the best plates are those nearest the middle of what is still missing,
and no plates can mend the spread between the aims. Chain is added kind by kind; a partial choice
is dropped as soon as its bound says that nothing added later can beat the best rig so far. The
last addition is looked up among all kinds sorted by what they add. What is dropped is therefore
proven worse, and the answer equals a search of everything.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from topheavy.rigging.additions import Additions, Partials, additions_under, nothing_yet

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.rigging.problem import Problem

    Floats = NDArray[np.float64]

_HAIR = 1e-9
_HELPING = 100_000


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
    """What the search says.

    Parameters
    ----------
    best : Choice or None
        The rig of least cost; None when no rig keeps the limits, or none is worth it.
    compared : int
        How many rigs were weighed one against the other after the bounds.
    exact : bool
        Whether every split of weighed pieces was open; else each kind was balanced by itself.
    """

    best: Choice | None
    compared: int
    exact: bool


def find(problem: Problem, worth_kg: float = math.inf) -> Found:
    """Find the rig of least cost over the whole stock.

    Parameters
    ----------
    problem : Problem
        Posed by `topheavy.rigging.problem.pose`.
    worth_kg : float
        Rigs that cost more than this are of no interest [kg]; a low bound makes a quick search.

    Returns
    -------
    Found
        The optimum, proven: cost is the largest miss over the aims, plus the imbalance of the
        ends at the top, plus `piece_price_kg` a piece and `kind_price_kg` a kind of chain, plus `fold_price_kg_per_m` times how far
        the fold is from the floor at the bottom of the lift. Ties go to fewer pieces, then to
        the fixture whose fold is nearer.
    """
    search = _Search(problem, worth_kg)
    gaps_m = _fold_gaps_m(problem)
    for fixture in np.argsort(gaps_m, kind="stable"):
        fold_kg = problem.limits.fold_price_kg_per_m * float(gaps_m[fixture])
        if fold_kg + search.least_price_kg > search.best_kg + _HAIR:
            break
        search.under(int(fixture), fold_kg)
    exact = not any(kind.balanced_alone for kind in problem.kinds)
    return Found(best=search.best, compared=search.compared, exact=exact)


def _fold_gaps_m(problem: Problem) -> Floats:
    """How far each fixture's fold is above or below the floor at the bottom of the lift [m]."""
    at_bottom_m = problem.setup.travel.bottom_m - problem.setup.ground.surface_m
    doubled = [fixture.suspension is not None for fixture in problem.fixtures]
    fold_m = np.array([fixture.fold_m for fixture in problem.fixtures])
    return np.where(doubled, np.abs(fold_m - at_bottom_m), 0.0)


class _Search:
    """The best rig so far, and the walk that looks for a better one."""

    def __init__(self, problem: Problem, worth_kg: float) -> None:
        self.problem = problem
        self.best: Choice | None = None
        self.best_kg = worth_kg
        self.fold_kg = 0.0
        self.compared = 0
        self.most_each_end = problem.limits.most_pieces // 2
        self.least_price_kg = 2 * problem.limits.piece_price_kg + problem.limits.kind_price_kg
        self.halfway_kg = 0.5 * (problem.straight_kg[1:] + problem.straight_kg[:-1])

    def under(self, fixture: int, fold_kg: float) -> None:
        """Search all chain under one fixture whose fold costs `fold_kg` [kg]."""
        self.fold_kg = fold_kg
        additions = additions_under(self.problem, fixture, self.most_each_end)
        if additions.kind.size:
            self._walk(fixture, additions, nothing_yet(self.problem, fixture))

    def _walk(self, fixture: int, additions: Additions, partials: Partials) -> None:
        """Weigh every last addition to the partial choices, then add one and walk on."""
        for some in partials.helpings(_HELPING, additions.kind.size):
            self._weigh(fixture, additions, self._last_additions(additions, some))
            open_ended = some.take(some.pieces < self.most_each_end - 1)
            grown = additions.added_to(open_ended, self.most_each_end - 1)
            grown = grown.take(self._can_win(additions, grown))
            if grown.pieces.size:
                self._walk(fixture, additions, grown)

    def _spare_kg(self, partials: Partials) -> Floats:
        """How far each partial choice, one addition later, may miss and still win."""
        price_kg = self.fold_kg + partials.price_kg + self.least_price_kg
        return np.asarray(self.best_kg + _HAIR - price_kg, dtype=np.float64)

    def _last_additions(self, additions: Additions, partials: Partials) -> Partials:
        """Add what brings the partial choices near enough to the target to win."""
        spare_kg = self._spare_kg(partials)
        partials, spare_kg = partials.take(spare_kg >= 0), spare_kg[spare_kg >= 0]
        missing_kg = self.problem.wanted_kg - partials.load_kg
        low_kg, high_kg = self._window(missing_kg, spare_kg)
        return additions.last_added_to(partials, low_kg, high_kg, self.most_each_end)

    def _window(self, missing_kg: Floats, spare_kg: Floats) -> tuple[Floats, Floats]:
        """Bounds on what an addition must add to the key of `Additions` (see there)."""
        last = len(self.problem.target.heights_m) - 1
        if last > 0:
            rise_kg = missing_kg[:, last] - missing_kg[:, 0]
            return rise_kg - 2 * spare_kg, rise_kg + 2 * spare_kg
        lightest_kg, heaviest_kg = self.problem.straight_kg[0], self.problem.straight_kg[-1]
        aim_kg = missing_kg[:, 0]
        return aim_kg - heaviest_kg - spare_kg, aim_kg - lightest_kg + spare_kg

    def _can_win(self, additions: Additions, partials: Partials) -> NDArray[np.bool_]:
        """Whether something added to each partial choice may still beat the best rig."""
        limits, straight_kg = self.problem.limits, self.problem.straight_kg
        spare_kg = self._spare_kg(partials)
        missing_kg = self.problem.wanted_kg - partials.load_kg
        room = self.most_each_end - partials.pieces
        most_kg = additions.most_later_kg[partials.last] * room[:, None]
        can = spare_kg >= 0
        can &= np.all(partials.ends_kg <= additions.most_hung_kg + _HAIR, axis=1)
        lean_kg = np.abs(partials.lean_kg) - additions.most_later_lean_kg[partials.last] * room
        can &= lean_kg <= np.minimum(limits.most_imbalance_kg + _HAIR, spare_kg)
        can &= np.all(missing_kg >= straight_kg[0] - spare_kg[:, None], axis=1)
        can &= np.all(missing_kg - most_kg <= straight_kg[-1] + spare_kg[:, None], axis=1)
        low_kg, high_kg = self._window(missing_kg, spare_kg)
        most_key_kg = additions.most_later_key_kg[partials.last] * room
        return can & (high_kg >= 0) & (low_kg <= most_key_kg)

    def _weigh(self, fixture: int, additions: Additions, whole: Partials) -> None:
        """Choose plates for whole choices, and keep the best if it wins."""
        limits, straight_kg = self.problem.limits, self.problem.straight_kg
        fits = np.all(whole.ends_kg <= additions.most_hung_kg + _HAIR, axis=1)
        fits &= np.abs(whole.lean_kg) <= limits.most_imbalance_kg + _HAIR
        whole = whole.take(fits)
        if whole.pieces.size == 0:
            return
        self.compared += int(whole.pieces.size)
        missing_kg = self.problem.wanted_kg - whole.load_kg
        high_kg, low_kg = missing_kg.max(axis=1), missing_kg.min(axis=1)
        middle_kg = 0.5 * (high_kg + low_kg)
        loading = np.searchsorted(self.halfway_kg, middle_kg)
        miss_kg = 0.5 * (high_kg - low_kg) + np.abs(straight_kg[loading] - middle_kg)
        cost_kg = miss_kg + np.abs(whole.lean_kg) + whole.price_kg + self.fold_kg
        row = int(np.lexsort((whole.pieces, cost_kg))[0])
        if self._beats(float(cost_kg[row]), 2 * int(whole.pieces[row])):
            self.best_kg = float(cost_kg[row])
            self.best = Choice(
                fixture=fixture,
                loading=int(loading[row]),
                splits=additions.splits_of(whole.picks[row], len(self.problem.kinds)),
                miss_kg=float(miss_kg[row]),
                imbalance_kg=abs(float(whole.lean_kg[row])),
                pieces=2 * int(whole.pieces[row]),
                cost_kg=float(cost_kg[row]),
            )

    def _beats(self, cost_kg: float, pieces: int) -> bool:
        if self.best is None:
            return cost_kg <= self.best_kg + _HAIR
        if cost_kg < self.best_kg - _HAIR:
            return True
        return cost_kg <= self.best_kg + _HAIR and pieces < self.best.pieces
