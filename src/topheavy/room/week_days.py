"""On which day each lift of a week is: hours balanced, lifters of one chain on the same day.

What is made least is a stand-in for the days' plans, quick to reckon: how full each sort of station
is on each day, squared; the fewest chains, found greedily, that serve all who lift there; hard days
in a row. The weights are own judgement.
"""

from __future__ import annotations

import math
import random
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from topheavy.room.offers import offers_for
from topheavy.room.plan import PER_CHANGE, PER_GRAIN, sure_finish

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from topheavy.gym.lifts import StationKind
    from topheavy.room.offers import Offers
    from topheavy.room.week import Day, Week

PER_ROW: Final = 1500
"""Cost of two hard days in a row of a lifter: as much as a quarter of an hour."""

PER_LEFT: Final = 1_000_000
"""Cost of a lift that is on no day: more than anything else."""

FULL: Final = 0.85
PER_OVER: Final = 40
"""Share of the hours that can be filled with no more than usual waiting [-]; what is above it costs
so many times as much."""

NO_DAY: Final = -1
_STEPS_EACH: Final = 60
_FEWEST, _MOST = 3000, 25_000
_WARM, _COLD = 600.0, 10.0


class Serving:
    """What serves whom on which day: worked out once for days that are alike.

    Parameters
    ----------
    week : Week
        What is asked.
    """

    def __init__(self, week: Week) -> None:
        self.week = week
        self.may: list[list[int]] = [[] for _ in week.wishes]
        self.nearest_kg = [math.inf] * len(week.wishes)
        self.served = [False] * len(week.wishes)
        self.covers: list[dict[str, list[int]]] = [{} for _ in week.days]
        alike: dict[tuple[object, ...], list[int]] = {}
        for at, day in enumerate(week.days):
            alike.setdefault((day.stations, day.broken), []).append(at)
        for days in alike.values():
            self._read(days)

    def _read(self, days: list[int]) -> None:
        """Read what serves those who may come on some days that are alike."""
        week = self.week
        who = [n for n, wish in enumerate(week.wishes) if any(day in wish.on for day in days)]
        if not who:
            return
        first = [next(day for day in days if day in week.wishes[n].on) for n in who]
        bookings = tuple(week.wishes[n].on[day] for n, day in zip(who, first, strict=True))
        offers = offers_for(week.room(days[0], bookings))
        covers = _covers(offers, who, week)
        for at, n in enumerate(who):
            own = [one for (booking, _), one in offers.at.items() if booking == at]
            self.nearest_kg[n] = min([self.nearest_kg[n], *(one.nearest_kg for one in own)])
            if any(one.miss_kg for one in own):
                self.served[n] = True
                self.may[n] += [day for day in days if self._fits_alone(n, day)]
        for day in days:
            self.covers[day] = covers
        for some in self.may:
            some.sort()

    def _fits_alone(self, n: int, day: int) -> bool:
        """Whether a wish could be on a day at all, were nobody else there."""
        booking = self.week.wishes[n].on.get(day)
        if booking is None:
            return False
        room = self.week.room(day, (booking,))
        leaves = room.length if booking.leaves is None else booking.leaves
        return sure_finish(room) <= min(room.length, leaves)


def _covers(offers: Offers, who: list[int], week: Week) -> dict[str, list[int]]:
    """Whom each hung chain serves, as a set of wishes, by sort of station."""
    found: dict[str, dict[int, int]] = {}
    for (at, _), one in offers.at.items():
        here = found.setdefault(week.wishes[who[at]].any.lift.station, {})
        for hung in one.miss_kg:
            here[hung] = here.get(hung, 0) | 1 << who[at]
    return {kind: list(dict.fromkeys(here.values())) for kind, here in found.items()}


class DayChoice:
    """A day for each wish, and what that costs.

    Parameters
    ----------
    serving : Serving
        What serves whom on which day.
    """

    def __init__(self, serving: Serving) -> None:
        self.serving, week = serving, serving.week
        self.week = week
        self.kind = [wish.any.lift.station for wish in week.wishes]
        self.share = [self._share(n) for n in range(len(week.wishes))]
        self.of: dict[str, list[int]] = {}
        for n, wish in enumerate(week.wishes):
            self.of.setdefault(wish.key[0], []).append(n)
        self.day = [NO_DAY] * len(week.wishes)
        self._known: dict[tuple[int, str, int], float] = {}

    def _share(self, n: int) -> float:
        """How long a wish keeps a station, of its group's time [grains]."""
        booking = self.week.wishes[n].any
        room = self.week.room(min(self.week.wishes[n].on), (booking,))
        work = room.work(booking)
        return work.sets * max(work.turn, work.cycle / self.week.most_in_group)

    def cost(self) -> float:
        """Cost of all of it."""
        total = sum(PER_LEFT for day in self.day if day == NO_DAY)
        total += sum(PER_ROW * self.rows(some) for some in self.of.values())
        kinds = set(self.kind)
        return total + sum(
            self.part(day, kind, self.mask(day, kind))
            for day in range(len(self.week.days))
            for kind in kinds
        )

    def mask(self, day: int, kind: str) -> int:
        """Set of wishes that are at a sort of station on a day."""
        both = zip(self.day, self.kind, strict=True)
        return sum(1 << n for n, (d, k) in enumerate(both) if d == day and k == kind)

    def rows(self, some: Sequence[int]) -> int:
        """Count a lifter's hard days in a row."""
        hard = sorted(
            {self.day[n] for n in some if self.week.wishes[n].hard and self.day[n] != NO_DAY}
        )
        return sum(b - a == 1 for a, b in pairwise(hard))

    def part(self, day: int, kind: StationKind, mask: int) -> float:
        """Cost of those at a sort of station on a day."""
        key = day, kind, mask
        found = self._known.get(key)
        if found is None:
            if len(self._known) > 100_000:
                self._known.clear()
            found = self._known[key] = self._part(self.week.days[day], day, kind, mask)
        return found

    def _part(self, one: Day, day: int, kind: str, mask: int) -> float:
        if not mask:
            return 0.0
        hung = fewest(self.serving.covers[day].get(kind, []), mask)
        fill = self.fill(one, kind, mask, hung)
        over = max(0.0, fill - FULL)
        return PER_CHANGE * hung + PER_GRAIN * one.length * (fill * fill + PER_OVER * over)

    def filled(self, one: Day, day: int, kind: str, mask: int) -> float:
        """Share of the hours that would be filled, with chain hung as rarely as can be [-]."""
        return self.fill(one, kind, mask, fewest(self.serving.covers[day].get(kind, []), mask))

    def fill(self, one: Day, kind: str, mask: int, hung: int) -> float:
        """Share of the hours of a sort of station that would be filled [-]."""
        work, left = 0.0, mask
        while left:
            low = left & -left
            work += self.share[low.bit_length() - 1]
            left ^= low
        count = sum(station.kind == kind for station in one.stations)
        return (work + hung * self.week.pace.rig_grains) / (count * one.length)

    def legal(self, n: int, day: int, without: int = -1) -> bool:
        """Whether a wish may be on a day beside its lifter's others there, one not counted."""
        if day not in self.serving.may[n]:
            return False
        wishes = self.week.wishes
        own = [m for m in self.of[wishes[n].key[0]] if m not in (n, without) and self.day[m] == day]
        return len(own) < self.week.a_day and all(wishes[m].key != wishes[n].key for m in own)


def fewest(covers: Sequence[int], some: int) -> int:
    """Count chains that together serve a set: always the one next that serves most of who is left.

    >>> fewest([0b0011, 0b0110, 0b1100], 0b1111)
    2
    """
    count, left = 0, some
    while left:
        best = max(covers, key=lambda cover: (cover & left).bit_count(), default=0)
        if not best & left:
            return count + left.bit_count()
        left &= ~best
        count += 1
    return count


def choose_days(
    serving: Serving, seed: int, halt: Callable[[], bool] | None = None
) -> tuple[int, ...]:
    """Choose a day for each wish, `NO_DAY` where there is none; the same seed, the same days.

    Parameters
    ----------
    serving : Serving
        What serves whom on which day.
    seed : int
        What to draw from.
    halt : callable, optional
        Asked again and again whether to end.
    """
    choice = DayChoice(serving)
    changing = _Changing(choice, random.Random(seed))  # noqa: S311 - nothing secret
    changing.begin()
    steps = min(_MOST, max(_FEWEST, _STEPS_EACH * len(serving.may)))
    best, least = list(choice.day), changing.total
    for step in range(steps):
        if halt is not None and step % 100 == 0 and halt():
            break
        warm = _WARM * (_COLD / _WARM) ** (step / steps)
        if changing.step(warm) and changing.total < least - 1e-6:
            best, least = list(choice.day), changing.total
    changing.back_to(best)
    changing.settle()
    return tuple(choice.day)


class _Changing:
    """Small changes to a choice: one wish to another day, or two that change places."""

    def __init__(self, choice: DayChoice, draw: random.Random) -> None:
        self.choice, self.draw = choice, draw
        self.free = [n for n, may in enumerate(choice.serving.may) if may]
        self.masks = {
            (day, kind): 0 for day in range(len(choice.week.days)) for kind in choice.kind
        }
        self.total = choice.cost()

    def begin(self) -> None:
        """Give each the cheapest day, those with the fewest first."""
        choice = self.choice
        for n in sorted(self.free, key=lambda n: (len(choice.serving.may[n]), n)):
            options = [day for day in choice.serving.may[n] if choice.legal(n, day)]
            if options:
                self._go(n, min(options, key=lambda day: (self._change(((n, day),)), day)))

    def settle(self) -> None:
        """Move wishes for as long as one of them alone has a cheaper day."""
        choice, better = self.choice, True
        while better:
            better = False
            for n in self.free:
                for day in choice.serving.may[n]:
                    move = ((n, day),)
                    if day != choice.day[n] and choice.legal(n, day) and self._change(move) < -1e-6:
                        self._go(n, day)
                        better = True

    def back_to(self, days: list[int]) -> None:
        """Go back to days chosen before."""
        for n in self.free:
            if self.choice.day[n] != days[n]:
                self._go(n, days[n])

    def step(self, warm: float) -> bool:
        """Draw a change, and make it when it is cheaper, or sometimes so; tell whether."""
        moves = self._drawn()
        if not moves:
            return False
        change = self._change(moves)
        if change > 0 and self.draw.random() >= math.exp(-change / warm):
            return False
        for n, day in moves:
            self._go(n, day)
        return True

    def _drawn(self) -> tuple[tuple[int, int], ...]:
        choice, draw = self.choice, self.draw
        if not self.free:
            return ()
        n = draw.choice(self.free)
        day = draw.choice(choice.serving.may[n])
        was = choice.day[n]
        if day == was:
            return ()
        own = [m for m in choice.of[choice.week.wishes[n].key[0]] if choice.day[m] == day]
        if draw.random() < 0.5 or (was == NO_DAY and not own):
            return ((n, day),) if choice.legal(n, day) else ()
        m = draw.choice(own or self.free)
        if choice.day[m] != day or not choice.legal(n, day, m):
            return ()
        if was != NO_DAY and not choice.legal(m, was, n):
            return ()
        return (n, day), (m, was)

    def _change(self, moves: tuple[tuple[int, int], ...]) -> float:
        """How much dearer the choice would be."""
        choice = self.choice
        masks: dict[tuple[int, StationKind], int] = {}
        lifters = {choice.week.wishes[n].key[0] for n, _ in moves}
        rows = -sum(choice.rows(choice.of[name]) for name in lifters)
        left, were = 0, [(n, choice.day[n]) for n, _ in moves]
        for n, day in moves:
            was, kind = choice.day[n], choice.kind[n]
            left += (day == NO_DAY) - (was == NO_DAY)
            for at in (was, day):
                if at != NO_DAY:
                    masks[at, kind] = masks.get((at, kind), self.masks[at, kind]) ^ 1 << n
            choice.day[n] = day
        rows += sum(choice.rows(choice.of[name]) for name in lifters)
        for n, was in were:
            choice.day[n] = was
        parts = sum(
            choice.part(*key, mask) - choice.part(*key, self.masks[key])
            for key, mask in masks.items()
        )
        return parts + PER_ROW * rows + PER_LEFT * left

    def _go(self, n: int, day: int) -> None:
        self.total += self._change(((n, day),))
        choice = self.choice
        for at in (choice.day[n], day):
            if at != NO_DAY:
                self.masks[at, choice.kind[n]] ^= 1 << n
        choice.day[n] = day
