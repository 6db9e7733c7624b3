"""The room of the demonstration, an annotated example of the format."""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING, Final

from topheavy.gymfile import demo_gym
from topheavy.roomfile.read import parse_room

if TYPE_CHECKING:
    from topheavy.room.ask import Room

DEMO_NAME: Final = "demo_room.toml"


def demo_room_text() -> str:
    """Read the text of the demonstration's room file, comments and all."""
    return resources.files(__package__).joinpath(DEMO_NAME).read_text(encoding="utf-8")


def demo_room() -> Room:
    """Read the demonstration's room.

    Examples
    --------
    >>> demo_room().name
    'Tuesday'
    """
    return parse_room(demo_room_text(), demo_gym(), DEMO_NAME)
