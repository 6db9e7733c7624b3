"""Reading a plan file: to a block, or to everything that is wrong with it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from pydantic import ValidationError

from topheavy.errors import BadInputError, FileError
from topheavy.gymfile.places import Place, header_lines, quoted, spots_below
from topheavy.gymfile.problems import GymFileError, Problems, unknown_key
from topheavy.gymfile.read import LARGEST_BYTES, file_text, toml_of
from topheavy.gymfile.schema import keys_at, wanted_at
from topheavy.gymfile.tables_stock import Table
from topheavy.planfile.build import block_from
from topheavy.planfile.tables import (
    ChangeTable,
    DayTable,
    PlanTable,
    WaveTable,
    plan_schema,
)

if TYPE_CHECKING:
    from pathlib import Path

    from topheavy.gym.gym import Gym
    from topheavy.training.weeks import Block

T = TypeVar("T", bound=Table)

_PLAN: Final = re.compile(r"^[ \t]*\[[ \t]*plan[ \t]*\]", re.MULTILINE)
_ROOT: Final = Place(())


class PlanFileError(GymFileError):
    """A plan file with mistakes, all of them told."""


@dataclass(frozen=True, slots=True)
class Placed(Generic[T]):
    """A table that fits the format, and where it stands."""

    place: Place
    table: T


@dataclass(frozen=True, slots=True)
class Sections:
    """The checked tables of a plan file."""

    plan: Placed[PlanTable] | None
    days: list[Placed[DayTable]]
    waves: list[Placed[WaveTable]]
    changes: list[Placed[ChangeTable]]


def read_plan(path: str | Path, gym: Gym) -> Block:
    """Read a plan file.

    Parameters
    ----------
    path : str or Path
        A TOML file in UTF-8.
    gym : Gym
        Whose lifters and stations the plan names.

    Returns
    -------
    Block
        Frozen, in SI.

    Raises
    ------
    FileError
        The file can't be read, or is no TOML (with line and column).
    PlanFileError
        The TOML describes no plan for this gym; its `problems` list everything that is wrong.
    """
    text, name = file_text(path, "plan file")
    return parse_plan(text, gym, name)


def parse_plan(text: str, gym: Gym, name_of_source: str = "plan file") -> Block:
    """Read a block from the text of a plan file; raises as `read_plan`.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> block = parse_plan('''
    ... [plan]
    ... start = "2026-11-30"
    ... [[day]]
    ... weekday = "monday"
    ... lift = "squat"
    ... ''', demo_gym())
    >>> block.weeks, block.days[0].kind
    (7, 'heavy')
    """
    raw = plan_tables(text, name_of_source)
    return _block(raw, text, gym, name_of_source)


def plan_tables(text: str, name_of_source: str = "plan file") -> dict[str, Any]:
    """Read the tables of a plan file, not looked at yet.

    Raises
    ------
    FileError
        It is too large, or no TOML (with line and column).
    """
    if len(text) > LARGEST_BYTES:
        raise FileError("The file is too large for a plan file", field=name_of_source)
    return toml_of(text, name_of_source, "day")


def block_of_tables(tables: dict[str, Any], gym: Gym, name_of_source: str = "the plan") -> Block:
    """Make a block of the tables of a plan file; raises as `read_plan`.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> day = {"weekday": "monday", "lift": "squat"}
    >>> block_of_tables({"plan": {"start": "2026-11-30"}, "day": [day]}, demo_gym()).weeks
    7
    """
    return _block(tables, "", gym, name_of_source)


def _block(raw: dict[str, Any], text: str, gym: Gym, name: str) -> Block:
    problems = Problems(plan_schema())
    block = block_from(_Reader(raw, text, problems).sections(), gym, problems)
    if block is None:
        raise PlanFileError(name, problems.in_order)
    return block


class _Reader:
    """From parsed TOML to checked tables, each with its place in the file."""

    def __init__(self, raw: dict[str, Any], text: str, problems: Problems) -> None:
        self.raw, self.problems = raw, problems
        self.text_lines = text.split("\n")
        self.headers = header_lines(text)
        head = _PLAN.search(text)
        self.plan_line = text.count("\n", 0, head.start()) + 1 if head else None

    def sections(self) -> Sections:
        known = keys_at((), "", self.problems.schema)
        for key in self.raw:
            if key not in known:
                self.problems.note(unknown_key(key, _ROOT, known), _ROOT)
        return Sections(
            plan=self._plan(),
            days=self._tables("day", DayTable),
            waves=self._tables("wave", WaveTable),
            changes=self._tables("change", ChangeTable),
        )

    def _plan(self) -> Placed[PlanTable] | None:
        place = Place(("plan",), "", self.plan_line, spots_below(self.text_lines, self.plan_line))
        if "plan" not in self.raw:
            self._refuse(
                "The table [plan] is missing", place, wanted='[plan] with at least a start = "..."'
            )
            return None
        raw = self.raw["plan"]
        if isinstance(raw, list):
            self._refuse(
                "There is only one plan", place, got="[[plan]]", wanted="[plan] in single brackets"
            )
            return None
        return self._checked(PlanTable, raw, place)

    def _tables(self, section: str, model: type[T]) -> list[Placed[T]]:
        raw = self.raw.get(section, [])
        if not isinstance(raw, list):
            self._refuse(
                f"There can be several of {section}",
                Place((section,)),
                got=f"[{section}]" if isinstance(raw, dict) else quoted(raw),
                wanted=f"[[{section}]] in double brackets, one for each",
            )
            return []
        lines = self.headers.get(section, [])
        found = []
        for index, table in enumerate(raw):
            line = lines[index] if len(lines) == len(raw) else None
            place = Place((section, index), "", line, spots_below(self.text_lines, line))
            checked = self._checked(model, table, place)
            found += [checked] if checked else []
        return found

    def _checked(self, model: type[T], raw: object, place: Place) -> Placed[T] | None:
        if not isinstance(raw, dict):
            wanted = wanted_at(place.path, "", self.problems.schema)
            self._refuse("Not a table", place, got=quoted(raw), wanted=wanted)
            return None
        try:
            return Placed(place, model.model_validate(raw))
        except ValidationError as error:
            self.problems.note_invalid(error, place, raw)
            return None

    def _refuse(
        self, message: str, place: Place, *, got: str | None = None, wanted: str | None = None
    ) -> None:
        error = BadInputError(message, field=place.key(), got=got, wanted=wanted)
        self.problems.note(error, place)
