"""The gym of the demonstration, an annotated example of the format."""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING, Final

from topheavy.gymfile.read import parse_gym

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym

DEMO_NAME: Final = "demo_gym.toml"


def demo_text() -> str:
    """Read the text of the demonstration's gym file, comments and all."""
    return resources.files(__package__).joinpath(DEMO_NAME).read_text(encoding="utf-8")


def demo_gym() -> Gym:
    """Read the demonstration's gym.

    Examples
    --------
    >>> demo_gym().name
    'The Tarnfell Barbell Barn'
    """
    return parse_gym(demo_text(), DEMO_NAME)
