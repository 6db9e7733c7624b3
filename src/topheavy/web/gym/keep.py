"""Changing the gym: over the version that was seen, as the next one, never over another's."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Protocol

from topheavy.errors import BadInputError, TopheavyError
from topheavy.store.gyms import load_gym
from topheavy.store.problems import StaleError
from topheavy.web.gym.things import (
    keys_in,
    lift_of,
    tags_in,
    thing,
    with_lift,
    with_piece_apart,
    with_thing,
    without_thing,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.store.gyms import Saved, Version
    from topheavy.web.desk import Desk
    from topheavy.web.gym.things import Tables

_TRIES = 5


class Edit(Protocol):
    """One change of a gym's tables."""

    def look(self, tables: Mapping[str, Any]) -> Any:
        """What the change is about, as it stands in these tables."""

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """The tables with the change made."""


@dataclass(slots=True)
class Put:
    """Put a thing in, or in the place of one; `path` says where it went."""

    section: str
    key: str
    table: dict[str, Any]
    path: tuple[str | int, ...] = ()

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The thing as it stands; nothing for a new one."""
        return thing(tables, self.section, self.key) if self.key else None

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        found, place = with_thing(tables, self.section, self.key, self.table)
        self.path = (self.section, place)
        return found


@dataclass(slots=True)
class TakeOut:
    """Take a thing out."""

    section: str
    key: str

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The thing as it stands."""
        return thing(tables, self.section, self.key)

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        return without_thing(tables, self.section, self.key)


@dataclass(slots=True)
class PutHead:
    """Write the gym's own table anew."""

    table: dict[str, Any]
    path: tuple[str | int, ...] = ("gym",)

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The table as it stands."""
        return tables["gym"]

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        return {**tables, "gym": self.table}


@dataclass(slots=True)
class PutLift:
    """Put a lift of a lifter in, or take it out when there is no table."""

    lifter: str
    lift: str
    table: dict[str, Any] | None
    path: tuple[str | int, ...] = ()

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The lift as it stands."""
        return lift_of(tables, self.lifter, self.lift)

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        found, place = with_lift(tables, self.lifter, self.lift, self.table)
        self.path = ("lifter", place, "lifts", self.lift)
        return found


@dataclass(slots=True)
class PieceApart:
    """Write something on one piece of chain alone; None takes a key away."""

    tag: str
    changes: dict[str, Any]

    def look(self, tables: Mapping[str, Any]) -> Any:
        """The batch that the piece is in."""
        return next((one for one in tables.get("chain", []) if self.tag in tags_in(one)), None)

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        return with_piece_apart(tables, self.tag, self.changes)[0]


@dataclass(slots=True)
class PutAll:
    """Put all tables in the place of those that stand."""

    tables: Tables

    def look(self, tables: Mapping[str, Any]) -> Any:
        """Everything."""
        return tables

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change; what stood before is not asked."""
        del tables
        return self.tables


@dataclass(slots=True)
class PutBack:
    """Take back what one version changed, thing by thing; what came after it elsewhere stays.

    Parameters
    ----------
    before, after : dict
        Tables of the version before, and of the one that is taken back.
    """

    before: Tables
    after: Tables

    def _about(self) -> list[tuple[str, str]]:
        """Things that the version changed: section and key."""
        sections = dict.fromkeys((*self.before, *self.after))
        sections.pop("gym", None)
        found = []
        for section in sections:
            keys = dict.fromkeys((*keys_in(self.before, section), *keys_in(self.after, section)))
            found += [(section, key) for key in keys if self._changed(section, key)]
        return found

    def _changed(self, section: str, key: str) -> bool:
        return thing(self.before, section, key) != thing(self.after, section, key)

    def look(self, tables: Mapping[str, Any]) -> Any:
        """Those things as they stand, and the gym's own table where it was changed."""
        head = tables["gym"] if self.before["gym"] != self.after["gym"] else None
        return head, [thing(tables, *at) for at in self._about()]

    def make(self, tables: Mapping[str, Any]) -> Tables:
        """Make the change."""
        found = copy.deepcopy(dict(tables))
        if self.before["gym"] != self.after["gym"]:
            found["gym"] = self.before["gym"]
        about = self._about()
        for section, key in reversed(about):
            own, keys = found.setdefault(section, []), keys_in(found, section)
            if key in keys:
                del own[keys.index(key)]
        for section, key in about:
            table = thing(self.before, section, key)
            if table is not None:
                at = keys_in(self.before, section).index(key)
                found[section].insert(min(at, len(found[section])), table)
        return {section: own for section, own in found.items() if own}


class MeanwhileError(TopheavyError):
    """Somebody changed the same thing after it was last seen here.

    Parameters
    ----------
    version : Version
        The version that stands now.
    theirs : object
        The thing as it stands now; None when it was taken out.
    """

    def __init__(self, version: Version, theirs: Any) -> None:
        super().__init__(
            f"{version.author} changed this meanwhile",
            got=f"version {version.number} of {version.at:%Y-%m-%d %H:%M} UTC",
            wanted="a look at both, and then save what holds",
        )
        self.version, self.theirs = version, theirs


@dataclass(frozen=True, slots=True)
class Kept:
    """What became of a change: the version that stands, and whose changes came in between."""

    saved: Saved
    between: tuple[str, ...] = field(default=())


def keep(desk: Desk, edit: Edit, *, over: int, by: str, note: str) -> Kept:
    """Make a change and save it as the gym's next version.

    What others changed elsewhere since then stays as they have it.

    Parameters
    ----------
    desk : Desk
        Where.
    edit : Edit
        What is changed.
    over : int
        The version that was seen when it was typed.
    by, note : str
        Who, and what was done.

    Raises
    ------
    MeanwhileError
        The same thing was changed after that version.
    GymFileError
        What would come out is no gym; nothing is changed then.
    """
    for _ in range(_TRIES):
        now = desk.stored()
        between: tuple[str, ...] = ()
        if now.version.number != over:
            seen = load_gym(desk.store, desk.name, over)
            theirs = edit.look(now.tables)
            if edit.look(seen.tables) != theirs:
                raise MeanwhileError(now.version, theirs)
            between = (f"version {now.version.number} by {now.version.author}",)
        try:
            tables = edit.make(now.tables)
            saved = desk.save(tables, note=note, over=now.version.number, by=by)
        except StaleError:
            continue
        return Kept(saved, between)
    raise BadInputError("Too many are writing at once", wanted="once more, in a moment")
