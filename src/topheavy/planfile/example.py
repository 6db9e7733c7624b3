"""The plan of the demonstration, an annotated example of the format."""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING, Final

from topheavy.planfile.read import parse_plan

if TYPE_CHECKING:
    from topheavy.gym.gym import Gym
    from topheavy.training.weeks import Block

DEMO_NAME: Final = "demo_plan.toml"


def demo_plan_text() -> str:
    """Read the text of the demonstration's plan file, comments and all."""
    return resources.files(__package__).joinpath(DEMO_NAME).read_text(encoding="utf-8")


def demo_plan(gym: Gym) -> Block:
    """Read the demonstration's plan, for the gym of the demonstration.

    Examples
    --------
    >>> from topheavy.gymfile import demo_gym
    >>> demo_plan(demo_gym()).name
    'Winter block'
    """
    return parse_plan(demo_plan_text(), gym, DEMO_NAME)
