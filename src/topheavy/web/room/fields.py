"""The form that asks for a room: its fields, and the way from them to the tables of a room file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from topheavy.gymfile import GymFileError
from topheavy.roomfile.tables import MOST_SESSIONS
from topheavy.web.typed import whole, with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from topheavy.errors import TopheavyError
    from topheavy.units import UnitSystem

Kind = Literal["text", "count", "check", "choice", "several", "mass", "load", "list"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field.

    Parameters
    ----------
    key : str
        Its key in the table.
    label : str
        What stands beside it.
    kind : str
        How it is typed, and what becomes of it.
    hint : str
        An example, or what it means when left empty.
    wide : bool
        Whether it is always shown, and not only on request.
    """

    key: str
    label: str
    kind: Kind = "text"
    hint: str = ""
    wide: bool = False


ROOM: Final = (
    Field(key="name", label="Name", hint="Tuesday", wide=True),
    Field(key="opens", label="Opens", hint="18:00", wide=True),
    Field(key="closes", label="Closes", hint="19:45", wide=True),
    Field(key="spotters", label="People who only spot", kind="count", hint="1", wide=True),
    Field(key="most_in_group", label="Lifters on one bar at most", kind="count", hint="4",
          wide=True),
    Field(key="within", label="Loads may be off by", kind="mass", hint="1.5 % of the load",
          wide=True),
    Field(key="stations", label="Stations in use", kind="several", hint="all", wide=True),
    Field(key="hang", label="Chain may hang", kind="several", hint="doubled"),
    Field(key="bands", label="Bands on each end at most", kind="count", hint="0"),
    Field(key="broken", label="Not to be hung today", kind="list", hint="A3, B1"),
    Field(key="rep", label="One rep takes", hint="4 s"),
    Field(key="ready", label="From \"next\" to the first rep", hint="30 s"),
    Field(key="plates", label="Changing plates", hint="45 s"),
    Field(key="rig", label="Hanging other chain", hint="4 min"),
    Field(key="between_lifts", label="Between two lifts of a lifter", hint="5 min"),
)  # fmt: skip

SESSION: Final = (
    Field(key="lifter", label="Lifter", kind="choice", wide=True),
    Field(key="lift", label="Lift", kind="choice", wide=True),
    Field(key="bottom", label="At the bottom", kind="load", hint="85 kg or 60 %", wide=True),
    Field(key="top", label="At the top", kind="load", hint="115 kg or 80 %", wide=True),
    Field(key="sets", label="Sets", kind="count", hint="5", wide=True),
    Field(key="reps", label="Reps", kind="count", hint="3", wide=True),
    Field(key="rest", label="Rest", hint="3 min", wide=True),
    Field(key="arrive", label="Comes at", hint="18:20"),
    Field(key="leave", label="Leaves at", hint="19:30"),
    Field(key="station", label="Only at", kind="choice"),
    Field(key="start", label="Starts just at", hint="18:30"),
    Field(key="chain", label="Or: more at the top, of the top load", hint="25 %"),
    Field(key="mean", label="Mean load", kind="load", hint="100 kg"),
    Field(key="straight", label="Bar, collars and plates", kind="load", hint="80 kg"),
    Field(key="match", label="Match the rig to the lifter's strength", kind="check"),
    Field(key="effort", label="at this share of it", hint="90 %"),
    Field(key="within", label="May be off by", kind="mass", hint="as for all"),
    Field(key="part_deload", label="Chain may hang at the bottom too", kind="check"),
    Field(key="kind", label="Kind of day", kind="choice", hint="heavy"),
    Field(key="spotters", label="People at each set", kind="count", hint="as is usual"),
    Field(key="may_spot", label="Spots for others", kind="check"),
)
CHECKED: Final = frozenset({"may_spot"})
"""Checks that are on unless somebody takes them off."""

_PLACE: Final = re.compile(r"(room|session)(?:\[(\d+)\])?(?:\.([a-z_]+))?")


def tables_from(form: Mapping[str, Sequence[str]], units: UnitSystem) -> dict[str, Any]:
    """Make the tables of a room file of what was typed; empty rows are passed over.

    Parameters
    ----------
    form : mapping
        Everything that was sent under each name.
    units : UnitSystem
        What a bare number of a mass is in.
    """
    room = _table(form, "room", ROOM, units)
    sessions = []
    for row in range(rows_in(form)):
        table = _table(form, f"s{row}", SESSION, units)
        if "lifter" in table:
            sessions.append(table)
    return {"room": room, "session": sessions}


def rows_in(form: Mapping[str, Sequence[str]]) -> int:
    """Count the rows of a form, filled in or not."""
    rows = [int(name[1:-7]) for name in form if re.fullmatch(r"s\d{1,4}-lifter", name)]
    return min(max(rows, default=-1) + 1, MOST_SESSIONS)


def _table(
    form: Mapping[str, Sequence[str]], prefix: str, fields: Sequence[Field], units: UnitSystem
) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for field in fields:
        sent = [text.strip() for text in form.get(f"{prefix}-{field.key}", ())]
        value = _value(field, [text for text in sent if text], units)
        if value is not None:
            found[field.key] = value
    return found


def _value(field: Field, sent: list[str], units: UnitSystem) -> Any:
    if field.kind == "check":
        on = bool(sent)
        return None if on == (field.key in CHECKED) else on
    if not sent or field.kind == "several":
        return sent or None
    text = sent[0]
    if field.kind == "list":
        return [one for one in re.split(r"[\s,;]+", text) if one]
    if field.kind == "count":
        return whole(text)
    return with_unit(text, units.mass_unit) if field.kind in ("mass", "load") else text


def filled(tables: Mapping[str, Any]) -> dict[str, Any]:
    """Say what stands in each field, by its name in the form: a text, a list, or whether it is on.

    Parameters
    ----------
    tables : mapping
        Of a room file.
    """
    found = _filled(tables.get("room", {}), "room", ROOM)
    for row, session in enumerate(tables.get("session", [])):
        found |= _filled(session, f"s{row}", SESSION)
    return found


def _filled(table: Mapping[str, Any], prefix: str, fields: Sequence[Field]) -> dict[str, Any]:
    return {f"{prefix}-{field.key}": _shown(field, table.get(field.key)) for field in fields}


def _shown(field: Field, value: Any) -> Any:
    if field.kind == "check":
        return field.key in CHECKED if value is None else bool(value)
    if field.kind == "several":
        return [str(one) for one in value] if isinstance(value, list) else []
    if value is None:
        return ""
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One mistake: the name of its field in the form, or empty, and what to say."""

    field: str
    words: tuple[str, ...]


def troubles_of(error: TopheavyError) -> tuple[Trouble, ...]:
    """Sort mistakes into the fields of the form; those of none belong to all of it."""
    several = error.problems if isinstance(error, GymFileError) else (error,)
    return tuple(Trouble(field=_name(one), words=tuple(one.lines())) for one in several)


def _name(error: TopheavyError) -> str:
    place = _PLACE.match((error.field or "").split(" and ")[-1])
    if place is None or not place[3]:
        return ""
    row = "room" if place[1] == "room" else f"s{int(place[2] or 1) - 1}"
    return f"{row}-{place[3]}"
