"""A rig on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.console import Group
from rich.text import Text

from topheavy.present.terminal import ACCENT, QUIET, curve_chart, facts, headed, listed, ruled

if TYPE_CHECKING:
    from rich.console import RenderableType
    from rich.table import Table

    from topheavy.present.rig_view import OtherRig, PieceRow, RigView


def render_rig(view: RigView) -> RenderableType:
    """Lay a rig out for the terminal, most wanted first."""
    parts: list[RenderableType] = [
        Text(view.title, style=ACCENT),
        Text(f"{view.gym}. Wanted: {view.wanted}.", style=QUIET),
        headed("Hang this", _hang(view)),
        headed("On the bar", _loads(view), Text(_note(view), style=QUIET)),
        headed(
            "Load by height, on the way up (| the same chain hung straight)",
            curve_chart(view.curve),
        ),
        headed("Links", _links(view)),
        headed("Hung straight, the common mistake", Text(_mistake(view))),
        headed("Set it up", listed(view.steps, numbered=True)),
        headed("It is right when", listed(view.signs)),
        headed("Mind", listed(view.cautions)),
    ]
    if view.obstacles:
        parts.insert(3, headed("What is in the way", listed(view.obstacles)))
    if view.alternatives:
        parts.append(headed("Instead", _others(view.alternatives, "differs by")))
    if len(view.trade) > 1:
        parts.append(headed("Pieces to handle against accuracy", _others(view.trade, "handled")))
    if view.left_out:
        parts.append(headed("Left in the store", listed(view.left_out)))
    return Group(*parts)


def _hang(view: RigView) -> Table:
    return facts(
        [
            ("verdict", f"{view.verdict} {view.proof}"),
            ("left end", view.hang_left),
            ("right end", view.hang_right),
            ("feeder", view.feeder),
            ("connector", view.connector),
            ("each side", view.plates_a_side),
            ("straight weight", f"{view.straight_weight} with bar and collars"),
        ]
    )


def _loads(view: RigView) -> Table:
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


def _note(view: RigView) -> str:
    shares = [
        f"{view.share_of_top} of the load at the top",
        f"{view.share_of_bottom} of the bottom",
    ]
    if view.share_of_best:
        shares.append(f"{view.share_of_best} of the straight-weight best")
    lines = [f"Accommodating share: {', '.join(shares)}."]
    if view.deload:
        lines.append(f"Deload at the bottom: {view.deload} of what hangs at the top.")
    lines.append(f"Ends differ by {view.imbalance}. Most of the ± at the top: {view.mostly}.")
    return "\n".join(lines)


def _links(view: RigView) -> Table:
    table = ruled("piece", "links", "off at bottom", "off at top", "still down at top")
    for row in dict.fromkeys((*view.left, *view.right)):
        table.add_row(*_link_cells(row))
    return table


def _link_cells(row: PieceRow) -> tuple[str, ...]:
    counts = (row.links, row.off_bottom, row.off_top, row.on_top)
    return (f"{row.tag} ({row.size})", *(str(count) for count in counts))


def _mistake(view: RigView) -> str:
    return (
        f"Straight from the sleeve the same chain changes the bar by {view.straight_change} over "
        f"this lift. Doubled on its feeder it changes it by {view.doubled_change}."
    )


def _others(rigs: tuple[OtherRig, ...], name: str) -> Table:
    table = ruled(name, "off by", "rig")
    table.columns[2].justify = "left"
    table.columns[2].overflow = "fold"
    for rig in rigs:
        table.add_row(rig.differs_by, rig.miss.text, rig.hang)
    return table
