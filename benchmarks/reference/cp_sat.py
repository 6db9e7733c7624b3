"""The same problem for a general solver: OR-tools CP-SAT, in whole numbers of a small unit.

Variables: one fixture, how many pieces of each kind hang on each end, one total of bar and
plates, the largest miss. Two models of the choice of fixture are offered, because which one the
solver likes better can't be known beforehand: linear rows that hold if their fixture is chosen,
and tables of what each count of a kind adds under each fixture.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from ortools.sat.python import cp_model

if TYPE_CHECKING:
    from topheavy.rigging.problem import Problem

Form = Literal["rows", "tables"]

_MOST_KG = 10_000


@dataclass(frozen=True, slots=True)
class Solved:
    """What the solver says.

    Parameters
    ----------
    proven : bool
        Whether it proved its answer best, or proved that there is none.
    cost_kg : float or None
        Least cost [kg]; None when there is no rig.
    """

    proven: bool
    cost_kg: float | None


def solve(
    problem: Problem,
    *,
    form: Form = "rows",
    workers: int = 1,
    units_per_kg: int = 1000,
    most_s: float = 120.0,
) -> Solved:
    """Find the least cost; pieces of a kind must be alike."""
    model = _Model(problem, units_per_kg)
    {"rows": model.by_rows, "tables": model.by_tables}[form]()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.max_time_in_seconds = most_s
    status = solver.solve(model.model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        cost_kg = solver.objective_value / units_per_kg
        return Solved(status == cp_model.OPTIMAL, cost_kg)
    return Solved(status == cp_model.INFEASIBLE, None)


def rounding_kg(problem: Problem, units_per_kg: int = 1000) -> float:
    """How far whole units may put the cost of a rig off [kg].

    Half a unit for each pair of pieces and its price, each kind's price, the suspension, the
    plates, the load wanted and the price of the fold.
    """
    pairs = sum(len(kind.pieces) // 2 for kind in problem.kinds)
    pairs = min(pairs, problem.limits.most_pieces // 2)
    return 0.5 / units_per_kg * (2 * pairs + len(problem.kinds) + 4)


class _Model:
    """What both models share."""

    def __init__(self, problem: Problem, units_per_kg: int) -> None:
        self.problem = problem
        self.units_per_kg = units_per_kg
        self.model = model = cp_model.CpModel()
        most = problem.limits.most_pieces // 2
        self.counts = [
            model.new_int_var(0, min(most, len(kind.pieces) // 2), f"pairs of kind {k}")
            for k, kind in enumerate(problem.kinds)
        ]
        self.hung = [model.new_bool_var(f"kind {k} hangs") for k in range(len(self.counts))]
        for count, hung in zip(self.counts, self.hung, strict=True):
            model.add(count >= 1).only_enforce_if(hung)
            model.add(count == 0).only_enforce_if(~hung)
        model.add(sum(self.counts) >= 1)
        model.add(sum(self.counts) <= most)
        totals = cp_model.Domain.from_values([self._whole(kg) for kg in problem.straight_kg])
        self.straight = model.new_int_var_from_domain(totals, "bar and plates")
        self.miss = model.new_int_var(0, self._whole(_MOST_KG), "miss")
        self.chosen = [model.new_bool_var(f"fixture {s}") for s in range(len(problem.fixtures))]
        model.add_exactly_one(self.chosen)
        limits = problem.limits
        model.minimize(
            self.miss
            + self._whole(2 * limits.piece_price_kg) * sum(self.counts)
            + self._whole(limits.kind_price_kg) * sum(self.hung)
            + sum(
                self._whole(kg) * chosen
                for kg, chosen in zip(problem.fold_price_kg, self.chosen, strict=True)
            )
        )
        self._keep_limits()

    def _whole(self, mass_kg: float) -> int:
        return round(float(mass_kg) * self.units_per_kg)

    def _keep_limits(self) -> None:
        """Rules and ratings, fixture by fixture."""
        masses = [self._whole(kind.pieces[0].chain.mass_kg) for kind in self.problem.kinds]
        chain = sum(m * count for m, count in zip(masses, self.counts, strict=True))
        for s, chosen in enumerate(self.chosen):
            for k, hung in enumerate(self.hung):
                if not self.problem.allowed[s, k]:
                    self.model.add_implication(chosen, ~hung)
            most_kg = self.problem.fixtures[s].most_hung_kg
            if most_kg < math.inf:
                self.model.add(chain <= self._whole(most_kg)).only_enforce_if(chosen)

    def _pair(self, s: int, k: int, j: int) -> int:
        density = self.problem.kinds[k].pieces[0].chain.density_kg_per_m
        return self._whole(2 * density * self.problem.lift_m[s, k, j])

    def by_rows(self) -> None:
        """Write the miss at each aim under each fixture as a row that holds if it is chosen."""
        for s, chosen in enumerate(self.chosen):
            for j, wanted_kg in enumerate(self.problem.wanted_kg):
                chain = sum(self._pair(s, k, j) * n for k, n in enumerate(self.counts))
                off = (
                    chain
                    + self.straight
                    + self._whole(self.problem.held_kg[s, j])
                    - self._whole(wanted_kg)
                )
                self.model.add(off <= self.miss).only_enforce_if(chosen)
                self.model.add(-off <= self.miss).only_enforce_if(chosen)

    def by_tables(self) -> None:
        """Tabulate what each count of each kind adds under each fixture at every aim."""
        aims = range(len(self.problem.wanted_kg))
        fixture = self.model.new_int_var(0, len(self.chosen) - 1, "fixture")
        for s, chosen in enumerate(self.chosen):
            self.model.add(fixture == s).only_enforce_if(chosen)
        offs = [self.straight - self._whole(self.problem.wanted_kg[j]) for j in aims]
        held = [
            [s, *(self._whole(kg) for kg in self.problem.held_kg[s])]
            for s in range(len(self.chosen))
        ]
        for k, count in enumerate(self.counts):
            rows = [
                [s, n, *(n * self._pair(s, k, j) for j in aims)]
                for s in range(len(self.chosen))
                for n in range(len(self.problem.kinds[k].pieces) // 2 + 1)
            ]
            adds = self._tabulated([fixture, count], rows)
            offs = [off + add for off, add in zip(offs, adds, strict=True)]
        adds = self._tabulated([fixture], held)
        for off, add in zip(offs, adds, strict=True):
            self.model.add(off + add <= self.miss)
            self.model.add(-(off + add) <= self.miss)

    def _tabulated(
        self, keys: list[cp_model.IntVar], rows: list[list[int]]
    ) -> list[cp_model.IntVar]:
        """Add one variable an aim, tied to the keys by a table."""
        values = [
            self.model.new_int_var(0, self._whole(_MOST_KG), "")
            for _ in range(len(rows[0]) - len(keys))
        ]
        self.model.add_allowed_assignments([*keys, *values], rows)
        return values
