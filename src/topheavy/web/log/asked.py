"""The question of the log page: which sets."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from pydantic import Field

from topheavy.gym.day import day_number
from topheavy.gym.lifts import lift_named
from topheavy.store.sets import Wanted
from topheavy.web.words import Day, Name, UnitWords

if TYPE_CHECKING:
    from topheavy.web.access import Visitor
    from topheavy.web.house import House

MOST = 100
"""How many sets a page begins with."""


class LogWords(UnitWords):
    """Which sets; what is left out does not matter."""

    lifter: Name = Field(default="", description="Only this lifter's.")
    lift: Name = Field(default="", description="Only of this lift.")
    since: Day = Field(default="", description="First day: 2026-07-01.")
    until: Day = Field(default="", description="Last day.")
    most: int = Field(default=MOST, ge=1, le=5_000, description="No more than the last so many.")
    everything: bool = Field(default=False, description="Corrected and struck out sets too.")

    def asks(self, **changed: Any) -> str:
        """Write it as a question again, with something changed."""
        said = self.model_copy(update=changed).model_dump(exclude_defaults=True)
        return urlencode(said)


def wanted_of(
    house: House, visitor: Visitor, words: LogWords, *, most: int | None = None
) -> Wanted:
    """Say which sets are asked for; a lifter's are always their own.

    Raises
    ------
    RefusedError
        A lifter who asks for somebody else, or whom the gym does not know any more.
    TopheavyError
        No such lifter or lift, or no day.
    """
    for field, day in (("since", words.since), ("until", words.until)):
        if day:
            day_number(day, field)
    return Wanted(
        lifter=house.whose(visitor, words.lifter),
        lift=lift_named(words.lift).name if words.lift else "",
        since=words.since,
        until=words.until,
        most=most,
        everything=words.everything,
    )
