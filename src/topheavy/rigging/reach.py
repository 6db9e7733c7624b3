"""What of a problem can come near its target at all: a sum in place of a search.

Plates load all heights alike, so only suspensions, chain and bands raise the load over the lift.
What they add at most is more than any rig adds: as many pieces as may be handled, each the densest
that hangs longest. Where even that is short by x between the first height and the last, a rig
misses by x/2 at one of the two at least; where loads are limits, by all of x at the last, as the
target counts it.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem

_HAIR_KG = 1e-6


def within_reach(problem: Problem, tolerance_kg: float) -> Problem | None:
    """Leave out what surely misses by more than a tolerance.

    Parameters
    ----------
    problem : Problem
        Posed by `topheavy.rigging.problem.pose`.
    tolerance_kg : float
        Largest miss of interest [kg].

    Returns
    -------
    Problem or None
        With those bands only that add enough, and none without bands where chain alone does not;
        None when nothing does. As it came when the target has one height or none.
    """
    target = problem.target
    if len(target.heights_m) < 2:
        return problem
    last = len(target.heights_m) - 1
    count = 1.0 / target.under_per_kg[last] if target.never_over else 0.5
    wanted_kg = float(problem.wanted_kg[last] - problem.wanted_kg[0])
    missing_kg = wanted_kg - max(0.0, _most_by_chain_kg(problem, last))

    def near(added_kg: float) -> bool:
        return count * (missing_kg - added_kg) <= tolerance_kg + _HAIR_KG

    if near(0.0):
        return problem
    options = tuple(o for o in problem.bands.options if near(float(o.load_kg[last] - o.load_kg[0])))
    if not options:
        return None
    bands = replace(problem.bands, options=options)
    fewest = max(problem.limits.least_bands, min(option.each_end for option in options))
    return replace(problem, bands=bands, limits=replace(problem.limits, least_bands=fewest))


def _most_by_chain_kg(problem: Problem, last: int) -> float:
    """Most that suspensions and chain add between the two heights under any fixture [kg]."""
    if not problem.has_chain:
        return 0.0
    pair_kg_per_m = np.array(
        [2.0 * max(p.chain.density_kg_per_m for p in kind.pieces) for kind in problem.kinds]
    )
    longer_m = problem.lift_m[:, :, last] - problem.lift_m[:, :, 0]
    pair_kg = np.where(problem.allowed, pair_kg_per_m * longer_m, 0.0).max(axis=1)
    held_kg = problem.held_kg[:, last] - problem.held_kg[:, 0]
    pairs = problem.limits.most_pieces // 2
    return float(np.max(held_kg + pairs * np.maximum(pair_kg, 0.0)))
