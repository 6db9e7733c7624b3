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
from topheavy.room.solve import Effort, Planned, plan_room
from topheavy.room.validate import require_sound

if TYPE_CHECKING:
    from topheavy.room.ask import Room
    from topheavy.room.blocked import Blocked
    from topheavy.room.plan import Former, Plan
    from topheavy.room.solve import Progress
    from topheavy.training.work import Work

State = Literal["planning", "found", "none", "trouble"]

_KEPT: Final = 12
_WORKERS: Final = 2


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
    """Plan until it is proven, the time is over, or somebody says stop."""
    asked = job.asked
    offers = offers_for(asked.room)
    found = plan_room(
        asked.room,
        Effort(seconds_s=asked.seconds_s, workers=_WORKERS, now=time.monotonic),
        former=asked.former,
        offers=offers,
        progress=lambda so_far: _keep(job, so_far),
        halt=job.halt.is_set,
    )
    if found.plan is not None:
        job.planned = replace(found, plan=require_sound(found.plan))
        job.state = "found"
        # Whoever puts it up need not wait for everybody's ramp.
        job.works = works_of(found.plan, asked.day, lambda: str(uuid.uuid4()))
        job.works_of = found.plan
        return
    if not job.halt.is_set():
        job.blocked = why_not(asked.room, Effort(seconds_s=3.0, workers=_WORKERS), offers)
    job.state = "none"


def _keep(job: Job, so_far: Progress) -> None:
    """Show a plan that was found while better ones are looked for."""
    job.better += 1
    job.planned = Planned(
        plan=require_sound(so_far.plan),
        bound=so_far.bound,
        cost=so_far.cost,
        possible=True,
        first=None,
    )
