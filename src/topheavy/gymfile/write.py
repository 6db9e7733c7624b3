"""Writing the tables of a gym as the text of a gym file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from topheavy.gymfile.schema import in_toml, key_in_toml

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

_LINE: Final = 100
SECTIONS: Final = (
    "chain", "inspection", "weighing", "feeder", "connector", "bar", "collar", "plate", "band",
    "station", "lifter",
)  # fmt: skip
"""The sections of a gym file below ``[gym]``, in the order in which they are written."""


def gym_text(tables: Mapping[str, Any], notes: tuple[str, ...] = ()) -> str:
    """Write a gym file.

    Parameters
    ----------
    tables : mapping
        As parsed from a gym file.
    notes : tuple of str
        Lines to begin with, as notes.

    Returns
    -------
    str
        TOML that means the same. What stood in notes, and how the text was laid out, is not in
        the tables and so not here.

    Examples
    --------
    >>> print(gym_text({"gym": {"name": "The Barn"}, "bar": [{"name": "B", "mass": "20 kg"}]}))
    [gym]
    name = "The Barn"
    <BLANKLINE>
    [[bar]]
    name = "B"
    mass = "20 kg"
    <BLANKLINE>
    """
    parts = [[f"# {note}".rstrip() for note in notes]] if notes else []
    parts.append(["[gym]", *_pairs(tables["gym"])])
    for section in SECTIONS:
        for table in tables.get(section, []):
            parts += _table(section, table)
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


def _table(section: str, table: Mapping[str, Any]) -> Iterator[list[str]]:
    """A table, and for a lifter one more for each lift."""
    lifts = table.get("lifts", {}) if section == "lifter" else {}
    own = {key: value for key, value in table.items() if not (key == "lifts" and lifts)}
    yield [f"[[{section}]]", *_pairs(own)]
    for name, lift in lifts.items():
        yield [f"[lifter.lifts.{key_in_toml(name)}]", *_pairs(lift)]


def _pairs(table: Mapping[str, Any]) -> Iterator[str]:
    for key, value in table.items():
        line = f"{key_in_toml(key)} = {in_toml(value)}"
        if len(line) > _LINE and isinstance(value, list):
            yield f"{key_in_toml(key)} = ["
            yield from (f"    {in_toml(item)}," for item in value)
            yield "]"
        else:
            yield line
