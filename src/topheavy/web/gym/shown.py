"""Forms as templates show them: each field with what is in it, its unit, help and mistakes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.web.gym.fields import rows_in
from topheavy.web.gym.things import keys_in

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from topheavy.units import UnitSystem
    from topheavy.web.gym.fields import Field, Words
    from topheavy.web.gym.sheets import Sheet
    from topheavy.web.gym.troubles import Trouble

SPARE_ROWS = 3
"""Empty rows below those that are filled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """An input of a row: its name, label and text."""

    name: str
    label: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldShown:
    """A field as it stands on the page.

    `control` is ``input``, ``area``, ``select``, ``switch`` or ``rows``; `numeric` asks a phone for
    its digits.
    """

    key: str
    label: str
    control: str
    unit: str
    value: str
    help: str
    must: bool
    more: bool
    numeric: bool
    kind: str
    choices: tuple[tuple[str, str], ...]
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    troubles: tuple[Trouble, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormShown:
    """A form: its fields, those under "More", and mistakes that belong to no field of it."""

    fields: tuple[FieldShown, ...]
    more: tuple[FieldShown, ...]
    open: bool
    troubles: tuple[Trouble, ...]


_CONTROLS = {"choice": "select", "lines": "area", "switch": "switch", "rows": "rows"}


def show_form(
    sheet: Sheet,
    words: Words,
    units: UnitSystem,
    tables: Mapping[str, Any],
    troubles: Sequence[Trouble] = (),
    rows: int = SPARE_ROWS,
) -> FormShown:
    """Lay a form out.

    Parameters
    ----------
    sheet : Sheet
        Which.
    words : Words
        What is in it.
    units : UnitSystem
        What bare numbers are in.
    tables : mapping
        The gym's, for choices among its names.
    troubles : sequence of Trouble
        Mistakes.
    rows : int
        Empty rows to offer.
    """
    shown = [_field(field, words, units, tables, troubles, rows) for field in sheet.fields]
    more = tuple(field for field in shown if field.more)
    return FormShown(
        fields=tuple(field for field in shown if not field.more),
        more=more,
        open=any(_matters(field, rows) for field in more),
        troubles=tuple(one for one in troubles if not one.field),
    )


def _matters(field: FieldShown, rows: int) -> bool:
    """Whether a field has something in it that was not there by itself, or is wrong."""
    by_itself = field.must and field.control == "select"
    filled = bool(field.value) and not by_itself
    return bool(field.troubles) or filled or len(field.rows) > rows


def _field(
    field: Field,
    words: Words,
    units: UnitSystem,
    tables: Mapping[str, Any],
    troubles: Sequence[Trouble],
    rows: int,
) -> FieldShown:
    unit = field.unit(units)
    value = words.get(field.key, "yes" if field.usual and field.kind == "switch" else "")
    choices = field.choices
    if field.names:
        names = keys_in(tables, field.names)
        choices = (("", "not said"), *((name, name) for name in names))
        if value and value not in names:
            choices = (*choices, (value, f"{value} (not here)"))
    return FieldShown(
        key=field.key,
        label=field.label,
        control=_CONTROLS.get(field.kind, "input"),
        unit=unit,
        value=value,
        help=field.help,
        must=field.must,
        more=field.more,
        numeric=field.kind == "count",
        kind=field.kind,
        choices=choices if field.must or field.names else (("", "not said"), *choices),
        columns=tuple(_titled(column, units) for column in field.columns),
        rows=_rows(field, words, units, rows),
        troubles=tuple(one for one in troubles if one.field == field.key),
    )


def _titled(field: Field, units: UnitSystem) -> str:
    unit = field.unit(units)
    return f"{field.label}, {unit}" if unit else field.label


def _rows(
    field: Field, words: Words, units: UnitSystem, spare: int
) -> tuple[tuple[Cell, ...], ...]:
    if field.kind != "rows":
        return ()
    return tuple(
        tuple(
            Cell(
                name=f"{field.key}.{number}.{column.key}",
                label=f"{_titled(column, units)}, row {number + 1}",
                value=words.get(f"{field.key}.{number}.{column.key}", ""),
            )
            for column in field.columns
        )
        for number in range(rows_in(field, words) + spare)
    )
