"""The format of a room file: its JSON Schema, and the tables of keys in its reference page."""

from __future__ import annotations

import json
from typing import Final

from docs.makers.gym_file import key_table
from docs.makers.markers import fill
from topheavy.roomfile import demo_room_text, room_schema

TABLES: Final = {"room": "RoomTable", "day": "DayTable", "session": "SessionTable"}
"""Which part of the page shows which definition of the schema."""


def schema_page(_: str) -> str:
    """Write the schema."""
    return json.dumps(room_schema(), indent=2, ensure_ascii=False) + "\n"


def reference_page(page: str) -> str:
    """Fill the generated parts of the reference page."""
    definitions = room_schema()["$defs"]
    for part, name in TABLES.items():
        page = fill(page, part, key_table(definitions[name]))
    return fill(page, "example", f"```toml\n{demo_room_text().rstrip()}\n```")
