"""Everything a page needs to show one rig that is dragged up and down, without asking again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.present.picture.facts import facts
from topheavy.present.picture.frame import high_m
from topheavy.present.picture.plan import plan
from topheavy.present.picture.words import description, title
from topheavy.present.stage.poses import pose_at, still_shapes
from topheavy.present.stage.steps import link_steps

if TYPE_CHECKING:
    from topheavy.present.picture.facts import Reading
    from topheavy.present.picture.scene import Scene
    from topheavy.present.stage.steps import Steps
    from topheavy.present.stage.tracing import Shape
    from topheavy.rigging.built import BuiltRig
    from topheavy.rigging.target import Target

Corners = tuple[tuple[float, float], ...]
"""Height [m] and load [kg] of each corner of a load curve, bottom first; between them straight."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KindSteps:
    """Pieces of one kind on the drawn end, and when their links leave the floor.

    Parameters
    ----------
    size : str
        Trade size.
    links, pieces : int
        Links of one piece, and how many such pieces.
    steps : tuple of (float, int)
        Heights [m] from which on so many links of one piece are off the floor.
    """

    size: str
    links: int
    pieces: int
    steps: Steps


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A rig to be dragged.

    Parameters
    ----------
    bottom_m, top_m : float
        Heights of the bar at both ends of the lift [m].
    low_m, high_m, width_m : float
        Lowest floor, upper edge and width of the drawing [m].
    surface_m : float
        Height of what the chain lies on [m].
    sleeve_end_m : float
        End of the sleeve, from the left edge of the drawing [m].
    straight_weight_kg : float
        Bar, collars and plates [kg].
    raising, lowering : tuple of (float, float)
        Load curves by corners: height [m], load [kg].
    straight : tuple of (float, float)
        Of the same chain hung straight, raising; empty when it hangs so already.
    wanted : tuple of (float, float)
        Loads that were asked for: height [m], load [kg].
    kinds : tuple of KindSteps
        When links leave the floor.
    still, pose : tuple of Shape
        What stands still, and what moves, bar at `bar_m`.
    bar_m : float
        Height of the bar in `pose` [m].
    title, description : str
        The drawing in words.
    """

    bottom_m: float
    top_m: float
    low_m: float
    high_m: float
    width_m: float
    surface_m: float
    sleeve_end_m: float
    straight_weight_kg: float
    raising: Corners
    lowering: Corners
    straight: Corners
    wanted: Corners
    kinds: tuple[KindSteps, ...]
    still: tuple[Shape, ...]
    pose: tuple[Shape, ...]
    bar_m: float
    title: str
    description: str


def view_stage(scene: Scene, best: BuiltRig, target: Target, bar_m: float | None = None) -> Stage:
    """Put a rig on the stage.

    Parameters
    ----------
    scene : Scene
        Where and what, the right end.
    best : BuiltRig
        The rig of that scene.
    target : Target
        What was asked for.
    bar_m : float or None
        Height of the bar in the first pose [m], brought into the lift; None for the bottom.
    """
    placed = plan(scene)
    found = facts(scene, placed)
    at_m = scene.bottom_m if bar_m is None else min(max(bar_m, scene.bottom_m), scene.top_m)
    aims = zip(target.heights_m, target.loads_kg, strict=True)
    return Stage(
        bottom_m=scene.bottom_m,
        top_m=scene.top_m,
        low_m=scene.low_m,
        high_m=high_m(scene),
        width_m=placed.width_m,
        surface_m=scene.ground.surface_m,
        sleeve_end_m=placed.sleeve_end_m,
        straight_weight_kg=found.straight_weight_kg,
        raising=_corners(found.raising),
        lowering=_corners(found.lowering),
        straight=_corners(found.straight) if found.straight else (),
        wanted=tuple((height_m, load_kg) for height_m, load_kg in aims),
        kinds=_kinds(scene, best),
        still=still_shapes(scene),
        pose=pose_at(scene, at_m),
        bar_m=at_m,
        title=title(scene, found),
        description=description(scene, found),
    )


def _corners(reading: Reading) -> Corners:
    return tuple((height_m, load_kg) for load_kg, height_m in reading.corners)


def _kinds(scene: Scene, best: BuiltRig) -> tuple[KindSteps, ...]:
    """Steps of each kind: pieces alike leave the floor alike."""
    span_m = (scene.bottom_m, scene.top_m)
    chains = [(hang, chain) for hang in scene.drawn_end.hangs for chain in hang.chains]
    found: dict[tuple[str, int], KindSteps] = {}
    for piece, (hang, chain) in zip(best.right, chains, strict=True):
        key = (piece.size, chain.links)
        before = found.get(key)
        found[key] = KindSteps(
            size=piece.size,
            links=chain.links,
            pieces=1 + (before.pieces if before else 0),
            steps=before.steps if before else link_steps(hang, chain, span_m, scene.ground),
        )
    return tuple(found.values())
