"""Planning a week: a day for each lift, each day as a room, and what overflows on other days."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.room.offers import offers_for
from topheavy.room.solve import SEED, Effort, Planned
from topheavy.room.trial import tried
from topheavy.room.week import LeftOut, PlannedDay, PlannedWeek
from topheavy.room.week_days import FULL, NO_DAY, DayChoice, Serving, choose_days

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.offers import Offers
    from topheavy.room.week import Week

_TRIAL: Final = 0.15
"""Share of a day's time that one trial may take."""

_FEW: Final = 0.05
"""Of those at the fullest stations of a day that is too full, so many give way first [-]."""

_LEAST_S: Final = 0.5
"""Least time for a trial, or for making a day better [s]: with less the solver finds nothing."""

_LAST: Final = 0.3
"""Share of the time that is kept for making the days better."""

_MOST_FAILS: Final = 3
"""A sort of station is full on a day when so many could not be added there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekProgress:
    """How far planning a week is: which of three things is done, of how many days so many."""

    what: str
    done: int
    of: int


def plan_week(
    week: Week,
    effort: Effort | None = None,
    *,
    progress: Callable[[WeekProgress], None] | None = None,
    halt: Callable[[], bool] | None = None,
) -> PlannedWeek:
    """Plan a week.

    Every lift is on one day or left out with the reason. Ctrl-C ends making the days better, and
    what was found is kept.

    Parameters
    ----------
    week : Week
        What is asked.
    effort : Effort, optional
        How long to plan all of it, shared among the days by how many lift there.
    progress : callable, optional
        Told how far it is.
    halt : callable, optional
        Asked again and again whether to end; what was found so far is kept.

    Raises
    ------
    NotInStockError
        Nothing can be hung at all.
    BadInputError
        The solver is not installed.
    """
    planning = _Planning(week, effort or Effort(seconds_s=60.0), progress, halt)
    planning.choose()
    planning.fit()
    planning.place_rest()
    planning.improve()
    return planning.result()


class _Planning:
    """Which wishes each day has, its plan, and who has no place so far."""

    def __init__(
        self,
        week: Week,
        effort: Effort,
        progress: Callable[[WeekProgress], None] | None,
        halt: Callable[[], bool] | None,
    ) -> None:
        self.week, self.effort = week, effort
        self.progress, self.halt = progress or _untold, halt or _never
        self.began = effort.now() if effort.now else 0.0
        self.serving = Serving(week)
        self.choice = DayChoice(self.serving)
        self.plans: dict[int, Planned] = {}
        self.offers: dict[int, tuple[tuple[int, ...], Offers]] = {}
        self.fails: dict[tuple[int, str], int] = {}
        self.failed: set[tuple[int, int]] = set()
        self.over: list[int] = []

    def on(self, day: int) -> tuple[int, ...]:
        """Wishes that are on a day."""
        return tuple(n for n, at in enumerate(self.choice.day) if at == day)

    def choose(self) -> None:
        """Choose the days."""
        self._tell("Choosing days", 0)
        self.choice.day = list(choose_days(self.serving, SEED, self.halt))
        self.over = [
            n for n, at in enumerate(self.choice.day) if at == NO_DAY and self.serving.may[n]
        ]

    def fit(self) -> None:
        """Plan each day as far as it goes; who is too many has no place for now."""
        for day in range(len(self.week.days)):
            self._tell("Planning each day", day)
            some, share = self.on(day), _FEW
            while some:
                found = self._tried(day, some)
                if found.plan is not None:
                    self.plans[day] = found
                    break
                out = self._too_many(day, some, share)
                self.over += out
                for n in out:
                    self.choice.day[n] = NO_DAY
                some, share = self.on(day), min(0.5, 2 * share)

    def _too_many(self, day: int, some: tuple[int, ...], share: float) -> list[int]:
        """Who gives way: at the fullest stations, those who may come on most other days."""
        choice, one = self.choice, self.week.days[day]
        fills = {
            kind: choice.filled(one, day, kind, choice.mask(day, kind))
            for kind in sorted({choice.kind[n] for n in some})
        }
        fullest = max(fills, key=lambda kind: fills[kind])
        here = [n for n in some if choice.kind[n] == fullest]
        here.sort(key=lambda n: (-len(self.serving.may[n]), -choice.share[n], n))
        share = max(share, 1.0 - FULL / max(FULL, fills[fullest]))
        return here[: max(1, int(share * len(here)))]

    def place_rest(self) -> None:
        """Give those without a place one on another day, the hardest to place first."""
        waiting = [n for n in self.over if self.choice.day[n] == NO_DAY]
        waiting.sort(key=lambda n: (len(self.serving.may[n]), -self.choice.share[n], n))
        placed = True
        while waiting and placed and not (self.halt() or self._late()):
            self._tell("Finding other days", len(self.over) - len(waiting), len(self.over))
            for day, some in self._dealt(waiting).items():
                self._added(day, some)
            still = [n for n in waiting if self.choice.day[n] == NO_DAY]
            placed = len(still) < len(waiting) or bool(self._dealt(still))
            waiting = still

    def _dealt(self, waiting: list[int]) -> dict[int, list[int]]:
        """Deal those who wait out to the emptiest of their days that are not known to be full."""
        choice, dealt = self.choice, dict[int, list[int]]()
        more: dict[tuple[int, str], int] = {}
        for n in waiting:
            kind = choice.kind[n]
            days = [
                day
                for day in self.serving.may[n]
                if choice.legal(n, day)
                and self.fails.get((day, kind), 0) < _MOST_FAILS
                and (day, n) not in self.failed
                and not any(
                    choice.week.wishes[m].key[0] == choice.week.wishes[n].key[0]
                    for m in dealt.get(day, ())
                )
            ]
            if days:
                at = min(days, key=lambda day: (self._fill(day, n, more.get((day, kind), 0)), day))
                more[at, kind] = more.get((at, kind), 0) | 1 << n
                dealt.setdefault(at, []).append(n)
        return dealt

    def _fill(self, day: int, n: int, more: int) -> float:
        kind = self.choice.kind[n]
        mask = self.choice.mask(day, kind) | more | 1 << n
        return self.choice.fill(self.week.days[day], kind, mask, 0)

    def _added(self, day: int, some: list[int]) -> None:
        """Plan a day with some more, or with as many halves of them as go in."""
        if self.halt() or self._late():
            return
        found = self._tried(day, tuple(sorted((*self.on(day), *some))))
        if found.plan is not None:
            for n in some:
                self.choice.day[n] = day
            self.plans[day] = found
        elif len(some) == 1:
            key = day, self.choice.kind[some[0]]
            self.failed.add((day, some[0]))
            self.fails[key] = self.fails.get(key, 0) + 1
        else:
            half = len(some) // 2
            self._added(day, some[:half])
            self._added(day, some[half:])

    def improve(self) -> None:
        """Make each day's plan better in the time that is left."""
        all_of = sum(len(self.on(day)) for day in self.plans)
        left_s = self._left_s()
        try:
            for done, day in enumerate(sorted(self.plans)):
                if self.halt():
                    break
                self._tell("Making days better", done)
                some = self.on(day)
                better = tried(
                    self.week.on(day, some),
                    self._offers(day, some),
                    self._part(len(some) / all_of, left_s),
                    goal="bounded",
                    halt=self.halt,
                )
                if better.plan is not None and better.cost <= self.plans[day].cost:
                    self.plans[day] = better
        except KeyboardInterrupt:
            pass

    def result(self) -> PlannedWeek:
        """Make the planned week of what was found."""
        days = tuple(
            PlannedDay(day=day, wishes=self.on(day), planned=self.plans.get(day))
            for day in range(len(self.week.days))
        )
        left = [self._left_out(n) for n, at in enumerate(self.choice.day) if at == NO_DAY]
        return PlannedWeek(week=self.week, days=days, left_out=tuple(left))

    def _left_out(self, n: int) -> LeftOut:
        if not self.serving.served[n]:
            return LeftOut(wish=n, why="unserved", nearest_kg=self.serving.nearest_kg[n])
        if not self.serving.may[n]:
            return LeftOut(wish=n, why="alone")
        taken = not any(self.choice.legal(n, day) for day in self.serving.may[n])
        return LeftOut(wish=n, why="taken" if taken else "full")

    def _tried(self, day: int, some: tuple[int, ...]) -> Planned:
        share = _TRIAL / len(self.week.days)
        room, offers = self.week.on(day, some), self._offers(day, some)
        return tried(room, offers, self._part(share, self.effort.seconds_s), halt=self.halt)

    def _offers(self, day: int, some: tuple[int, ...]) -> Offers:
        known = self.offers.get(day)
        if known is None or known[0] != some:
            known = self.offers[day] = some, offers_for(self.week.on(day, some))
        return known[1]

    def _part(self, share: float, seconds_s: float) -> Effort:
        """Make an effort of a share of the time, or of the work where that is counted."""
        effort = self.effort
        if effort.steps is not None:
            return replace(effort, steps=max(1e-3, share * effort.steps))
        return replace(effort, seconds_s=max(_LEAST_S, share * seconds_s))

    def _left_s(self) -> float:
        if self.effort.now is None:
            return self.effort.seconds_s
        return max(0.0, self.began + self.effort.seconds_s - self.effort.now())

    def _late(self) -> bool:
        return self._left_s() < _LAST * self.effort.seconds_s

    def _tell(self, what: str, done: int, of: int | None = None) -> None:
        self.progress(WeekProgress(what=what, done=done, of=of or len(self.week.days)))


def _untold(_: WeekProgress) -> None:
    """Tell nobody."""


def _never() -> bool:
    return False
