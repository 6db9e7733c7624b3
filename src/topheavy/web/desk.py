"""The store behind the pages: its gyms, and the desk of the one that a request is about."""

from __future__ import annotations

import threading
from copy import deepcopy
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, Final

from topheavy.errors import BadInputError
from topheavy.gym.day import day_number
from topheavy.gymfile import gym_of_tables
from topheavy.services.logged import with_log
from topheavy.store.gyms import Change, GymName, list_gyms, load_gym, newest_version, save_gym
from topheavy.store.sets import telling_sets
from topheavy.web.gyms import GymSource

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.gym.gym import Gym
    from topheavy.store.gyms import Saved, StoredGym
    from topheavy.store.opening import Store

_STORED: Final = "stored"


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """An open store and the gym in it that a request is about.

    Parameters
    ----------
    store : Store
        The store.
    gym_id : int
        Number of the gym in it.
    name : str
        The gym's name.
    source : GymSource
        Gives the gym as it stands, with what its log tells of strength.
    memory : dict
        What a subject keeps of this gym from request to request, under its own name.
    """

    store: Store
    gym_id: int
    name: str
    source: GymSource
    memory: dict[str, Any] = field(default_factory=dict)

    def stored(self) -> StoredGym:
        """Fetch the gym as it stands: its tables to be changed, the gym, and its version."""
        found = self.memory.get(_STORED)
        if found is None or newest_version(self.store, self.gym_id) != found.version:
            found = self.memory[_STORED] = load_gym(self.store, self.name)
        return replace(found, tables=deepcopy(found.tables))

    def save(self, tables: Mapping[str, Any], *, note: str, over: int, by: str) -> Saved:
        """Save the gym as its next version.

        Parameters
        ----------
        tables : mapping
            All tables of the gym, as `stored` gives them, changed.
        note : str
            What was changed, in words; kept with the version.
        over : int
            The version that was changed.
        by : str
            Who changed it.

        Raises
        ------
        BadInputError
            The tables describe no gym, or one of another name.
        StaleError
            Somebody has changed the gym since that version; nothing is saved then.
        """
        gym = gym_of_tables(dict(tables), "what was sent")
        if gym.name != self.name:
            raise BadInputError(
                "A gym keeps its name", field="gym.name", got=repr(gym.name), wanted=repr(self.name)
            )
        change = Change(author=by, at=now(), note=note, over=over)
        saved = save_gym(self.store, tables, gym, change)
        self.source.forget()
        return saved


@dataclass(slots=True)
class Shelf:
    """A store that is served, with the gyms in it.

    Parameters
    ----------
    store : Store
        The store.
    only : int or None
        Number of the gym that alone is served; None for whichever is chosen.
    """

    store: Store
    only: int | None = None
    _desks: dict[int, Desk] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def gyms(self) -> list[GymName]:
        """List the gyms that are served, by name."""
        found = list_gyms(self.store)
        return [one for one in found if self.only in {None, one.id}]

    def desk(self, gym: GymName) -> Desk:
        """Give the desk of a gym; the same one to everybody."""
        with self._lock:
            if gym.id not in self._desks:
                self._desks[gym.id] = self._new(gym)
            return self._desks[gym.id]

    def _new(self, gym: GymName) -> Desk:
        source = GymSource(fetch=_AsStored(self.store, gym), tag=gym.id)
        return Desk(store=self.store, gym_id=gym.id, name=gym.name, source=source)


@dataclass(slots=True)
class _AsStored:
    """Fetches a gym with what its log tells; the gym itself anew only when it has a new version."""

    store: Store
    gym: GymName
    _found: StoredGym | None = None

    def __call__(self) -> Gym:
        found, day = self._found, today()
        if found is None or newest_version(self.store, self.gym.id) != found.version:
            found = self._found = load_gym(self.store, self.gym.name)
        return with_log(found.gym, telling_sets(self.store, self.gym.id, day), day)


def now() -> datetime:
    """The moment it is."""
    return datetime.now(UTC)


def today() -> str:
    """The day it is here, as year-month-day."""
    return datetime.now(UTC).astimezone().date().isoformat()


def happened_on(day: str, field: str) -> None:
    """Hold a day of something that was done to the calendar: one to come is a slip of the pen.

    Raises
    ------
    BadInputError
        Not a day, or one to come.
    """
    if day_number(day, field) > day_number(today(), "today"):
        raise BadInputError(
            "That day is still to come", field=field, got=day, wanted=f"{today()} or before"
        )
