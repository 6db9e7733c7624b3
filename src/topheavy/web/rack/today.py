"""What the pages at the rack show: today's work, what was done of it, what comes next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.work_view import view_rack
from topheavy.services.after_attempt import after_attempt
from topheavy.services.at_the_rack import left_on, stand
from topheavy.store.sets import Wanted, list_sets
from topheavy.store.work import day_stamp, todays_work
from topheavy.web.desk import today

if TYPE_CHECKING:
    from topheavy.gym.log import LoggedSet
    from topheavy.present.work_view import RackView
    from topheavy.training.work import Work
    from topheavy.units import UnitSystem
    from topheavy.web.access import Visitor
    from topheavy.web.desk import Desk


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """A day at the rack: everybody's work, and the sets that stand, as they were lifted."""

    day: str
    works: tuple[Work, ...]
    sets: tuple[LoggedSet, ...]

    def of(self, visitor: Visitor, lifter: str = "") -> tuple[Work, ...]:
        """Work that a visitor may see, of one lifter or of all."""
        name = lifter.casefold()
        return tuple(
            one
            for one in self.works
            if visitor.may_see(one.lifter) and name in {"", one.lifter.casefold()}
        )


def read_today(desk: Desk, day: str = "") -> Today:
    """Fetch a day; today when none is named."""
    chosen = day or today()
    given = todays_work(desk.store, desk.gym_id, chosen)
    wanted = Wanted(since=chosen, until=chosen)
    entries = list_sets(desk.store, desk.gym_id, wanted)
    return Today(
        day=chosen,
        works=tuple(one.work for one in given),
        sets=tuple(entry.logged for entry in entries),
    )


def rack_view(desk: Desk, all_today: Today, work: Work, units: UnitSystem) -> RackView:
    """Put one lifter's work together as a phone shows it."""
    standing = stand(work, all_today.sets)
    left = left_on(all_today.works, all_today.sets, work.station)
    advice = None
    if work.limit_hung_kg is not None and standing.done:
        advice = after_attempt(work, desk.source.read()[0], standing.done)
    return view_rack(standing, left, advice, units)


def stamp_of(desk: Desk, day: str, units: UnitSystem, *more: str) -> str:
    """Tell a day from how it stood before, as an ETag: it changes with work and sets."""
    work, sets = day_stamp(desk.store, desk.gym_id, day or today())
    return '"' + "-".join([str(desk.gym_id), str(work), str(sets), units.name, *more]) + '"'
