"""Work of the day: what one lifter does in one lift, set by set, with what is on the bar for each.

Everything is frozen when it is given out: loads, parts, cautions. Whoever reads it needs no gym
and no search, so a phone can keep it and the log can be written without either.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from topheavy.errors import BadInputError, NotInStockError
from topheavy.gym.day import day_number
from topheavy.gym.log import MOST_LOGGED_REPS, MOST_NAME, MOST_SETS, check_id
from topheavy.mechanics.chain import require_not_negative, require_positive

if TYPE_CHECKING:
    from topheavy.gym.log import RigThen
    from topheavy.phrase import Remark
    from topheavy.training.on_bar import OnBar

StepKind = Literal["warm-up", "attempt", "top set", "work set"]
Source = Literal["coach", "weeks", "room"]

MOST_STEPS: Final = 60
"""More sets in one lift on one day are a slip of the pen."""

MOST_REST_S: Final = 3600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One set to do.

    Parameters
    ----------
    number : int
        From 1.
    kind : {'warm-up', 'attempt', 'top set', 'work set'}
        What it is for.
    bar : OnBar
        What is on the bar.
    straight_kg : float
        Bar, collars and plates [kg].
    rig : RigThen or None
        Loads and words of what hangs; None with straight weight.
    reps : int
        To be done.
    reps_left : tuple of (int, int) or None
        Reps in reserve to end it with, fewest and most; None for a warm-up.
    speed_m_per_s : float or None
        Mean speed of a first rep to expect [m/s].
    loss : float or None
        Loss of speed that ends it [-].
    rest_s : float
        Rest before it [s], 0 to 3600.
    """

    number: int
    kind: StepKind
    bar: OnBar
    straight_kg: float
    reps: int
    rig: RigThen | None = None
    reps_left: tuple[int, int] | None = None
    speed_m_per_s: float | None = None
    loss: float | None = None
    rest_s: float = 0.0

    def __post_init__(self) -> None:
        require_positive("straight_kg", self.straight_kg)
        require_not_negative("rest_s", self.rest_s)
        if self.rest_s > MOST_REST_S:
            raise BadInputError(
                "Nobody rests that long between sets",
                field="rest_s",
                got=f"{self.rest_s:g} s",
                wanted=f"0 to {MOST_REST_S:g} s",
            )
        for name, most in (("number", MOST_SETS), ("reps", MOST_LOGGED_REPS)):
            count = getattr(self, name)
            if not 1 <= count <= most:
                raise BadInputError(
                    "That can't be so", field=name, got=count, wanted=f"1 to {most}"
                )

    @property
    def bottom_kg(self) -> float:
        """Load at the bottom [kg]."""
        return self.rig.bottom_kg if self.rig else self.straight_kg

    @property
    def mean_kg(self) -> float:
        """Mean load over the way up [kg]."""
        return self.rig.mean_kg if self.rig else self.straight_kg

    @property
    def top_kg(self) -> float:
        """Load at the top [kg]."""
        return self.rig.top_kg if self.rig else self.straight_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What one lifter does on one day in one lift.

    Parameters
    ----------
    id : str
        A UUID that whoever gives it makes.
    day : str
        Such as ``"2026-11-25"``.
    lifter, lift, station : str
        Who, what and where, by the gym's names.
    kind : str
        Kind of day: heavy, speed, repetition, technique, or test for singles up to a max.
    steps : tuple of Step
        In order, numbered from 1 without a gap.
    aim : str
        What a rep should be like.
    limit_hung_kg : float or None
        What hangs at the height that an attempt is judged by [kg]; None where nobody tries a max.
    cautions : tuple of Remark
        What to mind.
    source : {'coach', 'weeks', 'room'}
        What it was made from.
    at : str
        When the first set is, ``"18:05"``; empty when nobody said.

    Raises
    ------
    BadInputError
        No set, sets out of order, or a name or day that can't be.
    """

    id: str
    day: str
    lifter: str
    lift: str
    station: str
    kind: str
    steps: tuple[Step, ...]
    aim: str = ""
    limit_hung_kg: float | None = None
    cautions: tuple[Remark, ...] = ()
    source: Source = "coach"
    at: str = ""

    def __post_init__(self) -> None:
        check_id("id", self.id)
        day_number(self.day, "day")
        for name in ("lifter", "lift", "station", "kind"):
            text = getattr(self, name)
            if not text or len(text) > MOST_NAME:
                raise BadInputError(
                    "Not a usable name",
                    field=name,
                    got=repr(text[:MOST_NAME]),
                    wanted=f"1 to {MOST_NAME} characters",
                )
        numbers = [step.number for step in self.steps]
        if numbers != list(range(1, len(numbers) + 1)) or not 1 <= len(numbers) <= MOST_STEPS:
            raise BadInputError(
                "Sets count from one, without a gap",
                field="steps",
                got=", ".join(map(str, numbers)) or "none",
                wanted=f"1 to {MOST_STEPS} sets",
            )

    @property
    def session(self) -> str:
        """What the logged sets of this work share, also after it was changed: day and lift.

        A name of the log holds 60 characters, and no lift's name is so long.
        """
        return f"{self.day} {self.lift}"

    @property
    def bars(self) -> tuple[OnBar, ...]:
        """What is on the bar, each state once, in the order they first come."""
        return tuple(dict.fromkeys(step.bar for step in self.steps))

    def step(self, number: int) -> Step:
        """Find a set by its number.

        Raises
        ------
        NotInStockError
            No such set.
        """
        if not 1 <= number <= len(self.steps):
            raise NotInStockError(
                "There is no such set in this work",
                field="step",
                got=number,
                wanted=f"1 to {len(self.steps)}",
            )
        return self.steps[number - 1]


def next_number(work: Work, done: tuple[int, ...]) -> int | None:
    """Say which set is next: the one after the last that was done; None when all is done.

    Parameters
    ----------
    work : Work
        Of the day.
    done : tuple of int
        Numbers of the sets in the log, in the order they were lifted.

    Examples
    --------
    >>> from topheavy.training.on_bar import OnBar
    >>> bar = OnBar(plates_kg=(20.0,))
    >>> steps = tuple(
    ...     Step(number=n, kind="work set", bar=bar, straight_kg=65.0, reps=3) for n in (1, 2, 3)
    ... )
    >>> work = Work(
    ...     id="5d5a2c8e-0000-4000-8000-000000000001", day="2026-11-25", lifter="Osric",
    ...     lift="bench press", station="bench 1", kind="heavy", steps=steps,
    ... )
    >>> next_number(work, ()), next_number(work, (1, 2)), next_number(work, (1, 2, 3))
    (1, 3, None)
    """
    last = done[-1] if done else 0
    return last + 1 if last < len(work.steps) else None
