"""The load curve of a described rig on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.rig.facts import share_facts
from topheavy.present.tables import band_table, link_table, load_table
from topheavy.present.terminal import ACCENT, curve_chart, facts, headed, listed

if TYPE_CHECKING:
    from rich.console import RenderableType

    from topheavy.present.loads.view import CurveView, LiftFacts


def render_curve(view: CurveView) -> RenderableType:
    """Lay a described rig out for the terminal; what must come down first."""
    parts: list[RenderableType] = [Text(view.title, style=ACCENT)]
    if view.dangers:
        parts.append(headed("STOP: not safe as described", listed(view.dangers)))
    parts += [
        headed("What hangs", facts(_hangs(view))),
        headed("On the bar", load_table(view.loads, straight=bool(view.links or not view.bands))),
    ]
    if view.reached:
        parts.append(headed("Reached", listed(row.words for row in view.reached)))
    if view.over_the_lift:
        parts += _over_the_lift(view, view.over_the_lift)
    parts.append(headed("Mind", listed(view.cautions)))
    return Group(*parts)


def _hangs(view: CurveView) -> list[tuple[str, str]]:
    return [
        ("left end", "; ".join(view.hang_left)),
        ("right end", "; ".join(view.hang_right)),
        ("straight weight", f"{view.straight_weight}, bar and collars counted"),
        ("the slack", view.surface if view.links or not view.bands else ""),
    ]


def _over_the_lift(view: CurveView, over: LiftFacts) -> list[RenderableType]:
    parts: list[RenderableType] = [
        Text(""),
        facts((f"  {name}", value) for name, value in share_facts(over)),
        headed(
            "Load by height, on the way up",
            curve_chart(view.curve, straight=bool(view.links or not view.bands)),
        ),
    ]
    if view.bands:
        parts.append(headed("Bands", band_table(view.bands), Text(""), listed(view.band_notes)))
    if view.links:
        parts.append(headed("Links, each piece", link_table(view.links)))
    return [*parts, headed("Over the lift", Text(over.compared))]
