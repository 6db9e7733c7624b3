"""The fields of a form, and how what was typed becomes what a gym file says, and back."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, Literal

from topheavy.web.typed import whole, with_unit

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from topheavy.units import UnitSystem

Kind = Literal[
    "text", "quantity", "count", "number", "choice", "switch", "day", "tags", "lines", "rows"
]

Words = dict[str, str]
"""What stands in a form, by the name of its input."""

_DECIMAL: Final = re.compile(r"\d{1,9}([.,]\d{1,9})?")
MOST_LINES: Final = 2000
"""Most lines or rows of one field that are looked at; the reader's own limits are lower."""

UNITS: Final[dict[str, tuple[str, str]]] = {
    "mass": ("kg", "lb"),
    "length": ("cm", "in"),
    "fine": ("mm", "in"),
    "density": ("kg/m", "lb/ft"),
    "speed": ("m/s", "ft/s"),
    "share": ("%", "%"),
}
"""What a number without a unit is in: for whoever sees kilograms, and pounds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field of a form.

    Parameters
    ----------
    key : str
        Where it stands in the table, such as ``"links"`` or ``"calipers.wire"``; the name of its
        input too.
    label : str
        What stands above it.
    kind : str
        What is typed; see `Kind`.
    of : str
        Of a quantity, and of lines of quantities: which of `UNITS`; empty for lines of text.
    choices : tuple of (str, str)
        Value and word of each choice.
    names : str
        The section whose names are the choices.
    must : bool
        Whether it may not be left out.
    more : bool
        Whether it stands under "More".
    usual : bool
        What a switch means when the table says nothing.
    columns : tuple of Field
        Of rows.
    help : str
        What to type, where the description of the format does not say it for a form.
    """

    key: str
    label: str
    kind: Kind = "text"
    of: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    names: str = ""
    must: bool = False
    more: bool = False
    usual: bool = False
    columns: tuple[Field, ...] = ()
    help: str = ""

    def unit(self, units: UnitSystem) -> str:
        """The unit of a number that is typed without one; empty where there is none."""
        return UNITS[self.of][units.name == "lb"] if self.of else ""


def rows_in(field: Field, words: Mapping[str, str]) -> int:
    """How many rows of a field a form has, empty ones at the end not counted."""
    found = 0
    for number in range(MOST_LINES):
        names = [f"{field.key}.{number}.{column.key}" for column in field.columns]
        if not any(name in words for name in names):
            break
        if any(words.get(name, "").strip() for name in names):
            found = number + 1
    return found


def value_of(field: Field, words: Mapping[str, str], units: UnitSystem) -> Any:
    """Read a field as a gym file would say it; None when it was left empty.

    What can't be read stays as it was typed, so that the reader of gym files says what is wrong.

    >>> from topheavy.units import METRIC
    >>> value_of(Field(key="links", label="Links", kind="count"), {"links": "32"}, METRIC)
    32
    """
    if field.kind == "rows":
        return _rows(field, words, units)
    text = words.get(field.key, "").strip()
    if field.kind == "switch":
        on = bool(text)
        return None if on == field.usual else on
    if not text:
        return None
    return _READ[field.kind](field, text, units) if field.kind in _READ else text


def _lines(field: Field, text: str) -> list[str]:
    """Lines of text; quantities may stand in a row too, with a comma and a space between."""
    between = r"[;\n]|,\s+" if field.of else r"\n"
    return [line.strip() for line in re.split(between, text) if line.strip()][:MOST_LINES]


def _number(_field: Field, text: str, _units: UnitSystem) -> float | str:
    return float(text.replace(",", ".")) if _DECIMAL.fullmatch(text) else text


_READ: Final[dict[str, Callable[[Field, str, UnitSystem], Any]]] = {
    "quantity": lambda field, text, units: with_unit(text, field.unit(units)),
    "count": lambda _field, text, _units: whole(text),
    "number": _number,
    "tags": lambda _field, text, _units: re.split(r"[\s,;]+", text)[:MOST_LINES],
    "lines": lambda field, text, units: [
        with_unit(line, field.unit(units)) for line in _lines(field, text)
    ],
}
"""What is typed of each kind, read; a text stays as it is."""


def _rows(field: Field, words: Mapping[str, str], units: UnitSystem) -> list[dict[str, Any]] | None:
    found = []
    for number in range(rows_in(field, words)):
        row: dict[str, Any] = {}
        for column in field.columns:
            name = f"{field.key}.{number}.{column.key}"
            value = value_of(column, {column.key: words.get(name, "")}, units)
            if value is not None:
                row[column.key] = value
        if row:
            found.append(row)
    return found or None


def words_of(field: Field, value: Any) -> Iterator[tuple[str, str]]:
    """Write what a gym file says of a field into a form: names of inputs and what is in them."""
    if field.kind == "rows":
        for number, row in enumerate(value or []):
            for column in field.columns:
                for name, text in words_of(column, row.get(column.key)):
                    yield f"{field.key}.{number}.{name}", text
    elif field.kind == "switch":
        on = field.usual if value is None else bool(value)
        yield field.key, "yes" if on else ""
    elif value is None:
        yield field.key, ""
    elif field.kind in {"tags", "lines"}:
        listed = value if isinstance(value, list) else [value]
        yield field.key, ("\n" if field.kind == "lines" else " ").join(str(one) for one in listed)
    elif isinstance(value, float):
        yield field.key, f"{value:g}"
    else:
        yield field.key, str(value)
