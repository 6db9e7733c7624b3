"""What goes on at each station at a moment of a plan: who lifts, who is next, what is hung."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from topheavy.room.plan import turns

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.room.plan import Group, Plan, Turn

Doing = Literal["before", "hanging", "lifting", "done"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StationNow:
    """A station at a moment.

    Parameters
    ----------
    station : str
        Which.
    doing : {'before', 'hanging', 'lifting', 'done'}
        Before its first group or between two; chain is hung; a group lifts; nobody comes any more.
    group : Group or None
        The group there, or the next one to come.
    turn, after : Turn or None
        Whose set it is, and whose is next.
    later : Group or None
        The group after that.
    """

    station: str
    doing: Doing
    group: Group | None = None
    turn: Turn | None = None
    after: Turn | None = None
    later: Group | None = None


def stations_at(
    plan: Plan, now: int, logged: Mapping[int, int] | None = None
) -> tuple[StationNow, ...]:
    """Say what goes on at every station of a plan.

    A group in which sets were logged goes by those: the next turn is the first that nobody has
    logged. Any other goes by the clock.

    Parameters
    ----------
    plan : Plan
        The plan.
    now : int
        Grains since the room opened.
    logged : mapping of int to int, optional
        Sets logged today, by position of the booking.
    """
    return tuple(
        _station(plan, station.name, now, logged or {})
        for station in plan.room.stations
        if plan.at(station.name)
    )


def _station(plan: Plan, name: str, now: int, logged: Mapping[int, int]) -> StationNow:
    groups = plan.at(name)
    left = [group for group in groups if not _over(plan, group, now, logged)]
    if not left:
        return StationNow(station=name, doing="done")
    group, later = left[0], left[1] if len(left) > 1 else None
    lifted = any(logged.get(member.booking) for member in group.members)
    if not lifted and now < group.starts:
        hanging = group.fresh and group.begins <= now
        return StationNow(
            station=name, doing="hanging" if hanging else "before", group=group, later=later
        )
    open_turns = _open(plan, group, now, logged if lifted else {})
    return StationNow(
        station=name,
        doing="lifting",
        group=group,
        turn=open_turns[0] if open_turns else None,
        after=open_turns[1] if len(open_turns) > 1 else None,
        later=later,
    )


def _over(plan: Plan, group: Group, now: int, logged: Mapping[int, int]) -> bool:
    """Whether a group has done: all its sets are logged, or its time is over and none is."""
    wanted = {one.booking: plan.room.bookings[one.booking].sets for one in group.members}
    if any(logged.get(number) for number in wanted):
        return all(logged.get(number, 0) >= sets for number, sets in wanted.items())
    return group.ends <= now


def _open(plan: Plan, group: Group, now: int, logged: Mapping[int, int]) -> list[Turn]:
    """Turns still to come, the one under way among them."""
    all_turns = list(turns(plan.room, group))
    if logged:
        seen: Counter[int] = Counter()
        found = []
        for turn in all_turns:
            seen[turn.booking] += 1
            if seen[turn.booking] > logged.get(turn.booking, 0):
                found.append(turn)
        return found
    works = [plan.room.work(booking) for booking in plan.room.bookings]
    return [turn for turn in all_turns if turn.at + works[turn.booking].turn > now]
