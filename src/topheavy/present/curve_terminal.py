"""The load curve of a described rig on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, curve_chart, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.curve_view import CurveView, LiftFacts
    from topheavy.present.rig_view import LinkRow


def render_curve(view: CurveView) -> RenderableType:
    """Lay a described rig out for the terminal; what must come down first."""
    parts: list[RenderableType] = [Text(view.title, style=ACCENT)]
    if view.dangers:
        parts.append(headed("STOP: not safe as described", listed(view.dangers)))
    parts += [headed("What hangs", facts(_hangs(view))), headed("On the bar", _loads(view))]
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
        ("the slack", view.surface),
    ]


def _loads(view: CurveView) -> Table:
    table = ruled("", "height", "raising", "lowering", "hung straight")
    for row in view.loads:
        table.add_row(
            row.place,
            row.height.text if row.height else "",
            row.raising.text,
            row.lowering.text if row.lowering else "",
            row.straight.text,
        )
    return table


def _over_the_lift(view: CurveView, over: LiftFacts) -> list[RenderableType]:
    parts: list[RenderableType] = [
        Text(""),
        facts((f"  {name}", value) for name, value in _lift_facts(over)),
        headed("Load by height, on the way up", curve_chart(view.curve)),
    ]
    if view.links:
        parts.append(headed("Links, each piece", link_table(view.links)))
    return [*parts, headed("Over the lift", Text(over.compared))]


def _lift_facts(over: LiftFacts) -> list[tuple[str, str]]:
    best = over.share_of_best
    return [
        ("chain, share of the top load", over.share_of_top.text),
        ("share of the bottom load", over.share_of_bottom.text),
        ("share of the straight-weight best", best.text if best else ""),
        (
            "deload at the bottom",
            f"{over.deload} off what hangs at the top" if over.deload else "",
        ),
        ("the ends differ by", over.imbalance.text),
        ("most of the doubt at the top", over.mostly),
        ("sideways pull on an end, up to", over.side_pull.text if over.side_pull else ""),
    ]


def link_table(rows: tuple[LinkRow, ...]) -> Table:
    """Show links off the floor and still down, a row for each sort of piece."""
    table = ruled("pieces", "chain", "links", "off at bottom", "off at top", "still down")
    table.columns[0].overflow = table.columns[1].overflow = "fold"
    for row in rows:
        counts = (row.links, row.off_bottom, row.off_top, row.on_top)
        table.add_row(
            Text(" ".join(dict.fromkeys(row.tags)), style=QUIET if not row.off_top else ""),
            row.size,
            *(str(count) for count in counts),
        )
    return table
