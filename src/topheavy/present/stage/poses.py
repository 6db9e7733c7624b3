"""What moves with the bar and what stands still, as shapes of one bar end."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from topheavy.present.picture.bands import draw_bands, draw_pegs
from topheavy.present.picture.frame import high_m
from topheavy.present.picture.ironwork import draw_hangs
from topheavy.present.picture.plan import plan
from topheavy.present.picture.scene import HangNote
from topheavy.present.picture.station import draw_bar, draw_ground, draw_station
from topheavy.present.stage.motion import stretches
from topheavy.present.stage.steps import link_steps
from topheavy.present.stage.tracing import tracing_pen

if TYPE_CHECKING:
    from topheavy.present.picture.scene import Scene
    from topheavy.present.stage.motion import Stretch
    from topheavy.present.stage.tracing import Shape


def still_shapes(scene: Scene) -> tuple[Shape, ...]:
    """Draw what stands behind the bar and under the chain, and the pegs of bands."""
    pen, placed = tracing_pen(), plan(scene)
    draw_station(pen, scene, high_m(scene))
    draw_ground(pen, scene, placed)
    draw_pegs(pen, scene, placed, high_m(scene))
    return tuple(pen.shapes)


def pose_at(scene: Scene, bar_m: float) -> tuple[Shape, ...]:
    """Draw the bar and all it carries, bar at `bar_m` [m]."""
    pen, placed = tracing_pen(), plan(scene)
    draw_bar(pen, scene, placed, bar_m)
    draw_hangs(pen, scene, placed, bar_m)
    draw_bands(pen, placed, bar_m)
    return tuple(pen.shapes)


def moving(scene: Scene, *, bare: bool = False) -> list[Stretch]:
    """Draw the whole lift, bottom to top.

    Parameters
    ----------
    scene : Scene
        What is drawn.
    bare : bool
        Only what hangs, without bar and bands: to lay over another drawing.
    """
    placed = plan(scene)

    def pose(bar_m: float) -> tuple[Shape, ...]:
        pen = tracing_pen()
        if not bare:
            draw_bar(pen, scene, placed, bar_m)
        draw_hangs(pen, scene, placed, bar_m)
        if not bare:
            draw_bands(pen, placed, bar_m)
        return tuple(pen.shapes)

    span_m = (scene.bottom_m, scene.top_m)
    changes_m = [
        height_m
        for hung in placed.hangs
        for piece in hung.pieces
        for height_m, _ in link_steps(hung.hang, piece.chain, span_m, scene.ground)
    ]
    return stretches(pose, span_m, changes_m)


def hung_straight_scene(scene: Scene) -> Scene | None:
    """Set the scene for the same chain hung straight; None when it hangs so already."""
    if scene.straight is None:
        return None
    notes = tuple(
        HangNote(pieces=(note.tag_of(index),), wire_m=(note.wire_of(index, chain),))
        for number, hang in enumerate(scene.drawn_end.hangs)
        for note in (scene.note(number),)
        for index, chain in enumerate(hang.chains)
    )
    return replace(scene, rig=scene.straight, straight=None, notes=notes)
