"""Planning a week: a day for each lift, each day as a room, and what overflows on other days."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from topheavy.room.offers import offers_for
from topheavy.room.plan import sure_finish
from topheavy.room.solve import SEED, Effort, Planned
from topheavy.room.trial import tried
from topheavy.room.week import LeftOut, PlannedDay, PlannedWeek
from topheavy.room.week_days import NO_DAY, DayChoice, Serving, choose_days

if TYPE_CHECKING:
    from collections.abc import Callable

    from topheavy.room.offers import Offers
    from topheavy.room.week import Week

_TRIAL: Final = 0.15
"""Share of a day's time that one trial may take."""

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
            some = self.on(day)
            while some:
                found = self._tried(day, some)
                if found.plan is not None:
                    self.plans[day] = found
                    break
                out = self._too_many(day, some)
                self.over += out
                for n in out:
                    self.choice.day[n] = NO_DAY
                some = self.on(day)

    def _too_many(self, day: int, some: tuple[int, ...]) -> list[int]:
        """Who gives way: at the fullest stations, those who may come on most other days."""
        room = self.week.on(day, some)
        one = self.week.days[day]
        kinds = {self.choice.kind[n] for n in some}
        fills = {
            kind: self.choice.fill(one, kind, self.choice.mask(day, kind), 0) for kind in kinds
        }
        fullest = max(sorted(kinds), key=lambda kind: fills[kind])
        here = [n for n in some if self.choice.kind[n] == fullest]
        here.sort(key=lambda n: (-len(self.serving.may[n]), -self.choice.share[n], n))
        over = max(fills[fullest], sure_finish(room) / room.length) - 1.0
        share = max(0.05, min(0.5, over / 2))
        return here[: max(1, int(share * len(here)))]

    def place_rest(self) -> None:
        """Give those without a place one on another day, the hardest to place first."""
        choice = self.choice
        waiting = sorted(self.over, key=lambda n: (len(self.serving.may[n]), -choice.share[n], n))
        for done, n in enumerate(waiting):
            if self.halt() or self._late(0.7):
                break
            self._tell("Finding other days", done, len(waiting))
            days = [day for day in self.serving.may[n] if choice.legal(n, day)]
            for day in sorted(days, key=lambda day: (self._fill(day, n), day)):
                if self._added(day, n):
                    break

    def _fill(self, day: int, n: int) -> float:
        kind = self.choice.kind[n]
        mask = self.choice.mask(day, kind) | 1 << n
        return self.choice.fill(self.week.days[day], kind, mask, 0)

    def _added(self, day: int, n: int) -> bool:
        """Plan a day with one more, when that goes."""
        key = day, self.choice.kind[n]
        if self.fails.get(key, 0) >= _MOST_FAILS:
            return False
        found = self._tried(day, tuple(sorted((*self.on(day), n))))
        if found.plan is None:
            self.fails[key] = self.fails.get(key, 0) + 1
            return False
        self.choice.day[n] = day
        self.plans[day] = found
        return True

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
                    to_the_end=True,
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
        return replace(effort, seconds_s=max(0.05, share * seconds_s))

    def _left_s(self) -> float:
        if self.effort.now is None:
            return self.effort.seconds_s
        return max(0.0, self.began + self.effort.seconds_s - self.effort.now())

    def _late(self, share: float) -> bool:
        return self._left_s() < (1.0 - share) * self.effort.seconds_s

    def _tell(self, what: str, done: int, of: int | None = None) -> None:
        self.progress(WeekProgress(what=what, done=done, of=of or len(self.week.days)))


def _untold(_: WeekProgress) -> None:
    """Tell nobody."""


def _never() -> bool:
    return False
