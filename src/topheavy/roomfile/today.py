"""What is different today: lifters who come later than the room file says."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from topheavy.errors import BadInputError, NotInStockError
from topheavy.room.pace import grains

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.room.ask import Booking, Room

_LATE: Final = re.compile(r"\s*(.+?)\s*=\s*([01]?\d|2[0-3]):([0-5]\d)\s*")
_DAY_S: Final = 24 * 3600


def arrivals(room: Room, late: Sequence[str]) -> tuple[Booking, ...]:
    """Let lifters come later.

    Parameters
    ----------
    room : Room
        As the file says.
    late : sequence of str
        Such as ``"Pip=18:40"``.

    Raises
    ------
    BadInputError
        No name and time, or a time when the room is closed.
    NotInStockError
        Nobody of that name lifts today.

    Examples
    --------
    >>> from topheavy.roomfile import demo_room
    >>> room = demo_room()
    >>> [b.arrives for b in arrivals(room, ["Osric=18:30"]) if b.lifter.name == "Osric"]
    [120, 120]
    """
    bookings = list(room.bookings)
    for text in late:
        found = _LATE.fullmatch(text)
        if found is None:
            raise BadInputError(
                "Not a lifter and a time",
                field="--late",
                got=repr(text),
                wanted="NAME=TIME, such as Pip=18:40",
            )
        after_s = (int(found[2]) * 3600 + int(found[3]) * 60 - room.opens_s) % _DAY_S
        if grains(after_s) >= room.length:
            raise BadInputError(
                "A time when the room is closed",
                field="--late",
                got=repr(text),
                wanted="a time of day from opening to closing",
            )
        name = found[1].casefold()
        if all(booking.lifter.name.casefold() != name for booking in bookings):
            names = ", ".join(dict.fromkeys(booking.lifter.name for booking in bookings))
            raise NotInStockError(
                f"Nobody called {found[1]!r} lifts today",
                field="--late",
                got=repr(text),
                wanted=f"one of {names}",
            )
        bookings = [
            replace(one, arrives=max(one.arrives, grains(after_s)))
            if one.lifter.name.casefold() == name
            else one
            for one in bookings
        ]
    return tuple(bookings)
