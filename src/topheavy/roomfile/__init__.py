"""A session of the whole room as a TOML file: read, checked and explained."""

from topheavy.roomfile.example import demo_room, demo_room_text
from topheavy.roomfile.read import RoomFileError, parse_asked, parse_room, read_asked, read_room
from topheavy.roomfile.tables import room_schema

__all__ = [
    "RoomFileError",
    "demo_room",
    "demo_room_text",
    "parse_asked",
    "parse_room",
    "read_asked",
    "read_room",
    "room_schema",
]
