"""A better plan from pieces of good ones: runs that the search has seen, put together anew.

Which runs make a whole room, and when each begins, is a problem of whole numbers for CP-SAT: every
lifter is in one of them, and nothing is short at any time. The search changes one thing at a time
and finds such a plan late or never where several runs must change at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.layout import Run
from topheavy.room.model_parts import solver_library
from topheavy.room.plan import PER_GRAIN
from topheavy.room.search import Search

if TYPE_CHECKING:
    from collections.abc import Iterable

    from topheavy.room.layout import Layout, Pricing, RunFacts, Teams

    Piece = tuple[int, int, Teams]
    """Sort of station, chain, groups."""

_NEAR: Final = 1.05
"""Runs count of plans that cost at most so many times the best."""

_MOST: Final = 400
"""Runs that are put together, those of the cheapest plans first."""

_KEPT: Final = 20_000


class Pool:
    """Runs of good plans, and the cheapest plan that each was seen in.

    Parameters
    ----------
    pricing : Pricing
        What runs cost and take.
    """

    def __init__(self, pricing: Pricing) -> None:
        self.pricing = pricing
        self._seen: dict[Piece, int] = {}
        self._best = 1 << 40

    def add(self, rows: Iterable[tuple[int, Iterable[Run]]], cost: int) -> None:
        """Keep the runs of some stations of a plan that costs so much."""
        self._best = min(self._best, cost)
        if cost > _NEAR * self._best:
            return
        for station, row in rows:
            for run in row:
                piece = self.pricing.sorts[station], run.hung, run.teams
                if len(self._seen) < _KEPT or piece in self._seen:
                    self._seen[piece] = min(cost, self._seen.get(piece, cost))

    def cheapest(self) -> list[Piece]:
        """List the runs of the cheapest plans."""
        some = list(self._seen.items())
        return [piece for piece, _ in sorted(some, key=lambda one: (one[1], one[0]))[:_MOST]]


@dataclass(frozen=True, slots=True)
class _Choice:
    """A run that may be taken: what it is, whether it is, when it begins, and its span."""

    piece: Piece
    facts: RunFacts
    taken: Any
    begins: Any
    span: Any


class Pooled:
    """Plans put together from runs of a pool.

    Parameters
    ----------
    pool : Pool
        To choose from.
    """

    def __init__(self, pool: Pool) -> None:
        self.pool, self.pricing, self.facts = pool, pool.pricing, pool.pricing.facts
        self._solver: Any = None

    def stop(self) -> None:
        """End what is under way; to be called from another thread."""
        if self._solver is not None:
            self._solver.stop_search()

    def better(self, layout: Layout, cost: int, steps: float) -> tuple[int, Layout] | None:
        """Find a cheaper plan than this; None when there was none.

        Parameters
        ----------
        layout : Layout
            Plan to begin with.
        cost : int
            What it costs.
        steps : float
            Work that may go into it, counted: about seconds of a core.
        """
        library: Any = solver_library()
        model = library.CpModel()
        now = self._begins(layout)
        pieces = list(dict.fromkeys([*now, *self.pool.cheapest()]))
        end = min(self.facts.room.length, cost // PER_GRAIN)
        choices = self._choices(model, pieces, end, now)
        finish = model.new_int_var(0, end, "finish")
        for one in choices:
            model.add(one.begins + one.facts.long <= finish).only_enforce_if(one.taken)
        self._everyone_once(model, choices)
        self._enough(model, choices)
        total = PER_GRAIN * finish + sum(one.facts.price * one.taken for one in choices)
        model.add(total <= cost)
        model.minimize(total)
        solver = self._solver = library.CpSolver()
        solver.parameters.num_workers, solver.parameters.random_seed = 1, 1
        solver.parameters.max_deterministic_time = steps
        status = solver.solve(model)
        if status not in (library.OPTIMAL, library.FEASIBLE) or solver.objective_value >= cost:
            return None
        taken = [
            (solver.value(one.begins), one.piece, one.facts)
            for one in choices
            if solver.value(one.taken)
        ]
        return self._told(self._laid_out(taken), cost)

    def _begins(self, layout: Layout) -> dict[Piece, int]:
        """When each run of a layout begins."""
        found = {}
        for station, row in enumerate(layout):
            at = 0
            for hung, wait, teams in row:
                facts = self.pricing.of(station, teams)
                assert facts is not None  # noqa: S101 - a layout is of runs that may be
                at = max(at + wait, facts.ready)
                found[self.pricing.sorts[station], hung, teams] = at
                at += facts.long
        return found

    def _choices(
        self, model: Any, pieces: list[Piece], end: int, now: dict[Piece, int]
    ) -> list[_Choice]:
        choices = []
        for piece in pieces:
            facts = self.pricing.of(self.pricing.sorts.index(piece[0]), piece[2])
            if facts is None:
                continue
            first, last = max(0, facts.ready), min(facts.due, end - facts.long)
            if first > last:
                continue
            taken = model.new_bool_var("")
            begins = model.new_int_var(first, last, "")
            span = model.new_optional_fixed_size_interval_var(begins, facts.long, taken, "")
            model.add_hint(taken, piece in now)
            if piece in now:
                model.add_hint(begins, now[piece])
            choices.append(_Choice(piece, facts, taken, begins, span))
        return choices

    def _everyone_once(self, model: Any, choices: list[_Choice]) -> None:
        """Each booking is in one run; a lifter of several lifts has time between them."""
        gap = self.facts.room.pace.between_grains
        runs: list[list[Any]] = [[] for _ in self.facts.room.bookings]
        busy: dict[str, list[Any]] = {}
        for one in choices:
            for n in (n for team in one.piece[2] for n in team):
                runs[n].append(one.taken)
            for name, begins, ends in one.facts.busy:
                long = ends - begins + gap
                span = model.new_optional_fixed_size_interval_var(
                    one.begins + begins, long, one.taken, ""
                )
                busy.setdefault(name, []).append(span)
        for some in runs:
            model.add_exactly_one(some)
        for spans in busy.values():
            model.add_no_overlap(spans)

    def _enough(self, model: Any, choices: list[_Choice]) -> None:
        """Stations, and every scarce thing, at any time."""
        for number, sort in enumerate(self.facts.sorts):
            spans = [one.span for one in choices if one.piece[0] == number]
            model.add_cumulative(spans, [1] * len(spans), len(sort.stations))
        wanted: list[list[tuple[Any, int]]] = [[] for _ in self.facts.have]
        for one in choices:
            takes = self.facts.counted(self.facts.hung_takes(one.piece[1]))
            for at, count in enumerate(takes):
                if count:
                    wanted[at].append((one.span, count))
            for begins, ends, packed in one.facts.spans:
                span = model.new_optional_fixed_size_interval_var(
                    one.begins + begins, ends - begins, one.taken, ""
                )
                for at, count in enumerate(self.facts.counted(packed)):
                    if count:
                        wanted[at].append((span, count))
        for have, uses in zip(self.facts.have, wanted, strict=True):
            if uses:
                model.add_cumulative([span for span, _ in uses], [n for _, n in uses], have)

    def _laid_out(self, taken: list[tuple[int, Piece, RunFacts]]) -> Layout:
        """Give every run a station of its sort that is free by then."""
        stations = range(len(self.pricing.stations))
        rows: list[list[Run]] = [[] for _ in stations]
        free = [0 for _ in stations]
        for begins, (sort, hung, teams), facts in sorted(taken, key=lambda one: one[:2]):
            at = next(s for s in stations if self.pricing.sorts[s] == sort and free[s] <= begins)
            rows[at].append(Run(hung, begins - free[at], teams))
            free[at] = begins + facts.long
        return tuple(tuple(row) for row in rows)

    def _told(self, layout: Layout, cost: int) -> tuple[int, Layout] | None:
        """Begin each run as soon as nothing is short; None where the search prices it otherwise."""
        search = Search(self.pricing, layout, 0)
        for station in range(len(layout)):
            for at, run in enumerate(layout[station]):
                row = layout[station]
                sooner = (*row[:at], run._replace(wait=0), *row[at + 1 :])
                trial = (*layout[:station], sooner, *layout[station + 1 :])
                search.stand_at(trial)
                if not search.trouble:
                    layout = trial
        search.stand_at(layout)
        return None if search.trouble or search.true_cost >= cost else (search.true_cost, layout)
