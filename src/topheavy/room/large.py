"""Rooms too large to plan in one piece: better plans by small changes, and a bound beside them.

The bound is worked out in a thread of its own while the search goes on: first without what stations
share, which is there at once, then with it, then with whole groups and hung chain.
"""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Final

from topheavy.room.bound import Relaxed
from topheavy.room.draft import lengths
from topheavy.room.facts import Facts
from topheavy.room.layout import Pricing, Run, layout_of
from topheavy.room.plan import key_of, sure_cost
from topheavy.room.search import STRIDE, WARM, Search

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from topheavy.room.ask import Room
    from topheavy.room.draft import Draft
    from topheavy.room.layout import Layout
    from topheavy.room.offers import Offers
    from topheavy.room.plan import Former
    from topheavy.room.solve import Effort

_STEPS: Final = 20_000
"""Small changes to a step of counted work."""

_FIRST: Final = 0.1
_ROUNDS: Final = ((_FIRST, WARM), (0.45, WARM), (0.75, 100.0), (1.0, 60.0))
"""Until which share of the time each cooling lasts, and how warm it begins: all but the first two
begin at the best plan so far."""

_MOST_COLUMNS: Final = 120_000
"""With more groups on chains to choose from, the bound leaves out what stations share."""


class Clock:
    """Which share of the work is done: by time, or by count."""

    def __init__(self, effort: Effort, halt: Callable[[], bool]) -> None:
        self._now = effort.now if effort.steps is None else None
        self._seconds_s, self._halt = effort.seconds_s, halt
        self._began = self._now() if self._now else 0.0
        steps = effort.seconds_s if effort.steps is None else effort.steps
        self._strides = max(1.0, steps * _STEPS / STRIDE)
        self._count = 0

    @property
    def timed(self) -> bool:
        """Whether it goes by time."""
        return self._now is not None

    def share(self) -> float:
        """Share of the work done [-]; called once every `STRIDE` steps."""
        if self._halt():
            return 1.0
        self._count += 1
        done = 1.0 - self.left_s / self._seconds_s if self._now else self._count / self._strides
        return min(1.0, done)

    @property
    def left_s(self) -> float:
        """Time left [s]; none where work is counted."""
        left_s = self._began + self._seconds_s - self._now() if self._now else 0.0
        return max(0.0, left_s)


class Large:
    """Planning of a large room.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    former : mapping or None
        A plan to stay near to.
    seed : int
        What to draw from.
    """

    def __init__(self, room: Room, offers: Offers, former: Former | None, seed: int) -> None:
        self.room, self.seed, self.former = room, seed, former or {}
        self.facts = Facts(room, offers)
        self.pricing = Pricing(self.facts, self.former)
        self.bound = sure_cost(room)

    def better(
        self, known: Sequence[Draft], cost: int, clock: Clock
    ) -> Iterator[tuple[int, tuple[Draft, ...]]]:
        """Give out better plans and what each costs, the first perhaps a poor one.

        Parameters
        ----------
        known : sequence of Draft
            A plan to begin with, whether it keeps all rules or not.
        cost : int
            What it costs; very much when it breaks one.
        clock : Clock
            How long.
        """
        best = layout_of(self.pricing.stations, known) if known else self._one_by_one()
        starts = [best, self._as_before() or best]
        begun = 0.0
        for number, (until, warm) in enumerate(_ROUNDS):
            start = starts[0] if number or not self.former else starts[1]
            search = Search(self.pricing, start, self.seed + number)
            span = until - begun

            def share(begun: float = begun, span: float = span) -> float:
                done = clock.share()
                return 1.0 if done >= 1.0 else (done - begun) / span

            for layout in search.improve(share, cost, 60.0 if self.former else warm):
                starts[0], cost = layout, search.best_cost
                yield cost, self.pricing.drafts(layout)
            begun = until

    def _as_before(self) -> Layout | None:
        """The former plan's groups, as far as chain serves them still; who is new lifts last."""
        if not self.former:
            return None
        together: dict[tuple[str, int], list[int]] = {}
        for n, booking in enumerate(self.room.bookings):
            station, starts = self.former.get(key_of(booking), ("", 1 << 20))
            at = self.facts.sort_of.get(station, -1)
            if at < 0 or n not in self.facts.sorts[at].serving:
                sort = next(s for s in self.facts.sorts if n in s.serving)
                station, starts = sort.stations[n % len(sort.stations)], (1 << 20) + n
            together.setdefault((station, starts), []).append(n)
        rows: dict[str, list[Run]] = {name: [] for name in self.pricing.stations}
        free: dict[str, int] = {}
        for (name, starts), some in sorted(
            together.items(), key=lambda one: (one[0][1], one[0][0])
        ):
            row, at = rows[name], self.pricing.stations.index(name)
            new = self._runs(at, tuple(some))
            if row and len(new) == 1 and free.get(name) == starts:
                whole = self.pricing.of(at, (*row[-1].teams, *new[0].teams))
                if whole is not None:
                    hung = self.facts.sparing(whole.serving)[0]
                    teams = (*row.pop().teams, *new[0].teams)
                    new = [Run(hung, 0, teams)]
            row += new
            free[name] = starts + lengths(self.room, some)
        return tuple(tuple(rows[name]) for name in self.pricing.stations)

    def _one_by_one(self) -> Layout:
        """Everyone alone, one after the other: something to begin with."""
        rows: dict[str, list[Run]] = {name: [] for name in self.pricing.stations}
        for n in range(len(self.room.bookings)):
            at = next(at for at, sort in enumerate(self.pricing.sorts) if self._may(n, sort))
            rows[self.pricing.stations[at]] += self._runs(at, (n,))
        return tuple(tuple(rows[name]) for name in self.pricing.stations)

    def _may(self, n: int, sort: int) -> bool:
        return sort >= 0 and n in self.facts.sorts[sort].serving

    def _runs(self, station: int, some: tuple[int, ...]) -> list[Run]:
        """One run of these where one chain serves all; else a run for each."""
        whole = self.pricing.of(station, (some,))
        if whole is not None and len(some) <= self.room.most_in_group:
            return [Run(self.facts.sparing(whole.serving)[0], 0, (some,))]
        if len(some) == 1:
            return []
        return [run for n in some for run in self._runs(station, (n,))]

    def bound_aside(self, best: Callable[[], int], clock: Clock) -> threading.Thread:
        """Work the bound out beside the search, ever closer; `bound` has it so far."""
        thread = threading.Thread(target=self._bounds, args=(best, clock), daemon=True)
        thread.start()
        return thread

    def bound_now(self, best: int) -> None:
        """Work out the bound that needs no clock."""
        loose = Relaxed(self.facts, sharing=False)
        self.bound = max(self.bound, loose.bound(best))

    def _bounds(self, best: Callable[[], int], clock: Clock) -> None:
        self.bound_now(best())
        close = Relaxed(self.facts, sharing=True)
        if close.size > _MOST_COLUMNS or clock.left_s < 1.0:
            return
        found = close.bound(best(), clock.left_s)
        self.bound = max(self.bound, found)
        if found and clock.left_s > 1.0:
            whole = close.whole_bound(best(), found, 0.9 * clock.left_s)
            self.bound = max(self.bound, whole)
