"""The named case: one problem, solved by the search, by nested loops and by a general solver."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchmarks.cases import forty_pieces, posed, rigs_in, twelve_pieces
from benchmarks.measure import median_s, peak_mib, timed
from benchmarks.reference.cp_sat import Form, rounding_kg, solve
from benchmarks.reference.nested_loops import search_everything
from topheavy.rigging.search import find

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem


@dataclass(frozen=True, slots=True)
class Way:
    """One way to solve the case: what it is, how long it took [s], the least cost it found [kg]."""

    name: str
    seconds: float
    cost_kg: float


@dataclass(frozen=True, slots=True)
class NamedCase:
    """The case and every way to solve it; the first two are ours, without and with posing."""

    rigs: int
    ways: tuple[Way, ...]

    @property
    def search_s(self) -> float:
        """Time of the search alone [s]."""
        return self.ways[0].seconds


def run_forty() -> NamedCase:
    """Solve the case of forty pieces in every way; all must agree."""
    case = forty_pieces()
    problem = posed(case)
    best = find(problem).best
    assert best is not None
    search_s = median_s(lambda: find(problem), 15)
    pose_s = median_s(lambda: posed(case), 15)
    loops_s, tally = timed(lambda: search_everything(problem))
    assert abs(tally.cost_kg - best.cost_kg) < 1e-9
    assert tally.rigs == rigs_in(problem)
    return NamedCase(
        rigs=tally.rigs,
        ways=(
            Way("search", search_s, best.cost_kg),
            Way("search, posing the problem counted", search_s + pose_s, best.cost_kg),
            Way("nested loops over every rig", loops_s, tally.cost_kg),
            *(
                _general(problem, form, workers, best.cost_kg)
                for form in ("rows", "tables")
                for workers in (1, 2)
            ),
        ),
    )


def _general(problem: Problem, form: Form, workers: int, cost_kg: float) -> Way:
    """Let the general solver prove its optimum; it must be ours."""
    seconds, solved = timed(lambda: solve(problem, form=form, workers=workers, most_s=600.0))
    assert solved.proven
    assert solved.cost_kg is not None
    assert abs(solved.cost_kg - cost_kg) <= rounding_kg(problem)
    name = f"CP-SAT, {form}, {workers} worker{'s' if workers > 1 else ''}"
    return Way(name, seconds, solved.cost_kg)


def check_twelve() -> int:
    """Search a small case in both ways; return how many rigs it has. The costs must be equal."""
    problem = posed(twelve_pieces())
    best, tally = find(problem).best, search_everything(problem)
    assert best is not None
    assert abs(tally.cost_kg - best.cost_kg) < 1e-9
    assert tally.rigs == rigs_in(problem)
    return tally.rigs


_LOAD = """
from benchmarks.cases import forty_pieces, posed
from topheavy.rigging.search import find
"""
_RUN = """
assert find(posed(forty_pieces())).best
"""


def memory_mib() -> tuple[float, float]:
    """Peak memory [MiB] of a fresh interpreter: with the search loaded, and with the case run."""
    return peak_mib(_LOAD), peak_mib(_LOAD + _RUN)
