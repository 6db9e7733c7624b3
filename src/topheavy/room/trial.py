"""Trying whether a room can be planned: by hand, and by small changes to that; for many trials.

Rooms of up to a dozen lifts are planned whole and proven. In larger ones a trial ends with the
first plan that keeps all rules, or with its time, and then nothing is known.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Literal

from topheavy.room.by_hand import by_hand, first_plan
from topheavy.room.draft import made_whole
from topheavy.room.large import Clock, Large
from topheavy.room.plan import sure_finish
from topheavy.room.solve import SEED, SMALL, Effort, Planned, plan_room
from topheavy.room.validate import breaches

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from topheavy.room.ask import Room
    from topheavy.room.draft import Draft
    from topheavy.room.offers import Offers
    from topheavy.room.plan import Plan

_MOST_SIZES: Final = 80
"""Up to so many lifts groups of every size are tried by hand; with more that takes too long."""

Goal = Literal["any", "better", "bounded"]

NOTHING = Planned(plan=None, bound=0, cost=0, possible=None, first=None)
IMPOSSIBLE = Planned(plan=None, bound=0, cost=0, possible=False, first=None)


def tried(
    room: Room,
    offers: Offers,
    effort: Effort,
    *,
    goal: Goal = "any",
    known: Sequence[Draft] | None = None,
    halt: Callable[[], bool] | None = None,
) -> Planned:
    """Look for a plan.

    Parameters
    ----------
    room, offers : Room, Offers
        What is asked, and what serves whom.
    effort : Effort
        How long to look at most.
    goal : {'any', 'better', 'bounded'}
        Whether the first plan will do, or it is made better for as long, or a bound is worked out
        beside it too.
    known : sequence of Draft, optional
        A plan by hand of the same lifts, when already made.
    halt : callable, optional
        Asked again and again whether to end.
    """
    if sure_finish(room) > room.length or not all(map(offers.serves, range(len(room.bookings)))):
        return IMPOSSIBLE
    if len(room.bookings) <= SMALL:
        return plan_room(room, effort, offers=offers, halt=halt)
    trial = _Trial(room, offers)
    return trial.by_changes(effort, known, goal=goal, halt=halt)


class _Trial:
    """The best plan so far of a large room."""

    def __init__(self, room: Room, offers: Offers) -> None:
        self.room, self.offers = room, offers
        self.plan: Plan | None = None

    def by_changes(
        self,
        effort: Effort,
        known: Sequence[Draft] | None,
        *,
        goal: Goal,
        halt: Callable[[], bool] | None,
    ) -> Planned:
        """Change a plan by hand until the time is over, or until one keeps all rules."""
        known = known or self._by_hand()
        if known:
            self._found(made_whole(self.room, self.offers, known))
        first = self.plan
        if first is not None and goal == "any":
            return Planned(plan=first, bound=0, cost=first.cost, possible=True, first=first)
        large = Large(self.room, self.offers, None, SEED)
        clock = Clock(effort, halt or (lambda: False))
        if goal == "bounded" and clock.timed:
            large.bound_aside(lambda: self.cost, clock)
        elif goal == "bounded":
            large.bound_now(self.cost)
        for _, drafts in large.better(known or (), self.cost, clock):
            self._found(made_whole(self.room, self.offers, drafts))
            if self.plan is not None and goal == "any":
                break
        if self.plan is None:
            return NOTHING
        bound = min(large.bound, self.cost) if goal == "bounded" else 0
        return Planned(plan=self.plan, bound=bound, cost=self.cost, possible=True, first=first)

    def _by_hand(self) -> Sequence[Draft] | None:
        known = by_hand(self.room, self.offers)
        late = known is None or max(draft.ends for draft in known) > self.room.length
        if late and len(self.room.bookings) <= _MOST_SIZES:
            known = first_plan(self.room, self.offers)
        return known

    @property
    def cost(self) -> int:
        return self.plan.cost if self.plan is not None else 1 << 40

    def _found(self, plan: Plan) -> None:
        if plan.cost < self.cost and not breaches(plan):
            self.plan = plan
