"""A form and a table of the gym file, each made from the other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from topheavy.web.gym.fields import Words, value_of, words_of
from topheavy.web.gym.sheets import keys_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from topheavy.units import UnitSystem
    from topheavy.web.gym.sheets import Sheet


def table_from(
    sheet: Sheet, words: Mapping[str, str], units: UnitSystem, old: Mapping[str, Any]
) -> dict[str, Any]:
    """Make a table of what was typed.

    Parameters
    ----------
    sheet : Sheet
        The form.
    words : mapping
        What stands in it, by the name of the input.
    units : UnitSystem
        What a number without a unit is in.
    old : mapping
        The table as it stood; what the form does not speak of is kept.

    Examples
    --------
    >>> from topheavy.units import METRIC
    >>> from topheavy.web.gym.sheets import SHEETS
    >>> table_from(SHEETS["bar"], {"name": "B", "mass": "20", "sleeve": "41.5"}, METRIC, {})
    {'name': 'B', 'mass': '20 kg', 'sleeve': '41.5 cm'}
    """
    spoken = keys_of(sheet.fields)
    table: dict[str, Any] = dict(sheet.fixed)
    for field in sheet.fields:
        value = value_of(field, words, units)
        if value is None:
            continue
        outer, _, inner = field.key.partition(".")
        if inner:
            table.setdefault(outer, {})[inner] = value
        elif field.kind == "tags" and len(value) == 1:
            table["tag"] = value[0]
        elif field.key == "weighed" and len(value) == 1:
            table["weighed"] = value[0]
        else:
            table[field.key] = value
    kept = {key: value for key, value in old.items() if key not in spoken and key not in table}
    order = [*[key for key in old if key in table], *[key for key in table if key not in old]]
    return {**{key: table[key] for key in order}, **kept}


def words_from(sheet: Sheet, table: Mapping[str, Any]) -> Words:
    """Write a table into a form, as it was written: what was measured in inches stays in inches.

    >>> from topheavy.web.gym.sheets import SHEETS
    >>> words_from(SHEETS["bar"], {"name": "B", "mass": "45 lb", "sleeve": "41.5 cm"})
    {'name': 'B', 'mass': '45 lb', 'sleeve': '41.5 cm'}
    """
    found: Words = {}
    for field in sheet.fields:
        outer, _, inner = field.key.partition(".")
        value = table.get(outer)
        if inner:
            value = value.get(inner) if isinstance(value, dict) else None
        if field.kind == "tags" and value is None:
            value = table.get("tag")
        found.update(words_of(field, value))
    return found
