"""Writing the tables of a plan as the text of a plan file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.gymfile.schema import in_toml, key_in_toml

if TYPE_CHECKING:
    from collections.abc import Mapping

_SECTIONS: Final = ("day", "wave", "change")


def plan_text(tables: Mapping[str, Any]) -> str:
    """Write a plan file.

    Parameters
    ----------
    tables : mapping
        As parsed from a plan file.

    Returns
    -------
    str
        TOML that means the same; notes are not in the tables and so not here.

    Examples
    --------
    >>> day = {"weekday": "monday", "lift": "squat"}
    >>> print(plan_text({"plan": {"start": "2026-11-30"}, "day": [day]}))
    [plan]
    start = "2026-11-30"
    <BLANKLINE>
    [[day]]
    weekday = "monday"
    lift = "squat"
    <BLANKLINE>
    """
    parts = ["\n".join(["[plan]", *_pairs(tables["plan"])])]
    for section in _SECTIONS:
        parts += [
            "\n".join([f"[[{section}]]", *_pairs(table)]) for table in tables.get(section, [])
        ]
    return "\n\n".join(parts) + "\n"


def _pairs(table: Mapping[str, Any]) -> list[str]:
    return [f"{key_in_toml(key)} = {in_toml(value)}" for key, value in table.items()]
