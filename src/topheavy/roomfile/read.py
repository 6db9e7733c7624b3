"""Reading a room file: to a room, or to everything that is wrong with it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from pydantic import ValidationError

from topheavy.errors import BadInputError, FileError
from topheavy.gymfile.places import Place, header_lines, quoted, spots_below
from topheavy.gymfile.problems import GymFileError, Problems, unknown_key
from topheavy.gymfile.read import LARGEST_BYTES, file_text, toml_of
from topheavy.gymfile.schema import keys_at, wanted_at
from topheavy.roomfile.build import Placed, room_from
from topheavy.roomfile.tables import RoomTable, SessionTable, room_schema

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.gym import Gym
    from topheavy.room.ask import Room

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
        lines = header_lines(self.text).get("session", [])
        found = []
        for index, table in enumerate(raw):
            line = lines[index] if len(lines) == len(raw) else None
            called = table.get("lifter") if isinstance(table, dict) else None
            called = quoted(called)[1:-1] if isinstance(called, str) else ""
            place = Place(("session", index), called, line, spots_below(self.lines, line))
            if not isinstance(table, dict):
                wanted = wanted_at(place.path, "", self.problems.schema)
                self._refuse("Not a table", place, quoted(table), wanted)
                continue
            try:
                found.append(Placed(place, SessionTable.model_validate(table)))
            except ValidationError as error:
                self.problems.note_invalid(error, place, table)
        return found

    def _refuse(self, message: str, place: Place, got: str | None, wanted: str | None) -> None:
        error = BadInputError(message, field=place.key(), got=got, wanted=wanted)
        self.problems.note(error, place)
