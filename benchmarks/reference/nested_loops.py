"""Every rig, one by one: feeder setting, counts of each kind, plates.

Loads are reckoned beforehand for each count of each kind under each fixture, as the search's are,
and summed up loop by loop. The innermost loop over the plates only compares: since plates shift
all aims alike, the miss is told by the largest and the smallest load still missing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.rigging.problem import Problem


@dataclass(frozen=True, slots=True)
class Share:
    """What so many pieces of a kind on each end add under one fixture."""

    loads_kg: tuple[float, ...]
    chain_kg: float
    price_kg: float
    pieces: int


@dataclass(frozen=True, slots=True)
class Tally:
    """Least cost [kg] and rigs tried."""

    cost_kg: float
    rigs: int


def search_everything(problem: Problem, fixtures: Sequence[int] | None = None) -> Tally:
    """Try every rig under some fixtures, or under all; pieces of a kind must be alike."""
    loops = _Loops(problem)
    for s in range(len(problem.fixtures)) if fixtures is None else fixtures:
        loops.under(s)
    return Tally(loops.cost_kg, loops.rigs)


class _Loops:
    """One loop for each kind, inside each other, and one for the plates inside all of them."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.straights = [float(kg) for kg in problem.straight_kg]
        self.most_pieces = problem.limits.most_pieces // 2
        self.most_chain_kg = 0.0
        self.shares: list[list[Share]] = []
        self.cost_kg = float("inf")
        self.rigs = 0

    def under(self, s: int) -> None:
        """Try every rig under one fixture."""
        problem = self.problem
        self.shares = [_shares(problem, s, k) for k in range(len(problem.kinds))]
        self.most_chain_kg = problem.fixtures[s].most_hung_kg + 1e-9
        missing = [
            float(wanted - held)
            for wanted, held in zip(problem.wanted_kg, problem.held_kg[s], strict=True)
        ]
        self._loop(0, missing, float(problem.fold_price_kg[s]), 0, 0.0)

    def _loop(
        self, k: int, missing: list[float], price_kg: float, pieces: int, chain_kg: float
    ) -> None:
        """Loop over the counts of kind k and of those after it, then over the plates."""
        if pieces > self.most_pieces or chain_kg > self.most_chain_kg:
            return
        if k == len(self.shares):
            if pieces:
                self._plates(max(missing), min(missing), price_kg)
            return
        for share in self.shares[k]:
            self._loop(
                k + 1,
                [a - b for a, b in zip(missing, share.loads_kg, strict=True)],
                price_kg + share.price_kg,
                pieces + share.pieces,
                chain_kg + share.chain_kg,
            )

    def _plates(self, high: float, low: float, price_kg: float) -> None:
        """Loop over the plates."""
        self.rigs += len(self.straights)
        best = self.cost_kg - price_kg
        for straight in self.straights:
            miss, over = high - straight, straight - low
            miss = max(miss, over)
            best = min(best, miss)
        self.cost_kg = best + price_kg


def _shares(problem: Problem, s: int, k: int) -> list[Share]:
    """List what each count of a kind adds under one fixture."""
    kind, limits = problem.kinds[k], problem.limits
    length_m = kind.pieces[0].chain.length_m
    found = [Share((0.0,) * len(problem.wanted_kg), 0.0, 0.0, 0)]
    for way in range(1, kind.each_end.size if problem.allowed[s, k] else 1):
        density, pieces = float(kind.sum_kg_per_m[way]), int(kind.each_end[way])
        found.append(
            Share(
                tuple(float(density * lift_m) for lift_m in problem.lift_m[s, k]),
                0.5 * density * length_m,
                limits.kind_price_kg + 2 * limits.piece_price_kg * pieces,
                pieces,
            )
        )
    return found
