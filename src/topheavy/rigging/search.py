"""The search: the best rig of the whole stock, proven.

Under one fixture the load at each aim is a sum over the chain hung, and plates shift all aims
alike. So for given chain the best plates are those nearest the middle of what is still missing, or
the heaviest within it where loads are limits, and no plates can mend the spread between the aims.
Chain is added kind by kind, under many fixtures at once, the most promising partial choices first;
a partial choice is dropped as soon as its bound says that nothing added later can beat the best rig
so far. The last addition is looked up among all kinds sorted by what they add. What is dropped is
therefore proven worse, and the answer equals a search of everything. Where bands are allowed, all
of that is done for each way to hang them, and once more without chain; whatever is on first, the
cost of the best rig so far bounds the rest.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.additions import Additions, Partials, additions_under, nothing_yet
from topheavy.rigging.bounds import HAIR_KG, Bounds, bounds_of
from topheavy.rigging.plate_choice import PlateChoice

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from topheavy.rigging.band_options import BandOption
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
    fixture : int or None
        Position in the problem's fixtures; None without chain.
    loading : int
        Position in the plates, of the problem with these bands on.
    splits : tuple of int
        For each kind, which of its splits.
    miss_kg : float
        Largest difference between load and target over the aims [kg].
    imbalance_kg : float
        Difference between the ends at the top of the lift [kg].
    pieces : int
        Chain pieces on both ends together.
    cost_kg : float
        miss + imbalance + price of pieces, bands, kinds and the fold's gap [kg]: what the search
        makes least.
    band : BandOption or None
        Bands that are on.
    """

    fixture: int | None
    loading: int
    splits: tuple[int, ...]
    miss_kg: float
    imbalance_kg: float
    pieces: int
    cost_kg: float
    band: BandOption | None = None


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
        miss as `Target.under_per_kg` counts it), plus the imbalance of the ends at the top, plus
        `piece_price_kg` a piece, plus `band_price_kg` a band, plus `kind_price_kg` a kind of
        chain, plus `fold_price_kg_per_m` times how far the fold is from the floor at the bottom of
        the lift. Ties go to fewer bands, then to fewer pieces, then to the fixture whose fold is
        nearer.
    """
    best, best_kg, compared = None, worth_kg, 0
    laid = _Laid(problem)
    for posed, chain in _with_each_band(problem):
        found = _bands_alone(posed, best_kg)
        if chain:
            found = _find_chain(posed, laid, best_kg, enough_kg)
        compared += found.compared
        if found.best is not None and (best is None or found.best.cost_kg < best_kg - HAIR_KG):
            best, best_kg = found.best, found.best.cost_kg
            if best_kg <= enough_kg:
                break
    exact = all(kind.exact for kind in problem.kinds)
    return Found(best=best, compared=compared, exact=exact)


def _with_each_band(problem: Problem) -> Iterator[tuple[Problem, bool]]:
    """Problems with each way to hang bands, and whether chain hangs beside them."""
    if problem.has_chain and not problem.limits.least_bands:
        yield problem, True
    loaded: dict[tuple[int, bool], Problem | None] = {}
    for option in problem.bands.options:
        if option.each_end < problem.limits.least_bands:
            continue
        for chain in (False, True) if problem.has_chain else (False,):
            # As many loops leave the same room for plates.
            loops = option.each_end, chain
            if loops not in loaded:
                loaded[loops] = problem.with_band(option, chain=chain)
            posed = loaded[loops]
            if posed is not None:
                yield replace(posed, band=option), chain


def _bands_alone(problem: Problem, worth_kg: float) -> Found:
    """Weigh the bands that are on, without any chain."""
    band = problem.band
    if band is None:
        return Found(best=None, compared=0, exact=True)
    loading, miss_kg = PlateChoice(problem).best_for((problem.wanted_kg - band.load_kg)[None])
    cost_kg = float(miss_kg[0]) + abs(band.lean_kg) + band.price_kg
    if not cost_kg <= worth_kg + HAIR_KG or not math.isfinite(cost_kg):
        return Found(best=None, compared=1, exact=True)
    best = Choice(
        fixture=None,
        loading=int(loading[0]),
        splits=(0,) * len(problem.kinds),
        miss_kg=float(miss_kg[0]),
        imbalance_kg=abs(band.lean_kg),
        pieces=0,
        cost_kg=cost_kg,
        band=band,
    )
    return Found(best=best, compared=1, exact=True)


def _find_chain(problem: Problem, laid: _Laid, worth_kg: float, enough_kg: float) -> Found:
    """Find the best chain beside the bands that are on."""
    search = _Search(problem, worth_kg)
    ways = sum(kind.each_end.size for kind in problem.kinds)
    nearest_first = np.argsort(problem.fold_price_kg, kind="stable")
    step = max(1, _LOOK_UP // ways)
    for start in range(0, nearest_first.size, step):
        fixtures = nearest_first[start : start + step]
        search.under(fixtures, laid.under(problem, fixtures))
        if search.best is not None and search.best_kg <= enough_kg:
            break
    exact = all(kind.exact for kind in problem.kinds)
    return Found(best=search.best, compared=search.compared, exact=exact)


class _Laid:
    """Additions laid out once for all ways to hang bands, where bands leave them as they are.

    With three heights or more, which two of them decide depends on the bands.
    """

    def __init__(self, problem: Problem) -> None:
        self.most_each_end = problem.limits.most_pieces // 2
        self.same = len(problem.target.heights_m) <= 2
        self.laid: dict[int, Additions] = {}

    def under(self, problem: Problem, fixtures: Ints) -> Additions:
        """What can be added under some fixtures, of which the first names them all."""
        first = int(fixtures[0])
        if first in self.laid:
            return self.laid[first]
        additions = additions_under(problem, fixtures, self.most_each_end)
        if self.same:
            self.laid[first] = additions
        return additions


class _Search:
    """The best rig so far, and the walk that looks for a better one."""

    def __init__(self, problem: Problem, worth_kg: float) -> None:
        self.problem = problem
        self.best: Choice | None = None
        self.best_kg = worth_kg
        self.compared = 0
        self.most_each_end = problem.limits.most_pieces // 2
        self.plates = PlateChoice(problem)

    def under(self, fixtures: Ints, additions: Additions) -> None:
        """Search all chain under some fixtures."""
        if additions.kind.size:
            bounds = bounds_of(self.problem, additions)
            self._walk(_Field(fixtures, additions, bounds), nothing_yet(self.problem, fixtures))

    def _walk(self, field: _Field, partials: Partials) -> None:
        """Weigh every last addition to the partial choices, then add one and walk on."""
        least_kg = field.bounds.least_cost_kg(field.additions, partials)
        order = np.argsort(least_kg, kind="stable")
        for rows in _portions(order, field.additions.later_than(partials.last[order])):
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
            band=self.problem.band,
        )
        if self._beats_best(choice):
            self.best, self.best_kg = choice, choice.cost_kg

    def _beats_best(self, choice: Choice) -> bool:
        if self.best is None or abs(choice.cost_kg - self.best_kg) > HAIR_KG:
            return choice.cost_kg <= self.best_kg + HAIR_KG
        return self._rank(choice) < self._rank(self.best)

    def _rank(self, choice: Choice) -> tuple[int, float]:
        fold_kg = 0.0 if choice.fixture is None else self.problem.fold_price_kg[choice.fixture]
        return choice.pieces, float(fold_kg)


def _portions(order: Ints, sizes: Ints) -> list[Ints]:
    """Cut rows into portions, in order, each of about `_HELPING` additions to look at."""
    portion = np.cumsum(sizes) // _HELPING
    return np.split(order, np.flatnonzero(np.diff(portion)) + 1)


@dataclass(frozen=True, slots=True)
class _Field:
    """Some fixtures, everything that can be added under them, and the bounds."""

    fixtures: Ints
    additions: Additions
    bounds: Bounds
