"""Reading a room file: to a room, or to everything that is wrong with it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, TypeVar

from pydantic import ValidationError

from topheavy.errors import BadInputError, FileError
from topheavy.gymfile.places import Place, header_lines, quoted, spots_below
from topheavy.gymfile.problems import GymFileError, Problems, unknown_key
from topheavy.gymfile.read import LARGEST_BYTES, file_text, toml_of
from topheavy.gymfile.schema import keys_at, wanted_at
from topheavy.gymfile.tables_stock import Table
from topheavy.roomfile.build import Placed, room_from
from topheavy.roomfile.tables import MOST_DAYS, DayTable, RoomTable, SessionTable, room_schema
from topheavy.roomfile.week import week_from

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.gym import Gym
    from topheavy.room.ask import Room
    from topheavy.room.week import Week

T = TypeVar("T", bound=Table)

_ROOT: Final = Place(())
_ROOM: Final = re.compile(r"^[ \t]*\[[ \t]*room[ \t]*\]", re.MULTILINE)


class RoomFileError(GymFileError):
    """A room file with mistakes, all of them told."""


def read_room(path: str | Path, gym: Gym) -> Room:
    """Read a room file.

    Parameters
    ----------
    path : str or Path
        A TOML file in UTF-8.
    gym : Gym
        Whose lifters, stations and pieces the file names.

    Raises
    ------
    FileError
        The file can't be read, or is no TOML (with line and column).
    RoomFileError
        The TOML describes no session of this gym; its `problems` list everything that is wrong.
    """
    text, name = file_text(path, "room file")
    return parse_room(text, gym, name)


def parse_room(text: str, gym: Gym, name_of_source: str = "room file") -> Room:
    """Read a room from the text of a room file; raises as `read_room`.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> room = parse_room('''
    ... [room]
    ... opens = "18:00"
    ... closes = "19:00"
    ... [[session]]
    ... lifter = "Osric"
    ... lift = "squat"
    ... bottom = "110 kg"
    ... top = "150 kg"
    ... ''', demo_gym())
    >>> room.bookings[0].name
    'Osric, squat'
    """
    return room_of_tables(room_tables(text, name_of_source), gym, name_of_source, text)


def read_asked(path: str | Path, gym: Gym) -> Room | Week:
    """Read a room file of one session or of a week; raises as `read_room`."""
    text, name = file_text(path, "room file")
    return parse_asked(text, gym, name)


def parse_asked(text: str, gym: Gym, name_of_source: str = "room file") -> Room | Week:
    """Read a room or a week from the text of a room file; raises as `read_room`.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> week = parse_asked('''
    ... [room]
    ... opens = "18:00"
    ... closes = "19:00"
    ... [[day]]
    ... name = "Monday"
    ... [[day]]
    ... name = "Thursday"
    ... [[session]]
    ... lifter = "Osric"
    ... lift = "squat"
    ... bottom = "110 kg"
    ... top = "150 kg"
    ... days = ["Thursday"]
    ... ''', demo_gym())
    >>> [week.days[day].name for day in week.wishes[0].on]
    ['Thursday']
    """
    tables = room_tables(text, name_of_source)
    if "day" not in tables:
        return room_of_tables(tables, gym, name_of_source, text)
    problems = Problems(room_schema())
    reader = _Reader(tables, text, text.split("\n"), problems)
    week = week_from(reader.room(), reader.days(), reader.sessions(), gym, problems)
    if week is None:
        raise RoomFileError(name_of_source, problems.in_order)
    return week


def room_tables(text: str, name_of_source: str = "room file") -> dict[str, Any]:
    """Read the tables of a room file as they stand, of which `room_of_tables` makes a room.

    Raises
    ------
    FileError
        Too large, or no TOML (with line and column).
    """
    if len(text) > LARGEST_BYTES:
        raise FileError("The file is too large for a room file", field=name_of_source)
    return toml_of(text, name_of_source, "session")


def room_of_tables(
    tables: dict[str, Any], gym: Gym, name_of_source: str = "what was asked", text: str = ""
) -> Room:
    """Make a room of the tables that a room file consists of.

    Parameters
    ----------
    tables : dict
        As parsed from TOML.
    gym : Gym
        Whose lifters, stations and pieces they name.
    name_of_source, text : str
        What they are called in errors, and the text they came from, for lines and columns.

    Raises
    ------
    RoomFileError
        They describe no session of this gym; its `problems` list everything that is wrong.
    """
    problems = Problems(room_schema())
    reader = _Reader(tables, text, text.split("\n"), problems)
    reader.refuse_days()
    room = room_from(reader.room(), reader.sessions(), gym, problems)
    if room is None:
        raise RoomFileError(name_of_source, problems.in_order)
    return room


@dataclass(slots=True)
class _Reader:
    """From parsed TOML to checked tables, each with its place in the file."""

    raw: dict[str, Any]
    text: str
    lines: list[str]
    problems: Problems

    def room(self) -> Placed[RoomTable] | None:
        """Check the keys of the file, and the ``[room]`` table."""
        known = keys_at((), "", self.problems.schema)
        for key in self.raw:
            if key not in known:
                self.problems.note(unknown_key(key, _ROOT, known), _ROOT)
        head = _ROOM.search(self.text)
        line = self.text.count("\n", 0, head.start()) + 1 if head else None
        place = Place(("room",), "", line, spots_below(self.lines, line))
        raw = self.raw.get("room")
        if not isinstance(raw, dict):
            self._refuse(
                "The table [room] is missing" if raw is None else "There is only one room",
                place,
                None if raw is None else quoted(raw),
                "[room] in single brackets, with opens and closes",
            )
            return None
        try:
            return Placed(place, RoomTable.model_validate(raw))
        except ValidationError as error:
            self.problems.note_invalid(error, place, raw)
            return None

    def sessions(self) -> list[Placed[SessionTable]]:
        """Check every ``[[session]]``."""
        raw = self.raw.get("session", [])
        if not isinstance(raw, list) or not raw:
            self._refuse(
                "Nobody lifts" if raw == [] else "There can be several of session",
                Place(("session",)),
                None if raw == [] else quoted(raw),
                "[[session]] in double brackets, one for each lift of a lifter",
            )
            return []
        return self._each("session", "lifter", raw, SessionTable)

    def days(self) -> list[Placed[DayTable]]:
        """Check every ``[[day]]``."""
        raw = self.raw["day"]
        if not isinstance(raw, list) or not 0 < len(raw) <= MOST_DAYS:
            self._refuse(
                f"A week has 1 to {MOST_DAYS} days",
                Place(("day",)),
                f"{len(raw)} days" if isinstance(raw, list) else quoted(raw),
                "[[day]] in double brackets, one for each day",
            )
            return []
        return self._each("day", "name", raw, DayTable)

    def refuse_days(self) -> None:
        """Say that one session is wanted, where there is a week."""
        if "day" in self.raw:
            self._refuse(
                "This file is of a week, and here one session is wanted",
                Place(("day",)),
                None,
                "a file without [[day]]; topheavy room plan takes weeks",
            )

    def _each(self, kind: str, name: str, raw: list[Any], form: type[T]) -> list[Placed[T]]:
        """Check every table of one kind, called by one of its keys."""
        lines = header_lines(self.text).get(kind, [])
        found = []
        for index, table in enumerate(raw):
            line = lines[index] if len(lines) == len(raw) else None
            called = table.get(name) if isinstance(table, dict) else None
            called = quoted(called)[1:-1] if isinstance(called, str) else ""
            place = Place((kind, index), called, line, spots_below(self.lines, line))
            if not isinstance(table, dict):
                wanted = wanted_at(place.path, "", self.problems.schema)
                self._refuse("Not a table", place, quoted(table), wanted)
                continue
            try:
                found.append(Placed(place, form.model_validate(table)))
            except ValidationError as error:
                self.problems.note_invalid(error, place, table)
        return found

    def _refuse(self, message: str, place: Place, got: str | None, wanted: str | None) -> None:
        error = BadInputError(message, field=place.key(), got=got, wanted=wanted)
        self.problems.note(error, place)
