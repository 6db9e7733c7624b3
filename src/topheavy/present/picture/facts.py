"""The numbers of a scene, worked out once: curves, loads, counts of links."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from topheavy.present.picture.plan import counts_at

if TYPE_CHECKING:
    from topheavy.mechanics.curve import LoadCurve
    from topheavy.present.picture.plan import Plan
    from topheavy.present.picture.scene import Scene


@dataclass(frozen=True, slots=True)
class Reading:
    """A load curve, read over the travel.

    Parameters
    ----------
    corners : tuple of (float, float)
        Load [kg] and height [m] of each corner, bottom first.
    """

    corners: tuple[tuple[float, float], ...]

    @property
    def loads_kg(self) -> tuple[float, float]:
        """Load at the bottom and at the top [kg]."""
        return self.corners[0][0], self.corners[-1][0]

    def load_kg(self, height_m: float) -> float:
        """Load [kg] at a height within the travel [m]."""
        for (low_kg, low_m), (high_kg, high_m) in pairwise(self.corners):
            if low_m <= height_m <= high_m and high_m > low_m:
                return low_kg + (high_kg - low_kg) * (height_m - low_m) / (high_m - low_m)
        return self.corners[-1][0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the picture says in numbers.

    Parameters
    ----------
    raising, lowering : Reading
        Load on the bar, both ends.
    straight : Reading or None
        The same chain hung straight, raising.
    straight_weight_kg : float
        Bar, collars and plates [kg].
    links : int
        Links on the drawn end.
    off : tuple of int
        How many are off the floor at the bottom and at the top.
    added : str
        What is on the bar besides plates; empty for nothing.
    """

    raising: Reading
    lowering: Reading
    straight: Reading | None
    straight_weight_kg: float
    links: int
    off: tuple[int, int]
    added: str


def facts(scene: Scene, placed: Plan) -> Facts:
    """Work out the facts of a scene."""
    low, high = (counts_at(scene, placed, bar_m) for bar_m in (scene.bottom_m, scene.top_m))
    other = scene.straight
    travel = (scene.bottom_m, scene.top_m)
    return Facts(
        raising=read(scene.rig.curve(scene.ground, "raising"), *travel),
        lowering=read(scene.rig.curve(scene.ground, "lowering"), *travel),
        straight=None if other is None else read(other.curve(scene.ground, "raising"), *travel),
        straight_weight_kg=scene.rig.straight_weight_kg,
        links=sum(count.off + count.down for count in low),
        off=(sum(count.off for count in low), sum(count.off for count in high)),
        added=_added(chain=bool(low), bands=bool(scene.drawn_end.bands)),
    )


def _added(*, chain: bool, bands: bool) -> str:
    if not bands:
        return "what hangs" if chain else ""
    return "chain and bands" if chain else "bands"


def read(curve: LoadCurve, bottom_m: float, top_m: float) -> Reading:
    """Read a curve's corners from `bottom_m` to `top_m` [m]."""
    low_kg, high_kg = curve.at([bottom_m, top_m]).tolist()
    corners = [(low_kg, bottom_m)]
    for height, below, above in zip(
        curve.height_m.tolist(), curve.below_kg.tolist(), curve.above_kg.tolist(), strict=True
    ):
        if bottom_m <= height < top_m:
            corners += [(below, height), (above, height)]
    return Reading((*corners, (high_kg, top_m)))
