"""From checked tables to a week: days, and each lift as asked for on each of its days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from topheavy.errors import BadInputError
from topheavy.gymfile.places import quoted
from topheavy.room.week import Day, Week, Wish
from topheavy.roomfile.build import Maker, limits_of, pace_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.gym import Gym
    from topheavy.gymfile.problems import Problems
    from topheavy.room.ask import Booking
    from topheavy.roomfile.build import Placed
    from topheavy.roomfile.tables import DayTable, RoomTable, SessionTable


def week_from(
    head: Placed[RoomTable] | None,
    days: Sequence[Placed[DayTable]],
    sessions: Sequence[Placed[SessionTable]],
    gym: Gym,
    problems: Problems,
) -> Week | None:
    """Make a week of the tables of a room file; None when anything is wrong, which is noted."""
    if head is None:
        return None
    problems.refuse_twice("day", [(one.table.name, one.place, ("name",)) for one in days])
    makers = [Maker(_head_of(head.table, one.table), gym, problems) for one in days]
    made = [_day(one, maker) for one, maker in zip(days, makers, strict=True)]
    wishes = [_wish(one, days, makers, problems) for one in sessions]
    if len(problems):
        return None
    week: Week | None = None
    with problems.caught(head.place):
        week = Week(
            gym=gym,
            days=tuple(made),
            wishes=tuple(Wish(on=wish) for wish in wishes),
            name=head.table.name,
            a_day=head.table.a_day or 1,
            most_in_group=head.table.most_in_group,
            pace=pace_of(head.table),
            limits=limits_of(head.table),
        )
    return week  # noqa: RET504 - what is wrong was noted, not raised


def _head_of(head: RoomTable, day: DayTable) -> RoomTable:
    """Take from a day what it says, and from the room what it leaves out."""
    said = {
        key: value
        for key in ("name", "opens", "closes", "stations", "spotters")
        if (value := getattr(day, key)) is not None
    }
    return head.model_copy(update={**said, "broken": [*head.broken, *day.broken]})


def _day(placed: Placed[DayTable], maker: Maker) -> Day:
    head = maker.head
    for tag in head.broken:
        with maker.problems.caught(placed.place, "broken"):
            if all(band.tag != tag for band in maker.gym.stock.bands):
                maker.gym.stock.piece(tag)
    return Day(
        name=head.name,
        opens_s=head.opens,
        length=maker.length,
        stations=maker.stations(placed.place),
        spotters=head.spotters,
        broken=tuple(head.broken),
    )


def _wish(
    placed: Placed[SessionTable],
    days: Sequence[Placed[DayTable]],
    makers: Sequence[Maker],
    problems: Problems,
) -> dict[int, Booking]:
    """Tell a lift once for each day that it may be on."""
    names = [one.table.name.casefold() for one in days]
    at = list(range(len(days)))
    if placed.table.days is not None:
        at = []
        for name in placed.table.days:
            with problems.caught(placed.place, "days"):
                if name.casefold() not in names:
                    raise BadInputError(
                        "No such day",
                        got=quoted(name),
                        wanted="one of " + ", ".join(one.table.name for one in days),
                    )
                at.append(names.index(name.casefold()))
    before = len(problems)
    found: dict[int, Booking] = {}
    for day in sorted(set(at)):
        booking = makers[day].booking(placed)
        if booking is not None:
            found[day] = booking
        if len(problems) > before:
            break
    return found
