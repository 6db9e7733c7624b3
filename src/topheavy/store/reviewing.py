"""The sets that a review looks at, fetched from the log."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from topheavy.gym.day import day_number
from topheavy.services.review import ReviewQuestion
from topheavy.store.sets import Wanted, list_sets

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.store.opening import Store

WEEKS_BACK: Final = 26
"""How far back a review looks when nobody says [weeks]: half a year, own judgement."""


def review_question(
    store: Store, gym_id: int, gym: Gym, wanted: Wanted, *, today: str, noise: float
) -> ReviewQuestion:
    """Fetch the sets to review.

    Parameters
    ----------
    store : Store
        Where from.
    gym_id : int
        Of which gym.
    gym : Gym
        As it stands.
    wanted : Wanted
        Whose, of which lift, and from when to when. Without a last day up to the last set there is,
        so that an old log can be looked at; without a first day half a year before that.
    today : str
        The day it is; what is logged for later is no news yet.
    noise : float
        How well a single repeats [-].

    Raises
    ------
    BadInputError
        No day, a last day before the first, or a noise that no study found.
    """
    until = wanted.until or _last_day(store, gym_id, wanted, today)
    since = wanted.since or _earlier(until)
    asked = Wanted(lifter=wanted.lifter, lift=wanted.lift, since=since, until=until)
    day = wanted.until or today  # who looks at days long past asks what was next then
    empty = ReviewQuestion(gym=gym, sets=(), since=since, until=until, noise=noise, today=day)
    sets = tuple(entry.logged for entry in list_sets(store, gym_id, asked))
    return replace(empty, sets=sets)


def _last_day(store: Store, gym_id: int, wanted: Wanted, today: str) -> str:
    last = Wanted(lifter=wanted.lifter, lift=wanted.lift, since=wanted.since, until=today, most=1)
    # To the end, though it is one at most: a server's cursor is closed then.
    days = [entry.logged.day for entry in list_sets(store, gym_id, last)]
    return days[0] if days else today


def _earlier(until: str) -> str:
    day_number(until, "until")
    last = date.fromisoformat(until)
    return (last - min(timedelta(weeks=WEEKS_BACK), last - date.min)).isoformat()
