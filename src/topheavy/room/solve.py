"""Planning: a first plan by hand at once, then better ones while there is time, and a bound."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from topheavy.room.by_hand import first_plan
from topheavy.room.draft import made_whole
from topheavy.room.model import build
from topheavy.room.model_parts import solver_library
from topheavy.room.offers import Offers, offers_for
from topheavy.room.plan import sure_cost
from topheavy.room.teams import chosen_teams
from topheavy.room.timing import timed

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.ask import Room
    from topheavy.room.draft import Draft
    from topheavy.room.plan import Former, Plan

SEED: Final = 1
SMALL: Final = 12
"""Up to so many bookings are planned as one problem from the start."""


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
    """

    seconds_s: float = 20.0
    workers: int = 8
    steps: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """What came of planning.

    Parameters
    ----------
    plan : Plan or None
        The best plan found; None when none was.
    bound : int
        No plan, with so many groups a station, costs less.
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


def plan_room(
    room: Room,
    effort: Effort | None = None,
    *,
    former: Former | None = None,
    offers: Offers | None = None,
    tell: Callable[[int, int], None] | None = None,
) -> Planned:
    """Plan a room.

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
    tell : callable, optional
        Told cost and bound whenever a better plan was found.

    Raises
    ------
    NotInStockError
        Nothing can be hung at all.
    BadInputError
        The solver is not installed.
    """
    offers = offers or offers_for(room)
    effort = effort or Effort()
    if not all(offers.serves(number) for number in range(len(room.bookings))):
        return Planned(plan=None, bound=0, cost=0, possible=False, first=None)
    by_hand = _in_time(room, first_plan(room, offers))
    first = made_whole(room, offers, by_hand) if by_hand else None
    if first is not None and tell is not None:
        tell(first.cost, 0)
    library = solver_library()
    known = [
        drafts for drafts in (by_hand, _by_teams(room, offers, library, effort, by_hand)) if drafts
    ]
    plans = [(_cost(made_whole(room, offers, drafts), former), drafts) for drafts in known]
    cost, best = min(plans, key=lambda plan: plan[0], default=(0, None))
    written = build(room, offers, former)
    if best is not None:
        written.hint(best)
        written.model.add(written.cost <= cost)
    solver = _solver(library, effort, 0.4 if len(room.bookings) > SMALL else 1.0)
    status = solver.solve(written.model, _telling(library, tell))
    if status in (library.OPTIMAL, library.FEASIBLE):
        best = written.drafts(solver.value)
    if best is None:
        possible = False if status == library.INFEASIBLE else None
        return Planned(plan=None, bound=0, cost=0, possible=possible, first=None)
    plan = made_whole(room, offers, best)
    cost = _cost(plan, former)
    bound = min(max(sure_cost(room), round(solver.best_objective_bound)), cost)
    return Planned(plan=plan, bound=bound, cost=cost, possible=True, first=first)


def _cost(plan: Plan, former: Former | None) -> int:
    return plan.cost + (plan.disturbance(former) if former else 0)


def _in_time(room: Room, drafts: tuple[Draft, ...] | None) -> tuple[Draft, ...] | None:
    return drafts if drafts and max(draft.ends for draft in drafts) <= room.length else None


def _by_teams(
    room: Room,
    offers: Offers,
    library: Any,
    effort: Effort,
    known: tuple[Draft, ...] | None,
) -> tuple[Draft, ...] | None:
    """In large rooms: settle who lifts with whom first, then when."""
    if len(room.bookings) <= SMALL:
        return None
    alone = replace(effort, workers=1)
    some = [_solver(library, alone, part) for part in (0.25, 0.35)]
    some[0].parameters.cp_model_probing_level = 0  # it takes longer than it saves
    teams = chosen_teams(room, offers, library, some[0], known or ())
    return timed(room, offers, teams, library, some[1])


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


def _telling(library: Any, tell: Callable[[int, int], None] | None) -> Any:
    if tell is None:
        return None
    told = tell

    class Telling(library.CpSolverSolutionCallback):  # type: ignore[misc]
        """Passes on what was found."""

        def on_solution_callback(self) -> None:
            told(round(self.objective_value), round(self.best_objective_bound))

    return Telling()
