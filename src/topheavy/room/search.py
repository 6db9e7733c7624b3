"""Better plans by small changes: somebody joins another group, two change places, a run moves.

Every change is priced as a whole plan. One that costs more is taken too now and then, ever less
often (simulated annealing: Kirkpatrick, Gelatt & Vecchi 1983, Science 220, 671-680; from memory),
so that the search leaves dead ends. On the way a plan may want more than there is, at a price; only
one that does not is ever kept.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import count
from random import Random
from typing import TYPE_CHECKING, Final

from topheavy.room.layout import Run
from topheavy.room.plan import PER_GRAIN, PER_GRAIN_SHIFT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from topheavy.room.facts import Names
    from topheavy.room.layout import Layout, Pricing, Row, Teams

STRIDE: Final = 128
"""Steps between two looks at the clock."""

WARM: Final = 250.0
_COLD: Final = 15.0
"""From and to so much extra cost a change is taken about one time in three."""

_PER_HOUR: Final = 2.0
"""Price of each grain of any station, beside the finish: less work leaves room elsewhere."""

_PER_SHORT: Final = 10.0
"""Price of each grain in which something is short, and as much again for each such thing."""

_PER_LATE: Final = 100.0
"""Price of each grain that somebody would lift after having left, or in two places."""


@dataclass(frozen=True, slots=True)
class _Price:
    """What a row of runs brings: end, work, price, lateness; what it takes when; who is busy."""

    ends: int
    hours: int
    price: int
    late: int
    events: tuple[tuple[int, int], ...]
    busy: tuple[tuple[str, int, int], ...]


class Search:
    """A layout that changes step by step.

    Parameters
    ----------
    pricing : Pricing
        What layouts cost.
    layout : Layout
        To begin with.
    seed : int
        What to draw from: the same seed, the same steps.
    """

    def __init__(self, pricing: Pricing, layout: Layout, seed: int) -> None:
        self.pricing, self.facts = pricing, pricing.facts
        self.draw = Random(seed)  # noqa: S311 - no secret
        self._full, self._flags = pricing.facts.full
        self.open = {
            n: tuple(
                at
                for at, sort in enumerate(pricing.sorts)
                if sort >= 0 and n in pricing.facts.sorts[sort].serving
            )
            for n in range(len(pricing.facts.room.bookings))
        }
        self.mates = _mates(pricing)
        self._kept, self.best_cost = layout, 0
        self.stand_at(layout)

    def stand_at(self, layout: Layout) -> None:
        """Go on from this layout."""
        self.rows = list(layout)
        found = [self._priced(at, row) for at, row in enumerate(layout)]
        self.prices = [one for one in found if one is not None]
        assert len(self.prices) == len(layout)  # noqa: S101 - a layout is of runs that may be
        self.cost, self.trouble = self._whole(self.prices)
        self.where = {
            n: at
            for at, row in enumerate(layout)
            for run in row
            for some in run.teams
            for n in some
        }

    @property
    def true_cost(self) -> int:
        """What the plan costs, without what only guides the search."""
        return PER_GRAIN * max(one.ends for one in self.prices) + sum(p.price for p in self.prices)

    def improve(
        self, share: Callable[[], float], best: float, warm: float = WARM
    ) -> Iterator[Layout]:
        """Cool down once; give out each layout that costs less than `best` and all before.

        Parameters
        ----------
        share : callable
            Asked every so many steps which share of the cooling is over [-]; from 1 on it ends.
        best : float
            Cost of the best that is known.
        warm : float
            Heat to begin with, in hundredths of cost.
        """
        heat, better = warm, False
        for number in count():
            if number % STRIDE == 0:
                if better:
                    yield self._kept
                    better = False
                over = share()
                if over >= 1.0:
                    return
                heat = warm * (_COLD / warm) ** over
            if self.step(heat) and not self.trouble and self.true_cost < best:
                best = self.best_cost = self.true_cost
                self._kept, better = tuple(self.rows), True

    def step(self, heat: float) -> bool:
        """Try one small change; True when it was taken."""
        change = self._change()
        if change is None:
            return False
        prices = list(self.prices)
        for station, row in change.items():
            priced = self._priced(station, row)
            if priced is None:
                return False
            prices[station] = priced
        cost, trouble = self._whole(prices)
        worse = cost - self.cost
        if worse > 0 and self.draw.random() >= math.exp(-worse / heat):
            return False
        for station, row in change.items():
            self.rows[station] = row
            for run in row:
                for some in run.teams:
                    for n in some:
                        self.where[n] = station
        self.prices, self.cost, self.trouble = prices, cost, trouble
        return True

    def _priced(self, station: int, row: Row) -> _Price | None:
        """Hours, price and use of a row; None where it may not be."""
        at = hours = price = late = 0
        events: list[tuple[int, int]] = []
        busy: list[tuple[str, int, int]] = []
        for hung, wait, teams in row:
            facts = self.pricing.of(station, teams)
            if facts is None:
                return None
            at = max(at + wait, facts.ready)
            price += facts.price
            late += max(0, at - facts.due)
            holds = self.facts.hung_takes(hung)
            if holds:
                events += ((at, holds), (at + facts.long, -holds))
            for begins, ends, takes in facts.spans:
                events += ((at + begins, takes), (at + ends, -takes))
            for name, begins, ends in facts.busy:
                busy.append((name, at + begins, at + ends))
            for begins, was in facts.before:
                price += PER_GRAIN_SHIFT * abs(at + begins - was)
            at += facts.long
            hours += facts.long
        return _Price(at, hours, price, late, tuple(events), tuple(busy))

    def _whole(self, prices: list[_Price]) -> tuple[float, float]:
        """Cost of everything, and how much of it is trouble that a plan must not have."""
        ends = hours = price = late = 0
        events: list[tuple[int, int]] = []
        for one in prices:
            ends = max(ends, one.ends)
            hours += one.hours
            price += one.price
            late += one.late
            events += one.events
        late += max(0, ends - self.facts.room.length) + self._twice(prices)
        trouble = _PER_LATE * late + self._short(events)
        return PER_GRAIN * ends + price + _PER_HOUR * hours + trouble, trouble

    def _short(self, events: list[tuple[int, int]]) -> float:
        """Price of what would be short, and for how long."""
        events.sort()
        now, flags, since, price = self._full, self._flags, 0, 0.0
        for time, change in events:
            if now & flags and time > since:
                price += (time - since) * _PER_SHORT * (1 + (now & flags).bit_count())
            now += change
            since = time
        return price

    def _twice(self, prices: list[_Price]) -> int:
        """Grains that lifters would be in two places at once, or without time between."""
        spans = sorted([span for one in prices for span in one.busy])
        gap, late, last, until = self.facts.room.pace.between_grains, 0, "", 0
        for name, begins, ends in spans:
            if name == last:
                late += max(0, until + gap - begins)
                until = max(until, ends)
            else:
                last, until = name, ends
        return late

    def _change(self) -> dict[int, Row] | None:
        kind = self.draw.random()
        if kind < 0.35:
            return self._somebody_moves()
        if kind < 0.65:
            return self._two_change_places()
        if kind < 0.77:
            return self._a_group_moves()
        if kind < 0.88:
            return self._a_run_moves()
        return self._a_run_hangs_otherwise()

    def _of(self, n: int) -> tuple[int, int, int]:
        station = self.where[n]
        found = _place_of(self.rows[station], n)
        assert found is not None  # noqa: S101 - `where` says so
        return station, *found

    def _somebody(self) -> int:
        return self.draw.randrange(len(self.open))

    def _with(self, station: int, row: Row, at: int, teams: Teams) -> Row:
        """Change the groups of a run, on other chain where its own does not serve them."""
        if not teams:
            return (*row[:at], *row[at + 1 :])
        return (*row[:at], self._run(station, row[at].hung, row[at].wait, teams), *row[at + 1 :])

    def _run(self, station: int, hung: int, wait: int, teams: Teams) -> Run:
        facts = self.pricing.of(station, teams)
        if facts is None:
            return Run(hung, wait, teams)  # refused when it is priced
        if not facts.serving >> hung & 1 or self.draw.random() < 0.1:
            hung = self.draw.choice(self.facts.sparing(facts.serving))
        return Run(hung, wait, teams)

    def _somebody_moves(self) -> dict[int, Row] | None:
        n = self._somebody()
        here, at, place = self._of(n)
        teams = self.rows[here][at].teams
        some = tuple(m for m in teams[place] if m != n)
        rest = (*teams[:place], *((some,) if some else ()), *teams[place + 1 :])
        return self._to_a_mate((n,), here, self._with(here, self.rows[here], at, rest))

    def _to_a_mate(self, some: Names, here: int, row: Row) -> dict[int, Row] | None:
        """To the group of one whom the same chain may serve, or to its run; or as a run anew."""
        n = self.draw.choice(some)
        way = self.draw.random()
        mate = self.draw.choice(self.mates[n]) if self.mates[n] and way >= 0.12 else -1
        there = self.draw.choice(self.open[n]) if mate < 0 else self.where[mate]
        rows = {here: row}
        target = rows.get(there, self.rows[there])
        if mate < 0:
            at = self.draw.randint(0, len(target))
            rows[there] = (*target[:at], self._run(there, 0, 0, (some,)), *target[at:])
            return rows
        found = _place_of(target, mate)
        if found is None:  # moves along
            return None
        at, place = found
        teams = target[at].teams
        whole = tuple(sorted((*teams[place], *some)))
        if way < 0.3 or len(whole) > self.facts.room.most_in_group:
            place += self.draw.randint(0, 1)
            teams = (*teams[:place], some, *teams[place:])
        else:
            teams = (*teams[:place], whole, *teams[place + 1 :])
        rows[there] = self._with(there, target, at, teams)
        return rows

    def _two_change_places(self) -> dict[int, Row] | None:
        n = self._somebody()
        if not self.mates[n]:
            return None
        m = self.draw.choice(self.mates[n])
        (s, a, p), (t, b, q) = self._of(n), self._of(m)
        if (s, a, p) == (t, b, q) or t not in self.open[n] or s not in self.open[m]:
            return None
        rows = {s: self._swapped(s, self.rows[s], (a, p), (n, m))}
        rows[t] = self._swapped(t, rows.get(t, self.rows[t]), (b, q), (m, n))
        return rows

    def _swapped(self, station: int, row: Row, at: tuple[int, int], who: tuple[int, int]) -> Row:
        teams = row[at[0]].teams
        some = tuple(sorted(who[1] if one == who[0] else one for one in teams[at[1]]))
        teams = (*teams[: at[1]], some, *teams[at[1] + 1 :])
        return self._with(station, row, at[0], teams)

    def _a_group_moves(self) -> dict[int, Row] | None:
        here, at, place = self._of(self._somebody())
        teams = self.rows[here][at].teams
        rest = (*teams[:place], *teams[place + 1 :])
        return self._to_a_mate(teams[place], here, self._with(here, self.rows[here], at, rest))

    def _a_run_moves(self) -> dict[int, Row] | None:
        n = self._somebody()
        here, at, _ = self._of(n)
        run = self.rows[here][at]
        there = self.draw.choice(self.open[n])
        rows = {here: (*self.rows[here][:at], *self.rows[here][at + 1 :])}
        row = rows.get(there, self.rows[there])
        if row and there != here and self.draw.random() < 0.5:
            back = self.draw.randrange(len(row))
            rows[here] = (*rows[here][:at], row[back], *rows[here][at:])
            row = (*row[:back], *row[back + 1 :])
        if row and self.draw.random() < 0.3:
            into = self.draw.randrange(len(row))
            rows[there] = self._with(there, row, into, (*row[into].teams, *run.teams))
            return rows
        to = self.draw.randint(0, len(row))
        rows[there] = (*row[:to], run, *row[to:])
        return rows

    def _a_run_hangs_otherwise(self) -> dict[int, Row] | None:
        """On other chain, or later."""
        n = self._somebody()
        here, at, _ = self._of(n)
        row = self.rows[here]
        run, facts = row[at], self.pricing.of(here, row[at].teams)
        if facts is None:
            return None
        hung, wait = run.hung, run.wait
        if self.draw.random() < 0.6:
            hung = self.draw.choice(self.facts.sparing(facts.serving))
        else:
            wait = 0 if wait and self.draw.random() < 0.5 else self.draw.randint(0, 24)
        return {here: (*row[:at], Run(hung, wait, run.teams), *row[at + 1 :])}


def _place_of(row: Row, n: int) -> tuple[int, int] | None:
    """Find the run and the group of a booking in a row."""
    for at, run in enumerate(row):
        for place, some in enumerate(run.teams):
            if n in some:
                return at, place
    return None


def _mates(pricing: Pricing) -> list[tuple[int, ...]]:
    """For each booking, those whom some chain serves as well, at some sort of station."""
    sorts = pricing.facts.sorts
    everyone = range(len(pricing.facts.room.bookings))
    return [
        tuple(
            m
            for m in everyone
            if m != n and any(s.serving.get(n, 0) & s.serving.get(m, 0) for s in sorts)
        )
        for n in everyone
    ]
