"""The format of a gym file: its JSON Schema, and the tables of keys in its reference page."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from docs.makers.markers import fill
from topheavy.gym.lifts import LIFTS
from topheavy.gymfile.demo import demo_text
from topheavy.gymfile.quantities import text_schema
from topheavy.gymfile.schema import gym_schema, in_toml
from topheavy.units import UNITS

if TYPE_CHECKING:
    from topheavy.units import Dimension

TABLES: Final = {
    "gym": "GymTable",
    "chain": "ChainTable",
    "calipers": "CalipersTable",
    "inspection": "InspectionTable",
    "weighing": "WeighingTable",
    "rings": "RingsTable",
    "links": "LinksTable",
    "strap": "StrapTable",
    "connector": "ConnectorTable",
    "bar": "BarTable",
    "collar": "CollarTable",
    "plate": "PlateTable",
    "band": "BandTable",
    "reading": "ReadingTable",
    "station": "StationTable",
    "peg": "PegTable",
    "lifter": "LifterTable",
    "lift": "LiftTable",
    "set": "SetTable",
    "isometric": "IsometricTable",
    "missed": "MissTable",
    "hung": "HungLiftTable",
    "bands used": "BandsUsedTable",
    "speed": "SpeedTable",
}
"""Which part of the page shows which definition of the schema."""

_QUANTITIES: Final[dict[str, Dimension]] = {
    "mass": "mass",
    "length": "length",
    "mass per length": "linear density",
    "speed": "speed",
}
_KINDS: Final = {
    "string": "text",
    "integer": "whole number",
    "number": "number",
    "boolean": "true or false",
    "object": "table",
}


def schema_page(_: str) -> str:
    """Write the schema."""
    return json.dumps(gym_schema(), indent=2, ensure_ascii=False) + "\n"


def reference_page(page: str) -> str:
    """Fill the generated parts of the reference page."""
    definitions = gym_schema()["$defs"]
    for part, name in TABLES.items():
        page = fill(page, part, key_table(definitions[name]))
    page = fill(page, "units", _units())
    page = fill(page, "lifts", _lifts())
    return fill(page, "example", f"```toml\n{demo_text().rstrip()}\n```")


def key_table(definition: dict[str, Any]) -> str:
    """Write the keys of one table as a table, those it can't do without first."""
    required = definition.get("required", [])
    rows = ["| key | what | as | example |", "|---|---|---|---|"]
    keys = sorted(definition["properties"], key=lambda key: key not in required)
    for key in keys:
        entry = definition["properties"][key]
        name = f"**`{key}`**" if key in required else f"`{key}`"
        usual = f"; when left out, {in_toml(entry['default'])}" if "default" in entry else ""
        example = f"`{in_toml(entry['examples'][0])}`"
        rows.append(f"| {name} | {entry['description']}{usual} | {_kind(entry)} | {example} |")
    return "\n".join(rows)


def _kind(entry: dict[str, Any]) -> str:
    if "anyOf" in entry:
        return " or ".join(_kind(one) for one in entry["anyOf"])
    for word, dimension in _QUANTITIES.items():
        if entry.get("pattern") == text_schema(dimension)["pattern"]:
            return word
    if "enum" in entry or "const" in entry:
        return " or ".join(f"`{in_toml(one)}`" for one in entry.get("enum", [entry.get("const")]))
    if entry.get("type") == "array":
        return f"list, each: {_kind(entry['items'])}"
    return _KINDS[entry.get("type", "object")]


def _units() -> str:
    rows = ["| what | units |", "|---|---|"]
    for word, dimension in _QUANTITIES.items():
        rows.append(f"| {word} | {', '.join(f'`{unit}`' for unit in UNITS[dimension])} |")
    return "\n".join(rows)


def _lifts() -> str:
    rows = ["| lift | station | bottom measured at | top measured at |", "|---|---|---|---|"]
    rows += [
        f"| {lift.name} | {lift.station} | {lift.bottom_at} | {lift.top_at} |"
        for lift in LIFTS.values()
    ]
    return "\n".join(rows)
