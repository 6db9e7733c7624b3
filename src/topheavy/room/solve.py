"""Planning: a first plan by hand at once, then better ones while there is time, and a bound."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.by_hand import by_hand, first_plan
from topheavy.room.draft import Draft, made_whole
from topheavy.room.large import Clock, Large
from topheavy.room.model import build
from topheavy.room.model_parts import solver_library
from topheavy.room.offers import Offers, offers_for
from topheavy.room.plan import sure_cost, sure_finish
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.ask import Room
    from topheavy.room.plan import Former, Plan

SEED: Final = 1
SMALL: Final = 12
"""Up to so many bookings are planned as one problem from the start."""

_LEFT: Final = 0.5
"""Share of the time that the solver gets for a large room of which no plan was found."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How long to plan.

    Parameters
    ----------
    seconds_s : float
        Time to spend [s].
    workers : int
        Threads; more than there are cores bring other ways of searching in too.
    steps : float or None
        Stop after so much work instead, counted and not timed: the same answer on any machine.
    now : callable or None
        What tells the time [s]. None: in large rooms work is counted too, about as much as a core
        does in that time when nothing else runs.
    """

    seconds_s: float = 20.0
    workers: int = 8
    steps: float | None = None
    now: Callable[[], float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What came of planning.

    Parameters
    ----------
    plan : Plan or None
        The best plan found; None when none was.
    bound : int
        No plan costs less: of those that the offers allow and, in a small room, with so many
        groups a station.
    cost : int
        What this one costs, and staying near a former plan with it.
    possible : bool or None
        False: proven that there is none; None: not known.
    first : Plan or None
        The plan made by hand, when it keeps all rules.
    """

    plan: Plan | None
    bound: int
    cost: int
    possible: bool | None
    first: Plan | None

    @property
    def gap(self) -> float:
        """How much cheaper a better plan could be at most, as a share of this one's cost [-]."""
        return max(0.0, (self.cost - self.bound) / self.cost) if self.cost else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far planning is.

    Parameters
    ----------
    plan : Plan
        The best plan so far; it keeps all rules.
    cost, bound : int
        What it costs; what no plan costs less than, as far as is known.
    """

    plan: Plan
    cost: int
    bound: int

    @property
    def gap(self) -> float:
        """How much cheaper a better plan could be at most, as a share of this one's cost [-]."""
        return max(0.0, (self.cost - self.bound) / self.cost) if self.cost else 0.0


def plan_room(
    room: Room,
    effort: Effort | None = None,
    *,
    former: Former | None = None,
    offers: Offers | None = None,
    progress: Callable[[Progress], None] | None = None,
    halt: Callable[[], bool] | None = None,
) -> Planned:
    """Plan a room.

    Ctrl-C ends it too, and what was found is kept.

    Parameters
    ----------
    room : Room
        What is asked.
    effort : Effort, optional
        How long to plan.
    former : mapping, optional
        A former plan to stay near to: station and start in grains, by lifter and lift.
    offers : Offers, optional
        What serves whom, when already worked out.
    progress : callable, optional
        Told of the first plan, and whenever a better one was found.
    halt : callable, optional
        Asked again and again whether to end; what was found so far is kept.

    Raises
    ------
    NotInStockError
        Nothing can be hung at all.
    BadInputError
        The solver is not installed.
    """
    offers = offers or offers_for(room)
    if not all(offers.serves(number) for number in range(len(room.bookings))):
        return Planned(plan=None, bound=0, cost=0, possible=False, first=None)
    return _Planning(
        room, offers, effort or Effort(), former, progress or _untold, halt or _never
    ).planned()


def _untold(_: Progress) -> None:
    """Tell nobody."""


def _never() -> bool:
    return False


class _Planning:
    """The best plan so far, and what is known of all others."""

    def __init__(
        self,
        room: Room,
        offers: Offers,
        effort: Effort,
        former: Former | None,
        progress: Callable[[Progress], None],
        halt: Callable[[], bool],
    ) -> None:
        self.room, self.offers, self.effort = room, offers, effort
        self.former, self.progress, self.halt = former, progress, halt
        self.library = solver_library()
        self.bound, self.cost = sure_cost(room), 1 << 40
        self.plan: Plan | None = None
        self.best: tuple[Draft, ...] | None = None
        self.possible: bool | None = None

    def planned(self) -> Planned:
        """Plan by hand, then better."""
        known = self._by_hand()
        first = self.plan
        if sure_finish(self.room) > self.room.length:
            return Planned(plan=None, bound=0, cost=0, possible=False, first=None)
        try:
            if len(self.room.bookings) > SMALL:
                self._by_changes(known or ())
            if self.plan is None or len(self.room.bookings) <= SMALL:
                self._in_one_piece(1.0 if len(self.room.bookings) <= SMALL else _LEFT)
        except KeyboardInterrupt:
            pass
        if self.plan is None:
            return Planned(plan=None, bound=0, cost=0, possible=self.possible, first=None)
        bound = min(self.bound, self.cost)
        return Planned(plan=self.plan, bound=bound, cost=self.cost, possible=True, first=first)

    def _by_hand(self) -> tuple[Draft, ...] | None:
        """Plan by hand: in large rooms once, and with smaller groups where that is too long."""
        known = by_hand(self.room, self.offers) if len(self.room.bookings) > SMALL else None
        if known is None or max(draft.ends for draft in known) > self.room.length:
            known = first_plan(self.room, self.offers)
        if known and max(draft.ends for draft in known) <= self.room.length:
            self._found(known)
        return known

    def _found(self, drafts: tuple[Draft, ...]) -> None:
        """Keep a plan when it is better than the best, and keeps all rules."""
        plan = made_whole(self.room, self.offers, drafts)
        cost = plan.cost + (plan.disturbance(self.former) if self.former else 0)
        if cost < self.cost and not breaches(plan):
            self.plan, self.cost, self.best = plan, cost, drafts
            bound = min(self.bound, cost)
            self.progress(Progress(plan=plan, cost=cost, bound=bound))

    def _by_changes(self, known: tuple[Draft, ...]) -> None:
        """Change the plan by hand bit by bit."""
        effort = self.effort
        large = Large(self.room, self.offers, self.former, SEED)
        clock = Clock(effort, lambda: self._enough(clock))
        aside = None
        if clock.timed:
            aside = large.bound_aside(lambda: self.cost, clock)
        else:
            large.bound_now(self.cost)
        for _, drafts in large.better(known, self.cost, clock):
            self.bound = max(self.bound, large.bound)
            self._found(drafts)
        if aside is not None:
            aside.join(clock.left_s)
        self.bound = max(self.bound, large.bound)

    def _enough(self, clock: Clock) -> bool:
        """Whether to end: told to, proven, or time for the solver to look for a first plan."""
        late = clock.timed and clock.left_s < _LEFT * self.effort.seconds_s
        return self.halt() or self.cost <= self.bound or (self.plan is None and late)

    def _in_one_piece(self, part: float) -> None:
        """Plan the whole room as one problem."""
        library: Any = self.library
        written = build(self.room, self.offers, self.former)
        if self.best is not None:
            written.hint(self.best)
            written.model.add(written.cost <= self.cost)
        solver = _solver(library, self.effort, part)
        planning = self

        class Telling(library.CpSolverSolutionCallback):  # type: ignore[misc]
            """Keeps what was found, and passes it on."""

            def on_solution_callback(self) -> None:
                bound = round(self.best_objective_bound)
                planning.bound = max(planning.bound, bound)
                planning._found(written.drafts(self.value))
                if planning.halt():
                    self.stop_search()

        status = solver.solve(written.model, Telling())
        if status in (library.OPTIMAL, library.FEASIBLE):
            self._found(written.drafts(solver.value))
            self.bound = max(self.bound, round(solver.best_objective_bound))
        elif status == library.INFEASIBLE and self.plan is None:
            self.possible = False


def _solver(library: Any, effort: Effort, part: float) -> Any:
    """Make a solver that may take a part of the effort."""
    solver = library.CpSolver()
    solver.parameters.random_seed = SEED
    solver.parameters.num_workers = effort.workers
    if effort.steps is None:
        solver.parameters.max_time_in_seconds = part * effort.seconds_s
    else:
        solver.parameters.max_deterministic_time = part * effort.steps
    return solver
