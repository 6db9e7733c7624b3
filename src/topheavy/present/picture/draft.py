"""A picture in the making: the sheet, the scene, and what was worked out from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from topheavy.present.picture.facts import Facts
    from topheavy.present.picture.frame import Frame
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene
    from topheavy.present.picture.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Draft:
    """What every part of the drawing needs.

    Parameters
    ----------
    sheet : Sheet
        The SVG so far.
    scene : Scene
        What is drawn.
    placed : Plan
        Where the parts of the bar end stand.
    found : Facts
        Loads and counts.
    page : Frame
        Where figures and words stand.
    """

    sheet: Sheet
    scene: Scene
    placed: Plan
    found: Facts
    page: Frame

    @property
    def heights_m(self) -> tuple[float, float]:
        """Height of the bar at the bottom and at the top [m]."""
        return self.scene.bottom_m, self.scene.top_m
