"""Planning in the background: a plan at once, better ones while it goes on, until told to stop."""

from __future__ import annotations

import threading
import time
import uuid
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Final, Literal

from topheavy.errors import NotInStockError, TopheavyError
from topheavy.room.blocked import why_not
from topheavy.room.giving import works_of
from topheavy.room.offers import offers_for
from topheavy.room.solve import Effort, plan_room
from topheavy.room.validate import require_sound

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.blocked import Blocked
    from topheavy.room.plan import Former, Plan
    from topheavy.room.solve import Planned
    from topheavy.training.work import Work

State = Literal["planning", "found", "none", "trouble"]

_KEPT: Final = 12
_WORKERS: Final = 2
_FIRST_S: Final = 1.0
_PROVEN: Final = 5e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is planned, and from where.

    Parameters
    ----------
    gym_id : int
        Of which gym.
    tables : dict
        What was asked, as tables of a room file.
    room : Room
        Made of them.
    day : str
        Which day it is for.
    version : int
        Of the gym that it was made from.
    over : int or None
        Number of the plan that was up for that day.
    former : mapping or None
        That plan, to stay near to.
    done : frozenset of (str, str)
        Lifts of that plan that are over and left out, by lifter and lift.
    seconds_s : float
        How long to plan at most [s].
    """

    gym_id: int
    tables: dict[str, Any]
    room: Room
    day: str
    version: int
    over: int | None = None
    former: Former | None = None
    done: frozenset[tuple[str, str]] = frozenset()
    seconds_s: float = 20.0


@dataclass(slots=True)
class Job:
    """Planning under way, or done."""

    id: str
    asked: Asked
    state: State = "planning"
    planned: Planned | None = None
    blocked: Blocked | None = None
    trouble: TopheavyError | None = None
    began: float = field(default_factory=time.monotonic)
    took_s: float = 0.0
    better: int = 0
    works: tuple[Work, ...] = ()
    works_of: Plan | None = None
    halt: threading.Event = field(default_factory=threading.Event)

    @property
    def seconds_s(self) -> float:
        """How long it has gone on [s]."""
        return self.took_s or time.monotonic() - self.began


class Jobs:
    """Plans one room after the other, and remembers the last few."""

    def __init__(self) -> None:
        self._jobs: dict[str, Job] = {}
        self._lock = threading.Lock()
        self._one = threading.Lock()

    def begin(self, asked: Asked) -> Job:
        """Begin to plan; what was being planned for the same gym stops, and keeps what it has."""
        job = Job(id=str(uuid.uuid4()), asked=asked)
        with self._lock:
            for other in self._jobs.values():
                if other.asked.gym_id == asked.gym_id:
                    other.halt.set()
            self._jobs[job.id] = job
            while len(self._jobs) > _KEPT:
                self._jobs.pop(next(iter(self._jobs))).halt.set()
        threading.Thread(target=self._run, args=(job,), daemon=True).start()
        return job

    def find(self, gym_id: int, job_id: str) -> Job:
        """Find planning of a gym.

        Raises
        ------
        NotInStockError
            There is none of that name, or no longer.
        """
        with self._lock:
            job = self._jobs.get(job_id)
        if job is None or job.asked.gym_id != gym_id:
            raise NotInStockError(
                "That planning is no longer remembered",
                field="planning",
                got=job_id[:40],
                wanted="the room page, to plan again",
            )
        return job

    def _run(self, job: Job) -> None:
        with self._one:
            job.began = time.monotonic()
            try:
                _plan(job)
            except TopheavyError as error:
                job.trouble, job.state = error, "trouble"
            except Exception as error:
                job.trouble = TopheavyError("Planning broke", got=type(error).__name__)
                job.state = "trouble"
            job.took_s = time.monotonic() - job.began


def _plan(job: Job) -> None:
    """Plan in growing turns, so that there is a plan soon, and stopping never waits long."""
    asked = job.asked
    offers = offers_for(asked.room)
    turn_s = _FIRST_S
    while True:
        left_s = asked.seconds_s - (time.monotonic() - job.began)
        effort = Effort(seconds_s=max(0.5, min(turn_s, left_s)), workers=_WORKERS)
        found = plan_room(asked.room, effort, former=asked.former, offers=offers)
        _keep_better(job, found)
        proven = job.planned is not None and job.planned.gap < _PROVEN
        if proven or found.possible is False or job.halt.is_set() or left_s <= turn_s:
            break
        turn_s *= 2
    if job.planned is not None and job.planned.plan is not None:
        job.state = "found"
        # Whoever puts it up need not wait for everybody's ramp.
        plan = job.planned.plan
        job.works, job.works_of = works_of(plan, asked.day, lambda: str(uuid.uuid4())), plan
        return
    if not job.halt.is_set():
        job.blocked = why_not(asked.room, Effort(seconds_s=3.0, workers=_WORKERS), offers)
    job.state = "none"


def _keep_better(job: Job, found: Planned) -> None:
    if found.plan is None:
        return
    require_sound(found.plan)
    best = job.planned
    if best is None or found.cost < best.cost:
        job.better += 1
        best = replace(found, bound=max(found.bound, best.bound if best else 0))
    job.planned = replace(best, bound=min(best.cost, max(best.bound, found.bound)))
