"""What every choice of feeder setting, pairs and bands puts on the bar of one booking: exactly.

Arrays of the exact search are read for all choices at once: over the ways to hold (bands, and
feeder with its setting and connector) and over the choices of pairs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from topheavy.rigging.lifts import Aims
from topheavy.rigging.plates import Loading
from topheavy.rigging.problem import pose
from topheavy.room.hung import BARE, counts_of
from topheavy.room.tied import bands_load
from topheavy.services.rig import target_of, tolerance_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from topheavy.gym.stock import Plate
    from topheavy.rigging.fixtures import Fixture
    from topheavy.rigging.problem import Problem
    from topheavy.rigging.target import Target
    from topheavy.room.ask import Room
    from topheavy.room.hung import PairKind
    from topheavy.room.tied import Bands
    from topheavy.services.rig import RigQuestion

    Floats = NDArray[np.float64]
    Bools = NDArray[np.bool_]

HAIR_KG: Final = 1e-9
_MOST_LOADINGS: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choices:
    """Everything that may hang on the bar of anyone in a room.

    Ways to hold, t, are all bands with all fixtures; pairs are choices of pairs, c.

    Parameters
    ----------
    kinds, counts : tuple of PairKind, tuple of tuple of int
        Matched pairs, and choices of them.
    fixtures : tuple of Fixture
        Ways to hang chain; the last is none where bands may be on alone.
    bands : tuple of Bands
        Bands that may be on, none first.
    light, heavy : array, shape (c, k)
        Density of both ends together [kg/m], of the lightest pairs and of the heaviest.
    allowed : array of bool, shape (s, c)
        Whether ratings and balance allow it.
    lean_kg : array, shape (c,)
        How far the ends may differ [kg].
    """

    kinds: tuple[PairKind, ...]
    counts: tuple[tuple[int, ...], ...]
    fixtures: tuple[Fixture, ...]
    bands: tuple[Bands, ...]
    light: Floats
    heavy: Floats
    allowed: Bools
    lean_kg: Floats

    @classmethod
    def of(
        cls,
        room: Room,
        kinds: tuple[PairKind, ...],
        fixtures: tuple[Fixture, ...],
        bands: tuple[Bands, ...] = ((),),
    ) -> Choices:
        """List every choice that a room may have."""
        bare = len(bands) > 1
        counts = counts_of(kinds, room.limits.most_pieces // 2, bare=bare)
        fixtures = (*fixtures, BARE) if bare else fixtures
        light, heavy, end_kg, lean_kg = _densities(kinds, counts)
        most_kg = np.array([fixture.most_hung_kg for fixture in fixtures])
        allowed = end_kg[None] <= most_kg[:, None] + HAIR_KG
        allowed &= (lean_kg <= room.limits.most_imbalance_kg + HAIR_KG)[None]
        if bare:
            none = np.array([sum(some) == 0 for some in counts])
            allowed[:-1, none] = False
            allowed[-1, ~none] = False
        return cls(
            kinds=kinds,
            counts=counts,
            fixtures=fixtures,
            bands=bands,
            light=light,
            heavy=heavy,
            allowed=allowed,
            lean_kg=lean_kg,
        )

    @property
    def holds(self) -> tuple[tuple[Fixture, Bands], ...]:
        """Ways to hold, in the order of the arrays."""
        return tuple((fixture, bands) for bands in self.bands for fixture in self.fixtures)


def _densities(
    kinds: tuple[PairKind, ...], counts: tuple[tuple[int, ...], ...]
) -> tuple[Floats, Floats, Floats, Floats]:
    """Density of both ends, lightest and heaviest (c, k); the heavier end, and the lean (c,)."""
    light, heavy = np.zeros((2, len(counts), len(kinds)))
    end_kg, lean_kg = np.zeros((2, len(counts)))
    for k, kind in enumerate(kinds):
        chains = [(pair.left.chain, pair.right.chain) for pair in kind.pairs]
        both = np.array([a.density_kg_per_m + b.density_kg_per_m for a, b in chains])
        heavier = np.sort([max(a.mass_kg, b.mass_kg) for a, b in chains])
        leans = np.sort([abs(pair.lean_kg) for pair in kind.pairs])[::-1]
        for c, some in enumerate(counts):
            n = some[k]
            light[c, k], heavy[c, k] = both[:n].sum(), both[len(both) - n :].sum()
            end_kg[c] += heavier[len(both) - n :].sum()
            lean_kg[c] += leans[:n].sum()
    return light, heavy, end_kg, lean_kg


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """One booking at one sort of station.

    Parameters
    ----------
    straight_kg : float
        Bar, collars and plates [kg].
    loadings : tuple of Loading
        Ways to load that weight, fewest plates first.
    miss_kg : array, shape (t, c)
        Largest miss [kg]; infinite where a rule forbids the choice.
    tolerance_kg : float
        What will do [kg].
    fold_kg : array, shape (t,)
        Price of a fold far from the floor [kg].
    """

    straight_kg: float
    loadings: tuple[Loading, ...]
    miss_kg: Floats
    tolerance_kg: float
    fold_kg: Floats

    @property
    def serves(self) -> Bools:
        """Where the miss will do."""
        return self.miss_kg <= self.tolerance_kg + HAIR_KG


def pose_for(question: RigQuestion) -> Problem:
    """Set the search of a booking up, room on the sleeve kept for as many loops as may hang."""
    limits = question.limits
    loops = 1 + limits.most_bands
    roomy = replace(limits, loop_width_m=loops * limits.loop_width_m)
    return pose(question.place.setup, target_of(question), roomy)


def read(question: RigQuestion, problem: Problem, choices: Choices) -> Reading:
    """Read every choice for one booking.

    Parameters
    ----------
    question : RigQuestion
        The booking at a station.
    problem : Problem
        From `pose_for`.
    choices : Choices
        What may hang.
    """
    read_from = _Read(question, problem, choices)
    low_kg, high_kg = read_from.straight_spans()
    chosen = _most_agreed(low_kg, high_kg, problem.straight_kg)
    straight_kg = float(problem.straight_kg[chosen])
    target = problem.target
    misses = [_miss(target, problem.wanted_kg - load - straight_kg) for load in read_from.loads]
    fold_kg = np.append(problem.fold_price_kg, np.zeros(read_from.bare))
    return Reading(
        straight_kg=straight_kg,
        loadings=_ways(problem, chosen),
        miss_kg=np.where(read_from.kept, np.maximum(*misses), np.inf),
        tolerance_kg=read_from.tolerance_kg,
        fold_kg=np.tile(fold_kg, len(choices.bands)),
    )


def could_serve(question: RigQuestion, problem: Problem, choices: Choices) -> Bools:
    """Say which choices, shape (t, c), will do for a booking with some plates.

    Parameters
    ----------
    question, problem, choices
        As for `read`.
    """
    low_kg, high_kg = _Read(question, problem, choices).straight_spans()
    at = np.searchsorted(problem.straight_kg, low_kg - HAIR_KG)
    least_kg = np.append(problem.straight_kg, np.inf)[at]
    return np.asarray(least_kg <= high_kg + HAIR_KG)


class _Read:
    """Loads of every choice for one booking, and which of them the rules allow."""

    def __init__(self, question: RigQuestion, problem: Problem, choices: Choices) -> None:
        self.problem, self.choices = problem, choices
        self.tolerance_kg = tolerance_of(question, problem.target)
        self.bare = len(choices.fixtures) - len(problem.fixtures)
        found = {kind.pieces[0].kind: at for at, kind in enumerate(problem.kinds)}
        self.columns = [found[kind.pairs[0].left.kind] for kind in choices.kinds]
        self.loads, self.kept = self._chain_loads(), self._chain_kept()
        if len(choices.bands) > 1:
            self._put_bands_on()

    def straight_spans(self) -> tuple[Floats, Floats]:
        """Straight weights [kg], from and to, that leave a miss within tolerance, (t, c)."""
        wanted_kg, target = self.problem.wanted_kg, self.problem.target
        spans = [_span(target, wanted_kg - load, self.tolerance_kg) for load in self.loads]
        low_kg = np.where(self.kept, np.maximum(spans[0][0], spans[1][0]), np.inf)
        high_kg = np.where(self.kept, np.minimum(spans[0][1], spans[1][1]), -np.inf)
        return low_kg, high_kg

    def _chain_loads(self) -> list[Floats]:
        """Hung load at each aim [kg], (s, c, j), of the lightest pairs and of the heaviest."""
        pad = (0, self.bare)
        lift_m = np.pad(self.problem.lift_m[:, self.columns], (pad, (0, 0), (0, 0)))
        held_kg = np.pad(self.problem.held_kg, (pad, (0, 0)))
        return [
            held_kg[:, None] + np.einsum("ck,skj->scj", some, lift_m)
            for some in (self.choices.light, self.choices.heavy)
        ]

    def _chain_kept(self) -> Bools:
        """Whether the rules on deload and links, ratings and balance are kept, (s, c)."""
        allowed = self.problem.allowed[:, self.columns]
        allowed = np.pad(allowed, ((0, self.bare), (0, 0)), constant_values=True)
        hangs = self.choices.light > 0
        rules = ~np.any(hangs[None] & ~allowed[:, None], axis=2)
        return np.asarray(rules & self.choices.allowed)

    def _put_bands_on(self) -> None:
        """Every choice of chain with every choice of bands: ways to hold become (t, c)."""
        setup, target, limits = self.problem.setup, self.problem.target, self.problem.limits
        aims = Aims(
            heights_m=target.heights_m,
            has_mean=target.mean_kg is not None,
            travel=setup.travel,
            ground=setup.ground,
        )
        most_kg = limits.most_imbalance_kg
        pulls = [np.zeros(len(self.problem.wanted_kg))]
        none = self.kept.copy()
        none[-1] = False
        kept = [none]
        for bands in self.choices.bands[1:]:
            found = bands_load(bands, setup, aims, most_kg)
            pull_kg, lean_kg = found or (np.zeros_like(pulls[0]), np.inf)
            pulls.append(pull_kg)
            kept.append(self.kept & (self.choices.lean_kg + lean_kg <= most_kg + HAIR_KG)[None])
        self.kept = np.concatenate(kept)
        self.loads = [np.concatenate([load + pull_kg for pull_kg in pulls]) for load in self.loads]


def _span(target: Target, missing_kg: Floats, tolerance_kg: float) -> tuple[Floats, Floats]:
    """Straight weights that leave a miss within tolerance: from, to [kg]."""
    if target.never_over:
        under = np.array(target.under_per_kg) * tolerance_kg
        return (missing_kg - under).max(axis=2), missing_kg.min(axis=2)
    return missing_kg.max(axis=2) - tolerance_kg, missing_kg.min(axis=2) + tolerance_kg


def _miss(target: Target, missing_kg: Floats) -> Floats:
    if target.never_over:
        over = np.any(missing_kg < -HAIR_KG, axis=2)
        under = np.max(missing_kg / np.array(target.under_per_kg), axis=2)
        return np.where(over, np.inf, under)
    return np.asarray(np.abs(missing_kg).max(axis=2))


def _most_agreed(low_kg: Floats, high_kg: Floats, straight_kg: Floats) -> int:
    """Position of the straight weight that most of the hung chain agrees with.

    Where none will do, that of the chain which comes nearest.
    """
    fits = low_kg <= high_kg + HAIR_KG
    if not np.any(fits):
        off = np.where(np.isfinite(low_kg), low_kg - high_kg, np.inf)
        at = np.unravel_index(int(np.argmin(off)), off.shape)
        middle = 0.5 * (low_kg[at] + high_kg[at])
        return int(np.argmin(np.abs(straight_kg - (middle if np.isfinite(middle) else 0.0))))
    begin = np.sort(low_kg[fits] - HAIR_KG)
    end = np.sort(high_kg[fits] + HAIR_KG)
    count = np.searchsorted(begin, straight_kg, side="right") - np.searchsorted(end, straight_kg)
    if count.max() == 0:
        at = np.unravel_index(int(np.argmax(np.where(fits, high_kg - low_kg, -1))), fits.shape)
        return int(np.argmin(np.abs(straight_kg - 0.5 * (low_kg[at] + high_kg[at]))))
    best = np.flatnonzero(count == count.max())
    return int(best[len(best) // 2])


def _ways(problem: Problem, chosen: int) -> tuple[Loading, ...]:
    """The loading of fewest plates, and others of the same weight from other plates."""
    first = problem.plates[chosen]
    room_m = problem.setup.bar.sleeve_m - problem.setup.collar_width_m
    room_m -= problem.limits.loop_width_m
    found = [first]
    owned = sorted(
        (p for p in problem.setup.stock.plates if p.count >= 2), key=lambda p: -p.mass_kg
    )
    for spared in [plate for plate, _ in first.per_side]:
        for most in range(dict(first.per_side)[spared]):
            other = _made_of(first.total_kg / 2, {p: p.count // 2 for p in owned} | {spared: most})
            if other and other.width_m <= room_m + HAIR_KG and other not in found:
                found.append(other)
    return tuple(found[:_MOST_LOADINGS])


def _made_of(side_kg: float, counts: dict[Plate, int]) -> Loading | None:
    """Make a side of these plates, heaviest first; None where that does not come out."""
    left_kg, used = side_kg, []
    for plate, most in counts.items():
        number = min(most, int((left_kg + 1e-6) // plate.mass_kg))
        if number:
            used.append((plate, number))
            left_kg -= number * plate.mass_kg
    return Loading(per_side=tuple(used)) if abs(left_kg) < 1e-6 else None
