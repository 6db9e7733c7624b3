"""From parsed TOML to checked tables, each with its place in the file."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from pydantic import ValidationError

from topheavy.errors import BadInputError
from topheavy.gymfile.places import Place, quoted
from topheavy.gymfile.problems import Keys, Problems, unknown_key
from topheavy.gymfile.schema import keys_at, wanted_at
from topheavy.gymfile.tables import GymTable, LifterTable, LiftTable
from topheavy.gymfile.tables_stock import FeederTable, LinksTable, RingsTable, StrapTable, Table

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from topheavy.errors import TopheavyError

T = TypeVar("T", bound=Table)

FORMS: Final[dict[str, type[RingsTable | LinksTable | StrapTable]]] = {
    "rings": RingsTable,
    "links": LinksTable,
    "strap": StrapTable,
}
_ROOT: Final = Place(())
_FORMS_WANTED: Final = (
    'form = "rings" (fixed rings), "links" (any link of a light chain) or "strap" (any length)'
)


@dataclass(frozen=True, slots=True)
class Placed(Generic[T]):
    """A table that fits the format, and where it stands."""

    place: Place
    table: T
    raw: Mapping[str, Any] = field(default_factory=dict)

    def as_written(self, error: TopheavyError) -> TopheavyError:
        """Show what stood in the file beside what an error says came."""
        keys = [key for key in self.raw if re.search(rf"\b{re.escape(key)}\b", str(error.got))]
        own = (error.field or "").strip(".")
        keys = [own] if own in self.raw else keys
        said = [f"{key} {self.raw[key]}" if len(keys) > 1 else f"{self.raw[key]}" for key in keys]
        if said and error.got is not None:
            error.got = f"{', '.join(said)} = {error.got}"
        return error


@dataclass(frozen=True, slots=True)
class Document:
    """A parsed gym file.

    Parameters
    ----------
    raw : dict
        The parsed TOML.
    lines : dict
        Lines of the ``[[name]]`` headers, by name.
    problems : Problems
        Where whatever is wrong gets noted.
    """

    raw: dict[str, Any]
    lines: dict[str, list[int]]
    problems: Problems

    def check_keys(self) -> None:
        """Note unknown tables."""
        known = keys_at(())
        for key in self.raw:
            if key not in known:
                self.problems.note(unknown_key(key, _ROOT, known), _ROOT)

    def gym(self) -> GymTable | None:
        """Check the ``[gym]`` table."""
        place = Place(("gym",))
        raw = self.raw.get("gym")
        if raw is None:
            self._refuse(
                "The table [gym] is missing", place, wanted='[gym] with at least a name = "..."'
            )
            return None
        if isinstance(raw, list):
            self._refuse(
                "There is only one gym", place, got="[[gym]]", wanted="[gym] in single brackets"
            )
            return None
        return self._checked(GymTable, raw, place)

    def tables(self, section: str, model: type[T]) -> list[Placed[T]]:
        """Check every ``[[section]]`` table against its model and keep those that fit."""
        found = []
        for place, raw in self._raw_tables(section):
            table = self._checked(model, raw, place)
            if table is not None:
                found.append(Placed(place, table))
        return found

    def names(self, section: str) -> list[str]:
        """List the names in a section, of tables that fit the format and of those that don't.

        A mistake elsewhere in a table should not make its name unknown as well.
        """
        raw = self.raw.get(section)
        tables = raw if isinstance(raw, list) else []
        names = [table.get("name") for table in tables if isinstance(table, dict)]
        return [name for name in names if isinstance(name, str)]

    def feeders(self) -> list[Placed[FeederTable]]:
        """Check every ``[[feeder]]`` against the model of its form."""
        found: list[Placed[FeederTable]] = []
        for place, raw in self._raw_tables("feeder"):
            form = raw.get("form") if isinstance(raw, dict) else ""
            if isinstance(raw, dict) and (not isinstance(form, str) or form not in FORMS):
                message = '"form" is missing' if form is None else "Not a form of feeder"
                got = None if form is None else quoted(form)
                self._refuse(message, place, ("form",), got=got, wanted=_FORMS_WANTED)
                continue
            table = self._checked(FORMS.get(str(form), RingsTable), raw, place, str(form))
            if table is not None:
                found.append(Placed(place, table))
        return found

    def lifters(self) -> list[tuple[Place, str, list[Placed[LiftTable]]]]:
        """Check every ``[[lifter]]``, and each of the lifts by itself: place, name, lifts."""
        found = []
        for place, raw in self._raw_tables("lifter"):
            lifts: list[Placed[LiftTable]] = []
            head = raw
            if isinstance(raw, dict) and isinstance(raw.get("lifts"), dict):
                head = {**raw, "lifts": {}}
                lifts = self._lifts(place, raw["lifts"])
            table = self._checked(LifterTable, head, place)
            found.append((place, table.name if table else "", lifts))
        return found

    def _lifts(self, place: Place, raw: dict[str, Any]) -> list[Placed[LiftTable]]:
        found = []
        for name, raw_lift in raw.items():
            here = Place((*place.path, "lifts", name), place.called, place.line)
            table = self._checked(LiftTable, raw_lift, here)
            if table is not None:
                found.append(Placed(here, table, raw_lift))
        return found

    def _raw_tables(self, section: str) -> Iterator[tuple[Place, Any]]:
        raw = self.raw.get(section, [])
        if not isinstance(raw, list):
            self._refuse(
                f"There can be several of {section}",
                Place((section,)),
                got=f"[{section}]" if isinstance(raw, dict) else quoted(raw),
                wanted=f"[[{section}]] in double brackets, one for each",
            )
            return
        lines = self.lines.get(section, [])
        for index, table in enumerate(raw):
            line = lines[index] if len(lines) == len(raw) else None
            yield Place((section, index), _called(section, table), line), table

    def _checked(self, model: type[T], raw: object, place: Place, form: str = "") -> T | None:
        if not isinstance(raw, dict):
            self._refuse("Not a table", place, got=quoted(raw), wanted=wanted_at(place.path))
            return None
        try:
            return model.model_validate(raw)
        except ValidationError as error:
            self.problems.note_invalid(error, place, raw, form)
            return None

    def _refuse(
        self,
        message: str,
        place: Place,
        keys: Keys = (),
        *,
        got: str | None = None,
        wanted: str | None = None,
    ) -> None:
        error = BadInputError(message, field=place.key(*keys), got=got, wanted=wanted)
        self.problems.note(error, place)


def _called(section: str, raw: object) -> str:
    """Find what a raw table's thing is called, for messages, whatever state it is in."""
    if not isinstance(raw, dict):
        return ""
    tags = raw.get("tags")
    first = tags[0] if isinstance(tags, list) and tags else None
    mass = raw.get("mass") if section == "plate" else None
    for name in (raw.get("tag"), raw.get("name"), first, raw.get("prefix"), mass):
        if isinstance(name, str) and name.strip():
            return quoted(name)[1:-1]
    return ""
